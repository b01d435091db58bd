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

// pushRod adds the penalty of the rod: a round tip and a shaft of one radius.
// A node closer to its centre line than radius and half wall is pushed out.
func (s *solver) pushRod(tip float64) {
	w := s.w
	rod := &s.c.Recipe.Rod
	s.rodForce = 0
	if math.IsInf(tip, -1) {
		return
	}
	k := s.c.Numbers.RodStiffness
	cz := tip - rod.Radius
	for i := 1; i <= w.n; i++ {
		w.onRod[i] = false
		if w.kind[i] == nodeFixed {
			continue
		}
		x, r := w.z[i]-cz, w.r[i]
		reach := rod.Radius + w.half[i]
		if s.c.Numbers.MidContact {
			reach = rod.Radius
		}
		var d, nz, nr float64
		if x > 0 {
			d = math.Sqrt(x*x + r*r)
			if d >= reach || d < 1e-9 {
				continue
			}
			nz, nr = x/d, r/d
		} else {
			d = r
			if d >= reach {
				continue
			}
			nz, nr = 0, 1
		}
		w.onRod[i] = true
		g := reach - d
		w.res[2*i] -= k * g * nz
		w.res[2*i+1] -= k * g * nr
		s.rodForce += k * g * nz
		m := &w.mat.Diag[i]
		c := 0.0
		if x > 0 {
			c = k * g / d // turning of the normal; softens
			if c > 0.5*k {
				c = 0.5 * k
			}
		}
		m[0] += k*nz*nz - c*(1-nz*nz)
		m[1] += (k + c) * nz * nr
		m[2] += (k + c) * nz * nr
		m[3] += k*nr*nr - c*(1-nr*nr)
		if rod.Stick && x > 0 {
			// held sideways where it first touched: no more travel along the tip
			m[3] += k
			w.res[2*i+1] += k * (r - w.rn[i])
		}
	}
}

// friction adds Coulomb's force on sliding nodes, smoothed at standstill. The
// normal force is that of the last step.
func (s *solver) friction(dt float64) {
	w := s.w
	mu := s.c.Recipe.Friction
	if mu <= 0 {
		return
	}
	for i := range w.kind {
		if w.kind[i] != nodeSlide || w.press[i] <= 0 {
			continue
		}
		tz, tr := w.tz[i], w.tr[i]
		v := ((w.z[i]-w.zn[i])*tz + (w.r[i]-w.rn[i])*tr) / dt
		root := math.Sqrt(v*v + slipSpeed*slipSpeed)
		F := mu * w.press[i]
		f := F * v / root
		k := F * slipSpeed * slipSpeed / (root * root * root) / dt
		w.res[2*i] += f * tz
		w.res[2*i+1] += f * tr
		m := &w.mat.Diag[i]
		m[0] += k * tz * tz
		m[1] += k * tz * tr
		m[2] += k * tz * tr
		m[3] += k * tr * tr
	}
}

// constrain takes out what cannot move: fixed nodes, the radius on the axis,
// and the normal of sliding nodes, whose rows are turned to tangent and
// normal first.
func (s *solver) constrain() {
	w := s.w
	m := w.mat
	for i, kind := range w.kind {
		switch kind {
		case nodeFree:
			continue
		case nodeFixed:
			m.Diag[i] = [4]float64{1, 0, 0, 1}
			m.Lower[i], m.Upper[i] = [4]float64{}, [4]float64{}
			w.res[2*i], w.res[2*i+1] = 0, 0
			w.grad[2*i], w.grad[2*i+1] = 0, 0
		case nodeAxis:
			d := &m.Diag[i]
			d[1], d[2], d[3] = 0, 0, 1
			m.Lower[i][2], m.Lower[i][3] = 0, 0
			m.Upper[i][2], m.Upper[i][3] = 0, 0
			w.res[2*i+1], w.grad[2*i+1] = 0, 0
		case nodeSlide:
			tz, tr := w.tz[i], w.tr[i]
			w.pressNow[i] = w.res[2*i]*tr - w.res[2*i+1]*tz // what the mould pushes back
			// first unknown: along the tangent; second held
			d := m.Diag[i]
			m.Diag[i] = [4]float64{tz*(d[0]*tz+d[1]*tr) + tr*(d[2]*tz+d[3]*tr), 0, 0, 1}
			l, u := m.Lower[i], m.Upper[i]
			m.Lower[i] = [4]float64{tz*l[0] + tr*l[2], tz*l[1] + tr*l[3], 0, 0}
			m.Upper[i] = [4]float64{tz*u[0] + tr*u[2], tz*u[1] + tr*u[3], 0, 0}
			if i > 0 {
				c := m.Upper[i-1]
				m.Upper[i-1] = [4]float64{c[0]*tz + c[1]*tr, 0, c[2]*tz + c[3]*tr, 0}
			}
			if i < w.n {
				c := m.Lower[i+1]
				m.Lower[i+1] = [4]float64{c[0]*tz + c[1]*tr, 0, c[2]*tz + c[3]*tr, 0}
			}
			w.res[2*i], w.res[2*i+1] = w.res[2*i]*tz+w.res[2*i+1]*tr, 0
			w.grad[2*i], w.grad[2*i+1] = w.grad[2*i]*tz+w.grad[2*i+1]*tr, 0
		}
	}
}

// unrotate turns the step of sliding nodes back to z and r.
func (s *solver) unrotate() {
	w := s.w
	for i, kind := range w.kind {
		if kind == nodeSlide {
			a := w.res[2*i]
			w.res[2*i], w.res[2*i+1] = a*w.tz[i], a*w.tr[i]
		}
	}
}

// contact holds the outer face inside the mould: a node that went through is
// put where its path crossed the face and kept there, or, with friction, on
// the face and left to slide.
func (s *solver) contact(dt float64) {
	w := s.w
	if s.prof == nil {
		return
	}
	s.normals()
	slide := s.c.Recipe.Friction > 0
	for i := 1; i <= w.n; i++ {
		if w.kind[i] == nodeFixed {
			continue
		}
		h, nz, nr := w.half[i], w.nz[i], w.nr[i]
		oz, or := w.z[i]+h*nz, w.r[i]+h*nr
		if w.kind[i] != nodeSlide && math.Hypot(oz-s.outZ[i], or-s.outR[i]) < s.outD[i] {
			continue
		}
		d, _, mz, mr := s.prof.distance(oz, max(or, 0))
		if w.kind[i] == nodeSlide {
			w.press[i] = w.pressNow[i]
			switch v := math.Hypot(w.z[i]-w.zn[i], w.r[i]-w.rn[i]) / dt; {
			case w.press[i] < 0:
				w.kind[i] = nodeFree // the mould doesn't pull
			case s.high && s.p > stuckShare*float64(s.c.Recipe.High.Pressure) && v < stuckSpeed*slipSpeed:
				w.kind[i] = nodeFixed // pressure only rises from here on
			default:
				w.z[i] -= d * mz
				w.r[i] -= d * mr
				w.tz[i], w.tr[i] = -mr, mz
			}
			s.outD[i] = 0
			continue
		}
		s.outZ[i], s.outR[i], s.outD[i] = oz, or, max(d, 0)
		if d > contactTol {
			continue
		}
		f := 0.0
		az, ar := w.zn[i]+h*nz, w.rn[i]+h*nr
		d0, _, _, _ := s.prof.distance(az, max(ar, 0))
		if d0 > 0 {
			f = d0 / (d0 - d)
		}
		if slide && i < w.n {
			w.z[i] -= d * mz
			w.r[i] -= d * mr
			w.kind[i] = nodeSlide
			w.tz[i], w.tr[i] = -mr, mz
			w.press[i] = 0 // unknown yet
		} else {
			z, r := w.zn[i]+f*(w.z[i]-w.zn[i]), w.rn[i]+f*(w.r[i]-w.rn[i])
			for range 3 { // onto the face
				d, _, mz, mr := s.prof.distance(z+h*nz, max(r+h*nr, 0))
				if i == w.n {
					// along the axis only
					if math.Abs(mz) < 0.1 {
						break
					}
					z -= d / mz
					continue
				}
				z -= d * mz
				r -= d * mr
			}
			w.z[i], w.r[i] = z, r
			w.kind[i] = nodeFixed
		}
		if w.touched[i] < 0 {
			w.touched[i] = s.t + f*dt
		}
	}
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
		if w.kind[i] == nodeFixed {
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
	return true
}

// gasLaw holds the air of the step against the gas law.
func (s *solver) gasLaw(p, V float64) {
	s.gasMass = p * (V + s.air.dead) / (gasR * s.air.T)
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
			w.rateTop[e] = max(w.rateTop[e], w.rate[i])
		}
	}
}
