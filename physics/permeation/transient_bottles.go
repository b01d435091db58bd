package permeation

import (
	"costrel/physics/drink"
	"costrel/unit"
)

// example is a bottle of the checks: geometry and filling.
type example struct {
	fill, brimful float64
	grow          float64 // R/t of the body
	zones         [5][2]float64
}

// The bottles of the checks: body, shoulder, base stretched; gate and finish
// amorphous; area [m²] and thickness [m].
var (
	half = example{0.5e-3, 0.522e-3, 32e-3 / 0.30e-3, [5][2]float64{{0.0285, 0.30e-3}, {0.0060, 0.38e-3}, {0.0055, 0.43e-3}, {0.0005, 1.6e-3}, {0.0015, 1.9e-3}}}
	two  = example{2e-3, 2.06e-3, 54e-3 / 0.24e-3, [5][2]float64{{0.0800, 0.24e-3}, {0.0120, 0.32e-3}, {0.0140, 0.30e-3}, {0.0006, 1.4e-3}, {0.0015, 1.9e-3}}}
)

// change is what a check changes in a bottle; the zero value changes nothing.
type change struct {
	factor, cap, volumes, sealedAt float64
	sugar                          float64 // °Brix on the chart
	rigid, noCap                   bool
	only                           bool // CO2 alone: no air inside
}

// pack returns the bottle filled; see cased.
func (e example) pack(c change) (Pack, error) {
	k, err := e.cased(c)
	if err != nil {
		return Pack{}, err
	}
	return k.Pack()
}

// cased returns the bottle with water of 4 volumes, 30 % air in the headspace
// before pressure builds up, read at 22 °C.
func (e example) cased(c change) (Case, error) {
	if c.factor == 0 {
		c.factor = 1
	}
	if c.volumes == 0 {
		c.volumes = 4
	}
	if c.sealedAt == 0 {
		c.sealedAt = 22
	}
	d := drink.Drink{Carbonation: drink.FromVolumes(c.volumes), Basis: drink.Mass}
	if c.sugar > 0 {
		d.Basis = drink.Chart
		d.Sugar = c.sugar * 10 * drink.SucroseDensity(unit.Celsius(20), c.sugar/100) / 1000
	}
	l, err := d.Liquid()
	if err != nil {
		return Case{}, err
	}
	growth := 0.70 * e.grow * (2.5 - 2*0.38) / 4.2e9
	air := 0.3
	if c.only {
		air = 0
	}
	at := unit.Celsius(c.sealedAt)
	p := Case{
		Liquid: l, Fill: drink.Pack{Fill: e.fill, Brimful: e.brimful, FillT: at, ReferenceT: at, Ambient: unit.Atm, Air: air},
		Growth: DefaultGrowth(growth),
	}
	if c.rigid {
		p.Growth.Terms = nil
	}
	for i, z := range e.zones {
		name := "wall"
		if i > 2 {
			name = "amorphous"
		}
		m, err := Named(name)
		if err != nil {
			return Case{}, err
		}
		if m, err = m.Scaled(c.factor); err != nil {
			return Case{}, err
		}
		p.Zones = append(p.Zones, WallZone{Name: []string{"body", "shoulder", "base", "gate", "finish"}[i], Area: z[0], Thickness: z[1], Material: m})
	}
	k := 1.0
	if c.cap != 0 {
		k = c.cap
	}
	if c.noCap {
		k = 0
	}
	const perDay = cc / (day * atm)
	p.Cap = Cap{CO2: 0.11 * k * perDay, Oxygen: 0.035 * k * perDay, Nitrogen: 0.012 * k * perDay, Water: 2e-5 * k / (day * 1e3) * 1e-3, Reference: unit.Celsius(23), Energy: 32e3}
	return p, nil
}
