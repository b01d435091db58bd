package blow

import "math"

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
		d, mz, mr := s.prof.closed(oz, max(or, 0))
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
		d0, _, _ := s.prof.closed(az, max(ar, 0))
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
				d, mz, mr := s.prof.closed(z+h*nz, max(r+h*nr, 0))
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
		if i == w.n && s.c.Recipe.Rod.Fits && w.kind[i] == nodeFixed {
			s.settle()
		}
	}
}
