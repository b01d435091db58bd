package shell

import (
	"math"

	"costrel/num/sym"
)

// facePoint is a node of the pressure face as it is, and its first and second
// derivatives by the turn of the node.
type facePoint struct{ r, z, rb, zb, rbb, zbb float64 }

// volume returns the volume inside the pressure face and, unless nil, adds its
// gradient to g and -p times its second derivative to K.
//
//	V = π/3 Σ (r1² + r1 r2 + r2²) (z2 - z1)
//
// over the offset polyline, which turns with the nodes, and the arcs on it.
func (m *Model) volume(g []float64, K *sym.Band, p float64) float64 {
	m.placeFaces()
	return m.inside(g, K, p)
}

// placeFaces sets the nodes of the pressure face by the displacements.
func (m *Model) placeFaces() {
	for i := range m.faces {
		u := m.u[3*i : 3*i+3]
		s, c := sincos(u[2])
		nr, nz := m.mesh.NR[i], m.mesh.NZ[i]
		o := -m.off[i]
		dr, dz := o*(c*nr-s*nz), o*(c*nz+s*nr)
		m.faces[i] = facePoint{m.mesh.R[i] + u[0] + dr, m.mesh.Z[i] + u[1] + dz, -dz, dr, -dr, -dz}
	}
}

// inside is volume over the faces as they were placed last.
func (m *Model) inside(g []float64, K *sym.Band, p float64) float64 {
	V := 0.0
	var h [36]float64
	const k = math.Pi / 3
	for i := range m.mesh.el {
		a, b := &m.faces[i], &m.faces[i+1]
		dz := b.z - a.z
		sq := a.r*a.r + a.r*b.r + b.r*b.r
		V += k * sq * dz
		// Between the nodes the wall is an arc: 2π r times the area L² κ/12 of its
		// segment, which loads the nodes with the moments of a beam.
		e := &m.mesh.el[i]
		u := m.u[3*i : 3*i+6]
		const ka = math.Pi / 6
		er, ez := e.l*e.tr+u[3]-u[0], e.l*e.tz+u[4]-u[1]
		rm, l2, bent := e.r+0.5*(u[0]+u[3]), er*er+ez*ez, e.turn+u[5]-u[2]
		V += ka * rm * l2 * bent
		if g == nil {
			continue
		}
		q := ka * bent
		// By a displacement of the arc and its turn.
		c0, c1, c3 := ka*(0.5*l2-2*rm*er), -2*ka*rm*ez, ka*(0.5*l2+2*rm*er)
		c5 := ka * rm * l2
		v1, v2 := k*(2*a.r+b.r)*dz, k*(a.r+2*b.r)*dz
		vz := k * sq
		f := g[3*i : 3*i+6]
		f[0] += v1 + bent*c0
		f[1] += bent*c1 - vz
		f[2] += v1*a.rb - vz*a.zb - c5
		f[3] += v2 + bent*c3
		f[4] += vz - bent*c1
		f[5] += v2*b.rb + vz*b.zb + c5
		if K == nil || p == 0 {
			continue
		}
		// Second derivatives by (r1, z1, b1, r2, z2, b2), times -p: those of the
		// cone, by its radii and its height, and those of the arc.
		h11, h12 := -2*p*k*dz, -p*k*dz
		w1, w2 := -p*k*(2*a.r+b.r), -p*k*(a.r+2*b.r)
		c0, c1, c3, q = -p*c0, -p*c1, -p*c3, -p*q
		h[0] = h11 + 2*q*(rm-er)
		h[6], h[7] = -w1-q*ez, 2*q*rm
		h[12] = h11*a.rb - w1*a.zb - c0
		h[13] = -w1*a.rb - c1
		h[14] = a.rb*(h11*a.rb-2*w1*a.zb) - p*(v1*a.rbb-vz*a.zbb)
		h[18], h[19] = h12-2*q*rm, -w2-q*ez
		h[20] = h12*a.rb - w2*a.zb - c3
		h[21] = h11 + 2*q*(rm+er)
		h[24], h[25] = w1+q*ez, -2*q*rm
		h[26], h[27] = w1*a.rb+c1, w2+q*ez
		h[28] = 2 * q * rm
		h[30] = h12*b.rb + w1*b.zb + c0
		h[31] = -w2*b.rb + c1
		h[32] = h12*a.rb*b.rb + w1*a.rb*b.zb - w2*b.rb*a.zb
		h[33] = h11*b.rb + w2*b.zb + c3
		h[34] = w2*b.rb - c1
		h[35] = b.rb*(h11*b.rb+2*w2*b.zb) - p*(v2*b.rbb+vz*b.zbb)
		K.AddBlock(3*i, 6, h[:])
	}
	if m.cs.Open && g != nil {
		// Take off what the formula gives the ends as if they were capped.
		first, last := &m.faces[0], &m.faces[m.n-1]
		g[1] += math.Pi * first.r * first.r
		g[2] += math.Pi * first.r * first.r * first.zb
		g[3*(m.n-1)+1] -= math.Pi * last.r * last.r
		g[3*(m.n-1)+2] -= math.Pi * last.r * last.r * last.zb
	}
	return V
}
