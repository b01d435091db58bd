package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// pump brings a model to a pressure, given or answered by a closed pack, by its
// volume, as a burst test does: it goes on behind the limit at which a base rolls
// out, where the pressure falls before it rises again, and, to a lower pressure, behind
// the one at which it comes back. What volume cannot lead through is passed by a
// viscosity that fades. The way is that of a slow pump, not that of a snap under gas;
// the state at the end is one that carries the pressure.
func (m *Model) pump(s step) error {
	const strides, most = 60, 600
	want := func() float64 {
		if s.sealed == nil {
			return s.pressure
		}
		p, _ := s.sealed(m.vol)
		return p
	}
	up := 1.0 // the sign of the way
	if m.p > want() {
		up, m.limit = -1, math.Inf(-1) // what was carried before says nothing of it
	}
	there := func() bool { return up*(m.p-want()) >= 0 }
	t := step{control: givenVolume, soft: s.soft, rate: s.rate}
	dv, span := m.volume0*0.1/strides, math.Abs(want()-m.p)
	least, widest := dv*1e-3, dv
	peak, fell, turns := m.p, false, 0 // the farthest pressure; the way leads back from it
	note := func(at float64) {
		if turns == 0 { // on the way there
			m.snaps(up, at)
		}
	}
	var lost error
	for range most {
		before := m.keep()
		if there() {
			// Newton's method of the end may fall off the last stretch: nearer then.
			if m.solve(s) == nil {
				return nil
			}
			// A snap has led beyond: back to it, from the other side.
			if turns++; turns > 4 {
				return fmt.Errorf("no state at %s: %w", unit.Quote(unit.PressureGauge, want(), 4), ErrNoConvergence)
			}
			up, dv, peak, fell = -up, widest/4, m.p, false
			continue
		}
		t.target = m.vol + up*dv
		if err := m.solve(t); err != nil {
			lost = err
			if dv /= 2; dv > least {
				continue
			}
			top := up * math.Max(up*peak, up*m.p)
			free := step{pressure: up * math.Min(up*want(), up*top+math.Max(5e-3*math.Abs(top), 1e-3*span)), soft: s.soft, rate: s.rate}
			if use, _ := m.worst(); use >= 1 || m.settle(free) != nil {
				return lost
			}
			note(top)
			peak, fell, dv = m.p, false, widest
			continue
		}
		if up > 0 {
			m.holds()
		}
		switch {
		case there() && math.Abs(m.p-before.p) > 0.2*math.Abs(before.p)+0.02*math.Abs(want()) && dv > least: // too far: nearer to the end
			m.back(before)
			dv /= 2
			continue
		case up*m.p < up*peak:
			if use, _ := m.worst(); use >= 1 {
				return fmt.Errorf("the pressure falls for good: %w", ErrNoConvergence)
			}
			fell = true
		default:
			if fell {
				note(peak)
				fell = false
			}
			peak = m.p
		}
		dv = math.Min(1.4*dv, widest)
	}
	return fmt.Errorf("the pressure is not reached by pumping: %w", ErrNoConvergence)
}

// snaps notes the first limit of pressure that the wall went through, up or down.
func (m *Model) snaps(up, at float64) {
	switch {
	case up < 0:
		m.came, m.cameAt = true, at
	case m.snapped == 0:
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
