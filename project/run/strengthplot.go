package run

import (
	"fmt"
	"math"

	"costrel/physics/shell"
	"costrel/unit"
)

// stressPlots draws stress along the wall and the deformed form.
func (t *strengthTests) stressPlots(r shell.GrowResult) {
	if !t.work.drawn {
		return
	}
	var s, in, out, along []float64
	for _, q := range r.Stresses {
		s, in, out, along = append(s, q.S), append(in, q.RoundIn), append(out, q.RoundOut), append(along, q.AlongMid)
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	stress := Axis{Label: "stress", Kind: unit.Stress}
	t.plot(Plot{Key: "strength.stress", Title: "Stress after thermal stability", X: arc, Y: stress, Series: []Series{{Name: "hoop, inside", X: s, Y: in}, {Name: "hoop, outside", X: s, Y: out}, {Name: "along, mid wall", X: s, Y: along, Dashed: true}}, Note: "teeth at the faces are bending where the outline has corners, as one joined by straight lines has (docs/theory/stress.md): a curve through the rows has none; stress.max is the mean through the wall. " + lawsNote(t.d)})
	var use, useIn, useOut []float64
	for _, q := range r.Stresses {
		use, useIn, useOut = append(use, q.StrengthUse), append(useIn, q.UseIn), append(useOut, q.UseOut)
	}
	t.plot(Plot{Key: "strength.use", Title: "Stress over strength", X: arc, Y: Axis{Label: "share of the strength", Kind: unit.Fraction, Unit: "%"}, Series: []Series{{Name: "mean of the wall", X: s, Y: use}, {Name: "inside", X: s, Y: useIn}, {Name: "outside", X: s, Y: useOut}}, Note: lawsNote(t.d)})
	const scale = 10
	f := r.Form
	dz, dr := make([]float64, len(f.Z)), make([]float64, len(f.Z))
	for i := range f.Z {
		dz[i], dr[i] = f.Z[i]+scale*f.Axial[i], f.R[i]+scale*f.Radial[i]
	}
	t.plot(Plot{
		Key: "strength.form", Title: fmt.Sprintf("Form after thermal stability, displacements × %d", scale), X: Axis{Label: "radius", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "height", Kind: unit.Length, Unit: "mm"},
		Series: []Series{{Name: "unloaded", X: f.R, Y: f.Z, Dashed: true}, {Name: "loaded", X: dr, Y: dz}},
	})
}

// Buckling is the first buckle of the perfect bottle under top load: what the
// nodes of the wall, from the gate upwards, do at the crest of a wave. All
// moves are shares of the largest.
type Buckling struct {
	Test string    `json:"test"`
	N    int       `json:"n"`    // waves round the axis
	Load float64   `json:"load"` // N
	S    []float64 `json:"s"`    // arc of the mid-surface from its lower end, m
	R    []float64 `json:"r"`    // m
	Z    []float64 `json:"z"`    // m
	U    []float64 `json:"u"`    // outward, times cos nθ
	W    []float64 `json:"w"`    // upward, times cos nθ
	V    []float64 `json:"v"`    // round the axis, times sin nθ
}

// buckles keeps the buckle for the page and draws it in section and plan.
func (t *strengthTests) buckles(test string, form shell.Form, c shell.Critical) {
	n := len(form.R)
	if !t.work.drawn || len(c.Mode.Radial) != n || n < 2 {
		return
	}
	b := &Buckling{Test: test, N: c.Harmonic, Load: c.Load, S: make([]float64, n), R: form.R, Z: form.Z, U: c.Mode.Radial, W: c.Mode.Axial, V: c.Mode.Round}
	for i := 1; i < n; i++ {
		b.S[i] = b.S[i-1] + math.Hypot(b.R[i]-b.R[i-1], b.Z[i]-b.Z[i-1])
	}
	t.buckling = b
	scale := 0.1 * t.d.Bottle.Diameter / 2
	crest, trough := [2][]float64{}, [2][]float64{}
	for i := range n {
		crest[0], crest[1] = append(crest[0], b.R[i]+scale*b.U[i]), append(crest[1], b.Z[i]+scale*b.W[i])
		trough[0], trough[1] = append(trough[0], b.R[i]-scale*b.U[i]), append(trough[1], b.Z[i]-scale*b.W[i])
	}
	note := fmt.Sprintf("%d waves round the axis, largest at z = %s; a mode has a form, no size: drawn with %s", b.N, unit.Quote(unit.Length, c.Place, 3), unit.Quote(unit.Length, scale, 2))
	mm := func(label string) Axis { return Axis{Label: label, Kind: unit.Length, Unit: "mm"} }
	t.plot(Plot{
		Key: "strength.buckle.section", Title: "Buckling mode under top load, section", X: mm("radius"), Y: mm("height"), Note: note,
		Series: []Series{{Name: "unloaded", X: b.R, Y: b.Z, Dashed: true}, {Name: "crest", X: crest[0], Y: crest[1]}, {Name: "trough", X: trough[0], Y: trough[1]}},
	})
	var round, mode [2][]float64
	r, u, v := b.R[c.Node], b.U[c.Node], b.V[c.Node]
	const parts = 240
	for i := range parts + 1 {
		s, co := math.Sincos(2 * math.Pi * float64(i) / parts)
		sn, cn := math.Sincos(2 * math.Pi * float64(i) / parts * float64(b.N))
		out, side := r+scale*u*cn, scale*v*sn
		round[0], round[1] = append(round[0], r*co), append(round[1], r*s)
		mode[0], mode[1] = append(mode[0], out*co-side*s), append(mode[1], out*s+side*co)
	}
	t.plot(Plot{
		Key: "strength.buckle.plan", Title: "Buckling mode under top load, plan at z = " + unit.Quote(unit.Length, c.Place, 3), X: mm("x"), Y: mm("y"), Note: note,
		Series: []Series{{Name: "unloaded", X: round[0], Y: round[1], Dashed: true}, {Name: "mode", X: mode[0], Y: mode[1]}},
	})
}
