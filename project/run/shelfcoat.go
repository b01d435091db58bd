package run

import (
	"costrel/figure"
	"costrel/physics/permeation"
	"costrel/unit"
)

// coats lists the permeance of the coating of every coated zone for one gas, and
// what it was worked out from.
func (s *shelfLife) coats(of func(c permeation.Coating) float64, gas string) []figure.Input {
	var out []figure.Input
	for _, z := range s.pc.Zones {
		if p := of(z.Inner) + of(z.Outer); p > 0 { // on one face
			out = append(out, computed("shelf.coating", "Π_"+z.Name, "Wall zone "+z.Name+": permeance of its coating to "+gas+" at ‹23 °C›", p, unit.GasPermeance))
		}
	}
	if out == nil {
		return nil
	}
	path := "shelf.coating_improvement"
	if gas != "carbon dioxide" && s.d.Shelf.ImproveAir != nil {
		path = "shelf.coating_improvement_air"
	}
	return append(out, s.given("B", path))
}

// blend lists the passive barrier polymer, where there is one.
func (s *shelfLife) blend() []figure.Input {
	if s.d.Shelf.Blend == 0 || tight(s.d) {
		return nil
	}
	return []figure.Input{s.given("w_blend", "shelf.blend_share"), s.given("α_blend", "shelf.blend_aspect")}
}

// through is the flow through the walls of the equations: coated where coats has
// any, P the symbol of the permeability.
func through(coats []figure.Input, p string) string {
	if coats == nil {
		return "Σ A " + p + " / L"
	}
	return "Σ A / (L / " + p + " + 1 / Π)"
}

// wallReason is that of the loss through the wall.
func (s *shelfLife) wallReason(amount []figure.Input) (string, []figure.Input) {
	coats := s.coats(func(c permeation.Coating) float64 { return c.CO2 }, "carbon dioxide")
	in := append(append(append(amount, s.barrier()...), coats...), s.blend()...)
	return "x_wall = n_wall / n_0, n_wall = ∫ " + through(coats, "P") + " p_CO2 dt", in
}

// oxygenReason is that of the oxygen that has come in.
func (s *shelfLife) oxygenReason(now permeation.Point) (string, []figure.Input) {
	coats := s.coats(func(c permeation.Coating) float64 { return c.Oxygen }, "oxygen")
	in := []figure.Input{
		computed("brief.shelf_life", "m_O2", "Oxygen that has come in through wall and closure, the wall's own air included", now.Ingress, unit.Mass),
		computed("closure.o2", "m_closure", "of which through the closure", now.IngressCap, unit.Mass),
		computed("drink.oxygen_use", "m_used", "of which the drink has consumed", now.Consumed, unit.Mass),
	}
	equation := "c = m_O2 / V, m_O2 = M_O2 ∫ (" + through(coats, "P_O2") + " + K_O2) (p_outside - p_O2) dt"
	wall, liner := s.d.Shelf.Scavenger > 0 && !tight(s.d), s.d.Closure.Scavenge > 0 && s.d.Closure.Share > 0
	if wall || liner {
		equation += " - m_bound"
		in = append(in, computed("shelf.scavenger", "m_bound", "Oxygen that scavengers have bound on its way in, that of the wall's own air included", now.Scavenged, unit.Mass))
	}
	if wall {
		in = append(in, s.given("m_wall", "shelf.scavenger"))
	}
	if liner {
		in = append(in, s.given("m_liner", "closure.scavenger"), s.given("x_liner", "closure.scavenger_share"),
			computed("closure.scavenger", "q_liner", "Closure: share of its scavenger that is left", now.ScavengerLeft, unit.Fraction))
	}
	in = append(in, s.walls(func(m permeation.Material) figure.Input {
		return computed("shelf.material", "P_"+m.Name, m.Title+": permeability of oxygen at store temperature, barrier factor counted", m.Oxygen.Permeability.At(s.d.Climate.Store), unit.Permeability)
	})...)
	return equation, append(append(in, coats...), s.blend()...)
}
