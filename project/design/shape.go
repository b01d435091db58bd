package design

import (
	"costrel/num/curve"
	"costrel/physics/bottle"
)

// Shape returns the bottle as the physics wants it. The profile of a petaloid
// base is averaged round the feet and is closed by a disc; a ribbed base and a
// punt rise to the gate.
func (d *Design) Shape() bottle.Spec {
	rows := make([]curve.Row, len(d.Bottle.Profile))
	for i, p := range d.Bottle.Profile {
		word, radius, err := Via(p.Via)
		if err != nil {
			word = "line" // reported by check
		}
		rows[i] = curve.Row{Z: p.Z, R: p.R, Via: curve.Via(word), Radius: radius}
	}
	b := d.Bottle.Base
	base := bottle.Base{Kind: bottle.BaseKind(b.Type), StandingRadius: b.Standing / 2, Height: b.Height, Count: b.Feet}
	switch b.Type {
	case "punt", "ribbed":
		base.PushUp = b.PushUp
	}
	if b.Type == "punt" || b.Type == "hemisphere" {
		base.Count = 0
	}
	return bottle.Spec{
		Rows: rows, Base: base, BoreDiameter: d.Finish.Bore, BoreHeight: d.Finish.Height, Wall: d.Bottle.Wall, Planes: d.Bottle.Planes,
	}
}
