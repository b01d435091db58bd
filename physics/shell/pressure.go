package shell

import (
	"math"

	"costrel/num/sym"
)

// volume returns the volume inside the pressure face and, unless nil, adds its
// gradient to g and -p times its second derivative to K.
//
//	V = π/3 Σ (r1² + r1 r2 + r2²) (z2 - z1)
//
// over the offset polyline, which turns with the nodes, and the arcs on it.
func (m *Model) volume(g []float64, K *sym.Band, p float64) float64 {
	V := 0.0
	type point struct{ r, z, rb, zb, rbb, zbb float64 }
	at := func(i int) point {
		s, c := math.Sincos(m.u[3*i+2])
		nr, nz := m.mesh.NR[i], m.mesh.NZ[i]
		tr, tz := -nz, nr
		dr, dz := c*nr+s*tr, c*nz+s*tz
		ar, az := c*tr-s*nr, c*tz-s*nz
		o := -m.off[i]
		return point{m.mesh.R[i] + m.u[3*i] + o*dr, m.mesh.Z[i] + m.u[3*i+1] + o*dz, o * ar, o * az, -o * dr, -o * dz}
	}
	var h [36]float64
	const k = math.Pi / 3
	a := at(0)
	for i := range m.mesh.el {
		b := at(i + 1)
		dz := b.z - a.z
		sq := a.r*a.r + a.r*b.r + b.r*b.r
		V += k * sq * dz
		// Between the nodes the wall is an arc: 2π r times the area L² κ/12 of its
		// segment, which loads the nodes with the moments of a beam.
		e := &m.mesh.el[i]
		u := m.u[3*i : 3*i+6]
		const ka = math.Pi / 6
		er, ez := m.mesh.R[i+1]-m.mesh.R[i]+u[3]-u[0], m.mesh.Z[i+1]-m.mesh.Z[i]+u[4]-u[1]
		rm, l2, bent := e.r+0.5*(u[0]+u[3]), er*er+ez*ez, e.turn+u[5]-u[2]
		V += ka * rm * l2 * bent
		if g != nil {
			q := ka * bent
			o := [6]float64{q * (0.5*l2 - 2*rm*er), -2 * q * rm * ez, -ka * rm * l2, q * (0.5*l2 + 2*rm*er), 2 * q * rm * ez, ka * rm * l2}
			for x, v := range o {
				g[3*i+x] += v
			}
			v1, v2 := k*(2*a.r+b.r)*dz, k*(a.r+2*b.r)*dz
			vz := k * sq
			j := 3 * i
			g[j] += v1
			g[j+1] -= vz
			g[j+2] += v1*a.rb - vz*a.zb
			g[j+3] += v2
			g[j+4] += vz
			g[j+5] += v2*b.rb + vz*b.zb
			if K != nil && p != 0 {
				h11, h12, h22 := 2*k*dz, k*dz, 2*k*dz
				w1, w2 := k*(2*a.r+b.r), k*(a.r+2*b.r) // d vz / d r1, r2
				// Second derivatives by (r1, z1, b1, r2, z2, b2).
				d1 := [6]float64{1, 0, a.rb, 0, 0, 0} // of r1
				d2 := [6]float64{0, 0, 0, 1, 0, b.rb} // of r2
				dd := [6]float64{0, -1, -a.zb, 0, 1, b.zb}
				for x := range 6 {
					for y := 0; y <= x; y++ {
						h[6*x+y] = -p * (h11*d1[x]*d1[y] + h22*d2[x]*d2[y] + h12*(d1[x]*d2[y]+d2[x]*d1[y]) +
							(w1*d1[x]+w2*d2[x])*dd[y] + (w1*d1[y]+w2*d2[y])*dd[x])
					}
				}
				// Of the arc: by a displacement and a turn, by two displacements.
				c := [5]float64{ka * (0.5*l2 - 2*rm*er), -2 * ka * rm * ez, 0, ka * (0.5*l2 + 2*rm*er), 2 * ka * rm * ez}
				for x, v := range c {
					h[6*5+x] -= p * v
					if x > 2 {
						h[6*x+2] += p * v
					} else {
						h[6*2+x] += p * v
					}
				}
				h[0] -= p * q * 2 * (rm - er)
				h[6*3] += p * q * 2 * rm
				h[6*3+3] -= p * q * 2 * (rm + er)
				h[6] += p * q * ez
				h[6*4] -= p * q * ez
				h[6*3+1] += p * q * ez
				h[6*4+3] -= p * q * ez
				h[6+1] -= p * q * 2 * rm
				h[6*4+1] += p * q * 2 * rm
				h[6*4+4] -= p * q * 2 * rm
				h[6*2+2] -= p * (v1*a.rbb - vz*a.zbb)
				h[6*5+5] -= p * (v2*b.rbb + vz*b.zbb)
				K.AddBlock(j, 6, h[:])
			}
		}
		a = b
	}
	if m.cs.Open && g != nil {
		// Take off what the formula gives the ends as if they were capped.
		first, last := at(0), at(m.n-1)
		g[1] += math.Pi * first.r * first.r
		g[2] += math.Pi * first.r * first.r * first.zb
		g[3*(m.n-1)+1] -= math.Pi * last.r * last.r
		g[3*(m.n-1)+2] -= math.Pi * last.r * last.r * last.zb
	}
	return V
}
