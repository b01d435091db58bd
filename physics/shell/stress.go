package shell

import "math"

// Stress is the state of one element, true stress [Pa].
type Stress struct {
	S, Z, R               float64 // unloaded arc length, height, mid radius [m]
	AlongIn, AlongOut     float64 // meridional, inner and outer face
	RoundIn, RoundOut     float64 // hoop
	AlongMid, RoundMid    float64 // mean through the wall
	Plastic               float64 // largest equivalent plastic strain through the wall
	Creep                 float64 // largest equivalent creep strain
	Thin                  float64 // wall over unloaded wall
	Radial, Axial, Turn   float64 // displacements [m, m, rad]
	YieldUse, StrengthUse float64 // largest σ̄/σ_y through the wall; force over ultimate strength; 0 where no strength is known
	UseIn, UseOut         float64 // stress over ultimate strength at inner and outer face, both over the unloaded section, along or round
}

// strains returns the engineering strains of an element: along, round, and
// both curvatures.
func (m *Model) strains(i int) (es, eh, ks, kh float64) {
	e := &m.mesh.el[i]
	u := m.u[3*i : 3*i+6]
	xr, xz := e.tr+(u[3]-u[0])/e.l, e.tz+(u[4]-u[1])/e.l
	s, c := math.Sincos(0.5 * (u[2] + u[5]))
	nr, nz := e.tz, -e.tr
	es = xr*(c*e.tr-s*nr) + xz*(c*e.tz-s*nz) - 1
	db, dr := u[5]-u[2], c*nr+s*e.tr
	ga := xr*dr + xz*(c*nz+s*e.tz)
	es += db*(2*e.turn+db)/24 + 0.5*e.slack*ga*ga
	return es, (0.5*(u[0]+u[3]) + e.l/12*(dr*(e.turn+db)-nr*e.turn)) / e.rm, db / e.l, (dr - nr) / e.rm
}

// points returns Kirchhoff stress and logarithmic strains of the points of an
// element.
func (m *Model) points(i int) (tau, x [Points][2]float64) {
	e := &m.mesh.el[i]
	es, eh, ks, kh := m.strains(i)
	f := m.flow.soft
	for k := range e.layer {
		z := zeta[k] * 0.5 * e.t
		x[k] = [2]float64{math.Log1p(es + z*ks), math.Log1p(eh + z*kh)}
		C := e.law[k].C
		C = sym2{C.s * f, C.c * f, C.h * f}
		if m.cs.Green {
			tau[k], _ = green(C, [2]float64{math.Exp(x[k][0]), math.Exp(x[k][1])})
			continue
		}
		o := &m.old[Points*i+k]
		y := [2]float64{x[k][0] - o.in[0], x[k][1] - o.in[1]}
		for j := range m.cs.Creep.Chain() {
			y[0] -= o.kelvin[j][0]
			y[1] -= o.kelvin[j][1]
		}
		tau[k] = C.mul(y)
	}
	return tau, x
}

// thinning returns the wall of an element over its unloaded wall.
func (m *Model) thinning(i int) float64 {
	tau, _ := m.points(i)
	return m.thinned(i, &tau)
}

// thinned is thinning under the stresses of the points: elastic by Poisson's
// ratio, inelastic at constant volume.
func (m *Model) thinned(i int, tau *[Points][2]float64) float64 {
	e := &m.mesh.el[i]
	s := 0.0
	for k := range e.layer {
		p := &e.layer[k]
		o := &m.old[Points*i+k]
		x := -p.Nu * (tau[k][0]/p.Es + tau[k][1]/p.Eh) / m.flow.soft
		x -= o.in[0] + o.in[1]
		s += weight[k] * x
	}
	return math.Exp(s)
}

// Stresses returns the stress of every element of the state.
func (m *Model) Stresses() []Stress {
	out := make([]Stress, len(m.mesh.el))
	for i := range out {
		out[i] = m.stress(i)
	}
	return out
}

func (m *Model) stress(i int) Stress {
	e := &m.mesh.el[i]
	q := Stress{
		S: 0.5 * (m.mesh.S[i] + m.mesh.S[i+1]), Z: 0.5 * (m.mesh.Z[i] + m.mesh.Z[i+1]), R: e.r,
		Radial: 0.5 * (m.u[3*i] + m.u[3*i+3]), Axial: 0.5 * (m.u[3*i+1] + m.u[3*i+4]), Turn: 0.5 * (m.u[3*i+2] + m.u[3*i+5]),
	}
	taus, strains := m.points(i)
	q.Thin = m.thinned(i, &taus)
	lt := math.Log(q.Thin)
	for k := range e.layer {
		p := &e.layer[k]
		tau, x := taus[k], strains[k]
		J := math.Exp(x[0] + x[1] + lt)
		a, h := tau[0]/J, tau[1]/J
		switch k {
		case 0:
			q.AlongIn, q.RoundIn, q.UseIn = a, h, p.use(tau, x)/m.flow.soft
		case Points - 1:
			q.AlongOut, q.RoundOut, q.UseOut = a, h, p.use(tau, x)/m.flow.soft
		}
		q.AlongMid += weight[k] * a
		q.RoundMid += weight[k] * h
		o := &m.old[Points*i+k]
		q.Plastic, q.Creep = math.Max(q.Plastic, o.plastic), math.Max(q.Creep, o.creep)
		if p.Ys > 0 {
			P, Y := p.hill()
			r, _ := m.cs.Hard.Ratio(o.plastic)
			q.YieldUse = math.Max(q.YieldUse, equivalent(P, [2]float64{a, h})/(Y*r*m.flow.soft))
		}
	}
	q.StrengthUse = m.strengthUse(i)
	return q
}

// use returns the larger share of its strengths along and round that a point of
// the wall bears at Kirchhoff stress tau and logarithmic strain x.
func (p *Ply) use(tau, x [2]float64) float64 {
	u := 0.0
	if p.Us > 0 {
		u = tau[0] / math.Exp(x[0]) / p.Us
	}
	if p.Uh > 0 {
		u = math.Max(u, tau[1]/math.Exp(x[1])/p.Uh)
	}
	return u
}

// Stresses returns the stress of every element of a linear state at the factor
// of temperature 1, on the unloaded form.
func (q SmallState) Stresses(m *Mesh) []Stress {
	out := make([]Stress, len(m.el))
	for i := range out {
		e := &m.el[i]
		B := e.rows()
		var s [4]float64
		for k := range 4 {
			for x := range 6 {
				s[k] += B[k][x] * q.U[3*i+x]
			}
		}
		o := &out[i]
		o.S, o.Z, o.R, o.Thin = 0.5*(m.S[i]+m.S[i+1]), 0.5*(m.Z[i]+m.Z[i+1]), e.r, 1
		o.Radial, o.Axial, o.Turn = 0.5*(q.U[3*i]+q.U[3*i+3]), 0.5*(q.U[3*i+1]+q.U[3*i+4]), 0.5*(q.U[3*i+2]+q.U[3*i+5])
		o.AlongMid, o.RoundMid = q.Force[i].ns/e.t, q.Force[i].nh/e.t
		for _, k := range [2]int{0, Points - 1} {
			z := zeta[k] * 0.5 * e.t
			t := e.layer[k].compliance().inverse().mul([2]float64{s[0] + z*s[2], s[1] + z*s[3]})
			if k == 0 {
				o.AlongIn, o.RoundIn = t[0], t[1]
			} else {
				o.AlongOut, o.RoundOut = t[0], t[1]
			}
		}
	}
	return out
}
