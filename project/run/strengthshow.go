package run

import (
	"fmt"
	"math"
	"slices"

	"costrel/figure"
	"costrel/physics/shell"
)

// influence is how a figure follows what is not known of the wall: the powers
// with which it goes with stiffness, strength and wall thickness.
type influence struct{ stiffness, strength, wall float64 }

// result is a figure of a virtual test: its value, equation and what goes in.
type result struct {
	key, method, equation string
	value                 float64
	sources               []string // besides Timoshenko1959 and common practice
	inputs                []figure.Input
	follows               influence
	hot                   bool           // at the end of the history, before the pack is measured
	mesh                  shell.Estimate // of this figure; the zero value is none
	meshOff               float64        // what the mesh moves it by, for a figure that may come near 0, of which a share says nothing; 0: by share
	meshBasis             string         // of meshOff
	warnings              []string
}

// show puts a figure on the board with its own band.
func (t *strengthTests) show(r result) *figure.Figure {
	all := append(append([]figure.Input{}, r.inputs...), t.input("t_panel", "wall.panel.mean"))
	if r.follows.stiffness != 0 {
		all = append(all, t.given("f_E", "handling.modulus_factor"))
	}
	if r.follows.strength != 0 {
		all = append(all, t.given("f_σ", "handling.strength_factor"))
	}
	t.figure(r.key, r.value, figure.Origin{
		Method: r.method, Equation: r.equation, Sources: append([]string{"Timoshenko1959", "CommonPractice"}, r.sources...), Theory: "strength", Inputs: all,
		Warnings: append(append([]string{}, t.warnings...), r.warnings...),
	})
	f := t.last(r.key)
	if f == nil {
		return &figure.Figure{} // refused and reported
	}
	v := r.value
	f.Effects, f.Lo, f.Hi = []figure.Effect{}, v, v
	scaled := func(q factorRange, power float64) {
		if power != 0 {
			widen(f, figure.Effect{Path: q.path, Label: q.label, Low: v * (math.Pow(q.low, power) - 1), High: v * (math.Pow(q.high, power) - 1), Basis: q.basis})
		}
	}
	scaled(stiffnessLaw(t.d), r.follows.stiffness)
	scaled(strengthLaw(t.d), r.follows.strength)
	scaled(t.wallRange(), r.follows.wall)
	if e := r.mesh; e.Note == "" && (e.Fine != 0 || r.meshOff > 0) {
		off, least := r.meshOff, r.meshBasis
		if off == 0 {
			off, least = meshShare(e, r.key)*math.Abs(v), fmt.Sprintf("%.0f %%", 100*meshLeast(r.key))
		}
		widen(f, figure.Effect{Path: "bottle", Label: "Mesh of the virtual test", Low: -off, High: off, Basis: "a third of what elements twice as long move it, at least " + least})
	}
	if x := t.d.Handling.Residual; x > 0 && slices.Contains(StrengthKeys, r.key) {
		widen(f, figure.Effect{Path: "handling.fit_residual", Label: "What the fit leaves between model and tests", Low: -two95 * x * v, High: two95 * x * v, Basis: fmt.Sprintf("± %.0f %%, residual of the fit", 100*two95*x)})
	}
	return f
}

// meshLeast is the least share that the mesh is taken to move a figure by: two
// meshes may agree by chance, and hinges that yield at corners, and the largest
// stress of an element, do not settle with the square of its length. By
// TestStrengthMesh.
func meshLeast(key string) float64 {
	switch key {
	case "growth.height":
		return 0.03
	case "base.crack.index":
		return 0.06
	}
	return 0.01
}

// meshShare returns by how much the mesh moves a figure.
func meshShare(e shell.Estimate, key string) float64 {
	return math.Max(meshLeast(key), math.Abs(e.Error/e.Fine))
}

// wallRange is what is known of the wall, 95 %: its own band, or the tolerance
// of making where a fit holds laws and wall together.
func (t *strengthTests) wallRange() factorRange {
	half, basis := 0.05, "see its own band"
	switch {
	case fittedLaws(t.d):
		half, basis = makingTolerance, "tolerance of making; the fit holds wall and laws together"
	case t.wall.Blown != nil:
		half, basis = computedPanel(t.d)
	case noTargets(t.d):
		half = 0.15
	}
	return factorRange{path: "blow.wall_factor", label: "Wall", basis: fmt.Sprintf("wall ± %.0f %%, %s", 100*half, basis), low: 1 - half, high: 1 + half}
}

// widen adds an effect to the band of a figure, by root of the sum of squares.
func widen(f *figure.Figure, e figure.Effect) {
	f.Effects = append(f.Effects, e)
	f.Hi = f.Value + math.Hypot(f.Hi-f.Value, max(e.Low, e.High, 0))
	f.Lo = f.Value - math.Hypot(f.Value-f.Lo, min(e.Low, e.High, 0))
}

// last returns the figure shown last if it has the key, else nil.
func (t *strengthTests) last(key string) *figure.Figure {
	if n := len(t.figures); n > 0 && t.figures[n-1].Key == key {
		return &t.figures[n-1]
	}
	return nil
}

// lacking reports the same reason for several figures.
func (t *strengthTests) lacking(reason string, keys ...string) {
	for _, k := range keys {
		t.problem(k, "%s", reason)
	}
}
