package blow

import (
	"math"
)

const (
	newtonMost = 20
	dampFrom   = 6     // iterations after which a step that does not shrink is halved
	newtonTol  = 1e-5  // [m]; the next step would be its square over the element
	moveCap    = 2e-3  // largest step of a node in one iteration [m]
	slipSpeed  = 3e-2  // speed at which friction is about fully on [m/s]
	stuckSpeed = 0.2   // share of it below which a node is held
	stuckShare = 0.3   // from this share of the high pressure on
	stepMove   = 4e-3  // wanted largest move of a node in a step [m]
	nearFull   = 0.95  // share of the high pressure that ends the blow
	steadyMost = 10.0  // growth of the step when nothing moves any more
	steadyMove = 5e-5  // what counts as nothing [m]
	standSteps = 400   // under full pressure after which a wall may be found to stand
	standGain  = 1e-3  // growth of the volume below which it does
	moveGrow   = 1.3   // growth of the step
	stepsEasy  = 6     // iterations below which the step grows
	divergence = 0.5   // [m], beyond which a trial is given up
	flungMost  = 0.05  // [m] that no node moves in a step: a balance found there is none of this wall
	jumpMost   = 1.6   // by which no piece of wall becomes longer or shorter in a step
	contactTol = 1e-9  // [m]
	holdTop    = 0.015 // of the preform's top that the neck of the mould may hold [m]
	holdOver   = 1e-3  // by which it may stand over there [m]
)

// solver is a run in progress.
type solver struct {
	c    *Case
	w    *wall
	prof *profile
	air  cavity

	t, dt    float64
	p, V     float64 // gauge pressure and volume of the air
	rodStart float64
	heldFrom int    // the tip carries the end cap from this node to the gate; beyond the gate: nothing
	cap      []take // the end cap as it was taken, a node
	rodTip   float64
	rodForce float64
	iter     int // of the last step

	outZ, outR, outD []float64 // outer point where the distance was last asked, and the distance
	heat             heatBook
	airIn            float64
	airStart         float64
	closure          float64 // worst |p(V+Vd)/(mRT) - 1|
	gasMass          float64 // p(V+Vd)/(RT) at the end of the last step
	last, before     float64 // the last step and that before
	high             bool    // the high stage is open
	standAt          int     // steps until the volume is held against standV
	standV           float64
	maxMove          float64
	maxStrain        float64 // greatest increment of mid-line strain in the last step
}

func (s *solver) tip(t float64) float64 {
	rod := &s.c.Recipe.Rod
	if rod.Speed <= 0 {
		return math.Inf(-1)
	}
	return min(s.rodStart+rod.Speed*t, max(rod.Stop, s.rodStart))
}

// normals takes the outward normal and half wall of every node from the
// elements beside it.
func (s *solver) normals() {
	w := s.w
	clear(w.nz)
	clear(w.nr)
	clear(w.half)
	for e := range w.n {
		dz, dr := w.z[e+1]-w.z[e], w.r[e+1]-w.r[e]
		w.nr[e] += dz
		w.nz[e] -= dr
		w.nr[e+1] += dz
		w.nz[e+1] -= dr
		if !s.c.Numbers.MidContact {
			h := w.thickness(e)
			w.half[e] += h
			w.half[e+1] += h
		}
	}
	for i := range w.nz {
		l := math.Hypot(w.nz[i], w.nr[i])
		if l > 0 {
			w.nz[i] /= l
			w.nr[i] /= l
		}
		if i > 0 && i < w.n {
			w.half[i] /= 4
		} else {
			w.half[i] /= 2
		}
	}
	w.nz[w.n], w.nr[w.n] = 1, 0
}

// trial takes one step of length dt from the committed state and leaves the
// new geometry in w. It reports whether the iteration settled.
func (s *solver) trial(step float64) bool {
	w := s.w
	theta := s.c.Numbers.Theta
	dt := theta * step // forces balance there
	copy(w.zn, w.z)
	copy(w.rn, w.r)
	w.prepare(dt, s.ahead(step))
	rodTip := s.tip(s.t + dt)
	for i := range w.z {
		switch w.kind[i] {
		case nodeFree:
			w.z[i] += dt * w.vz[i]
			w.r[i] = max(w.r[i]+dt*w.vr[i], 0.2*w.rn[i])
		case nodeAxis:
			w.z[i] += dt * w.vz[i]
		}
	}
	guess := s.air.guess
	before, damp := math.Inf(1), 1.0
	for it := 1; it <= newtonMost; it++ {
		V := w.volume() - w.inner
		if !(V+s.air.dead > 1e-9) {
			break
		}
		pa, dp := s.air.pressure(V, dt)
		p := pa - s.air.ambient
		if !finite(p) || !w.assemble(p) {
			break
		}
		for i := range w.res {
			w.res[i] -= p * w.grad[i]
		}
		// speeds belong to the middle of a step; this one began before at
		// the middle of the last
		idt2 := 1 / (dt * s.span(step))
		for i, m := range w.mass {
			k := m * idt2
			w.res[2*i] += k * (w.z[i] - w.zn[i] - dt*w.vz[i])
			w.res[2*i+1] += k * (w.r[i] - w.rn[i] - dt*w.vr[i])
			w.mat.Diag[i][0] += k
			w.mat.Diag[i][3] += k
		}
		s.pushRod(rodTip)
		s.friction(dt)
		s.constrain()
		for i := range w.res {
			w.res[i] = -w.res[i]
			w.vec[i] = w.grad[i]
		}
		if w.mat.Factor() != nil {
			break
		}
		w.mat.Solve(w.res)
		w.mat.Solve(w.vec)
		var ga, gb float64
		for i, g := range w.grad {
			ga += g * w.res[i]
			gb += g * w.vec[i]
		}
		den := 1 - dp*gb
		var k float64
		if math.Abs(den) > 1e-12 {
			k = dp * ga / den
		}
		for i := range w.res {
			w.res[i] += k * w.vec[i]
		}
		s.unrotate()
		var top float64
		for _, d := range w.res {
			top = max(top, math.Abs(d))
		}
		if !(top < divergence) {
			break
		}
		// a law that thins with the rate makes full steps swing to and fro
		if it > dampFrom && top > 0.5*before {
			damp = max(damp/2, 0.1)
		}
		before = top
		f := damp
		if top*f > moveCap {
			f = moveCap / top
		}
		for i := range w.z {
			w.z[i] += f * w.res[2*i]
			w.r[i] += f * w.res[2*i+1]
		}
		if top < newtonTol {
			if s.flung() {
				break
			}
			s.iter = it
			s.rodTip = rodTip
			return s.reach(theta)
		}
	}
	copy(w.z, w.zn)
	copy(w.r, w.rn)
	s.air.guess = guess
	return false
}

// flung reports whether a node has moved further in the step than any wall does,
// or a piece of wall became much longer or shorter: the iteration has then jumped to
// another balance.
func (s *solver) flung() bool {
	w := s.w
	for i := range w.z {
		if math.Abs(w.z[i]-w.zn[i]) > flungMost || math.Abs(w.r[i]-w.rn[i]) > flungMost {
			return true
		}
		if i == 0 {
			continue
		}
		was := math.Hypot(w.zn[i]-w.zn[i-1], w.rn[i]-w.rn[i-1])
		now := math.Hypot(w.z[i]-w.z[i-1], w.r[i]-w.r[i-1])
		if !(now < was*jumpMost && was < now*jumpMost) {
			return true
		}
	}
	return false
}

// span is the time between the speed of the last step and that of a new one.
func (s *solver) span(step float64) float64 {
	if s.c.Numbers.Theta == 1 || s.last == 0 {
		return step
	}
	return (step + s.last) / 2
}

// ahead is how far rates are carried on over the last two steps; see prepare.
func (s *solver) ahead(step float64) float64 {
	if s.c.Numbers.Theta == 1 || s.before == 0 {
		return 0
	}
	return (step + s.last) / (s.last + s.before)
}

// reach carries the geometry from the point of balance to the end of the step.
func (s *solver) reach(theta float64) bool {
	if theta == 1 {
		return true
	}
	w := s.w
	for i := range w.z {
		w.z[i] = w.zn[i] + (w.z[i]-w.zn[i])/theta
		w.r[i] = w.rn[i] + (w.r[i]-w.rn[i])/theta
		if w.r[i] < 0 {
			copy(w.z, w.zn)
			copy(w.r, w.rn)
			return false
		}
	}
	return true
}

// commit makes the trial the state: histories of the material, speeds, air,
// heat. It returns false when the geometry cannot carry a state.
func (s *solver) commit(dt float64) bool {
	w := s.w
	s.contact(dt)
	if s.prof == nil {
		s.normals()
	}
	if !w.update(s.c.Numbers.Theta, dt) {
		copy(w.z, w.zn)
		copy(w.r, w.rn)
		return false
	}
	V := w.volume() - w.inner
	pa, _ := s.air.pressure(V, dt)
	dV := V - s.V
	m0 := s.air.mass
	in := s.air.advance(dt)
	s.airIn += in
	s.V, s.p = V, pa-s.air.ambient
	s.gasLaw(pa, V)

	s.maxMove = 0
	for i := range w.z {
		dz, dr := w.z[i]-w.zn[i], w.r[i]-w.rn[i]
		s.maxMove = max(s.maxMove, math.Abs(dz), math.Abs(dr))
		if w.kind[i] == nodeFixed || i >= s.heldFrom && w.kind[w.n] == nodeFixed && s.c.Recipe.Rod.Fits {
			w.vz[i], w.vr[i] = 0, 0
			continue
		}
		w.vz[i], w.vr[i] = dz/dt, dr/dt
	}
	s.rates(dt)
	if !s.c.Numbers.Isothermal {
		s.heatStep(dt, true)
	}
	if s.c.Recipe.GasEnergy {
		s.air.warm(m0, in, pa, dV, s.c.Recipe.GasHeat*s.innerArea()*dt, s.innerHeat())
	}
	w.state, w.next = w.next, w.state
	s.t += dt
	s.last, s.before = dt, s.last
	s.hold()
	return true
}

// gasLaw holds the air of the step against the gas law.
func (s *solver) gasLaw(p, V float64) {
	s.gasMass = p * (V + s.air.dead) / (AirConstant * s.air.T)
	s.closure = max(s.closure, math.Abs(s.gasMass/s.air.mass-1))
}

// rates takes the rate that the law holds over the next step from this one.
func (s *solver) rates(dt float64) {
	w := s.w
	net := s.c.Numbers.Rate == RateNetwork
	copy(w.rateWas, w.rate)
	s.maxStrain = 0
	for e := range w.n {
		Q, q, rm := w.shape(e)
		i := e*w.layers + w.layers/2
		a, b := &w.state[i], &w.next[i]
		s.maxStrain = max(s.maxStrain, math.Abs(b.Strain[0]-a.Strain[0]), math.Abs(b.Strain[1]-a.Strain[1]))
		l1 := math.Sqrt(Q) / w.l0[e]
		top := 0.0
		for k := range w.layers {
			i := e*w.layers + k
			a, b := &w.state[i], &w.next[i]
			d1, d2 := (b.Strain[0]-a.Strain[0])/dt, (b.Strain[1]-a.Strain[1])/dt
			if net {
				lam := math.Exp(max(b.Net[0], b.Net[1]))
				w.rate[i] = max(d1, d2, 0) * lam
			} else {
				l2 := math.Sqrt(rm*rm+w.bk[i]*q) / w.rk0[i]
				d1, d2 = d1*l1, d2*l2
				w.rate[i] = max(d1, d2, 0)
			}
			lo, hi := min(d1, d2), max(d1, d2)
			if hi > 1e-9 {
				w.ratio[i] = min(max(lo/hi, 0), 1)
			}
			top = max(top, w.rate[i])
		}
		w.path[e] += top * dt
	}
}
