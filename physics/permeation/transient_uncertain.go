package permeation

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Uncertain is one input that a band varies: a standard normal score z moves
// the case.
type Uncertain struct {
	Key, Label string
	Basis      string // spread and where it comes from
	Move       func(c *Case, z float64)
}

// Known is what is known of the barrier better than by the card "bands".
type Known struct {
	Set    bool    // Factor holds
	Factor float64 // standard deviation of ln of the factor on the diffusivity
	// At is the temperature of pulls to which the factor was fitted, 0 where it
	// was not. The fit holds wall and closure together for carbon dioxide there:
	// a thinner wall or a leakier closure would have given another factor and the
	// same loss. The band then varies neither, and turns the activation energy
	// about At.
	At unit.Temperature
	// Thickness is the relative standard deviation of the wall from bottle to
	// bottle, in the place of the card's.
	Thickness *float64
}

// ends is the score at the ends of a 95 % range.
const ends = 1.959963984540054

// Uncertainties returns the inputs of the case that a band varies, from the
// card "bands" and what is known better: diffusivity factor, closure, thickness
// of every zone, activation energy of diffusion, oxygen permeability, store,
// fill, each independent of the others. "Plus or minus" and "times or over" on
// the card are taken as 95 % ranges. All are chosen for this project.
func (c Case) Uncertainties() []Uncertain {
	var out []Uncertain
	for _, z := range c.Zones {
		if !z.Material.Tight {
			out = c.wallUncertainties()
			break
		}
	}
	out = append(out, c.capUncertainty())
	store, fill := bandOf("temperature"), bandOf("fill")
	out = append(out, chosen("temperature", "Store: temperature", fmt.Sprintf("± ‹%g K›", store), func(c *Case, z float64) {
		c.Lane = c.Lane.Shifted(unit.TemperatureDiff(store * z / ends))
	}))
	if c.Contents == nil {
		out = append(out, chosen("fill", "Fill: volume", fmt.Sprintf("± ‹%g mL›", fill*1e6), func(c *Case, z float64) {
			c.Fill.Fill += fill * z / ends
		}))
	}
	return out
}

func bandOf(key string) float64 {
	d, _ := Bands().Get(key)
	return d.Value
}

func chosen(key, label, basis string, move func(*Case, float64)) Uncertain {
	return Uncertain{Key: key, Label: label, Basis: basis + ", chosen for this project", Move: move}
}

// materials changes the material of every zone that lets gas through.
func materials(c *Case, f func(m *Material)) {
	zones := append([]WallZone(nil), c.Zones...)
	for i := range zones {
		if !zones[i].Material.Tight {
			f(&zones[i].Material)
		}
	}
	c.Zones = zones
}

func (c Case) wallUncertainties() []Uncertain {
	sigma, at := bandOf("factor.sigma"), c.Known.At
	factor := chosen("factor", "Wall: factor on diffusivity", "", nil)
	factor.Basis = fmt.Sprintf("log-normal, σ %g, chosen for this project", sigma)
	if c.Known.Set {
		sigma = c.Known.Factor
		factor.Basis = fmt.Sprintf("log-normal, σ %.3g of the design", sigma)
		if at != 0 {
			factor.Basis = fmt.Sprintf("log-normal, σ %.3g left by a fit to pulls at ‹%.4g °C›, wall and closure together", sigma, at.Celsius())
		}
	}
	factor.Move = func(c *Case, z float64) {
		f := math.Exp(sigma * z)
		materials(c, func(m *Material) {
			if s, err := m.Scaled(f); err == nil {
				*m = s
			} else {
				m.CO2.Diffusivity.Value = math.NaN() // found by the check of the run
			}
		})
	}
	energy, oxygen := bandOf("diffusivity.energy"), bandOf("o2.permeability.sigma")
	out := []Uncertain{
		factor,
		chosen("energy", "Wall: activation energy of diffusion", fmt.Sprintf("± %g kJ/mol", energy/1e3), func(c *Case, z float64) {
			materials(c, func(m *Material) { m.turn(energy*z/ends, at) })
		}),
		chosen("oxygen", "Wall: oxygen permeability", fmt.Sprintf("log-normal, σ %g", oxygen), func(c *Case, z float64) {
			materials(c, func(m *Material) { m.Oxygen.Permeability.Value *= math.Exp(oxygen * z) })
		}),
	}
	if at != 0 {
		return out
	}
	thick := bandOf("thickness.sigma")
	if t := c.Known.Thickness; t != nil {
		thick = *t
	}
	if thick == 0 {
		return out
	}
	for i := range c.Zones {
		if c.Zones[i].Material.Tight {
			continue
		}
		out = append(out, chosen(fmt.Sprintf("thickness.%d", i+1), "Thickness: "+c.Zones[i].Name, fmt.Sprintf("σ %g %%", 100*thick), func(c *Case, z float64) {
			zones := append([]WallZone(nil), c.Zones...)
			zones[i].Thickness *= math.Max(0.2, 1+thick*z)
			c.Zones = zones
		}))
	}
	return out
}

// turn adds e [J/mol] to the activation energy of diffusion, the values at the
// temperature kept; 0 keeps those at the reference.
func (m *Material) turn(e float64, at unit.Temperature) {
	laws := []*Arrhenius{&m.CO2.Diffusivity}
	for _, h := range []*Henry{&m.Oxygen, &m.Nitrogen} {
		laws = append(laws, &h.Permeability, &h.Diffusivity)
	}
	for _, a := range laws {
		if at != 0 {
			a.Value *= math.Exp(e / unit.GasConstant * (1/float64(at) - 1/float64(a.Reference)))
		}
		a.Energy += e
	}
}

func (c Case) capUncertainty() Uncertain {
	cap := bandOf("closure.factor")
	label, fitted := "Closure: conductance", c.Known.At != 0
	if fitted {
		label = "Closure: conductance of air and water"
	}
	return chosen("closure", label, fmt.Sprintf("times or over %g", cap), func(c *Case, z float64) {
		f := math.Exp(math.Log(cap) * z / ends)
		if !fitted {
			c.Cap.CO2 *= f
		}
		for _, k := range []*float64{&c.Cap.Oxygen, &c.Cap.Nitrogen, &c.Cap.Water} {
			*k *= f
		}
	})
}
