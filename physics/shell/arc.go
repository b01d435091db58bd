package shell

import (
	"fmt"
	"math"

	"costrel/num/sym"
)

// loaded is a model whose pressure is the parameter of a path; the force on
// the top stays.
type loaded struct{ m *Model }

// Assemble implements [sym.System]; lambda is the pressure in bar.
func (l loaded) Assemble(u []float64, lambda float64, r, q []float64, K *sym.Band) error {
	m := l.m
	copy(m.u, u)
	m.p = lambda * 1e5
	clear(r)
	clear(q)
	K.Zero()
	m.vol = m.volume(q, K, m.p)
	if err := m.eval(r, K); err != nil {
		return err
	}
	for i, v := range q {
		r[i] += m.p * v
		q[i] = 1e5 * v
	}
	r[3*(m.n-1)+1] -= m.load
	m.hold(r)
	m.hold(q)
	d := K.Trace()
	for i, f := range m.fixed {
		if f {
			K.Fix(i, d)
		}
	}
	return nil
}

// widestArc is the longest step of an arc as a share of its scale, finestArc that in
// which a limit of pressure is passed: half of it moves the limit by less than 0.1 %.
const widestArc, finestArc = 0.01, 1.25e-3

// begin makes the arc ready, towards rising pressure, with steps up to a share of its
// scale.
func (m *Model) begin(most float64) {
	// The length is that of the displacements; turns do not count.
	scale := math.Sqrt(float64(m.n)) * m.scale
	if m.arc == nil {
		m.arc = sym.NewArcLength(len(m.u), 5)
		for i := 2; i < len(m.u); i += 3 {
			m.arc.Weight[i] = 0
		}
		m.path = make([]float64, len(m.u))
	}
	m.arc.Reset()
	m.arc.Radius, m.arc.Max, m.arc.Min = 2e-4*scale, most*scale, 1e-8*scale
	copy(m.path, m.u)
}

// arcStep moves the model along its path by one step and returns the number of
// unstable directions. On failure the state is as before.
func (m *Model) arcStep() (int, error) {
	p, vol := m.p, m.vol
	lambda, neg, err := m.arc.Step(loaded{m}, m.path, m.p/1e5)
	if err != nil {
		copy(m.u, m.path)
		m.p, m.vol = p, vol
		return 0, err
	}
	copy(m.u, m.path)
	m.p = lambda * 1e5
	m.vol = m.volume(nil, nil, 0)
	clear(m.r)
	if err := m.eval(m.r, nil); err != nil {
		return 0, fmt.Errorf("shell: arc: at ‹%.4g bar›: %w", lambda, err)
	}
	m.old, m.now = m.now, m.old
	return neg, nil
}
