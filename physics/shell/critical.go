package shell

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/sym"
)

// Critical is a load at which the wall may leave its round form.
type Critical struct {
	Harmonic int     // waves round the axis
	Load     float64 // pressure [Pa] or force [N], as asked; factor of the load otherwise
	Node     int     // where the mode is largest
	Place    float64 // height of that node [m]
	Mode     Mode
}

// Mode is the shape of a buckle, largest displacement 1, at each node.
type Mode struct{ Radial, Axial, Round []float64 }

// Harmonics returns 0, 1, ..., last.
func Harmonics(last int) []int {
	out := make([]int, last+1)
	for i := range out {
		out[i] = i
	}
	return out
}

func (m *Model) harmonics() *harmonic {
	if m.harm == nil {
		m.harm = newHarmonic(m.n)
	}
	return m.harm
}

// Eigen is a linear buckling question: the load Fixed stays, Varying grows.
type Eigen struct {
	Fixed   Load
	Varying Load
	Waves   []int   // harmonics to search; nil for 0..15
	Dead    bool    // pressure keeps its direction instead of following the wall
	Hint    float64 // where to look first, as a factor on Varying
	// Lowest leaves out every harmonic that a count of negative pivots proves to
	// buckle above one already found; the last of the result is the lowest.
	Lowest bool
}

// Buckling returns, for each harmonic, the lowest factor on the varying load at
// which the shell buckles, by the theory of small displacements before
// buckling; sorted as asked. A harmonic without any such load is left out; if
// all are, that is an error. The state of the model is lost.
func (m *Model) Buckling(q Eigen) ([]Critical, error) {
	if q.Waves == nil {
		q.Waves = Harmonics(15)
	}
	h := m.harmonics()
	fixed, vary := newPrestress(m.n), newPrestress(m.n)
	if err := m.linear(q.Varying); err != nil {
		return nil, err
	}
	vary.take(m, false)
	if err := m.linear(q.Fixed); err != nil {
		return nil, err
	}
	fixed.take(m, false)
	hint := q.Hint
	var out []Critical
	for _, n := range q.Waves {
		if n < 0 || n > 100 {
			return nil, fmt.Errorf("shell: buckling: harmonic %d outside 0..100", n)
		}
		h.first.whole(h.K, h.K2, fixed, terms{elastic: 1, initial: 1, dead: q.Dead}, n)
		h.other.whole(h.G, h.K2, vary, terms{initial: 1, dead: q.Dead}, n)
		m.constrain(n)
		m.apply(h.K, n, h.K.Trace())
		m.apply(h.G, n, 0)
		h.pen.Keep(h.K, h.G)
		if hint == 0 {
			hint = 1
		}
		if q.Lowest && out != nil {
			k, err := h.pen.Count(h.K, h.G, hint)
			if err == nil && k == 0 {
				continue
			}
		}
		x, err := h.pen.Find(h.K, h.G, sym.Critical{Hint: hint, Below: 1e5 * hint, Tol: 1e-7}, h.mode)
		if errors.Is(err, sym.ErrNoLoad) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
		}
		hint = x
		out = append(out, m.critical(n, x))
	}
	if out == nil {
		return nil, fmt.Errorf("shell: buckling: no harmonic of %v buckles below %.3g times the load: %w", q.Waves, 1e5*hint, sym.ErrNoLoad)
	}
	return out, nil
}

// Lowest returns the entry with the lowest load.
func Lowest(c []Critical) Critical {
	best := c[0]
	for _, q := range c[1:] {
		if q.Load < best.Load {
			best = q
		}
	}
	return best
}

// critical turns the mode in the workspace into a result.
func (m *Model) critical(n int, load float64) Critical {
	c := Critical{Harmonic: n, Load: load}
	h := m.harm
	v := make([]float64, 3*m.n)
	c.Mode = Mode{Radial: v[:m.n:m.n], Axial: v[m.n : 2*m.n : 2*m.n], Round: v[2*m.n:]}
	top, place := 0.0, 0
	for i := range m.n {
		c.Mode.Radial[i], c.Mode.Axial[i], c.Mode.Round[i] = h.mode[5*i], h.mode[5*i+1], h.mode[5*i+3]
		for _, k := range [3]int{0, 1, 3} {
			if a := math.Abs(h.mode[5*i+k]); a > math.Abs(top) {
				top, place = h.mode[5*i+k], i
			}
		}
	}
	if top != 0 {
		for i := range v {
			v[i] /= top
		}
	}
	c.Node, c.Place = place, m.mesh.Z[place]
	return c
}

// unstable returns the number of directions in which the present, deformed
// state of a harmonic is unstable.
func (m *Model) unstable(p *prestress, n int) (int, error) {
	h := m.harmonics()
	h.first.whole(h.K, h.K2, p, terms{elastic: 1, initial: 1}, n)
	m.constrain(n)
	m.apply(h.K, n, h.K.Trace())
	return h.pen.Negative(h.K)
}

// errLater says that a harmonic does not buckle within the share asked for.
var errLater = errors.New("buckles later")

// between returns the share x > 0 of the way from state a to state b, taken as
// straight, at which harmonic n buckles; it may exceed 1 up to most. A count of
// negative pivots at most comes first: without any the answer is errLater.
func (m *Model) between(a, b *prestress, n int, most, hint float64) (float64, error) {
	h := m.harmonics()
	m.line(a, b, n)
	if k, err := h.pen.Count(h.K, h.G, most); err == nil && k == 0 {
		return 0, errLater
	}
	return h.pen.Find(h.K, h.G, sym.Critical{Hint: math.Min(hint, 0.9*most), Below: most, Tol: 1e-5}, h.mode)
}

// line sets the pencil of harmonic n on the straight line from a state to another.
func (m *Model) line(a, b *prestress, n int) {
	h := m.harmonics()
	q := terms{elastic: 1, initial: 1}
	h.first.whole(h.K, h.K2, a, q, n)
	h.other.whole(h.G, h.K2, b, q, n)
	h.G.Combine(h.G, -1, h.K)
	m.constrain(n)
	m.apply(h.K, n, h.K.Trace())
	m.apply(h.G, n, 0)
	h.pen.Keep(h.K, h.G)
}
