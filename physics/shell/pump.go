package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// pump brings a model to a pressure, given or answered by a closed pack, by its
// volume, as a burst test does: it goes on behind the limit at which a base rolls
// out, where the pressure falls before it rises again. What volume cannot lead
// through is passed by a viscosity that fades. The way is that of a slow pump, not
// that of a snap under gas; the state at the end is one that carries the pressure.
func (m *Model) pump(s step) error {
	const strides, most = 60, 600
	want := func() float64 {
		if s.sealed == nil {
			return s.pressure
		}
		p, _ := s.sealed(m.vol)
		return p
	}
	t := step{control: givenVolume, soft: s.soft, rate: s.rate}
	dv := m.volume0 * 0.1 / strides
	least, widest := dv*1e-3, dv
	peak, fell := 0.0, false
	var lost error
	for range most {
		before, need := m.keep(), want()
		if m.p >= need {
			// Newton's method of the end may fall off the last stretch: nearer then.
			end := s
			if m.solve(end) == nil {
				return nil
			}
			return fmt.Errorf("no state at %s: %w", unit.Quote(unit.PressureGauge, need, 4), ErrNoConvergence)
		}
		t.target = m.vol + dv
		if err := m.solve(t); err != nil {
			lost = err
			if dv /= 2; dv > least {
				continue
			}
			top := math.Max(peak, m.p)
			if use, _ := m.worst(); use >= 1 || m.settle(step{pressure: math.Min(need, top*1.005), soft: s.soft, rate: s.rate}) != nil {
				return lost
			}
			m.snaps(top)
			peak, fell, dv = 0, false, widest
			continue
		}
		m.holds()
		switch {
		case m.p >= want() && m.p > before.p*1.2+0.02*need && dv > least: // too far: nearer to the end
			m.back(before)
			dv /= 2
			continue
		case m.p < peak:
			if use, _ := m.worst(); use >= 1 {
				return fmt.Errorf("the pressure falls for good: %w", ErrNoConvergence)
			}
			fell = true
		default:
			if fell {
				m.snaps(peak)
				fell = false
			}
			peak = m.p
		}
		dv = math.Min(1.4*dv, widest)
	}
	return fmt.Errorf("the pressure is not reached by pumping: %w", ErrNoConvergence)
}

// snaps notes the first limit of pressure that the wall went through.
func (m *Model) snaps(at float64) {
	if m.snapped == 0 {
		m.snapped = at
	}
}

// holds notes the pressure of the state as one that was carried, where the wall
// is not broken.
func (m *Model) holds() {
	if use, _ := m.worst(); use <= 1 {
		m.limit = math.Max(m.limit, m.p)
	}
}

// mend takes a model whose wall has broken back to the largest pressure at which
// it holds, put on at once from rest. A wall that holds is left alone.
func (m *Model) mend() {
	s, low, high := step{soft: m.flow.soft}, 0.0, m.p
	here := step{control: givenVolume, target: m.vol, soft: s.soft}
	if high <= 0 || m.solve(here) != nil { // the forces of the state, not those of the search beyond it
		return
	}
	if use, _ := m.worst(); use <= 1 {
		return
	}
	m.Reset()
	good := m.keep()
	for range 10 {
		s.pressure = 0.5 * (low + high)
		err := m.reach(s, 4)
		if use, _ := m.worst(); err != nil || use > 1 {
			high = s.pressure
			m.back(good)
			continue
		}
		low, good = s.pressure, m.keep()
	}
	m.back(good)
	s.pressure = low
	_ = m.solve(s) // the forces of that state
	m.limit = 0
}

// lost adds to an error the last good load, and where the wall bends and is
// stressed most in that state.
func (m *Model) lost(err error) error {
	m.mend()
	worst, z := 0.0, 0.0
	for _, s := range m.Stresses() {
		if s.RoundMid > worst {
			worst, z = s.RoundMid, s.Z
		}
	}
	at := m.bend()
	return fmt.Errorf("last good load %s, sharpest bending at z = %s, r = %s, highest hoop stress %s at z = %s: %w",
		unit.Quote(unit.PressureGauge, math.Max(m.p, m.limit), 4), unit.Quote(unit.Length, m.mesh.Z[at], 3), unit.Quote(unit.Length, m.mesh.R[at], 3), unit.Quote(unit.Stress, worst, 4), unit.Quote(unit.Length, z, 3), err)
}
