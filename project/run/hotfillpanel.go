package run

import (
	"costrel/figure"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// panelStages are the stages that a hot-filled pack also reads: the virtual
// tests, where the design takes its panels from them.
func panelStages(d *design.Design, w work) []string {
	if w.full && hotFilled(d) && d.HotFill.PanelSource == "computed" {
		return []string{"strength"}
	}
	return nil
}

// panelMost is the largest vacuum of a computed curve that is used [Pa].
const panelMost = 100e3

// panels returns what the wall of a hot-filled pack gives under vacuum, and
// what must be said of it.
func (c *pass) panels() (hotfill.Panel, string) {
	given := hotfill.Panel{Compliance: c.d.HotFill.Compliance}
	if c.d.HotFill.PanelSource != "computed" {
		return given, "the panel compliance is that of the design; hotfill.panel_source: computed takes the curve of the round wall from the virtual vacuum test of a full check instead"
	}
	var curve []hotfill.Point
	if e := c.done["strength"]; e != nil && e.err == nil {
		for _, p := range e.out.(*Strength).Panel {
			if p.Vacuum <= panelMost {
				curve = append(curve, p)
			}
		}
	}
	if curve == nil {
		return given, quality.EstimatePrefix + ": hotfill.panel_source is computed, but only a full check whose vacuum test succeeds has the curve; panel_compliance of the design stands in for it"
	}
	return hotfill.Panel{Curve: curve}, quality.EstimatePrefix + ": the panels are the curve of the round wall up to its collapse, from the virtual vacuum test; flat panels averaged round the axis are far stiffer than real ones, so measure or compute your panels"
}

// outward is the growth of the wall with pressure [1/Pa], that of the life of
// the pack; 0 where there is no wall.
func (c *pass) outward() (float64, error) {
	e := c.done["wall"]
	if e == nil {
		return 0, nil
	}
	w, ok := e.out.(*Wall)
	if !ok {
		return 0, nil // it failed
	}
	g, err := packGrowth(c.d, w)
	return g.Elastic, err
}

// compliance is the panel compliance as an input of a figure: that of the
// design, of a curve the volume over the vacuum there, or under pressure that of
// the round wall.
func (h *hotCase) compliance(vacuum float64) figure.Input {
	if vacuum < 0 {
		return computed("shelf.modulus", "C", "Round wall outward: volume over pressure, by its modulus and mean wall", h.pack.Panel.Outward, unit.Compliance)
	}
	if h.pack.Panel.Curve == nil || vacuum == 0 {
		return h.given("C", "hotfill.panel_compliance")
	}
	return computed("hotfill.panel_source", "C", "Panels: volume over vacuum at the computed vacuum, from the curve of the virtual test", h.pack.Panel.Volume(vacuum)/vacuum, unit.Compliance)
}

// air is what the drink holds of air when it is closed, and how much of it the
// drink takes at the end temperature. The design counts dissolved gas per volume
// of drink at 20 °C.
func (h *hotCase) air() hotfill.Air {
	d := h.d
	swell := h.dissolved * h.liquid.Density(h.pack.Temperature) / h.liquid.Density(unit.Celsius(20))
	return hotfill.Air{
		Water: 1 - h.liquid.MassFraction(), OxygenSolubility: drink.HenryOxygen(h.store.Temperature), NitrogenSolubility: drink.HenryNitrogen(h.store.Temperature),
		Oxygen: d.Drink.Oxygen * swell, Nitrogen: d.Drink.NitrogenIn * swell,
	}
}

// start puts what the pack closes in into the case of its life: its gas, the
// shrunk bottle, its panels.
func (h *hotCase) start(out *permeation.Case) error {
	contents, err := h.contents()
	if err != nil {
		return err
	}
	out.Contents = &contents
	out.Fill.Brimful = h.pack.Overflow * (1 - h.pack.Shrinkage)
	out.Growth.Panel = permeation.Compliance(h.pack.Panel.Compliance)
	for _, p := range h.pack.Panel.Curve {
		out.Growth.Panel = append(out.Growth.Panel, permeation.PanelPoint{Vacuum: p.Vacuum, Volume: p.Volume})
	}
	return nil
}

// contents is what is inside when the hot pack is closed: the life starts from
// it, so that headspace temperature, steam flushing and nitrogen count.
func (h *hotCase) contents() (drink.Contents, error) {
	oxygen, nitrogen, err := hotfill.Amounts(h.pack, h.air())
	return drink.Contents{Liquid: h.pack.Fill * h.liquid.Density(h.pack.FillAt), Oxygen: oxygen, Nitrogen: nitrogen}, err
}
