package blow

import "math"

// pushRod adds the penalty of the rod: a round tip and a shaft of one radius.
// A node closer to its centre line than radius and half wall is pushed out. A
// tip that fits the preform carries what lies over it as it stands. Once the
// gate lies on the mould the rod pins it and goes no further: the gap to the base
// is less than the gate wall, and the squeeze that this means is left out.
func (s *solver) pushRod(tip float64) {
	w := s.w
	rod := &s.c.Recipe.Rod
	s.rodForce = 0
	if math.IsInf(tip, -1) {
		return
	}
	k := s.c.Numbers.RodStiffness
	if w.kind[w.n] == nodeFixed {
		tip = min(tip, w.z[w.n]-w.half[w.n])
	}
	cz := tip - rod.Radius
	for i := 1; i <= w.n; i++ {
		w.onRod[i] = false
		if w.kind[i] == nodeFixed {
			continue
		}
		if rod.Fits && w.r0[i] <= rod.Radius {
			g := w.z0[i] - s.gate + tip - w.z[i]
			if g <= 0 {
				continue
			}
			w.onRod[i] = true
			w.res[2*i] -= k * g
			w.res[2*i+1] += k * (w.r[i] - w.r0[i])
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
