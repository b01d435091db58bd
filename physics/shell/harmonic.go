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
		pen: sym.NewChainPencil(nodes, perNode), fixed: make([]bool, n), mode: make([]float64, n),
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
	gs      float64 // shear along the meridian
	share   float64 // of the shear by gs that is bending
	turn    float64 // of the meridian from node to node [rad]
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
		*s = sectionStiffness{e.a, e.b, e.d, e.g, e.gd, e.gs, e.share, e.turn}
		scale := f
		if deformed {
			l := math.Hypot(p.r[i+1]-p.r[i], p.z[i+1]-p.z[i])
			s.turn += p.beta[i+1] - p.beta[i]
			r := 0.5*(p.r[i]+p.r[i+1]) + s.turn*(p.z[i+1]-p.z[i])/12
			p.ns[i] *= e.rm / r
			p.nh[i] *= e.l / l
			thin := m.thinning(i)
			if m.plastic {
				*s = sectionStiffness{g: e.g * f, gd: e.gd * f, gs: e.gs * f, share: e.share, turn: s.turn}
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
	s.gs *= f
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
// How an element integrates them stands at elastic and initial.
func (p *prestress) assemble(K *sym.Band, q terms) {
	full := 1.0
	if q.harmonic == 0 {
		full = 2
	}
	p.sum(K, q, float64(q.harmonic), full)
}

// sum adds the matrix of n waves times full; it is quadratic in n.
func (p *prestress) sum(K *sym.Band, q terms, n, full float64) {
	for _, b := range p.touch {
		K.Add(5*b.node+1, 5*b.node+1, 0.5*full*b.stiff*q.elastic)
	}
	var kb [100]float64
	for i := range p.tan[:len(p.r)-1] {
		c := p.coneOf(i)
		area := full * math.Pi * c.r * c.l
		clear(kb[:])
		if q.elastic != 0 {
			c.elastic(&kb, &p.tan[i], n, area*q.elastic)
		}
		if q.initial != 0 {
			c.initial(&kb, area*q.initial*p.ns[i], area*q.initial*p.nh[i], n)
			if p.p != 0 && !q.dead {
				p.follow(&kb, i, n, -p.p*full*math.Pi*q.initial)
				p.arc(&kb, i, -p.p*full*math.Pi*q.initial)
			}
		}
		K.AddBlock(5*i, 10, kb[:])
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
