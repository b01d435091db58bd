package shell

import (
	"fmt"
	"math"
)

// settle lets the wall move, held back by a viscosity that fades, from a state
// that load leads on no further to the next stable one at the step's load: a
// base that rolls out, and carries again behind it. On failure the state is as
// before.
func (m *Model) settle(s step) error {
	start := m.keep()
	s.most = 10
	damp, ease, last := 1e-4, 3.0, 0.0
	for range 120 {
		s.damp = damp
		if err := m.solve(s); err != nil {
			if damp *= 4; damp > 10 {
				break
			}
			ease, last = 1.5, 0
			continue
		}
		moved := 0.0
		for i, v := range m.u {
			if i%3 != 2 {
				moved = math.Max(moved, math.Abs(v-m.saved[i]))
			}
		}
		if moved > 2*m.scale {
			break
		}
		if moved < 0.8*last { // coming to rest
			free := s
			free.damp = 0
			rest := m.keep()
			if m.solve(free) == nil {
				if m.factor.Negative() == 0 {
					return nil
				}
				m.back(rest)
			}
		}
		last = moved
		damp /= ease
		ease = math.Min(3, 1.2*ease)
	}
	m.back(start)
	return fmt.Errorf("no state behind the limit: %w", ErrNoConvergence)
}

// memory is all that a model remembers of its way.
type memory struct {
	u            []float64
	spots        []spot
	p, load, vol float64
}

// keep returns a copy of the state.
func (m *Model) keep() *memory {
	return &memory{append([]float64{}, m.u...), append([]spot{}, m.old...), m.p, m.load, m.vol}
}

// back returns the model to a state.
func (m *Model) back(s *memory) {
	copy(m.u, s.u)
	copy(m.old, s.spots)
	m.p, m.load, m.vol = s.p, s.load, s.vol
}
