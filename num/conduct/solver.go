package conduct

import (
	"fmt"
	"math"
)

// Boltzmann is the Stefan-Boltzmann constant [W/(m² K⁴)]; follows from exact
// constants since 2019. Source: CODATA2018.
const Boltzmann = 5.670374419e-8

// Side is what happens at one face. The zero value is an insulated face.
type Side struct {
	Film        float64 // heat transfer coefficient to the fluid [W/(m² K)]
	Fluid       float64 // K
	Emissivity  float64 // 0..1
	Surrounding float64 // temperature that radiates back [K]
	Fixed       bool    // the face is held at Fluid, Film and Emissivity unused
}

// flux returns the heat leaving through a face [W/m²], its derivative by the
// temperature T of the cell and the temperature of the face; g is the
// conductance from cell centre to face [W/(m² K)].
//
//	g (T - Ts) = Film (Ts - Fluid) + eps sigma (Ts⁴ - Surrounding⁴)
func (s *Side) flux(T, g float64) (conv, rad, slope, face float64) {
	switch {
	case s.Fixed:
		return g * (T - s.Fluid), 0, g, s.Fluid
	case s.Emissivity == 0:
		u := g * s.Film / (g + s.Film)
		conv = u * (T - s.Fluid)
		return conv, 0, u, T - conv/g
	}
	es := s.Emissivity * Boltzmann
	back := es * math.Pow(s.Surrounding, 4)
	ts := T
	for range 50 {
		t3 := es * ts * ts * ts
		r := g*(T-ts) - s.Film*(ts-s.Fluid) - t3*ts + back
		d := r / (g + s.Film + 4*t3)
		ts += d
		if math.Abs(d) < 1e-10*math.Abs(ts) {
			break
		}
	}
	out := s.Film + 4*es*ts*ts*ts
	return s.Film * (ts - s.Fluid), es*ts*ts*ts*ts - back, g * out / (g + out), ts
}

// Flow is heat through the faces since the start, positive outwards, over the
// area of the mid-surface [J/m²].
type Flow struct {
	InnerFilm, InnerRadiation, OuterFilm, OuterRadiation float64
}

// Sum returns the heat that left [J/m²].
func (f Flow) Sum() float64 {
	return f.InnerFilm + f.InnerRadiation + f.OuterFilm + f.OuterRadiation
}

// Solver steps the temperatures of one wall. Build it with [NewSolver]; the
// fields may be set between steps.
type Solver struct {
	Wall         *Wall
	Stuff        *Stuff
	T            []float64 // temperatures of the cells [K]
	Source       []float64 // heat given to each cell over mid-area [W/m²]; nil: none
	Inner, Outer Side
	Lost         Flow
	After        func(dt float64) // called after each step, when set
	TI, TO       float64          // temperatures of inner and outer face [K], after a step or Refresh

	last                                   float64   // length of the last step
	g                                      []float64 // conductances between centres, [0] and [n] to the faces
	h0, rate, lo, di, up, rhs, x, was, inc []float64
}

// NewSolver returns a solver at the uniform temperature t [K].
func NewSolver(w *Wall, s *Stuff, t float64) *Solver {
	n := len(w.Mid)
	buf := make([]float64, 11*n+1)
	cut := func(m int) []float64 { v := buf[:m:m]; buf = buf[m:]; return v }
	v := &Solver{Wall: w, Stuff: s, g: cut(n + 1)}
	v.T, v.h0, v.rate, v.lo, v.di, v.up, v.rhs, v.x, v.was, v.inc = cut(n), cut(n), cut(n), cut(n), cut(n), cut(n), cut(n), cut(n), cut(n), cut(n)
	v.Reset(w, s, t)
	return v
}

// Reset takes another wall with the same number of cells, another stuff and a
// uniform temperature, and allocates nothing.
func (v *Solver) Reset(w *Wall, s *Stuff, t float64) {
	v.Wall, v.Stuff, v.Lost = w, s, Flow{}
	n := len(w.Mid)
	k := s.Conductivity
	v.g[0] = w.Area[0] * k / w.Mid[0]
	v.g[n] = w.Area[n] * k / (w.Thickness - w.Mid[n-1])
	for i := 1; i < n; i++ {
		v.g[i] = w.Area[i] * k / (w.Mid[i] - w.Mid[i-1])
	}
	for i := range v.T {
		v.T[i] = t
	}
	v.TI, v.TO = t, t
}

// Refresh finds the temperatures of the faces for the present cells and sides.
func (v *Solver) Refresh() {
	n := len(v.T)
	_, _, _, v.TI = v.Inner.flux(v.T[0], v.perFace(0))
	_, _, _, v.TO = v.Outer.flux(v.T[n-1], v.perFace(n))
}

// perFace is the conductance to a face over the area of the face. A face of no
// area (the centre of a solid) is insulated.
func (v *Solver) perFace(i int) float64 {
	if v.Wall.Area[i] <= 0 {
		return 1e-30
	}
	return v.g[i] / v.Wall.Area[i]
}

// Heat returns the enthalpy of the wall over mid-area [J/m²], from the law's
// own zero.
func (v *Solver) Heat() float64 {
	sum := 0.0
	for i, T := range v.T {
		sum += v.Stuff.Density * v.Wall.Volume[i] * v.Stuff.Enthalpy(T)
	}
	return sum
}

// Run steps the time span [s] in n even steps by the trapezoidal rule. The
// first step is taken as two halves of the implicit Euler rule, which damps
// what a sudden change of sources or sides stirs up and keeps the second order
// (Rannacher1984). It fails when the Newton iteration does not settle.
func (v *Solver) Run(span float64, n int) error {
	if err := checkSpan(span, n); err != nil {
		return err
	}
	clear(v.inc)
	if span == 0 {
		v.Refresh()
		return nil
	}
	dt := span / float64(n)
	for range 2 {
		if err := v.step(dt/2, 1); err != nil {
			return err
		}
	}
	v.last = dt / 2
	return v.Continue(span-dt, n-1)
}

// Continue steps on after [Solver.Run] without the damped start, for sides
// that stay and sources that change smoothly. n may be 0 where span is.
func (v *Solver) Continue(span float64, n int) error {
	if n == 0 {
		return nil
	}
	if err := checkSpan(span, n); err != nil {
		return err
	}
	dt := span / float64(n)
	for range n {
		if v.last > 0 && dt != v.last {
			for j := range v.inc {
				v.inc[j] *= dt / v.last
			}
		}
		if err := v.step(dt, 0.5); err != nil {
			return err
		}
		v.last = dt
	}
	return nil
}

func checkSpan(span float64, n int) error {
	if !(span >= 0) || math.IsInf(span, 0) || n < 1 {
		return fmt.Errorf("conduct: run: %g s in %d steps: want a span of 0 or more in 1 step or more", span, n)
	}
	return nil
}

// step advances dt with the weight th of the new time: 1 implicit Euler, 0.5
// trapezoidal.
func (v *Solver) step(dt, th float64) error {
	n := len(v.T)
	w, s := v.Wall, v.Stuff
	ai, ao := w.Area[0], w.Area[n]
	gi, g0 := v.perFace(0), v.perFace(n)
	old := dt * (1 - th)
	var lost Flow
	// what the old temperatures put into the balance
	ci, ri, _, _ := v.Inner.flux(v.T[0], gi)
	co, ro, _, _ := v.Outer.flux(v.T[n-1], g0)
	for i := range v.T {
		h, _ := s.heat.at(v.T[i])
		v.h0[i] = s.Density * w.Volume[i] * h
		r := 0.0
		if i > 0 {
			r += v.g[i] * (v.T[i-1] - v.T[i])
		}
		if i+1 < n {
			r += v.g[i+1] * (v.T[i+1] - v.T[i])
		}
		v.rate[i] = old * r
		if v.Source != nil {
			v.rate[i] += dt * v.Source[i]
		}
	}
	v.rate[0] -= old * ai * (ci + ri)
	v.rate[n-1] -= old * ao * (co + ro)
	lost.InnerFilm, lost.InnerRadiation = old*ai*ci, old*ai*ri
	lost.OuterFilm, lost.OuterRadiation = old*ao*co, old*ao*ro
	// start from the change of the last step
	for i := range v.T {
		v.T[i] += v.inc[i]
	}
	ahead := dt * th
	worst := 0.0
	for it := range 100 {
		for i := range v.T {
			h, cp := s.heat.at(v.T[i])
			// the slope to the last iterate, where a kink of the enthalpy
			// throws the tangent to and fro
			if d := v.T[i] - v.was[i]; it > 5 && math.Abs(d) > 1e-9 {
				last, _ := s.heat.at(v.was[i])
				cp = (h - last) / d
			}
			v.was[i] = v.T[i]
			m := s.Density * w.Volume[i]
			r := m*h - v.h0[i] - v.rate[i]
			v.di[i], v.lo[i], v.up[i] = m*cp, 0, 0
			if i > 0 {
				g := ahead * v.g[i]
				r += g * (v.T[i] - v.T[i-1])
				v.di[i] += g
				v.lo[i] = -g
			}
			if i+1 < n {
				g := ahead * v.g[i+1]
				r += g * (v.T[i] - v.T[i+1])
				v.di[i] += g
				v.up[i] = -g
			}
			v.rhs[i] = -r
		}
		var si, so float64
		ci, ri, si, v.TI = v.Inner.flux(v.T[0], gi)
		co, ro, so, v.TO = v.Outer.flux(v.T[n-1], g0)
		v.rhs[0] -= ahead * ai * (ci + ri)
		v.di[0] += ahead * ai * si
		v.rhs[n-1] -= ahead * ao * (co + ro)
		v.di[n-1] += ahead * ao * so
		// the matrix is diagonally dominant: no pivoting
		for i := 1; i < n; i++ {
			f := v.lo[i] / v.di[i-1]
			v.di[i] -= f * v.up[i-1]
			v.rhs[i] -= f * v.rhs[i-1]
		}
		worst = 0
		for i := n - 1; i >= 0; i-- {
			x := v.rhs[i]
			if i+1 < n {
				x -= v.up[i] * v.x[i+1]
			}
			v.x[i] = x / v.di[i]
			worst = math.Max(worst, math.Abs(v.x[i]))
			if v.x[i] != v.x[i] {
				worst = math.NaN()
			}
		}
		if !(worst <= 1e6) {
			break
		}
		for i := range v.T {
			v.T[i] += v.x[i]
			v.inc[i] += v.x[i]
		}
		if worst < 1e-5 {
			ci, ri, _, v.TI = v.Inner.flux(v.T[0], gi)
			co, ro, _, v.TO = v.Outer.flux(v.T[n-1], g0)
			lost.InnerFilm += ahead * ai * ci
			lost.InnerRadiation += ahead * ai * ri
			lost.OuterFilm += ahead * ao * co
			lost.OuterRadiation += ahead * ao * ro
			v.Lost.InnerFilm += lost.InnerFilm
			v.Lost.InnerRadiation += lost.InnerRadiation
			v.Lost.OuterFilm += lost.OuterFilm
			v.Lost.OuterRadiation += lost.OuterRadiation
			if v.After != nil {
				v.After(dt)
			}
			return nil
		}
	}
	return fmt.Errorf("conduct: step of %g s did not settle: last correction %g K > 1e-5 K", dt, worst)
}
