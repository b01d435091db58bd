package permeation

import (
	"errors"
	"math"
)

var errNewton = errors.New("the step does not settle")

// The largest change of the last iteration, relative to the scale of the
// unknown. Newton's is quadratic: what a change leaves is about its square, so
// that it may be the root of a share of the tolerance. What is not of Newton,
// acid and liner, stops at a share of the tolerance itself; so does a film.
const (
	settledShare = 0.1
	slowShare    = 0.05
	settled      = 3e-5
)

// across solves the stage by enclosure: b is the balance at hand, r what it
// lacks, mat the slopes of all that takes gas up, of which those of the bottle
// are in b.
func (m *model) across(b *balance, r [3]float64, mat [gases][3]float64) ([gases]float64, bool) {
	var n, lost [gases]float64
	for i := range n {
		lost[i] = math.Max(0, mat[i][i]-b.jac[i][i])
		n[i] = r[i] + b.n[i] + lost[i]*b.p[i]
		if !(n[i] >= 0) {
			return b.p, false
		}
	}
	p, err := m.in.enclose(n, lost)
	return p, err == nil
}

// stage solves y = a + h f(t, y) from the guess in y and writes f to k.
//
// In every slab the cells answer linearly to the pressure inside, so one
// elimination a slab leaves three equations in the three partial pressures:
// Newton's iteration of the whole system at the price of its parts. The
// accounts are booked with the flows of the linear system, so that the sum over
// all places keeps every mole to rounding.
func (m *model) stage(t float64, a, y, k []float64, h float64) error {
	if err := m.surroundings(t); err != nil {
		return err
	}
	// Water does not feel the gases.
	for range 2 {
		m.in.fill(m, m.t, y[atWater])
		k[atWater] = -m.dry()
		y[atWater] = a[atWater] + h*k[atWater]
	}
	g := &m.pack.Growth
	strain, give := 1.0, 1.0
	for i, q := range g.Terms {
		u := h * m.kelvin[i]
		strain += a[atCreep+i] / (1 + u)
		give += q.Ratio * u / (1 + u)
	}
	m.in.base, m.in.slope = m.pack.Volume*strain, m.pack.Volume*g.Elastic*give

	p := m.p
	acid, liner := y[atAcid], y[atLiner]
	for iteration := 0; ; iteration++ {
		if iteration == 12 {
			return errNewton
		}
		m.works++
		b := &m.bal
		m.in.at(p, b)
		m.p = p
		f := m.leave(p, b, acid, liner)
		// Into the wall: the part without and with a change of pressure.
		var flow, byP [gases]float64
		for i := range m.slabs {
			s := &m.slabs[i]
			if iteration == 0 || !s.follows() {
				s.linear(a, y, h, m.driving(s.gas), m.outside[s.gas])
			}
			flow[s.gas] += s.area * (s.in + s.inC*s.step[0])
			byP[s.gas] += s.area * (s.inP + s.inC*s.answer[0])
		}
		mat := b.jac
		var r [3]float64
		for i := CO2; i < gases; i++ {
			r[i] = a[i] - b.n[i] - h*(flow[i]+f.cap[i])
			for j := range 3 {
				mat[i][j] += h * f.capP[i][j]
			}
			if i == CO2 {
				for j := range 3 {
					mat[i][j] += h * byP[i] * b.fjac[j]
				}
			} else {
				mat[i][i] += h * byP[i]
			}
		}
		r[Oxygen] -= h * f.drink
		mat[Oxygen][Oxygen] += h * f.drinkP
		dp, ok := solve3(mat, r)
		if iteration == 5 {
			// Where the liquid comes to fill a bottle that stands at ambient pressure
			// two bends meet, between which Newton's iteration may go to and fro.
			if q, found := m.across(b, r, mat); found {
				for i := range p {
					dp[i] = q[i] - p[i]
				}
			}
		}
		if !ok {
			return errNewton
		}
		worst := 0.0
		for i := range p {
			p[i] += dp[i]
			worst = math.Max(worst, math.Abs(dp[i])/b.total)
		}
		du := [gases]float64{0, dp[1], dp[2]}
		for j := range 3 {
			du[CO2] += b.fjac[j] * dp[j]
		}
		for i := range m.slabs {
			s := &m.slabs[i]
			w := s.apply(a, y, h, du[s.gas])
			worst = math.Max(worst, w/s.scale)
		}
		if math.IsNaN(worst) || worst > 1e6 {
			return errNewton
		}
		// The flows that go with the step just taken.
		for i := CO2; i < gases; i++ {
			for j := range 3 {
				f.cap[i] += f.capP[i][j] * dp[j]
			}
		}
		f.drink += f.drinkP * dp[Oxygen]
		slow := 0.0
		water := k[atWater]
		clear(k[:m.small])
		k[atWater] = water
		m.charge(k, &f)
		if c := m.pack.Cap.Scavenger.Capacity; c > 0 {
			next := a[atLiner] + h*k[atLiner]
			slow = math.Abs(next - liner)
			liner = next
		}
		if c := m.pack.Uptake.Acid; c > 0 {
			next := a[atAcid] + h*k[atAcid]
			slow = math.Max(slow, math.Abs(next-acid)/c)
			acid = next
		}
		if worst < m.settled && slow < m.slow {
			break
		}
	}
	m.p = p
	m.in.at(p, &m.bal)
	if !(m.bal.total < most) {
		return errFull
	}
	for i := range m.slabs {
		s := &m.slabs[i]
		k[s.gas] -= s.area * s.in
		k[m.acc+passed+int(s.gas)] += s.area * s.out
		k[m.acc+entered+int(s.gas)] += s.area * s.in
		k[m.acc+boundWall] += s.area * s.bound
	}
	x := g.Elastic * math.Max(m.bal.total-m.in.ambient, 0)
	for i, q := range g.Terms {
		u := h * m.kelvin[i]
		y[atCreep+i] = (a[atCreep+i] + u*q.Ratio*x) / (1 + u)
		k[atCreep+i] = m.kelvin[i] * (q.Ratio*x - y[atCreep+i])
	}
	for i := 0; i < m.small; i++ {
		if i < atCreep || i >= m.acc {
			y[i] = a[i] + h*k[i]
		}
	}
	inv := 1 / h
	for i := m.small; i < m.size; i++ {
		k[i] = (y[i] - a[i]) * inv
	}
	return nil
}
