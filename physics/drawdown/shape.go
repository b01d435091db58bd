package drawdown

import (
	"fmt"
	"math"

	"costrel/physics/preform"
)

// Shape says how the wall runs inside the sections, whose weights are held.
// None of it is known from geometry; the defaults are chosen so that the wall
// looks like that of usual bottles, and are to be fitted to thickness readings.
type Shape struct {
	// Blend between a wall that is even over the surface (0) and one that was
	// drawn evenly along the axis, thicker where the bottle is narrow (1). The
	// wall before it is fitted to the section weights goes as
	// (preform radius/bottle radius)^Blend.
	Blend float64
	// GateWall [m] is left in the middle of the base, where the rod pins the
	// gate; it falls off as exp(-(s/GateReach)²).
	GateWall, GateReach float64
	// NeckReach [m]: under the ledge the preform is not stretched; that wall
	// falls off as exp(-s/NeckReach). 0 leaves it out.
	NeckReach float64
}

// DefaultShape returns the shape used when none is given: a blend of 1/2; a
// gate thinned by 1.0 mm, the gap to which the stretch rod closes, but by no
// more than half, over the mid radius of the preform; and an unstretched
// neck that runs out over one preform wall.
// Source: Brandau2014 for the rod gap; the rest is chosen for this project.
func DefaultShape(p *preform.Preform) Shape {
	s := p.Spec()
	return Shape{
		Blend:     0.5,
		GateWall:  math.Max(s.GateWall-0.001, s.GateWall/2),
		GateReach: p.MidRadius(),
		NeckReach: s.Wall,
	}
}

func (s Shape) check() error {
	for _, c := range []struct {
		name string
		v    float64
		most float64
	}{{"blend", s.Blend, 1}, {"gate wall", s.GateWall, 0.02}, {"gate reach", s.GateReach, 0.1}, {"neck reach", s.NeckReach, 0.1}} {
		if !(c.v >= 0 && c.v <= c.most) {
			return fmt.Errorf("draw-down: shape: %s %v: outside 0..%v", c.name, c.v, c.most)
		}
	}
	return nil
}
