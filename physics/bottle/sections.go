package bottle

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// Section is a part of the bottle between two cut planes.
type Section struct {
	Name     string  // base, panel, shoulder; with other than two planes also "section 2"
	Z0, Z1   float64 // heights of the planes [m]
	S0, S1   float64 // arc lengths of the planes [m]
	Area     float64 // outer surface [m²]
	MeanWall float64 // over the outer surface [m]; 0 when no wall was given
	Wall     float64 // mass of the wall [kg]
	Mass     float64 // with the finish, if it is the topmost [kg]
}

// CutPlanes returns the heights of the cut planes [m] and, when the bottle was
// given none, a warning that says where two were put: the lowest and the
// highest place with 99 % of the largest radius.
func (b *Bottle) CutPlanes() (planes []float64, warning string) {
	if len(b.spec.Planes) > 0 {
		return append([]float64(nil), b.spec.Planes...), ""
	}
	rmax, _ := b.outline.MaxR()
	const n = 1000
	lo, hi := 0.0, 0.0
	for k := 1; k < n; k++ {
		f := b.outline.At(b.outline.Length() * float64(k) / n)
		if f.R >= 0.99*rmax {
			if lo == 0 {
				lo = f.Z
			}
			hi = f.Z
		}
	}
	lo = math.Max(lo, 0.02*b.ledge)
	hi = math.Min(math.Max(hi, lo+0.1*b.ledge), 0.98*b.ledge)
	return []float64{lo, hi}, fmt.Sprintf("cut planes assumed at ‹%.0f and %.0f mm›, where the profile leaves 99 %% of its largest radius", lo*1e3, hi*1e3)
}

// Zones returns the sections between the cut planes with their outer surfaces.
func (b *Bottle) Zones(planes []float64) ([]Section, error) {
	if len(planes) == 0 {
		return nil, fmt.Errorf("bottle: sections: no cut planes: give at least one")
	}
	out := make([]Section, 0, len(planes)+1)
	from := Section{}
	for i := 0; i <= len(planes); i++ {
		z, s := b.ledge, b.outline.Length()
		if i < len(planes) {
			z = planes[i]
			if !(z > from.Z1 && z < b.ledge) {
				return nil, fmt.Errorf("bottle: sections: cut plane %d at ‹%.4g mm›: planes rise, between the standing plane and the ledge at ‹%.4g mm›", i+1, z*1e3, b.ledge*1e3)
			}
			s = b.CutS(z)
		}
		sec := Section{Name: sectionName(i, len(planes)), Z0: from.Z1, Z1: z, S0: from.S1, S1: s}
		sec.Area = b.outline.To(s).Minus(b.outline.To(from.S1)).Area()
		out = append(out, sec)
		from = sec
	}
	return out, nil
}

func sectionName(i, planes int) string {
	switch {
	case i == 0:
		return "base"
	case i == planes:
		return "shoulder"
	case planes == 2:
		return "panel"
	}
	return fmt.Sprintf("section %d", i+1)
}

// Sections returns the weights of the bottle cut at the given planes [kg]: wall
// w [m along arc length], solid density of the wall [kg/m³] and the mass of
// the finish with its ledge [kg], which goes to the topmost section. The cuts
// run along the normal of the wall; on an upright wall that is the plane.
func (b *Bottle) Sections(w curve.Wall, density, finish float64, planes []float64) ([]Section, error) {
	if !(density > 0) || math.IsInf(density, 0) || !(finish >= 0) || math.IsInf(finish, 0) {
		return nil, fmt.Errorf("bottle: sections: density %v kg/m³ and finish %v kg: want a positive density and a mass of 0 or more", density, finish)
	}
	out, err := b.Zones(planes)
	if err != nil {
		return nil, err
	}
	for i := range out {
		sh, err := b.outline.Shell(w, out[i].S0, out[i].S1)
		if err != nil {
			return nil, fmt.Errorf("bottle: sections: %w", err)
		}
		out[i].MeanWall = sh.MeanWall
		out[i].Wall = sh.Volume * density
		out[i].Mass = out[i].Wall
	}
	out[len(out)-1].Mass += finish
	return out, nil
}
