package run

import (
	"fmt"
	"math"

	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/unit"
)

// computedWall moves plastic between the panel and the rest of the stretched
// wall, as blow.wall_factor does.
func computedWall(d *design.Design) permeation.Uncertain {
	by, basis := computedPanel(d)
	return permeation.Uncertain{
		Key: "wall", Label: "Wall: computed thickness of the panel", Basis: fmt.Sprintf("± %.2g %%, %s; base and shoulder take the rest", 100*by, basis),
		Move: func(c *permeation.Case, z float64) {
			zones := append([]permeation.WallZone(nil), c.Zones...)
			x := by * z / two95
			panel, rest := 0.0, 0.0
			for _, q := range zones {
				switch {
				case q.Name == "panel":
					panel += q.Area * q.Thickness
				case stretched(q.Name):
					rest += q.Area * q.Thickness
				}
			}
			if panel == 0 || rest == 0 {
				return
			}
			for i := range zones {
				q := &zones[i]
				switch {
				case q.Name == "panel":
					q.Thickness *= math.Max(0.2, 1+x)
				case stretched(q.Name):
					q.Thickness *= math.Max(0.2, 1-x*panel/rest)
				}
			}
			c.Zones = zones
		},
	}
}

// computedCrystals moves the crystals of every zone that has them from the blow,
// by Nielsen's rule as in [permeation.Local].
func computedCrystals() permeation.Uncertain {
	const by = 0.04
	return permeation.Uncertain{
		Key: "crystals", Label: "Wall: computed crystallinity", Basis: "± 4 points, common practice",
		Move: func(c *permeation.Case, z float64) {
			zones := append([]permeation.WallZone(nil), c.Zones...)
			for i := range zones {
				q := &zones[i]
				if q.Stretch == 0 {
					continue
				}
				x := math.Min(math.Max(q.Crystals+by*z/two95, 0), 0.6)
				hold, slow := (1-x)/(1-q.Crystals), (1+2*q.Crystals)/(1+2*x)
				m := &q.Material
				m.CO2.Henry.Value *= hold
				m.CO2.Capacity *= hold
				m.CO2.Diffusivity.Value *= slow
				for _, h := range []*permeation.Henry{&m.Oxygen, &m.Nitrogen} {
					h.Permeability.Value *= hold * slow
					h.Diffusivity.Value *= slow
				}
				m.Water.Value *= hold * slow
				q.Crystals = x
			}
			c.Zones = zones
		},
	}
}

// drinkUncertainties are those of a carbonated drink at closing, as wide as the
// spreads of the preview.
func (s *shelfLife) drinkUncertainties() []permeation.Uncertain {
	if !carbonated(s.d) {
		return nil
	}
	return []permeation.Uncertain{
		{Key: "carbonation", Label: "Drink: carbonation", Basis: "± 0.1 vol at the filler, common practice", Move: func(c *permeation.Case, z float64) {
			d := c.Liquid.Drink()
			d.Carbonation = math.Max(1e-3, d.Carbonation+0.1*unit.VolumeCO2*z/two95)
			if l, err := d.Liquid(); err == nil {
				c.Liquid = l
			}
		}},
		{Key: "air", Label: "Drink: air left in the headspace", Basis: "± 20 points, chosen for this project", Move: func(c *permeation.Case, z float64) {
			c.Fill.Air = math.Min(math.Max(c.Fill.Air+0.2*z/two95, 0), 1)
		}},
	}
}

// hotUncertainties are those of a hot-filled pack at closing, as wide as the
// spreads of the preview.
func hotUncertainties() []hotUncertain {
	scaled := func(v *float64, by, z float64) { *v *= math.Max(0, 1+by*z/two95) }
	return []hotUncertain{
		{"panels", "Hot fill: what the panels give", "± 15 %, estimate until computed or measured", func(h *hotCase, z float64) {
			scaled(&h.pack.Panel.Compliance, 0.15, z)
			h.pack.Panel.Curve = append(h.pack.Panel.Curve[:0:0], h.pack.Panel.Curve...)
			for i := range h.pack.Panel.Curve {
				scaled(&h.pack.Panel.Curve[i].Volume, 0.15, z)
			}
		}},
		{"shrinkage", "Hot fill: shrinkage", "± 0.2 points, common practice", func(h *hotCase, z float64) {
			h.pack.Shrinkage = math.Max(0, h.pack.Shrinkage+0.002*z/two95)
		}},
		{"headspace", "Hot fill: temperature of the headspace", "± ‹4 K›, chosen for this project", func(h *hotCase, z float64) {
			h.pack.Gas += unit.Temperature(4 * z / two95)
		}},
		{"filling", "Drink: fill temperature", "± ‹2 K›, common practice", func(h *hotCase, z float64) {
			h.pack.Temperature += unit.Temperature(2 * z / two95)
		}},
		{"brimful", "Bottle: brimful volume", "± 0.5 %: wall ± ‹0.03 mm› and blown diameter ± ‹0.3 mm›, common practice", func(h *hotCase, z float64) { scaled(&h.pack.Overflow, 0.005, z) }},
		{"fill", "Fill: volume", "± 0.5 %, chosen for this project", func(h *hotCase, z float64) { scaled(&h.pack.Fill, 0.005, z) }},
		{"steam", "Hot fill: air left in the headspace", "± 10 points, chosen for this project", func(h *hotCase, z float64) {
			h.pack.Steam = math.Min(math.Max(h.pack.Steam-0.1*z/two95, 0), 1)
		}},
		{"dissolved", "Drink: dissolved oxygen and nitrogen", "± 50 %, chosen for this project", func(h *hotCase, z float64) {
			h.dissolved = math.Max(0, 1+0.5*z/two95)
		}},
		{"nitrogen", "Drink: nitrogen kept at closing", "± 30 %, from memory", func(h *hotCase, z float64) { scaled(&h.pack.Nitrogen, 0.3, z) }},
	}
}
