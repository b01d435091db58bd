package blow

import "math"

// pushRod adds the penalty of the rod: a round tip and a shaft of one radius.
// A node closer to its centre line than radius and half wall is pushed out. A
// tip that fits the preform carries what lies over it, as one piece, until it
// peels off. Once the gate lies on the mould the rod goes no further.
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
		tip = min(tip, w.z[w.n]-s.cap[w.n].z-inner)
	}
	cz := tip - rod.Radius
	for i := 1; i <= w.n; i++ {
		w.onRod[i] = false
		if w.kind[i] == nodeFixed {
			continue
		}
		if rod.Fits && w.r0[i] <= rod.Radius {
			if i < s.heldFrom {
				continue
			}
			w.onRod[i] = true
			g, b := tip+inner+s.cap[i].z-w.z[i], s.cap[i].r-w.r[i]
			w.res[2*i] -= k * g
			w.res[2*i+1] -= k * b
			s.cap[i].push = k * (g*w.nz[i] + b*w.nr[i])
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
// a gate that lies on it, and its radius; its depth on the preform, which is the shape of
// the tip; and the force with which the tip pushes it out.
type take struct{ z, r, shape, push float64 }

// gripReach is how far off the tip plastic counts as lying on it [m].
const gripReach = 0.1e-3

// hold looks after a step how far the tip still carries the end cap. The plastic
// peels off from the edge of the cap inwards, a node a step at most, where the
// tip would have to pull it: no air presses under what lies on the tip. Air that
// pulls at the whole cap lets it go. What comes to lie on the tip again is carried
// as it then is.
func (s *solver) hold() {
	w := s.w
	if !s.c.Recipe.Rod.Fits || math.IsInf(s.tip(s.t), -1) {
		return
	}
	gate := s.tip(s.t) + w.half[w.n]
	if w.kind[w.n] == nodeFixed {
		s.clamp()
		gate = min(gate, w.z[w.n]-s.cap[w.n].z)
	}
	i := s.heldFrom
	if i <= w.n && w.kind[i] != nodeFixed {
		switch {
		case w.kind[w.n] != nodeFixed && s.rodForce < 0:
			s.heldFrom, s.cap[w.n].z = w.n+1, 0
			return
		case i < w.n:
			under := math.Hypot(w.z[i+1]-w.z[i], w.r[i+1]-w.r[i]) / 2
			if s.cap[i].push < -s.p*2*math.Pi*w.r[i]*under {
				s.heldFrom++
				return
			}
		}
	}
	for i := s.heldFrom - 1; i > 0 && w.kind[i] != nodeFixed && w.r0[i] <= s.c.Recipe.Rod.Radius; i-- {
		if w.z[i] > gate+s.cap[i].shape+gripReach {
			return
		}
		s.cap[i].z, s.cap[i].r = w.z[i]-gate, w.r[i]
		s.heldFrom = i
	}
}

// grip takes the end cap of the preform.
func (s *solver) grip() {
	w := s.w
	s.heldFrom = w.n
	for i := range s.cap {
		z := w.z[i] - w.z[w.n]
		s.cap[i] = take{z: z, r: w.r[i], shape: z}
		if i > 0 && w.r0[i] <= s.c.Recipe.Rod.Radius {
			s.heldFrom = min(s.heldFrom, i)
		}
	}
}

// settle puts the end cap back over the tip when the gate comes to lie on the
// mould and the tip stops short of where the step led it.
func (s *solver) settle() {
	w := s.w
	for i := s.heldFrom; i < w.n; i++ {
		if w.kind[i] != nodeFixed {
			w.z[i], w.r[i] = w.z[w.n]-s.cap[w.n].z+s.cap[i].z, s.cap[i].r
		}
	}
}

// clamp holds for good what lies between tip and mould where the gap that the tip
// leaves is less than the wall: the trade sets the gap less than the gate wall. The
// squeeze is left out.
func (s *solver) clamp() {
	w := s.w
	R := s.c.Recipe.Rod.Radius
	centre := s.tip(s.t) - R
	for i := w.n - 1; i > 0 && w.r[i] < R; i-- {
		if w.kind[i] == nodeFixed {
			continue
		}
		if d, _, _ := s.prof.closed(centre+math.Sqrt(R*R-w.r[i]*w.r[i]), w.r[i]); d > 2*w.half[i] {
			return
		}
		w.kind[i] = nodeFixed
		w.vz[i], w.vr[i] = 0, 0
		if w.touched[i] < 0 {
			w.touched[i] = s.t
		}
	}
}
