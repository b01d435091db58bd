package run

import (
	"fmt"
	"math"

	"costrel/physics/base"
	"costrel/physics/resin"
	"costrel/unit"
)

// gateDisc says what the hardly stretched wall round the gate bears as a disc
// clamped where the stretched wall begins, in the stress-crack bath: a hand check
// on the shell, nothing where the disc is too thick for a plate.
func (t *strengthTests) gateDisc(radius float64) []string {
	const parts = 20
	sum := 0.0
	for i := range parts {
		h, _ := t.wall.Along.At(radius * (float64(i) + 0.5) / parts)
		sum += h
	}
	disc := base.Disc{Radius: radius, Thickness: sum / parts, Modulus: resin.DefaultPower().Amorphous, Poisson: 0.38}
	p, err := disc.Under(t.d.Handling.Bath)
	if err != nil || disc.Thickness > radius/5 {
		return nil
	}
	return append([]string{fmt.Sprintf("by hand: the hardly stretched disc, radius %s and %s thick, as a clamped plate bears %s at its rim and %s in the middle; a real rim gives way",
		unit.Quote(unit.Length, radius, 3), unit.Quote(unit.Length, disc.Thickness, 3), unit.Quote(unit.Stress, p.Edge, 3), unit.Quote(unit.Stress, p.Centre, 3))}, p.Warnings...)
}

// habits names the rules of the trade for petaloid bases that this one does not
// keep. The wall of its valleys is that of the averaged base outside the disc.
func (t *strengthTests) habits(disc float64) []string {
	if t.d.Bottle.Base.Type != "petaloid" {
		return nil
	}
	st, err := t.shape.Bottle.Stations(321)
	if err != nil {
		return nil
	}
	least, sum, area := math.Inf(1), 0.0, 0.0
	for i, s := range st.S {
		if s >= disc && st.Z[i] <= t.d.Bottle.Base.Height {
			h, _ := t.wall.Along.At(s)
			least, sum, area = math.Min(least, h), sum+h*st.R[i], area+st.R[i]
		}
	}
	if area == 0 {
		return nil
	}
	q := t.shape.Bottle.Spec().Base
	found, err := base.Rules(base.Shape{
		ValleyLeast: least, ValleyMean: sum / area, IntrinsicViscosity: t.d.Resin.IV, Clearance: t.d.Bottle.Base.PushUp,
		StandingRatio: 2 * q.StandingRadius / t.d.Bottle.Diameter, ValleyAngle: 2 * math.Pi * t.valleys() / float64(max(t.d.Bottle.Base.Feet, 1)),
	})
	if err != nil {
		return nil
	}
	var out []string
	for _, f := range found {
		if f.Known && !f.OK {
			show := func(v float64) string {
				if f.Limit.Kind == unit.Ratio {
					return fmt.Sprintf("%.2f", v)
				}
				return unit.Quote(f.Limit.Kind, v, 3)
			}
			out = append(out, fmt.Sprintf("a habit of the trade, no limit of strength, is not kept: %s: %s against %s", f.Label, show(f.Value), show(f.Limit.Value)))
		}
	}
	return out
}
