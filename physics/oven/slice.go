package oven

import (
	"fmt"
	"math"

	"costrel/num/conduct"
	"costrel/physics/preform"
)

// Slice is a ring of the preform wall between two places of its mid-line.
type Slice struct {
	S          float64 // arc length of its middle from the gate [m]
	From, To   float64 // arc lengths of its ends [m]
	BelowLedge float64 // mid-line below the ledge [m]
	Wall       float64 // m
	Outer      float64 // radius of the outer face [m]
	Mass       float64 // kg
	Part       Part

	curve1, curve2 float64
	facet          facet
}

// Part is a part of the preform.
type Part string

// The parts, from the gate.
const (
	Cap        Part = "cap"
	Body       Part = "body"
	Transition Part = "transition"
)

// Slices cuts a preform into n slices between gate and ledge, gate first, with
// cuts where cap and transition begin; each part has at least two. n is 8 to
// 200. The wall of a slice is that of its middle, its mass exact.
func Slices(p *preform.Preform, n int) ([]Slice, error) {
	if p == nil {
		return nil, fmt.Errorf("oven: slices: no preform")
	}
	if n < 8 || n > 200 {
		return nil, fmt.Errorf("oven: slices: %d outside 8..200", n)
	}
	spec := p.Spec()
	all := p.ArcLength()
	ends := []float64{0, p.CapArc(), p.CapArc() + spec.BodyLength, all}
	parts := []Part{Cap, Body, Transition}
	count := [3]int{}
	left := n
	for i := range parts {
		if ends[i+1]-ends[i] < 1e-9 {
			continue
		}
		count[i] = max(2, int(math.Round(float64(n)*(ends[i+1]-ends[i])/all)))
		left -= count[i]
	}
	count[1] = max(2, count[1]+left)
	density := spec.Density
	var out []Slice
	for i, part := range parts {
		for k := range count[i] {
			a := ends[i] + (ends[i+1]-ends[i])*float64(k)/float64(count[i])
			b := ends[i] + (ends[i+1]-ends[i])*float64(k+1)/float64(count[i])
			m := (a + b) / 2
			q := p.At(m)
			s := Slice{S: m, From: a, To: b, BelowLedge: q.BelowLedge, Wall: q.Wall, Outer: q.Ro, Mass: p.MassTo(b) - p.MassTo(a), Part: part}
			s.facet = facet{r: q.Ro, z: q.BelowLedge, nr: 1}
			switch part {
			case Cap:
				sin, cos := math.Sincos(m / p.MidRadius())
				s.curve1, s.curve2 = 1/p.MidRadius(), 1/p.MidRadius()
				s.facet.nr, s.facet.nz = sin, cos
				s.facet.z += q.Wall / 2 * cos
			default:
				s.curve1 = 1 / q.Rm
				if part == Transition {
					u, v := p.At(a), p.At(b)
					dr, dz := u.Ro-v.Ro, u.BelowLedge-v.BelowLedge // downwards
					if l := math.Hypot(dr, dz); l > 0 {
						s.facet.nr, s.facet.nz = dz/l, -dr/l
					}
				}
			}
			if !(s.Mass > 0 && s.Wall > 0 && density > 0) {
				return nil, fmt.Errorf("oven: slices: wall ‹%g m› and mass %g kg at ‹%.4g mm› from the gate: want both above 0", s.Wall, s.Mass, m*1e3)
			}
			out = append(out, s)
		}
	}
	return out, nil
}

// mesh returns the finite volumes across the wall of a slice and the area of
// its mid-surface [m²], which is such that the mass is exact.
func (s *Slice) mesh(cells int, density float64) (*conduct.Wall, float64, error) {
	w, err := conduct.NewWall(s.Wall, s.curve1, s.curve2, cells, grading)
	if err != nil {
		return nil, 0, fmt.Errorf("oven: slice at ‹%.4g mm› below the ledge: %w", s.BelowLedge*1e3, err)
	}
	return w, s.Mass / (density * w.Total()), nil
}

// grading of the cells: the innermost is e² times as thick as the outermost,
// where the opaque bands end.
const grading = 2
