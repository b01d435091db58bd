package drawdown

import (
	"fmt"
	"math"
	"sort"

	"costrel/num/curve"
	"costrel/physics/bottle"
	"costrel/physics/preform"
)

// grid is the bottle profile in fine steps that include the stations and the
// cut planes.
type grid struct {
	p       *preform.Preform
	b       *bottle.Bottle
	density float64

	f        []curve.Frame // at the nodes
	area     []float64     // from the gate [m²]
	stations []float64     // arc lengths asked for
	at       []int         // node of each station
	planes   []float64     // heights [m]
	cut      []int         // node of each cut plane
	zones    []bottle.Section

	planeWarning string
}

// mapping is the mass along the grid: from the gate [kg] and a surface [kg/m²].
type mapping struct{ mass, areal []float64 }

// fineSteps is the least number of intervals of the grid: the wall of a
// station then depends on their number by less than 1e-3.
const fineSteps = 399

// newGrid lays out the nodes.
func newGrid(in Input) (*grid, error) {
	g := &grid{p: in.Preform, b: in.Bottle, density: in.Density}
	n := in.Stations
	if n == 0 {
		n = 400
	}
	var err error
	if g.stations, err = in.Bottle.Outline().Stations(n); err != nil {
		return nil, fmt.Errorf("draw-down: %w", err)
	}
	if g.planes = in.Planes; len(g.planes) == 0 {
		g.planes, g.planeWarning = in.Bottle.CutPlanes()
	}
	if g.zones, err = in.Bottle.Zones(g.planes); err != nil {
		return nil, fmt.Errorf("draw-down: %w", err)
	}
	refine := 1 + (fineSteps-1)/(n-1)
	if in.Quick {
		refine = 1
	}
	nodes := make([]float64, 0, refine*n+len(g.planes))
	for i, s := range g.stations {
		if i > 0 {
			prev := g.stations[i-1]
			for k := 1; k < refine; k++ {
				nodes = append(nodes, prev+(s-prev)*float64(k)/float64(refine))
			}
		}
		nodes = append(nodes, s)
	}
	near := 1e-9 * in.Bottle.ArcLength()
	for i := range g.planes {
		s := g.zones[i].S1
		k := sort.SearchFloat64s(nodes, s-near)
		if k == len(nodes) || nodes[k] > s+near {
			nodes = append(nodes, 0)
			copy(nodes[k+1:], nodes[k:])
			nodes[k] = s
		}
	}
	find := func(s float64) int { return sort.SearchFloat64s(nodes, s-near) }
	for _, s := range g.stations {
		g.at = append(g.at, find(s))
	}
	for i := range g.planes {
		g.cut = append(g.cut, find(g.zones[i].S1))
	}
	out := in.Bottle.Outline()
	g.f = make([]curve.Frame, len(nodes))
	g.area = make([]float64, len(nodes))
	for k, s := range nodes {
		g.f[k] = out.At(s)
		g.area[k] = out.To(s).Area()
		if k > 0 && !(g.area[k] > g.area[k-1]) {
			return nil, fmt.Errorf("draw-down: the surface does not grow at z ‹%.4g mm›: the profile touches the axis there", g.f[k].Z*1e3)
		}
	}
	last := g.f[len(g.f)-1]
	if bore := g.p.At(g.p.ArcLength()).Ri; last.R <= bore {
		return nil, fmt.Errorf("draw-down: the bottle is ‹%.4g mm› wide under the ledge, the bore of the preform is ‹%.4g mm›: they do not belong together", 2e3*last.R, 2e3*bore)
	}
	return g, nil
}

// cumulate returns the running integral over the surface of values y at the
// nodes, by the trapezoidal rule.
func (g *grid) cumulate(y []float64) []float64 {
	out := make([]float64, len(y))
	for k := 1; k < len(y); k++ {
		out[k] = out[k-1] + (y[k]+y[k-1])/2*(g.area[k]-g.area[k-1])
	}
	return out
}

// uniform returns the mass when the preform is stretched evenly along its
// mid-line: S = s Sp/L.
func (g *grid) uniform() mapping {
	n := len(g.f)
	m := mapping{make([]float64, n), make([]float64, n)}
	k := g.p.ArcLength() / g.b.ArcLength()
	for i, f := range g.f {
		s := f.S * k
		m.mass[i] = g.p.MassTo(s)
		if f.R > 0 {
			m.areal[i] = g.p.At(s).Rate * k / (2 * math.Pi * f.R)
		} else {
			m.areal[i] = k * k * g.capAreal()
		}
	}
	m.mass[n-1] = g.p.MassBelowLedge()
	return m
}

// capAreal returns the mass a mid-surface of the preform at its tip [kg/m²].
func (g *grid) capAreal() float64 {
	h, r := g.p.At(0).Wall, g.p.MidRadius()
	return g.p.Spec().Density * (h + h*h*h/(12*r*r))
}
