package shell

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/sym"
)

// Hold is a set of held displacements of a node.
type Hold uint8

// What can be held. Round and Twist exist in the harmonics 1 and above only.
const (
	HoldR     Hold = 1 << iota // radial displacement
	HoldZ                      // axial displacement
	HoldTurn                   // rotation of the meridian
	HoldRound                  // displacement round the axis
	HoldTwist                  // rotation about the meridian
)

// Support holds a node. The axisymmetric state and the harmonics may be held
// differently: a rim that may move as a plane but not warp, say.
type Support struct {
	Node     int
	Axial    Hold // in the axisymmetric state
	Harmonic Hold // in the harmonics 1 and above; 0 means as Axial plus HoldRound where HoldR
}

// Case is what a model is asked under: laws of the wall, temperature factors
// and the face on which pressure acts.
type Case struct {
	Supports []Support
	Face     Face      // on which pressure acts
	Open     bool      // the ends are not capped: pressure gives no axial force there
	Hard     Hardening // nil for Perfect
	Creep    Creep     // nil for NoCreep
	Soft     float64   // factor of temperature on moduli and strengths; 0 for 1
	Elastic  bool      // ignore yield strengths
	// Green takes Green's strain and the second Piola-Kirchhoff stress as linear
	// (the law of Saint Venant, as many programs do) instead of logarithmic
	// strain and Kirchhoff stress. Elastic walls only: for comparisons. At 1 %
	// strain the two differ by 3 % in the growth under a given pressure.
	Green bool
}

// Model is a mesh with supports and the state it is in. It is not safe for
// concurrent use; its methods allocate nothing but their results.
type Model struct {
	mesh  *Mesh
	cs    Case
	u     []float64 // 3 a node: radial, axial, turn
	saved []float64
	fixed []bool
	n     int

	flow    flow
	old     []spot
	now     []spot
	tangent []sym2 // at each point
	force   []force
	plastic bool // some ply yields or creeps
	off     []float64

	K          *sym.Band
	factor     *sym.Factor
	r, g, a, b []float64
	q          []float64
	volume0    float64
	scale      float64

	p    float64 // pressure of the state [Pa]
	load float64 // force on the top [N], down
	vol  float64
	harm *harmonic
	arc  *sym.ArcLength
	path []float64
	ok   bool

	snapped    float64 // pressure at which reach went through a limit [Pa]
	firstLimit float64 // pressure at which steps of pressure failed [Pa]
	limit      float64 // highest pressure carried when it was lost there [Pa]
}

// force is what an element carries, per unit unloaded width.
type force struct {
	ns, nh, ms, mh, q float64
}

var (
	// ErrNoConvergence is wrapped by errors of states that were not found.
	ErrNoConvergence = errors.New("no convergence")
	// ErrUnsupported is wrapped where nothing holds the shell along its axis.
	ErrUnsupported = errors.New("unsupported")
)

// NewModel returns the model of a mesh, unloaded. At least one node must be
// held along the axis.
func NewModel(m *Mesh, c Case) (*Model, error) {
	if c.Hard == nil {
		c.Hard = Perfect{}
	}
	if c.Creep == nil {
		c.Creep = NoCreep{}
	}
	if c.Soft == 0 {
		c.Soft = 1
	}
	if c.Face < Inner || c.Face > Outer {
		return nil, fmt.Errorf("shell: model: no face %d", c.Face)
	}
	if !(c.Soft > 1e-4 && c.Soft <= 10) {
		return nil, fmt.Errorf("shell: model: factor of temperature on stiffness %g outside 1e-4..10", c.Soft)
	}
	if err := c.Hard.check(); err != nil {
		return nil, err
	}
	if err := c.Creep.check(); err != nil {
		return nil, err
	}
	n := len(m.R)
	held := false
	for _, s := range c.Supports {
		if s.Node < 0 || s.Node >= n {
			return nil, fmt.Errorf("shell: model: support at node %d of %d", s.Node, n)
		}
		held = held || s.Axial&HoldZ != 0
	}
	if !held {
		return nil, fmt.Errorf("shell: model: no node is held along the axis: the base stands on nothing: %w", ErrUnsupported)
	}
	dof := 3 * n
	v := make([]float64, 7*dof+n)
	next := func(k int) []float64 { x := v[:k:k]; v = v[k:]; return x }
	q := &Model{
		mesh: m, cs: c, n: n, u: next(dof), saved: next(dof), r: next(dof), g: next(dof), a: next(dof), b: next(dof), q: next(dof), off: next(n),
		fixed: make([]bool, dof), old: make([]spot, Points*len(m.el)), now: make([]spot, Points*len(m.el)), tangent: make([]sym2, Points*len(m.el)),
		force: make([]force, len(m.el)), K: sym.NewBand(dof, 5), factor: sym.NewFactor(dof, 5),
	}
	q.flow = flow{hard: c.Hard, creep: c.Creep, rate: 1, soft: c.Soft, elastic: c.Elastic}
	for i := range n {
		q.off[i] = -0.5 * c.Face.side() * m.T[i] // along -normal
		if m.R[i] <= 1e-9 {
			q.fixed[3*i], q.fixed[3*i+2] = true, true
		}
		q.scale = math.Max(q.scale, m.R[i])
	}
	for _, s := range c.Supports {
		for k, h := range [3]Hold{HoldR, HoldZ, HoldTurn} {
			if s.Axial&h != 0 {
				q.fixed[3*s.Node+k] = true
			}
		}
	}
	for i := range m.el {
		for k := range m.el[i].layer {
			if m.el[i].layer[k].Ys > 0 && !c.Elastic {
				q.plastic = true
			}
		}
	}
	if _, none := c.Creep.(NoCreep); !none {
		q.plastic = true
	}
	if c.Green && q.plastic {
		return nil, fmt.Errorf("shell: model: the law of Saint Venant is for elastic walls")
	}
	q.volume0 = q.volume(nil, nil, 0)
	q.vol = q.volume0
	return q, nil
}

// Reset returns the model to the unloaded, unstrained state.
func (m *Model) Reset() {
	clear(m.u)
	clear(m.old)
	clear(m.now)
	clear(m.force)
	m.p, m.load, m.vol, m.ok, m.snapped, m.limit = 0, 0, m.volume0, false, 0, 0
	m.flow.rate, m.flow.soft = 1, m.cs.Soft
}

// Mesh returns the mesh of the model.
func (m *Model) Mesh() *Mesh { return m.mesh }

// Volume0 returns the volume inside the pressure face, unloaded [m³].
func (m *Model) Volume0() float64 { return m.volume0 }

// Volume returns the volume inside the pressure face as it is [m³].
func (m *Model) Volume() float64 { return m.vol }

// Pressure returns the pressure of the state [Pa, gauge].
func (m *Model) Pressure() float64 { return m.p }

// Load returns the force of the platen on the top of the state [N], positive
// downwards.
func (m *Model) Load() float64 { return m.load }

// Displacement returns radial and axial displacement [m] and rotation [rad] of
// a node.
func (m *Model) Displacement(node int) (ur, uz, turn float64) {
	return m.u[3*node], m.u[3*node+1], m.u[3*node+2]
}

// volume returns the volume inside the pressure face and, unless nil, adds its
// gradient to g and -p times its second derivative to K.
//
//	V = π/3 Σ (r1² + r1 r2 + r2²) (z2 - z1)
//
// over the offset polyline, which turns with the nodes.
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
		if g != nil {
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
		eh := 0.5 * (u[0] + u[3]) / e.r
		ks := (u[5] - u[2]) * il
		kh := (dr - nr) / e.r
		if !(es > -0.9) || !(eh > -0.9) || es > 10 || eh > 10 {
			return fmt.Errorf("element %d at z %.2f mm: strain %.3g along, %.3g round", i+1, 1e3*m.mesh.Z[i], es, eh)
		}
		// Section.
		var N [4]float64 // ns, nh, ms, mh
		var C [4][4]float64
		half := 0.5 * e.t
		for k := range e.layer {
			z, w := zeta[k]*half, weight[k]*e.t
			l := [2]float64{1 + es + z*ks, 1 + eh + z*kh}
			if l[0] <= 0.05 || l[1] <= 0.05 {
				return fmt.Errorf("element %d at z %.2f mm: the wall folds", i+1, 1e3*m.mesh.Z[i])
			}
			x := [2]float64{math.Log(l[0]), math.Log(l[1])}
			var tau [2]float64
			var T sym2
			at := Points*i + k
			if m.plastic {
				p := &e.layer[k]
				var err error
				tau, T, err = m.flow.update(p, x, &m.old[at], &m.now[at])
				if err != nil {
					return fmt.Errorf("element %d at z %.2f mm: %w", i+1, 1e3*m.mesh.Z[i], err)
				}
			} else {
				p := &e.layer[k]
				T = p.compliance().inverse()
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
		gs := 5.0 / 6 * e.g * m.flow.soft
		Q := gs * ga
		m.force[i] = force{N[0], N[1], N[2], N[3], Q}
		w := 2 * math.Pi * e.r * e.l
		// Rows of strain by (ur1, uz1, b1, ur2, uz2, b2).
		hb := 0.5 * (1 + es)
		B := [5][6]float64{
			{-ar * il, -az * il, -0.5 * ga, ar * il, az * il, -0.5 * ga},
			{0.5 / e.r, 0, 0, 0.5 / e.r, 0, 0},
			{0, 0, -il, 0, 0, il},
			{0, 0, 0.5 * ar / e.r, 0, 0, 0.5 * ar / e.r},
			{-dr * il, -dz * il, hb, dr * il, dz * il, hb},
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
			CB[4][x] = gs * B[4][x]
		}
		for x := range 6 {
			for y := 0; y <= x; y++ {
				kb[6*x+y] = w * (B[0][x]*CB[0][y] + B[1][x]*CB[1][y] + B[2][x]*CB[2][y] + B[3][x]*CB[3][y] + B[4][x]*CB[4][y])
			}
		}
		// Second derivatives of the strains.
		xb := 0.5 * w * il
		vr, vz := xb*(-N[0]*dr+Q*ar), xb*(-N[0]*dz+Q*az) // (ur2 or uz2) with b
		bb := 0.25 * w * (-N[0]*(1+es) - Q*ga - N[3]*dr/e.r)
		kb[6*2+0] -= vr
		kb[6*2+1] -= vz
		kb[6*5+0] -= vr
		kb[6*5+1] -= vz
		kb[6*5+3] += vr
		kb[6*5+4] += vz
		kb[6*3+2] += vr
		kb[6*4+2] += vz
		kb[6*2+2] += bb
		kb[6*5+5] += bb
		kb[6*5+2] += bb
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

// hold clears held unknowns of a vector.
func (m *Model) hold(x []float64) {
	for i, f := range m.fixed {
		if f {
			x[i] = 0
		}
	}
}

// holdK makes held unknowns of the tangent an identity.
func (m *Model) holdK() {
	d := m.K.Trace()
	for i, f := range m.fixed {
		if f {
			m.K.Fix(i, d)
		}
	}
}
