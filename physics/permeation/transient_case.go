package permeation

import (
	"fmt"
	"math"

	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

// Case is a pack before it is filled, with its lane: what a band varies and a
// calibration fits.
type Case struct {
	Liquid drink.Liquid
	Fill   drink.Pack // its Growth is taken from Growth below
	Zones  []WallZone
	Cap    Cap
	Growth Growth
	Uptake Uptake
	Lane   climate.Lane
	// Contents, where given, is what is inside instead of what Fill gives: a
	// pack closed hot, worked out by its own balance. Fill then gives the
	// volumes, less the shrinkage.
	Contents *drink.Contents
	// Read is the temperature of reading; 0 = Fill.ReferenceT, or the start of
	// the lane where the carbonation is that of the filler.
	Read unit.Temperature
}

// Pack fills the bottle.
func (c Case) Pack() (Pack, error) {
	c.Fill.Growth = c.Growth.Elastic
	var p Pack
	if c.Contents == nil {
		var err error
		if p, err = Fill(c.Liquid, c.Fill); err != nil {
			return Pack{}, err
		}
	} else {
		p = Pack{Liquid: c.Liquid, Contents: *c.Contents, Volume: c.Fill.Brimful}
	}
	p.Zones, p.Cap, p.Growth, p.Uptake = c.Zones, c.Cap, c.Growth, c.Uptake
	if c.Read != 0 {
		p.Read = c.Read
	}
	return p, nil
}

// Run fills the bottle and follows it; see [Pack.Run].
func (c Case) Run(until float64, o Options) (*Life, error) {
	p, err := c.Pack()
	if err != nil {
		return nil, err
	}
	lane, err := c.Lane.Course()
	if err != nil {
		return nil, err
	}
	return p.Run(lane, until, o)
}

// Preset returns the case with the factor of a preset ("central",
// "trade-2L-26wk", "pessimistic") on every wall, and the note that goes with
// it.
func (c Case) Preset(name string) (Case, string, error) {
	d, ok := Presets().Get(name)
	if !ok {
		var names []string
		for _, d := range Presets().Data {
			names = append(names, d.Key)
		}
		return Case{}, "", fmt.Errorf("permeation: no preset %q, want one of %q", name, names)
	}
	c, err := c.Factor(d.Value)
	return c, d.Label + ": " + d.Note, err
}

// Factor returns the case with every diffusivity of the wall times f.
func (c Case) Factor(f float64) (Case, error) {
	zones := append([]WallZone(nil), c.Zones...)
	for i := range zones {
		m, err := zones[i].Material.Scaled(f)
		if err != nil {
			return Case{}, err
		}
		zones[i].Material = m
	}
	c.Zones = zones
	return c, nil
}

// Uncertain is one input that a band varies: a standard normal score z moves
// the case.
type Uncertain struct {
	Key, Label string
	Basis      string // spread and where it comes from
	Move       func(c *Case, z float64)
}

// ends is the score at the ends of a 95 % range.
const ends = 1.959963984540054

// Uncertainties returns the inputs of the case that a band varies, from the
// card "bands": diffusivity factor, closure, thickness of every zone,
// activation energy of diffusion, oxygen permeability, store, fill, each
// independent of the others. "Plus or minus" and "times or over" on the card
// are taken as 95 % ranges. All are chosen for this project.
func (c Case) Uncertainties() []Uncertain {
	b := Bands()
	v := func(key string) (float64, string) {
		d, _ := b.Get(key)
		return d.Value, d.Label
	}
	var out []Uncertain
	add := func(key, label, basis string, move func(*Case, float64)) {
		out = append(out, Uncertain{Key: key, Label: label, Basis: basis + ", chosen for this project", Move: move})
	}
	materials := func(c *Case, f func(m *Material)) {
		zones := append([]WallZone(nil), c.Zones...)
		for i := range zones {
			if !zones[i].Material.Tight {
				f(&zones[i].Material)
			}
		}
		c.Zones = zones
	}
	wall := false
	for _, z := range c.Zones {
		wall = wall || !z.Material.Tight
	}
	if wall {
		sigma, _ := v("factor.sigma")
		add("factor", "Wall: factor on diffusivity", fmt.Sprintf("log-normal, σ %g", sigma), func(c *Case, z float64) {
			f := math.Exp(sigma * z)
			materials(c, func(m *Material) {
				if s, err := m.Scaled(f); err == nil {
					*m = s
				} else {
					m.CO2.Diffusivity.Value = math.NaN() // found by the check of the run
				}
			})
		})
		energy, _ := v("diffusivity.energy")
		add("energy", "Wall: activation energy of diffusion", fmt.Sprintf("± %g kJ/mol", energy/1e3), func(c *Case, z float64) {
			e := energy * z / ends
			materials(c, func(m *Material) {
				m.CO2.Diffusivity.Energy += e
				for _, h := range []*Henry{&m.Oxygen, &m.Nitrogen} {
					h.Permeability.Energy += e
					h.Diffusivity.Energy += e
				}
			})
		})
		oxygen, _ := v("o2.permeability.sigma")
		add("oxygen", "Wall: oxygen permeability", fmt.Sprintf("log-normal, σ %g", oxygen), func(c *Case, z float64) {
			materials(c, func(m *Material) { m.Oxygen.Permeability.Value *= math.Exp(oxygen * z) })
		})
		thick, _ := v("thickness.sigma")
		for i := range c.Zones {
			if c.Zones[i].Material.Tight {
				continue
			}
			add(fmt.Sprintf("thickness.%d", i+1), "Thickness: "+c.Zones[i].Name, fmt.Sprintf("σ %g %%", 100*thick), func(c *Case, z float64) {
				zones := append([]WallZone(nil), c.Zones...)
				zones[i].Thickness *= math.Max(0.2, 1+thick*z)
				c.Zones = zones
			})
		}
	}
	cap, _ := v("closure.factor")
	add("closure", "Closure: conductance", fmt.Sprintf("times or over %g", cap), func(c *Case, z float64) {
		f := math.Exp(math.Log(cap) * z / ends)
		for _, k := range []*float64{&c.Cap.CO2, &c.Cap.Oxygen, &c.Cap.Nitrogen, &c.Cap.Water} {
			*k *= f
		}
	})
	store, _ := v("temperature")
	add("temperature", "Store: temperature", fmt.Sprintf("± %g K", store), func(c *Case, z float64) {
		c.Lane = c.Lane.Shifted(unit.TemperatureDiff(store * z / ends))
	})
	if c.Contents == nil {
		fill, _ := v("fill")
		add("fill", "Fill: volume", fmt.Sprintf("± %g mL", fill*1e6), func(c *Case, z float64) {
			c.Fill.Fill += fill * z / ends
		})
	}
	return out
}

// Moved returns the case with every uncertain input at its score.
func (c Case) Moved(inputs []Uncertain, z []float64) (Case, error) {
	if len(inputs) != len(z) {
		return Case{}, fmt.Errorf("permeation: band: %d scores for %d inputs", len(z), len(inputs))
	}
	for i, u := range inputs {
		u.Move(&c, z[i])
	}
	return c, nil
}
