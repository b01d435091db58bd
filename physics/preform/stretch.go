package preform

import (
	"fmt"
	"math"
)

// Aim is the bottle that a preform is blown to.
type Aim struct {
	Diameter float64 // outer diameter of the body or panel [m]
	Wall     float64 // there [m]
	Arc      float64 // length of the outer profile from gate to ledge [m]
	Density  float64 // solid density of the blown wall [kg/m³]
}

// Stretch is the set of stretch ratios from preform to bottle. They differ by
// what they are taken on; never quote one without its definition.
type Stretch struct {
	HoopInner, HoopMid, HoopOuter float64
	AxialOverall                  float64
	AxialLocal                    float64
	Planar                        float64 // by thickness
	PlanarInner, PlanarMid        float64 // hoop times overall axial
	WallRatio                     float64 // preform wall over bottle wall
}

// Ratio is one stretch ratio with its definition.
type Ratio struct {
	Key, Label string
	Value      float64
	Definition string
}

// Stretch returns the stretch ratios of the body to the aim.
//
//	hoop inner (D-2t)/Di, mid (D-t)/(Di+w), outer D/Do
//	planar     w ρp/(t ρb)
//	axial      local planar/hoop mid; overall arc of bottle/arc of preform
//
// It fails when a dimension is not positive or the bottle is not wider than
// its two walls.
func (p *Preform) Stretch(a Aim) (Stretch, error) {
	for _, c := range []struct {
		name string
		v    float64
	}{{"diameter", a.Diameter}, {"wall", a.Wall}, {"arc length", a.Arc}, {"density", a.Density}} {
		if !(c.v > 0) || math.IsInf(c.v, 0) {
			return Stretch{}, fmt.Errorf("preform: stretch: bottle %s %v: want a positive value", c.name, c.v)
		}
	}
	if a.Diameter <= 2*a.Wall {
		return Stretch{}, fmt.Errorf("preform: stretch: bottle diameter ‹%.4g mm› is no more than two walls of ‹%.4g mm›", a.Diameter*1e3, a.Wall*1e3)
	}
	w := p.spec.Wall
	var s Stretch
	s.HoopInner = (a.Diameter - 2*a.Wall) / p.spec.InnerDiameter
	s.HoopMid = (a.Diameter - a.Wall) / (2 * p.rMid)
	s.HoopOuter = a.Diameter / p.OuterDiameter()
	s.AxialOverall = a.Arc / p.sAll
	s.Planar = w * p.spec.Density / (a.Wall * a.Density)
	s.AxialLocal = s.Planar / s.HoopMid
	s.PlanarInner = s.HoopInner * s.AxialOverall
	s.PlanarMid = s.HoopMid * s.AxialOverall
	s.WallRatio = w / a.Wall
	return s, nil
}

// Ratios returns the ratios with their definitions, for display.
func (s Stretch) Ratios() []Ratio {
	return []Ratio{
		{"hoop.inner", "hoop stretch, inside", s.HoopInner, "inner diameter of the bottle / inner diameter of the preform: (D - 2t)/Di. The inside stretches most and whitens first."},
		{"hoop.mid", "hoop stretch, mid-wall", s.HoopMid, "mid-wall diameter of the bottle / of the preform: (D - t)/(Di + w). The one that goes with thickness."},
		{"hoop.outer", "hoop stretch, outside", s.HoopOuter, "outer diameter of the bottle / of the preform: D/(Di + 2w)."},
		{"axial.overall", "axial stretch, overall", s.AxialOverall, "arc length of the outer bottle profile from ledge to gate / mid-line of the preform from ledge to gate, end cap included; the neck is not part of either."},
		{"axial.local", "axial stretch, at the panel", s.AxialLocal, "planar stretch by thickness / hoop stretch at mid-wall: what the material at this place was drawn along the axis."},
		{"planar.thickness", "planar stretch, by thickness", s.Planar, "preform wall x amorphous density / (bottle wall x density of the blown wall): mass of an area before and after."},
		{"planar.inner", "planar stretch, inside", s.PlanarInner, "hoop stretch inside x overall axial stretch."},
		{"planar.mid", "planar stretch, mid-wall", s.PlanarMid, "hoop stretch at mid-wall x overall axial stretch."},
	}
}
