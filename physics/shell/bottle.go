package shell

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"costrel/num/sym"
	"costrel/unit"
)

// Bottle is what the virtual tests are made on: a profile with its wall, and
// the laws of the wall. Moduli and strengths of the plies are those at the
// reference temperature; the conditions of a test carry the factors of theirs.
type Bottle struct {
	Stations []Station
	Sizing   Sizing
	Hard     Hardening // nil for DefaultLinear
	Creep    Creep     // nil for NoCreep
	// Stand is the radius of the standing ring [m], the first place from the gate
	// that is as wide, below Edge if that is given; 0 finds the lowest place of the
	// outer face.
	Stand float64
	// Gate is the clearance of the gate above the feet [m] where the base is a
	// [Dome] and its feet are not part of the profile; 0 measures it on the
	// profile.
	Gate float64
	// Edge is the height at which the base runs into the body [m]: feet hang from
	// there. 0 leaves Growth.Sag out.
	Edge float64
	// Quick leaves out the second mesh that gives the estimate of the error.
	Quick bool

	kept *meshes
}

// meshes are the two meshes of a bottle, kept for several tests.
type meshes struct {
	of   []Station
	from Bottle
	made [2]*prepared // elements as asked, and twice as long

	starts starts
}

// Meshed returns the bottle with its meshes made, for several tests on it. A
// test on other stations, another sizing or standing ring makes its own.
func (b Bottle) Meshed() (Bottle, error) {
	k := &meshes{of: b.Stations, from: b}
	for i := range k.made {
		p, err := b.prepare(float64(i + 1))
		if i == 0 && err != nil {
			return b, err
		}
		if err == nil {
			k.made[i] = p
		}
	}
	b.kept = k
	return b, nil
}

// find returns the mesh kept for a size, nil for none.
func (b *Bottle) find(size float64) *prepared {
	k := b.kept
	if k == nil || (size != 1 && size != 2) || len(b.Stations) != len(k.of) || len(k.of) == 0 || &b.Stations[0] != &k.of[0] {
		return nil
	}
	if b.Sizing != k.from.Sizing || b.Stand != k.from.Stand || b.Gate != k.from.Gate || b.Edge != k.from.Edge {
		return nil
	}
	return k.made[int(size)-1]
}

// Estimate tells how far a result depends on the mesh: the same on elements
// twice as long, and a third of the difference, which for an error of second
// order is the error of the finer one.
type Estimate struct {
	Elements int     // of the finer mesh
	Fine     float64 // the result
	Coarse   float64 // on elements twice as long
	Error    float64 // |Fine - Coarse|/3
	Note     string  // why there is no estimate
}

// prepared is a bottle made ready for a test.
type prepared struct {
	mesh   *Mesh
	ring   int // node that stands
	top    int
	warn   []string
	hard   Hardening
	creep  Creep
	radius float64 // largest outer radius
	widest int     // node of it
	shift  float64 // added to the clearance measured on the profile
	edge   int     // node at the height Edge; 0 for none
	starts *starts // of the bottle and its like; nil for none
}

func (b *Bottle) prepare(size float64) (*prepared, error) {
	p, err := b.mesh(size)
	if err != nil {
		return nil, err
	}
	p.hard, p.creep = b.Hard, b.Creep
	if b.kept != nil {
		p.starts = &b.kept.starts
	}
	if p.hard == nil {
		p.hard = DefaultLinear()
	}
	if p.creep == nil {
		p.creep = NoCreep{}
	}
	return p, nil
}

// mesh makes the mesh, or takes the one kept.
func (b *Bottle) mesh(size float64) (*prepared, error) {
	if k := b.find(size); k != nil {
		p := *k
		p.warn = p.warn[:len(p.warn):len(p.warn)]
		return &p, nil
	}
	q := b.Sizing
	if q.Factor == 0 {
		q.Factor = 0.35
	}
	q.Factor *= size
	q.stand, q.edge, q.pin = b.Stand, b.Edge, true
	m, err := Build(b.Stations, q)
	if err != nil {
		return nil, err
	}
	p := &prepared{mesh: m, top: len(m.R) - 1}
	low, near, wide := math.Inf(1), math.Inf(1), false
	for i := range m.R {
		r, z := m.R[i]+0.5*m.T[i]*m.NR[i], m.Z[i]+0.5*m.T[i]*m.NZ[i]
		if b.Stand > 0 {
			if d := math.Abs(r - b.Stand); d < near-1e-9 && i < p.top/2 && !wide && (b.Edge == 0 || m.Z[i] <= b.Edge+1e-9) {
				near, p.ring = d, i
			}
			wide = wide || r >= b.Stand // a waist or a shoulder as wide comes later
		} else if z < low-1e-9 {
			low, p.ring = z, i
		}
		if r > p.radius {
			p.radius, p.widest = r, i
		}
	}
	if b.Stand > 0 && near > 2e-3 {
		return nil, fmt.Errorf("shell: base: no place of the base within ‹2 mm› of the standing radius ‹%.2f mm›: %w", b.Stand*1e3, ErrUnsupported)
	}
	if p.ring == p.top || m.Z[0] > m.Z[p.top] {
		return nil, fmt.Errorf("shell: base: the profile begins at z ‹%.4g mm› and ends at z ‹%.4g mm›: it must run from gate to finish, upwards: %w", m.Z[0]*1e3, m.Z[p.top]*1e3, ErrUnsupported)
	}
	if b.Gate < 0 || b.Gate > 0.1 {
		return nil, fmt.Errorf("shell: base: clearance of the gate ‹%g m› outside 0..0.1", b.Gate)
	}
	if b.Gate > 0 {
		gate := m.Z[0] + 0.5*m.T[0]*m.NZ[0]
		ring := m.Z[p.ring] + 0.5*m.T[p.ring]*m.NZ[p.ring]
		p.shift = b.Gate - (gate - ring)
	}
	for b.Edge > 0 && p.edge < p.top && m.Z[p.edge] < b.Edge-1e-9 {
		p.edge++
	}
	if p.mesh.R[p.ring] < 0.2*p.radius && p.mesh.R[0] < 1e-6 {
		p.warn = append(p.warn, "the bottle stands on its gate (radius "+unit.Quote(unit.Length, p.mesh.R[p.ring], 3)+"), not on a ring")
	}
	return p, nil
}

// estimated runs a test on the mesh asked for and, unless b is quick, on one
// of half as many elements.
func (b *Bottle) estimated(run func(p *prepared) (float64, error)) (Estimate, error) {
	p, err := b.prepare(1)
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Elements: len(p.mesh.el)}
	if e.Fine, err = run(p); err != nil {
		return e, err
	}
	if b.Quick {
		e.Note = "second mesh left out"
		return e, nil
	}
	coarse, note := b.coarse(run)
	if e.Note = note; note == "" { // else the result stands; its error is not known
		e.Coarse, e.Error = coarse, math.Abs(e.Fine-coarse)/3
	}
	return e, nil
}

// coarse runs a test on elements twice as long; the note says why it failed.
func (b *Bottle) coarse(run func(p *prepared) (float64, error)) (value float64, note string) {
	p, err := b.prepare(2)
	if err == nil {
		value, err = run(p)
	}
	if err != nil {
		return 0, "the coarse mesh gives no result: " + err.Error()
	}
	return value, ""
}

// onRing are the supports of a pack standing on its ring. top holds the top.
func (p *prepared) onRing(grip bool, top Hold, topWaves Hold) []Support {
	ring := Support{Node: p.ring, Axial: HoldZ, Harmonic: HoldZ | HoldR | HoldRound}
	if grip && p.mesh.R[p.ring] > 1e-9 {
		ring.Axial |= HoldR
	}
	s := []Support{ring}
	if top != 0 || topWaves != 0 {
		s = append(s, Support{Node: p.top, Axial: top, Harmonic: topWaves})
	}
	return s
}

// snapshot is a state of a path, kept for the search for buckling.
type snapshot struct {
	pre    *prestress
	load   float64 // what the path counts: force, pressure
	stroke float64
	state  *memory // nil where nothing goes back to it
}

// firstUnstable returns the first of the harmonics in which a state is unstable,
// -1 for none.
func (m *Model) firstUnstable(p *prestress, waves []int) (int, error) {
	// First the one that gave way the last time.
	for k := -1; k < len(waves); k++ {
		n := m.gave
		if k >= 0 {
			n = waves[k]
		}
		if (k < 0 && !slices.Contains(waves, n)) || (k >= 0 && n == m.gave) {
			continue
		}
		neg, err := m.unstable(p, n)
		if err != nil {
			return -1, fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
		}
		if neg > 0 {
			m.gave = n
			return n, nil
		}
	}
	return -1, nil
}

// branch finds the first place of a path of states at which a harmonic of
// waves turns unstable. found is false when none does.
func (m *Model) branch(path []snapshot, waves []int) (c Critical, stroke float64, found bool, err error) {
	first := func(k int) (int, error) { return m.firstUnstable(path[k].pre, waves) }
	if len(path) < 2 {
		return c, 0, false, nil
	}
	lo, hi := 0, len(path)-1
	// A harmonic that is stable at the end is taken as stable all the way.
	var loose []int
	for _, n := range waves {
		neg, err := m.unstable(path[hi].pre, n)
		if err != nil {
			return c, 0, false, fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
		}
		if neg > 0 {
			loose = append(loose, n)
		}
	}
	if loose == nil {
		return c, 0, false, nil
	}
	waves = loose
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		n, err := first(mid)
		if err != nil {
			return c, 0, false, err
		}
		if n >= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	if lo == 0 {
		n, err := first(0)
		if err != nil {
			return c, 0, false, err
		}
		if n >= 0 {
			return c, 0, false, fmt.Errorf("shell: buckling: harmonic %d is unstable at the start of the path: %w", n, sym.ErrIndefinite)
		}
	}
	best := math.Inf(1)
	a, b := &path[lo], &path[hi]
	for _, n := range waves {
		x, err := m.between(a.pre, b.pre, n, math.Min(1.001, best), 0.5)
		if errors.Is(err, errLater) {
			continue
		}
		if errors.Is(err, sym.ErrNoLoad) {
			x, err = 1, nil
		}
		if err != nil {
			return c, 0, false, fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
		}
		if x < best {
			best = x
			c = m.critical(n, a.load+x*(b.load-a.load))
			stroke = a.stroke + x*(b.stroke-a.stroke)
		}
	}
	return c, stroke, true, nil
}

// bracket returns the two states of a path round the first buckle, which branch
// has found.
func bracket(path []snapshot, load float64) (a, b snapshot) {
	k := 1
	for k < len(path)-1 && path[k].load < load {
		k++
	}
	return path[k-1], path[k]
}

// snap keeps the present state.
func (m *Model) snap(load, stroke float64) snapshot {
	p := newPrestress(m.n)
	p.take(m, true)
	return snapshot{pre: p, load: load, stroke: stroke}
}

// slenderness returns R/t at a node with the radius of curvature round the
// axis, R = r/n_r; of walls flatter than cones of 75 degrees, the flattest in the
// tests behind the knock-downs (SP-8019, from memory), that of such a cone.
func (m *Mesh) slenderness(i int) float64 {
	return m.R[i] / math.Max(0.2588, math.Abs(m.NR[i])) / m.T[i]
}

// classical returns the classical axial load of a plain cone with the wall of a
// node [N] at the factor of temperature 1, as steep as the chord over 3 √(rt) to
// both sides: a step or a corner does not count. Flatter than 75 degrees, see
// slenderness.
func (m *Mesh) classical(i int) float64 {
	reach := 3 * math.Sqrt(math.Max(m.R[i], m.T[i])*m.T[i])
	r1, z1 := m.along(m.S[i] - reach)
	r2, z2 := m.along(m.S[i] + reach)
	dr, dz := r2-r1, z2-z1
	e := &m.el[min(i, len(m.el)-1)]
	q := &e.layer[Points/2]
	load, err := ConeAxial(m.T[i], math.Sqrt(q.Es*q.Eh), q.Nu, math.Min(75*math.Pi/180, math.Atan2(math.Abs(dr), math.Abs(dz))))
	if err != nil {
		return 0
	}
	return load
}

// along returns the place at an arc between the nodes, an end beyond them.
func (m *Mesh) along(s float64) (r, z float64) {
	k := min(max(sort.SearchFloat64s(m.S, s), 1), len(m.S)-1)
	x := min(max((s-m.S[k-1])/(m.S[k]-m.S[k-1]), 0), 1)
	return m.R[k-1] + x*(m.R[k]-m.R[k-1]), m.Z[k-1] + x*(m.Z[k]-m.Z[k-1])
}

// shortWaves returns the harmonics 1 up to those whose waves are as long as the
// short axial ones of the thinnest wall, ½ [12 (1-ν²)]^¼ √(R/t), at least 15.
func (p *prepared) shortWaves() []int {
	thin := math.Inf(1)
	for _, t := range p.mesh.T {
		thin = math.Min(thin, t)
	}
	return Harmonics(min(40, max(15, int(math.Ceil(0.93*math.Sqrt(p.radius/thin))))))[1:]
}
