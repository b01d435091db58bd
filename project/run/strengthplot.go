package run

import (
	"fmt"

	"costrel/physics/shell"
	"costrel/unit"
)

// stressPlots draws stress along the wall and the deformed form.
func (t *strengthTests) stressPlots(r shell.GrowResult) {
	if !t.work.drawn {
		return
	}
	var s, in, out, alongIn, alongOut []float64
	for _, q := range r.Stresses {
		s, in, out, alongIn, alongOut = append(s, q.S), append(in, q.RoundIn), append(out, q.RoundOut), append(alongIn, q.AlongIn), append(alongOut, q.AlongOut)
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	stress := Axis{Label: "stress", Kind: unit.Stress}
	t.plot(Plot{Key: "strength.stress", Title: "Stress after thermal stability", X: arc, Y: stress, Series: []Series{{Name: "hoop, inside", X: s, Y: in}, {Name: "hoop, outside", X: s, Y: out}, {Name: "along, inside", X: s, Y: alongIn, Dashed: true}, {Name: "along, outside", X: s, Y: alongOut, Dashed: true}}, Note: "teeth at the faces are bending where the outline has corners, as one joined by straight lines has (docs/theory/stress.md): a curve through the rows has none; stress.max is the mean through the wall. " + lawsNote(t.d)})
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
