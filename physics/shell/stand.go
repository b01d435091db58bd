package shell

import (
	"fmt"
	"slices"

	"costrel/unit"
)

// fill brings a pack to the pressure before the platen touches. Nothing presses
// its ring on the plane yet, which slides there; it is held by friction from then
// on. Where the base hangs below the ring the pack stands on the middle of that:
// the ring is then free and comes down on the plane when the platen pushes it there.
func (in *TopLoadInput) fill(m *Model, p *prepared, out *TopLoadResult) error {
	s := Stage{Pressure: in.Gauge, Sealed: in.Sealed}.step(m)
	grip := m.fixed[3*p.ring]
	m.fixed[3*p.ring] = m.mesh.R[p.ring] <= 1e-9
	if m.floor != nil {
		m.floor.from = m.floor.ring
	}
	err := m.reach(s, 4)
	m.fixed[3*p.ring] = grip
	if err != nil {
		return err
	}
	if use, i := m.worst(); use > 1 {
		e := &m.mesh.el[i]
		return fmt.Errorf("the wall breaks at z = %s, radius %s: its force is %.2f times the ultimate strength at %s; more wall or less pressure",
			unit.Quote(unit.Length, 0.5*(m.mesh.Z[i]+m.mesh.Z[i+1]), 3), unit.Quote(unit.Length, e.r, 3), use, unit.Quote(unit.PressureGauge, m.p, 4))
	}
	if m.floor == nil {
		return nil
	}
	m.floor.from = 0
	low, deep := m.hanging()
	m.standOn(low)
	if m.mesh.R[low] > nearRing*m.mesh.R[p.ring] { // the ring, rolled on by a little
		return nil
	}
	m.lift(p.ring)
	out.Hang = deep
	out.Warnings = append(out.Warnings, "under its pressure the base hangs "+unit.Quote(unit.Length, deep, 3)+" below the standing ring: the pack stands, and rocks, on the middle of its base, and the platen pushes it against that")
	return nil
}

// nearRing is the share of the radius of the standing ring within which the lowest
// place of a base still counts as that ring: chosen for this project.
const nearRing = 0.8

// lift takes a ring off what holds it: friction along its radius, and the plane
// in harmonics.
func (m *Model) lift(ring int) {
	m.fixed[3*ring] = m.mesh.R[ring] <= 1e-9
	m.cs.Supports = slices.Clone(m.cs.Supports)
	for i := range m.cs.Supports {
		if s := &m.cs.Supports[i]; s.Node == ring {
			s.Axial, s.Harmonic = 0, 0
		}
	}
}
