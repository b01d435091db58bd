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
// concurrent use; a step of it allocates nothing.
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
	force   []Resultant
	plastic bool // some ply yields or creeps
	off     []float64
	faces   []facePoint // of the nodes, as volume was asked last

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
	gave int // harmonic that was found unstable last
	arc  *sym.ArcLength
	path []float64
	ok   bool

	starts  *starts // nil where every search begins at rest
	floor   *floor  // nil where a node is held along the axis
	snapped float64 // pressure at which reach went through a limit [Pa]
	limit   float64 // highest pressure carried when it was lost there [Pa]
	came    bool    // it went back through a limit while the pressure fell, at cameAt [Pa]
	cameAt  float64
}

// Resultant is what an element carries per unit unloaded width: forces along
// and round [N/m], moments [N], transverse shear [N/m].
type Resultant struct {
	ns, nh, ms, mh, q float64
}

// Values returns forces along and round [N/m], moments along and round [N] and
// transverse shear [N/m].
func (r Resultant) Values() (along, round, momentAlong, momentRound, shear float64) {
	return r.ns, r.nh, r.ms, r.mh, r.q
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
		force: make([]Resultant, len(m.el)), faces: make([]facePoint, n), K: sym.NewBand(dof, 5), factor: sym.NewChain(n, 3),
	}
	q.flow = flow{hard: c.Hard, creep: c.Creep, rate: 1, soft: c.Soft, elastic: c.Elastic, chained: c.Creep.Chain() != nil}
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
	m.came, m.cameAt = false, 0
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
