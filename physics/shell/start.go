package shell

import (
	"math"
	"sync"
)

// starts are states of a bottle under pressure, from which the search for a like
// one begins: the same pack at another temperature, on another mesh, with a wall
// that is a little stiffer. They only save the way; what is found is an
// equilibrium of its own, and one that lies far from its start is not taken.
type starts struct {
	mu   sync.Mutex
	seen []start
}

// start is a state by the place along the meridian.
type start struct {
	s, u     []float64 // arc length of the nodes as a share of the whole; displacements, three a node
	pressure float64   // before the bottle gave way, over the factor of temperature on its stiffness [Pa]
}

// widest is how far the pressure of a start may lie from the wanted, as a factor;
// farthest how far the state found, as a share of its largest displacement. Chosen
// for this project: a base that has rolled out is farther from one that has not.
const widest, farthest = 1.8, 0.6

// strain returns what a step strains the wall with: its pressure before the bottle
// gives way over the factor of stiffness [Pa].
func (m *Model) strain(s step) float64 {
	soft := m.cs.Soft
	if s.soft > 0 {
		soft = s.soft
	}
	p := s.pressure
	if s.sealed != nil {
		p, _ = s.sealed(m.volume0)
	}
	return p / soft
}

// rests says whether the model is as it was made.
func (m *Model) rests() bool {
	if m.ok || m.p != 0 || m.load != 0 {
		return false
	}
	for _, v := range m.u {
		if v != 0 {
			return false
		}
	}
	return true
}

// nearest returns the start whose pressure is nearest to the wanted one.
func (k *starts) nearest(pressure float64) (start, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	best, at := math.Log(widest), -1
	for i, q := range k.seen {
		if d := math.Abs(math.Log(pressure / q.pressure)); d < best {
			best, at = d, i
		}
	}
	if at < 0 {
		return start{}, false
	}
	return k.seen[at], true
}

// startsNear brings a model at rest to a step from a known state like it. When
// that leads nowhere the model is at rest as before.
func (m *Model) startsNear(s step) bool {
	p := m.strain(s)
	if m.starts == nil || !(p > 0) {
		return false
	}
	q, ok := m.starts.nearest(p)
	if !ok {
		return false
	}
	q.onto(m, m.u)
	s.dt, s.most = 0, 10
	if m.solve(s) == nil && m.factor.Negative() == 0 && q.like(m) {
		return true
	}
	m.Reset()
	return false
}

// onto sets displacements on the nodes of a model.
func (q *start) onto(m *Model, u []float64) {
	k, n := 1, m.n-1
	for i := range m.n {
		at := m.mesh.S[i] / m.mesh.S[n]
		for k < len(q.s)-1 && q.s[k] < at {
			k++
		}
		x := min(1, max(0, (at-q.s[k-1])/(q.s[k]-q.s[k-1])))
		for j := range 3 {
			a, b := q.u[3*k-3+j], q.u[3*k+j]
			u[3*i+j] = a + x*(b-a)
		}
	}
	m.hold(u)
}

// like says whether the model is still near the start.
func (q *start) like(m *Model) bool {
	q.onto(m, m.b)
	off, most := 0.0, 0.0
	for i, v := range m.u {
		if i%3 == 2 {
			continue
		}
		off = max(off, math.Abs(v-m.b[i]))
		most = max(most, math.Abs(v))
	}
	return off <= farthest*most
}

// domed says whether a base that arches up still does, with a quarter of its height
// at least: a search that begins at rest can land behind a roll-out unawares.
func (m *Model) domed() bool {
	low, lower := 0.0, 0.0 // of the gate over the lowest place
	for i := range m.n {
		low = max(low, m.mesh.Z[0]-m.mesh.Z[i])
		lower = max(lower, m.mesh.Z[0]+m.u[1]-m.mesh.Z[i]-m.u[3*i+1])
	}
	return lower >= 0.25*low
}

// note keeps the state as a start for others, unless one is near already.
func (k *starts) note(m *Model, s step) {
	p := m.strain(s)
	if !(p > 0) || !m.domed() {
		return
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, q := range k.seen {
		if math.Abs(q.pressure-p) < 0.1*p {
			return
		}
	}
	q := start{s: make([]float64, m.n), u: append([]float64{}, m.u...), pressure: p}
	for i := range q.s {
		q.s[i] = m.mesh.S[i] / m.mesh.S[m.n-1]
	}
	k.seen = append(k.seen, q)
}
