package run

import (
	"fmt"
	"math"

	"costrel/figure"
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
	hot                   bool // at the end of the history, before the pack is measured
	warnings              []string
}

// Ranges of the laws of the stretched wall, 95 %.
const (
	stiffLow, stiffHigh   = 0.65, 1.2
	strongLow, strongHigh = 0.85, 1.4
	stiffLabel            = "Law of the stiffness of the stretched wall"
	strongLabel           = "Law of the strength of the stretched wall"
	stiffBasis            = "- 35 %, the other law of stiffness; + 20 %; from memory"
	strongBasis           = "- 15 .. + 40 %: hoop of 150 to 250 MPa where the law gives 178, from memory"
)

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
	wall := t.wallRange()
	v := r.value
	f.Effects, f.Lo, f.Hi = []figure.Effect{}, v, v
	scaled := func(path, label, basis string, low, high, power float64) {
		if power != 0 {
			widen(f, figure.Effect{Path: path, Label: label, Low: v * (math.Pow(low, power) - 1), High: v * (math.Pow(high, power) - 1), Basis: basis})
		}
	}
	scaled("handling.modulus_factor", stiffLabel, stiffBasis, stiffLow, stiffHigh, r.follows.stiffness)
	scaled("handling.strength_factor", strongLabel, strongBasis, strongLow, strongHigh, r.follows.strength)
	scaled("blow.wall_factor", "Wall", fmt.Sprintf("wall ± %.0f %%, see its own band", 100*wall), 1-wall, 1+wall, r.follows.wall)
	return f
}

// wallRange is the half width of the band of the wall, relative.
func (t *strengthTests) wallRange() float64 {
	switch {
	case t.wall.Blown != nil:
		return 0.10
	case noTargets(t.d):
		return 0.15
	}
	return 0.05
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
