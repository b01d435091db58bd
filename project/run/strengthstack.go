package run

import (
	"fmt"
	"math"

	"costrel/quality"
	"costrel/unit"
)

// stackCreep says what creep in store does to a stacked pack: the figure is
// short-time. A wall that is pushed for long buckles as one with the stiffness
// that is left of it, by its own creep law under the stress of the load: the
// stress over elastic strain and creep strain together (isochronous secant modulus,
// common practice with plastics).
func (t *strengthTests) stackCreep(p *pushed) string {
	const short = "a short-time load: what creep in store takes of it is in the stack factor of stack.load"
	push := p.likely() - p.r.Borne
	if push <= 0 {
		return short + "; the pressure carries all of it, and the wall is not pushed along the axis"
	}
	s := t.shape.Bottle.CutS(math.Max(p.r.Place, 0))
	wall, _ := t.wall.Along.At(s)
	hoop, axial := t.wall.stretchAt(s)
	q, err := ply(t.d, hoop, axial)
	soft, rate, _, warm := t.warm.Factors(t.d.Handling.Lab)
	if err != nil || warm != nil || !(wall > 0) {
		return short
	}
	stress, time := push/(2*math.Pi*p.radius(t)*wall), t.d.Brief.ShelfLife
	crept, _ := creepOf(t.d.Handling.Creep).Advance(stress, 0, time, rate)
	return fmt.Sprintf("%s. %s: under all of it, %s in the wall, the creep law leaves 1/%.2f of the stiffness after the shelf life at laboratory temperature",
		short, quality.EstimatePrefix, unit.Quote(unit.Stress, stress, 3), 1+crept*q.Es*soft/stress)
}
