package permeation

import (
	"fmt"

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
	// Known narrows what a band varies.
	Known Known
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
