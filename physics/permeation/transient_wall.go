package permeation

import (
	"math"

	"costrel/num/stiff"
	"costrel/unit"
)

// slab is one gas in one zone: a row of cells from the drink outwards. The
// concentration is the state; what drives the flow is
//
//	theta(C) = kD p + F C'H b p/(1 + b p),  C = kD p + C'H b p/(1 + b p)
//
// and for a gas by Henry's law theta = C = kD p.
type slab struct {
	gas      Gas
	zone     int
	area, dx float64
	cells    int
	at       int // of the first cell in the state
	left     int // of the first scavenger cell in the state, -1 where there is none
	rate     float64
	capacity float64
	coats    [2]float64 // permeance of the coatings inside and outside at coatTemperature, 0 is none
	inner    float64    // the same now
	outer    float64
	law      DualMode
	henry    Henry
	// trace is a gas of which there is next to nothing: its dual-mode law is then
	// the straight line it begins with.
	trace bool

	// At the temperature.
	s Sorption
	g float64 // D/dx

	// Last evaluation; slices of the model's workspace.
	theta, slope []float64
	// Flow per area in through the inner face and out through the outer one,
	// with their slopes in the pressure inside and the first and last cell.
	in, inP, inC   float64
	out, outC      float64
	bound          float64 // oxygen bound in all cells per area and second
	scale          float64 // concentration to measure changes by
	diag, up, down []float64
	step, answer   []float64
	kept           [3]float64 // h/dx, D/dx and solubility of the elimination that a straight slab keeps
}

func (s *slab) set(t unit.Temperature) {
	if s.coats != [2]float64{} {
		var warmer float64
		if s.gas == CO2 {
			warmer = s.law.At(t).Permeability(coatPressure) / s.law.At(coatTemperature).Permeability(coatPressure)
		} else {
			warmer = s.henry.Permeability.At(t) / s.henry.Permeability.At(coatTemperature)
		}
		s.inner, s.outer = s.coats[0]*warmer, s.coats[1]*warmer
	}
	switch {
	case s.gas == CO2:
		s.s = s.law.At(t)
		if s.trace {
			s.s = s.s.trace()
		}
	default:
		d := s.henry.Diffusivity.At(t)
		s.s = Sorption{Henry: s.henry.Permeability.At(t) / d, Diffusivity: d}
	}
	s.g = s.s.Diffusivity / s.dx
}

// drive fills in theta and its slope in every cell.
func (s *slab) drive(c []float64) {
	th, sl := s.theta[:len(c)], s.slope[:len(c)]
	k, b := s.s.Henry, s.s.Affinity
	cb := s.s.Capacity * b
	if cb == 0 {
		for i, x := range c {
			th[i], sl[i] = x, 1
		}
		return
	}
	f := s.s.Mobile
	for i, x := range c {
		q := k + cb - b*x
		root := math.Sqrt(math.Max(q*q+4*k*b*x, 0))
		// The larger root; written for the sign of q that loses no figures.
		var p float64
		if q > 0 {
			p = 2 * x / (q + root)
		} else {
			p = (root - q) / (2 * k * b)
		}
		u := 1 / (1 + b*p)
		th[i] = k*p + f*cb*p*u
		sl[i] = (k + f*cb*u*u) / (k + cb*u*u)
	}
}

// face returns the flow per area from a gas at the pressure p through a coating
// and half a cell to theta, with its slopes. The pressure under the coating is
// the positive root of a quadratic.
func (s *slab) face(coat, p, theta float64) (j, byP, byTheta float64) {
	k, b := s.s.Henry, s.s.Affinity
	m := s.s.Mobile * s.s.Capacity * b
	g := 2 * s.g
	if coat == 0 {
		u := 1 / (1 + b*p)
		return g * (k*p + m*p*u - theta), g * (k + m*u*u), -g
	}
	x := (coat*p + g*theta) / (coat + g*k)
	if m != 0 {
		qa := b * (coat + g*k)
		qb := coat + g*k + g*m - b*(coat*p+g*theta)
		qc := coat*p + g*theta
		root := math.Sqrt(math.Max(qb*qb+4*qa*qc, 0))
		if qb > 0 {
			x = 2 * qc / (qb + root)
		} else {
			x = (root - qb) / (2 * qa)
		}
	}
	u := 1 / (1 + b*x)
	d := coat + g*(k+m*u*u)
	return coat * (p - x), coat * (1 - coat/d), -coat * g / d
}

// faces fills in the flows through the two faces at the concentrations c, of
// which drive has been taken.
func (s *slab) faces(p, outside float64) {
	n := s.cells
	var byTheta float64
	s.in, s.inP, byTheta = s.face(s.inner, p, s.theta[0])
	s.inC = byTheta * s.slope[0]
	j, _, byTheta := s.face(s.outer, outside, s.theta[n-1])
	s.out, s.outC = -j, -byTheta*s.slope[n-1]
}

// rates writes the explicit rates dC/dt to k, and those of the scavenger.
func (s *slab) rates(y, k []float64, p, outside float64) {
	c := y[s.at : s.at+s.cells]
	s.drive(c)
	s.faces(p, outside)
	flow := s.in
	for i := range c {
		next := s.out
		if i < s.cells-1 {
			next = s.g * (s.theta[i] - s.theta[i+1])
		}
		k[s.at+i] = (flow - next) / s.dx
		flow = next
	}
	s.bound = 0
	if s.left >= 0 {
		for i, x := range c {
			r := s.rate * x * y[s.left+i]
			k[s.at+i] -= r
			k[s.left+i] = -r / s.capacity
			s.bound += r * s.dx
		}
	}
}

// linear takes one Newton step of the implicit stage C = a + h dC/dt as far as
// it goes without the pressure inside: the answer of the cells to their own
// residual is left in step, that to a unit of pressure in answer.
func (s *slab) linear(a, y []float64, h, p, outside float64) {
	if s.straight() {
		s.again(a, y, h, p, outside)
		return
	}
	s.general(a, y, h, p, outside)
}

// general is [slab.linear] for any slab.
func (s *slab) general(a, y []float64, h, p, outside float64) {
	n := s.cells
	c := y[s.at : s.at+n]
	a0 := a[s.at : s.at+n]
	s.drive(c)
	s.faces(p, outside)
	r := h / s.dx
	th, sl := s.theta[:n], s.slope[:n]
	diag, up, down, step := s.diag[:n], s.up[:n], s.down[:n], s.step[:n]
	rg := r * s.g
	flow := s.in
	for i := 0; i < n-1; i++ {
		next := s.g * (th[i] - th[i+1])
		step[i] = a0[i] - c[i] + r*(flow-next)
		flow = next
		diag[i] = 1 + 2*rg*sl[i]
		up[i] = -rg * sl[i+1]
		down[i+1] = -rg * sl[i]
	}
	step[n-1] = a0[n-1] - c[n-1] + r*(flow-s.out)
	// The end cells have one neighbour and one face.
	if n > 1 {
		diag[0] = 1 + rg*sl[0] - r*s.inC
		diag[n-1] = 1 + rg*sl[n-1] + r*s.outC
	} else {
		diag[0] = 1 - r*s.inC + r*s.outC
	}
	s.bound = 0
	if s.left >= 0 {
		for i, x := range c {
			hk := h * s.rate
			u := 1 + hk*math.Max(x, 0)/s.capacity
			q := a[s.left+i] / u
			step[i] -= hk * x * q
			diag[i] += hk * q / u
		}
	}
	stiff.Bordered(down, diag, up, step, s.answer[:n], r*s.inP)
}

// straight tells whether the slab answers linearly: by Henry's law, without a
// scavenger.
func (s *slab) straight() bool { return s.s.Capacity == 0 && s.left < 0 }

// again is [slab.linear] for a straight slab: its elimination hangs on the step
// and on the temperature alone, so that the stages of a step share it.
func (s *slab) again(a, y []float64, h, p, outside float64) {
	n := s.cells
	c, a0 := y[s.at:s.at+n], a[s.at:s.at+n]
	th, diag, up, down, step, answer := s.theta[:n], s.diag[:n], s.up[:n], s.down[:n], s.step[:n], s.answer[:n]
	copy(th, c)
	s.slope[0], s.slope[n-1] = 1, 1
	s.faces(p, outside)
	r := h / s.dx
	if key := [3]float64{r, s.g, s.s.Henry}; key != s.kept {
		s.kept = key
		rg := r * s.g
		for i := range diag {
			diag[i], up[i], down[i] = 1+2*rg, -rg, -rg
		}
		diag[0] -= rg + r*s.inC
		diag[n-1] += r*s.outC - rg
		answer[0] = r * s.inP
		for i := 1; i < n; i++ {
			m := down[i] / diag[i-1]
			down[i] = m
			diag[i] -= m * up[i-1]
			answer[i] = -m * answer[i-1]
		}
		for i := n - 1; i >= 0; i-- {
			diag[i] = 1 / diag[i]
			if i < n-1 {
				answer[i] -= up[i] * answer[i+1]
			}
			answer[i] *= diag[i]
		}
	}
	flow, last := s.in, 0.0
	for i := range step {
		next := s.out
		if i < n-1 {
			next = s.g * (th[i] - th[i+1])
		}
		last = a0[i] - c[i] + r*(flow-next) - down[i]*last
		step[i] = last
		flow = next
	}
	last = 0
	for i := n - 1; i >= 0; i-- {
		last = (step[i] - up[i]*last) * diag[i]
		step[i] = last
	}
	s.bound = 0
}

// follows is the next Newton step of a slab that answers linearly: after
// [slab.linear] and [slab.apply] in the same stage the cells have no residual,
// so that only the answer to the pressure is left. It reports whether that is
// so; a dual-mode slab and one with a scavenger must be taken anew.
func (s *slab) follows() bool {
	if !s.straight() {
		return false
	}
	clear(s.step)
	return true
}

// apply adds the Newton step for the change dp of the pressure inside and
// returns the largest change. The flows through the faces become those of the
// linear system, so that what leaves one cell enters the next exactly.
func (s *slab) apply(a, y []float64, h, dp float64) float64 {
	n := s.cells
	c := y[s.at : s.at+n]
	step, answer := s.step[:n], s.answer[:n]
	worst := 0.0
	first, last := 0.0, 0.0
	for i := range c {
		d := step[i] + answer[i]*dp
		if i == 0 {
			first = d
		}
		last = d
		if s.left >= 0 {
			x := c[i]
			hk := h * s.rate
			u := 1 + hk*math.Max(x, 0)/s.capacity
			q := a[s.left+i] / u
			r := s.rate * (x*q + q/u*d)
			s.bound += s.dx * r
			y[s.left+i] = a[s.left+i] - h*r/s.capacity
		}
		c[i] += d
		if w := math.Abs(d); w > worst {
			worst = w
		}
	}
	s.in += s.inP*dp + s.inC*first
	s.out += s.outC * last
	return worst
}
