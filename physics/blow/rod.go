package blow

import "math"

// pushRod adds the penalty of the rod: a round tip and a shaft of one radius.
// A node closer to its centre line than radius and half wall is pushed out. A
// tip that fits the preform carries what lies over it, as one piece, until the
// air pulls it off. Once the gate lies on the mould the rod pins it and goes no
// further: the gap to the base is less than the gate wall, and the squeeze that
// this means is left out.
func (s *solver) pushRod(tip float64) {
	w := s.w
	rod := &s.c.Recipe.Rod
	s.rodForce = 0
	if math.IsInf(tip, -1) {
		return
	}
	k := s.c.Numbers.RodStiffness
	inner := w.half[w.n]
	if w.kind[w.n] == nodeFixed {
		tip = min(tip, w.z[w.n]-inner)
	}
	cz := tip - rod.Radius
	for i := 1; i <= w.n; i++ {
		w.onRod[i] = false
		if w.kind[i] == nodeFixed {
			continue
		}
		if rod.Fits && w.r0[i] <= rod.Radius {
			if !s.held {
				continue
			}
			w.onRod[i] = true
			g := tip + inner + s.cap[i].z - w.z[i]
			w.res[2*i] -= k * g
			w.res[2*i+1] += k * (w.r[i] - s.cap[i].r)
			w.mat.Diag[i][0] += k
			w.mat.Diag[i][3] += k
			s.rodForce += k * g
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
	}
}

// take is where a node of the end cap stands over the tip: its depth less that of
// the gate, and its radius.
type take struct{ z, r float64 }

// hold looks after a step whether the tip still carries the end cap: air that
// pulls lets it go, a tip that comes up to it takes it as it then is.
func (s *solver) hold() {
	w := s.w
	if !s.c.Recipe.Rod.Fits {
		return
	}
	switch {
	case s.held && s.rodForce < 0:
		s.held = false
	case !s.held && w.kind[w.n] != nodeFixed && s.tip(s.t) >= w.z[w.n]-w.half[w.n]:
		s.grip()
	}
}

// grip takes the end cap as it stands.
func (s *solver) grip() {
	w := s.w
	s.held = true
	for i := range s.cap {
		s.cap[i] = take{w.z[i] - w.z[w.n], w.r[i]}
	}
}
