package shell

import (
	"math"

	"costrel/num/sym"
)

// harmonic holds the matrices of one Fourier harmonic: five unknowns a node,
// radial u_r, axial u_z and turn β ∝ cos nθ, round v and twist β_θ ∝ sin nθ.
type harmonic struct {
	n     int // dimension
	K, G  *sym.Band
	K2    *sym.Band
	pen   *sym.Pencil
	fixed []bool
	mode  []float64
	first *waves // of a state
	other *waves // of a second one: the load that grows
}

const perNode = 5

func newHarmonic(nodes int) *harmonic {
	n := perNode * nodes
	return &harmonic{
		n: n, K: sym.NewBand(n, 2*perNode-1), G: sym.NewBand(n, 2*perNode-1), K2: sym.NewBand(n, 2*perNode-1),
		pen: sym.NewPencil(n, 2*perNode-1), fixed: make([]bool, n), mode: make([]float64, n),
		first: newWaves(n), other: newWaves(n),
	}
}

// prestress is the state a harmonic is disturbed from: true form, forces per
// unit of present width, and pressure.
type prestress struct {
	r, z, t, off []float64 // nodes; off along the normal to the pressure face
	beta         []float64 // turn of nodes
	normR, normZ []float64 // unloaded normals of nodes, shared with the mesh
	ns, nh       []float64 // elements
	tan          []sectionStiffness
	touch        []bearing // nodes held by the floor
	p            float64
	load         float64
}

// bearing is a node on the floor with the stiffness under it [N/m].
type bearing struct {
	node  int
	stiff float64
}

type sectionStiffness struct {
	a, b, d sym2
	g, gd   float64
}

func newPrestress(nodes int) *prestress {
	v := make([]float64, 5*nodes+2*nodes)
	next := func() []float64 { x := v[:nodes:nodes]; v = v[nodes:]; return x }
	return &prestress{
		r: next(), z: next(), t: next(), off: next(), beta: next(), ns: next(), nh: next(),
		tan: make([]sectionStiffness, nodes),
	}
}

// take fills the prestress from the model: from its state when deformed is
// true, else its forces on the unloaded form (the linear theory).
func (p *prestress) take(m *Model, deformed bool) {
	p.p, p.load = m.p, m.load
	p.normR, p.normZ = m.mesh.NR, m.mesh.NZ
	p.touch = p.touch[:0]
	if f := m.floor; f != nil {
		if deformed {
			m.touching(func(i int) {
				_, k := m.push(i)
				p.touch = append(p.touch, bearing{i, k})
			})
		} else {
			p.touch = append(p.touch, bearing{f.ring, 1e3 * f.stiff})
		}
	}
	for i := range m.n {
		p.r[i], p.z[i], p.t[i], p.off[i], p.beta[i] = m.mesh.R[i], m.mesh.Z[i], m.mesh.T[i], -m.off[i], 0
		if deformed {
			p.r[i] += m.u[3*i]
			p.z[i] += m.u[3*i+1]
			p.beta[i] = m.u[3*i+2]
		}
	}
	f := m.flow.soft
	for i := range m.mesh.el {
		e := &m.mesh.el[i]
		q := &m.force[i]
		s := &p.tan[i]
		p.ns[i], p.nh[i] = q.ns, q.nh
		*s = sectionStiffness{e.a, e.b, e.d, e.g, e.gd}
		scale := f
		if deformed {
			r := 0.5 * (p.r[i] + p.r[i+1])
			l := math.Hypot(p.r[i+1]-p.r[i], p.z[i+1]-p.z[i])
			p.ns[i] *= e.r / r
			p.nh[i] *= e.l / l
			thin := m.thinning(i)
			if m.plastic {
				*s = sectionStiffness{g: e.g * f, gd: e.gd * f}
				half := 0.5 * e.t
				for k := range e.layer {
					T := m.tangent[Points*i+k]
					z, w := zeta[k]*half, weight[k]*e.t
					s.a.add(w, T)
					s.b.add(w*z, T)
					s.d.add(w*z*z, T)
				}
				scale = 1
			}
			s.scale(scale*thin, thin)
			continue
		}
		s.scale(scale, 1)
	}
}

// scale multiplies moduli by f and the thickness by t once more for bending.
func (s *sectionStiffness) scale(f, t float64) {
	k := func(m *sym2, x float64) { m.s, m.c, m.h = m.s*x, m.c*x, m.h*x }
	k(&s.a, f)
	k(&s.b, f*t)
	k(&s.d, f*t*t)
	s.g *= f
	s.gd *= f * t * t
}

// terms selects what assemble adds.
type terms struct {
	elastic  float64 // factor of the elastic stiffness
	initial  float64 // factor of prestress and pressure terms
	dead     bool    // leave pressure out: it keeps its direction
	harmonic int
}

// assemble adds the matrix of a harmonic to K.
//
// Strains by tangent (tr, tz) and normal (nr, nz) = (tz, -tr), primes along
// the meridian:
//
//	εs = us'   εθ = (ur + n v)/r   γ = v' - tr v/r - n us/r
//	κs = β'    κθ = (n βθ + tr β)/r
//	κsθ = βθ' - (tr βθ + n β)/r + nr (n us + tr v)/r²
//	γs = β + w'   γθ = βθ - (n w + nr v)/r
//
// The prestress works on the full gradients, Ns |∂u/∂s|² + Nθ |∂u/r∂θ|²; the
// pressure through the second variation of the volume it pushes.
// Derived for this project and checked against closed forms and another program.
func (p *prestress) assemble(K *sym.Band, q terms) {
	full := 1.0
	if q.harmonic == 0 {
		full = 2
	}
	p.sum(K, q, float64(q.harmonic), full)
}

// sum adds the matrix of n waves times full.
func (p *prestress) sum(K *sym.Band, q terms, n, full float64) {
	for _, b := range p.touch {
		K.Add(5*b.node+1, 5*b.node+1, 0.5*full*b.stiff*q.elastic)
	}
	var kb [100]float64
	for i := range p.tan[:len(p.r)-1] {
		r := 0.5 * (p.r[i] + p.r[i+1])
		dr, dz := p.r[i+1]-p.r[i], p.z[i+1]-p.z[i]
		l := math.Hypot(dr, dz)
		tr, tz := dr/l, dz/l
		nr, nz := tz, -tr
		il, ir := 1/l, 1/r
		area := full * math.Pi * r * l
		clear(kb[:])
		if q.elastic != 0 {
			// Value at the middle (0.5 each) and derivative (∓ 1/l).
			var B [8][10]float64
			for k := range 2 {
				d, h := -il, 0.5
				if k == 1 {
					d = il
				}
				x := 5 * k // ur, uz, b, v, bt
				B[0][x], B[0][x+1] = d*tr, d*tz
				B[1][x], B[1][x+3] = h*ir, h*n*ir
				B[2][x], B[2][x+1], B[2][x+3] = -h*n*tr*ir, -h*n*tz*ir, d-h*tr*ir
				B[3][x+2] = d
				B[4][x+2], B[4][x+4] = h*tr*ir, h*n*ir
				c := nr * ir * ir * h
				B[5][x], B[5][x+1], B[5][x+3] = c*n*tr, c*n*tz, c*tr
				B[5][x+2], B[5][x+4] = -h*n*ir, d-h*tr*ir
				B[6][x], B[6][x+1], B[6][x+2] = d*nr, d*nz, h
				B[7][x], B[7][x+1], B[7][x+3], B[7][x+4] = -h*n*nr*ir, -h*n*nz*ir, -h*nr*ir, h
			}
			s := &p.tan[i]
			w := area * q.elastic
			gs := 5.0 / 6 * s.g
			for y := range 10 {
				b0, b1, b3, b4 := B[0][y], B[1][y], B[3][y], B[4][y]
				c0 := w * (s.a.s*b0 + s.a.c*b1 + s.b.s*b3 + s.b.c*b4)
				c1 := w * (s.a.c*b0 + s.a.h*b1 + s.b.c*b3 + s.b.h*b4)
				c3 := w * (s.b.s*b0 + s.b.c*b1 + s.d.s*b3 + s.d.c*b4)
				c4 := w * (s.b.c*b0 + s.b.h*b1 + s.d.c*b3 + s.d.h*b4)
				c2, c5 := w*s.g*B[2][y], w*s.gd*B[5][y]
				c6, c7 := w*gs*B[6][y], w*gs*B[7][y]
				for x := y; x < 10; x++ {
					kb[10*x+y] = B[0][x]*c0 + B[1][x]*c1 + B[2][x]*c2 + B[3][x]*c3 + B[4][x]*c4 + B[5][x]*c5 + B[6][x]*c6 + B[7][x]*c7
				}
			}
		}
		if q.initial != 0 {
			w := area * q.initial
			gs := w * p.ns[i] * il * il
			gh := w * p.nh[i] * ir * ir * 0.25
			rr, rv, zz := gh*(n*n+1), gh*2*n, gh*n*n
			for a := range 2 {
				for b := range 2 {
					d := gs
					if a != b {
						d = -gs
					}
					x, y := 5*a, 5*b
					add(&kb, x, y, d+rr)
					add(&kb, x+1, y+1, d+zz)
					add(&kb, x+3, y+3, d+rr)
					add(&kb, x, y+3, rv)
					add(&kb, x+3, y, rv)
				}
			}
			if p.p != 0 && !q.dead {
				p.follow(&kb, i, n, -p.p*full*math.Pi*q.initial)
			}
		}
		K.AddBlock(5*i, 10, kb[:])
	}
}

func add(kb *[100]float64, x, y int, v float64) {
	if x >= y {
		kb[10*x+y] += v
	}
}

// follow adds f times the second variation of the volume under element i.
//
//	2 V2/π = ∫ [r (ur uz' - uz ur') + tz (ur² + 2n ur v + v²) - 2n tr v uz - tr ur uz] ds
//
// over the pressure face, which is offset from the nodes and turns with them.
func (p *prestress) follow(kb *[100]float64, i int, n, f float64) {
	var r, z [2]float64
	var face [2][3]float64 // dr, dz per turn, offset
	for k := range 2 {
		j := i + k
		s, c := math.Sincos(p.beta[j])
		nr, nz := p.normR[j], p.normZ[j]
		tr, tz := -nz, nr
		o := p.off[j]
		r[k], z[k] = p.r[j]+o*(c*nr+s*tr), p.z[j]+o*(c*nz+s*tz)
		face[k] = [3]float64{o * (c*tr - s*nr), o * (c*tz - s*nz), o}
	}
	dr, dz := r[1]-r[0], z[1]-z[0]
	// Quadratic form by face displacements (u, z, v) of both nodes.
	var q [6][6]float64
	set := func(x, y int, v float64) {
		q[x][y] += 0.5 * v
		q[y][x] += 0.5 * v
	}
	rm := 0.5 * (r[0] + r[1])
	set(0, 4, rm)  // r (u1 z2 - u2 z1), times l/l
	set(3, 1, -rm) //
	for a := range 2 {
		for b := range 2 {
			x, y := 3*a, 3*b
			set(x, y, 0.25*dz)
			set(x, y+2, 0.25*2*n*dz)
			set(x+2, y+2, 0.25*dz)
			set(x+2, y+1, -0.25*2*n*dr)
			set(x, y+1, -0.25*dr)
		}
	}
	// To the unknowns of the nodes: first by columns, then by rows.
	var c [6][10]float64
	for a := range 6 {
		for k := range 2 {
			u, z, v := q[a][3*k], q[a][3*k+1], q[a][3*k+2]
			d := &face[k]
			c[a][5*k], c[a][5*k+1], c[a][5*k+2] = u, z, u*d[0]+z*d[1]
			c[a][5*k+3], c[a][5*k+4] = v, v*d[2]
		}
	}
	for k := range 2 {
		d := &face[k]
		u, z, v := &c[3*k], &c[3*k+1], &c[3*k+2]
		for y := range 5*k + 5 {
			add(kb, 5*k, y, f*u[y])
			add(kb, 5*k+1, y, f*z[y])
			add(kb, 5*k+2, y, f*(u[y]*d[0]+z[y]*d[1]))
			add(kb, 5*k+3, y, f*v[y])
			add(kb, 5*k+4, y, f*v[y]*d[2])
		}
	}
	// The offset shortens as the node turns: -o/2 β² along the normal.
	w := -0.5 * rm * math.Hypot(dr, dz)
	for k := range 2 {
		v := f * w * face[k][2]
		add(kb, 5*k+2, 5*k+2, v)
		add(kb, 5*k+4, 5*k+4, v)
	}
}

// constrain holds the unknowns of a harmonic.
func (m *Model) constrain(n int) {
	h := m.harm
	clear(h.fixed)
	for i := range m.n {
		if n == 0 {
			h.fixed[5*i+3], h.fixed[5*i+4] = true, true
		}
		if m.mesh.R[i] > 1e-9 {
			continue
		}
		switch n {
		case 0:
			h.fixed[5*i], h.fixed[5*i+2] = true, true
		case 1:
			h.fixed[5*i+1] = true
		default:
			for k := range 5 {
				h.fixed[5*i+k] = true
			}
		}
	}
	for _, s := range m.cs.Supports {
		held := s.Axial
		if n > 0 {
			if s.Harmonic != 0 {
				held = s.Harmonic
			} else if held&HoldR != 0 {
				held |= HoldRound
			}
		}
		if m.floor != nil && s.Node == m.floor.ring {
			held &^= HoldZ
		}
		for k, b := range [5]Hold{HoldR, HoldZ, HoldTurn, HoldRound, HoldTwist} {
			if held&b != 0 {
				h.fixed[5*s.Node+k] = true
			}
		}
	}
}

// apply holds a stiffness (diagonal d) or the other matrix of a pencil (0).
func (m *Model) apply(K *sym.Band, n int, d float64) {
	for i, f := range m.harm.fixed {
		if f {
			K.Fix(i, d)
		}
	}
	if n == 1 && d > 0 {
		// At a pole a tilt and a shift are one motion: ur = -v, β = -βθ.
		for i := range m.n {
			if m.mesh.R[i] <= 1e-9 {
				w := 1e4 * d
				K.Add(5*i, 5*i, w)
				K.Add(5*i+3, 5*i+3, w)
				K.Add(5*i, 5*i+3, w)
				w *= m.scale * m.scale * 1e-4
				K.Add(5*i+2, 5*i+2, w)
				K.Add(5*i+4, 5*i+4, w)
				K.Add(5*i+2, 5*i+4, w)
			}
		}
	}
}
