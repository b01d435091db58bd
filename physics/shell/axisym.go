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
		s, c := math.Sincos(beta)
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
		var N [4]float64 // ns, nh, ms, mh
		var C [4][4]float64
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
			N[0] += fs
			N[1] += fh
			N[2] += z * fs
			N[3] += z * fh
			C[0][0] += css
			C[0][1] += csh
			C[1][1] += chh
			C[0][2] += z * css
			C[0][3] += z * csh
			C[1][3] += z * chh
			C[2][2] += z * z * css
			C[2][3] += z * z * csh
			C[3][3] += z * z * chh
		}
		gs := e.gs * m.flow.soft
		Q := gs * ga
		m.force[i] = Resultant{N[0], N[1], N[2], N[3], Q}
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
			f[x] -= w * (N[0]*B[0][x] + N[1]*B[1][x] + N[2]*B[2][x] + N[3]*B[3][x] + Q*B[4][x])
		}
		if K == nil {
			continue
		}
		C[1][2] = C[0][3]
		var CB [5][6]float64
		for x := range 6 {
			b0, b1, b2, b3 := B[0][x], B[1][x], B[2][x], B[3][x]
			CB[0][x] = C[0][0]*b0 + C[0][1]*b1 + C[0][2]*b2 + C[0][3]*b3
			CB[1][x] = C[0][1]*b0 + C[1][1]*b1 + C[1][2]*b2 + C[1][3]*b3
			CB[2][x] = C[0][2]*b0 + C[1][2]*b1 + C[2][2]*b2 + C[2][3]*b3
			CB[3][x] = C[0][3]*b0 + C[1][3]*b1 + C[2][3]*b2 + C[3][3]*b3
			CB[4][x] = (gs + e.slack*N[0]) * B[4][x]
		}
		for x := range 6 {
			for y := 0; y <= x; y++ {
				kb[6*x+y] = w * (B[0][x]*CB[0][y] + B[1][x]*CB[1][y] + B[2][x]*CB[2][y] + B[3][x]*CB[3][y] + B[4][x]*CB[4][y])
			}
		}
		// Second derivatives of the strains.
		Q += e.slack * N[0] * ga
		xb := 0.5 * w * il
		vr, vz := xb*(-N[0]*dr+Q*ar), xb*(-N[0]*dz+Q*az) // (ur2 or uz2) with b
		bb := 0.25 * w * (-N[0]*along - Q*ga - (N[3]+N[1]*l8*bent)*dr*ir)
		arc, sag := w*N[0]/12, w*N[1]*l8*ar*ir
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
