package shell

import (
	"fmt"
	"math"

	"costrel/num/sym"
)

// eval adds inner forces to -r and the tangent to K at the displacements u;
// strains of the points go to now. K may be nil.
func (m *Model) eval(r []float64, K *sym.Band) error {
	var kb [36]float64
	for i := range m.mesh.el {
		e := &m.mesh.el[i]
		u := m.u[3*i : 3*i+6]
		il := 1 / e.l
		xr, xz := e.tr+(u[3]-u[0])*il, e.tz+(u[4]-u[1])*il
		beta := 0.5 * (u[2] + u[5])
		s, c := sincos(beta)
		nr, nz := e.tz, -e.tr
		ar, az := c*e.tr-s*nr, c*e.tz-s*nz
		dr, dz := c*nr+s*e.tr, c*nz+s*e.tz
		es := xr*ar + xz*az - 1
		ga := xr*dr + xz*dz
		// The wall between the nodes is an arc: longer than its chord by its turn
		// squared over 24, outside of it by a twelfth of its turn in the mean; and a
		// cubic over the chord by its shear.
		db := u[5] - u[2]
		bent := e.turn + db
		es += db*(2*e.turn+db)/24 + 0.5*e.slack*ga*ga
		l8 := e.l / 12
		eh := (0.5*(u[0]+u[3]) + l8*(dr*bent-nr*e.turn)) / e.rm
		ks := db * il
		kh := (dr - nr) / e.rm
		if !(es > -0.9) || !(eh > -0.9) || es > 10 || eh > 10 {
			return fmt.Errorf("element %d at z ‹%.2f mm›: strain %.3g along, %.3g round", i+1, 1e3*m.mesh.Z[i], es, eh)
		}
		// Section.
		var ns, nh, ms, mh float64
		var c00, c01, c11, c02, c03, c13, c22, c23, c33 float64 // by the strains in the same order
		half := 0.5 * e.t
		for k := range e.layer {
			z, w := zeta[k]*half, weight[k]*e.t
			l := [2]float64{1 + es + z*ks, 1 + eh + z*kh}
			if l[0] <= 0.05 || l[1] <= 0.05 {
				return fmt.Errorf("element %d at z ‹%.2f mm›: the wall folds", i+1, 1e3*m.mesh.Z[i])
			}
			x := [2]float64{logStretch(l[0]), logStretch(l[1])}
			var tau [2]float64
			var T sym2
			at := Points*i + k
			if m.plastic {
				var err error
				tau, T, err = m.flow.update(&e.law[k], x, &m.old[at], &m.now[at])
				if err != nil {
					return fmt.Errorf("element %d at z ‹%.2f mm›: %w", i+1, 1e3*m.mesh.Z[i], err)
				}
			} else {
				T = e.law[k].C
				f := m.flow.soft
				T = sym2{T.s * f, T.c * f, T.h * f}
				if m.cs.Green {
					tau, T = green(T, l)
				} else {
					tau = T.mul(x)
				}
			}
			m.tangent[at] = T
			is, ih := 1/l[0], 1/l[1]
			fs, fh := w*tau[0]*is, w*tau[1]*ih
			css, csh, chh := w*(T.s-tau[0])*is*is, w*T.c*is*ih, w*(T.h-tau[1])*ih*ih
			ns += fs
			nh += fh
			ms += z * fs
			mh += z * fh
			c00 += css
			c01 += csh
			c11 += chh
			css, csh, chh = z*css, z*csh, z*chh
			c02 += css
			c03 += csh
			c13 += chh
			c22 += z * css
			c23 += z * csh
			c33 += z * chh
		}
		gs := e.gs * m.flow.soft
		Q := gs * ga
		m.force[i] = Resultant{ns, nh, ms, mh, Q}
		w := 2 * math.Pi * e.rm * e.l
		// Rows of strain by (ur1, uz1, b1, ur2, uz2, b2).
		along := xr*ar + xz*az
		hb, b12, ir := 0.5*along, bent/12, 1/e.rm
		hs, hd := 0.5*l8*ar*bent*ir, l8*dr*ir
		B := [5][6]float64{
			{-ar * il, -az * il, -0.5*ga - b12, ar * il, az * il, -0.5*ga + b12},
			{0.5 * ir, 0, hs - hd, 0.5 * ir, 0, hs + hd},
			{0, 0, -il, 0, 0, il},
			{0, 0, 0.5 * ar * ir, 0, 0, 0.5 * ar * ir},
			{-dr * il, -dz * il, hb, dr * il, dz * il, hb},
		}
		for x := range 6 {
			B[0][x] += e.slack * ga * B[4][x]
		}
		f := r[3*i : 3*i+6]
		for x := range 6 {
			f[x] -= w * (ns*B[0][x] + nh*B[1][x] + ms*B[2][x] + mh*B[3][x] + Q*B[4][x])
		}
		if K == nil {
			continue
		}
		shear := w * (gs + e.slack*ns)
		c00, c01, c11, c02, c03, c13, c22, c23, c33 = w*c00, w*c01, w*c11, w*c02, w*c03, w*c13, w*c22, w*c23, w*c33
		var CB [5][6]float64
		for x := range 6 {
			b0, b1, b2, b3 := B[0][x], B[1][x], B[2][x], B[3][x]
			CB[0][x] = c00*b0 + c01*b1 + c02*b2 + c03*b3
			CB[1][x] = c01*b0 + c11*b1 + c03*b2 + c13*b3
			CB[2][x] = c02*b0 + c03*b1 + c22*b2 + c23*b3
			CB[3][x] = c03*b0 + c13*b1 + c23*b2 + c33*b3
			CB[4][x] = shear * B[4][x]
		}
		for x := range 6 {
			b0, b1, b4 := B[0][x], B[1][x], B[4][x]
			row := kb[6*x : 6*x+x+1]
			if x%3 != 2 { // the wall bends by turns alone
				for y := range row {
					row[y] = b0*CB[0][y] + b1*CB[1][y] + b4*CB[4][y]
				}
				continue
			}
			b2, b3 := B[2][x], B[3][x]
			for y := range row {
				row[y] = b0*CB[0][y] + b1*CB[1][y] + b2*CB[2][y] + b3*CB[3][y] + b4*CB[4][y]
			}
		}
		// Second derivatives of the strains.
		Q += e.slack * ns * ga
		xb := 0.5 * w * il
		vr, vz := xb*(-ns*dr+Q*ar), xb*(-ns*dz+Q*az) // (ur2 or uz2) with b
		bb := 0.25 * w * (-ns*along - Q*ga - (mh+nh*l8*bent)*dr*ir)
		arc, sag := w*ns/12, w*nh*l8*ar*ir
		kb[6*2+0] -= vr
		kb[6*2+1] -= vz
		kb[6*5+0] -= vr
		kb[6*5+1] -= vz
		kb[6*5+3] += vr
		kb[6*5+4] += vz
		kb[6*3+2] += vr
		kb[6*4+2] += vz
		kb[6*2+2] += bb + arc - sag
		kb[6*5+5] += bb + arc + sag
		kb[6*5+2] += bb - arc
		K.AddBlock(3*i, 6, kb[:])
	}
	return nil
}

// green returns the Kirchhoff stress and its slope by logarithmic strain of the
// law of Saint Venant at the stretches l.
func green(C sym2, l [2]float64) ([2]float64, sym2) {
	a, h := l[0]*l[0], l[1]*l[1]
	S := C.mul([2]float64{0.5 * (a - 1), 0.5 * (h - 1)})
	tau := [2]float64{S[0] * a, S[1] * h}
	return tau, sym2{C.s*a*a + 2*tau[0], C.c * a * h, C.h*h*h + 2*tau[1]}
}

// logStretch returns the logarithm of a stretch to rounding; within a fifth of
// 1 by its series in (l-1)/(l+1), which is three times as fast.
func logStretch(l float64) float64 {
	if l < 0.82 || l > 1.22 {
		return math.Log(l)
	}
	y := (l - 1) / (l + 1)
	q := y * y
	return 2 * y * (1 + q*(1.0/3+q*(1.0/5+q*(1.0/7+q*(1.0/9+q*(1.0/11+q*(1.0/13+q/15)))))))
}

// sincos returns sine and cosine to rounding; of a small turn by their series,
// which is twice as fast.
func sincos(x float64) (s, c float64) {
	if x < -0.4 || x > 0.4 {
		return math.Sincos(x)
	}
	q := x * x
	s = x * (1 - q*(1.0/6)*(1-q*(1.0/20)*(1-q*(1.0/42)*(1-q*(1.0/72)*(1-q*(1.0/110)*(1-q*(1.0/156)))))))
	c = 1 - q*(1.0/2)*(1-q*(1.0/12)*(1-q*(1.0/30)*(1-q*(1.0/56)*(1-q*(1.0/90)*(1-q*(1.0/132)*(1-q*(1.0/182)))))))
	return s, c
}
