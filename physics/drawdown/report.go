package drawdown

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// report computes what is asked of the mapping.
func (g *grid) report(m mapping, w []float64, targets []float64) *Result {
	n := len(g.at)
	r := &Result{Stations: g.b.StationsAt(g.stations)}
	for _, p := range []*[]float64{&r.Wall, &r.RealWall, &r.HoopInner, &r.HoopMid, &r.HoopOuter, &r.Axial, &r.Planar, &r.Mass, &r.PreformS} {
		*p = make([]float64, n)
	}
	for i, k := range g.at {
		r.Wall[i], r.Mass[i] = w[k], m.mass[k]
		r.RealWall[i] = w[k] / r.Stations.AreaRatio[i]
		g.stretch(r, i, k, m, w[k])
	}
	for k, f := range g.f {
		r.profile.S = append(r.profile.S, f.S)
		r.profile.T = append(r.profile.T, w[k])
	}
	// sections
	mean := g.cumulate(w)
	for i, q := range g.spans(false) {
		z, from, to := g.zones[i], q.from, q.to
		z.Wall = m.mass[to] - m.mass[from]
		z.Mass = z.Wall
		z.MeanWall = (mean[to] - mean[from]) / (g.area[to] - g.area[from])
		if i == len(g.zones)-1 {
			z.Mass += g.p.Spec().FinishMass
		}
		arc := g.p.ArcAt(m.mass[to]) - g.p.ArcAt(m.mass[from])
		body := g.p.Spec().Wall * g.p.Spec().Density
		r.Sections = append(r.Sections, Section{
			Section: z, Target: targets[i], PreformArc: arc,
			Axial: (z.S1 - z.S0) / arc, Planar: body * z.Area / z.Wall,
		})
	}
	r.Panel = panel(r.Sections).MeanWall
	r.Mean = mean[len(mean)-1] / g.area[len(g.area)-1]
	r.Min = Extreme{Value: math.Inf(1)}
	for k, t := range w {
		if t < r.Min.Value {
			r.Min = Extreme{t, g.f[k].S, g.f[k].Z}
		}
	}
	r.Warnings = append(r.Warnings, g.doubts(r)...)
	return r
}

// stretch fills in the ratios at station i, node k.
//
//	hoop  radius of the bottle face / radius of the preform face, R - t n_r
//	axial d(mid-line of bottle)/d(mid-line of preform), both from dm
//	planar w ρp/(t ρ)
//
// On the axis the radii vanish; there hoop and axial stretch are equal.
func (g *grid) stretch(r *Result, i, k int, m mapping, t float64) {
	f := g.f[k]
	arc := g.p.ArcAt(m.mass[k])
	sec := g.p.At(arc)
	rho := g.p.Spec().Density
	r.PreformS[i] = arc
	r.Planar[i] = sec.Wall * rho / (t * g.density)
	if f.R <= 0 || sec.Rm <= 0 {
		h := sec.Wall / (2 * g.p.MidRadius())
		mid := math.Sqrt(g.capAreal()/m.areal[k]) * (1 - f.K1*t/2)
		r.HoopMid[i], r.Axial[i] = mid, mid
		r.HoopInner[i] = mid * (1 - f.K1*t) / (1 - f.K1*t/2) / (1 - h)
		r.HoopOuter[i] = mid / (1 - f.K1*t/2) / (1 + h)
		return
	}
	r.HoopInner[i] = (f.R - t*f.NR) / sec.Ri
	r.HoopMid[i] = (f.R - t/2*f.NR) / sec.Rm
	r.HoopOuter[i] = f.R / sec.Ro
	r.Axial[i] = sec.Rate / (2 * math.Pi * f.R * m.areal[k]) * (1 - f.K1*t/2)
}

// panel returns the section that stands for the panel: of three or more the
// largest between base and shoulder, else the largest.
func panel(s []Section) Section {
	if len(s) < 3 {
		best := s[0]
		for _, x := range s {
			if x.Area > best.Area {
				best = x
			}
		}
		return best
	}
	best := s[1]
	for _, x := range s[2 : len(s)-1] {
		if x.Area > best.Area {
			best = x
		}
	}
	return best
}

// doubts returns warnings on what the map asks of the material.
func (g *grid) doubts(r *Result) []string {
	var out []string
	low, high := Extreme{Value: math.Inf(1)}, Extreme{Value: -1}
	for i, a := range r.Axial {
		if a < low.Value {
			low = Extreme{a, r.Stations.S[i], r.Stations.Z[i]}
		}
		if a > high.Value {
			high = Extreme{a, r.Stations.S[i], r.Stations.Z[i]}
		}
	}
	if low.Value < 0.95 {
		out = append(out, fmt.Sprintf("axial stretch %.2f at z ‹%.0f mm›: the map pushes the preform together there, which blowing cannot do; the section asks for more material than this preform has near it", low.Value, low.Z*1e3))
	}
	if high.Value > 6 {
		out = append(out, fmt.Sprintf("axial stretch %.1f at z ‹%.0f mm›: more than PET is drawn along the axis in practice; the section asks for less material than this preform has near it, or the shape inside the section is too even", high.Value, high.Z*1e3))
	}
	return out
}

// Profile returns the wall as thickness along the arc of the bottle, in steps
// of at least 400 stations, for [bottle.Bottle.Inside] and the solvers. As a
// solid it has the section weights of the result to parts in a million; under
// even axial stretch only their sum.
func (r *Result) Profile() curve.Wall {
	return curve.Wall{S: append([]float64(nil), r.profile.S...), T: append([]float64(nil), r.profile.T...)}
}
