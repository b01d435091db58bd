package permeation

import (
	"math"

	"costrel/cite"
	"costrel/physics/climate"
	"costrel/unit"
)

// made returns the half-litre bottle after a change and its loss after the days
// at 22 °C.
func made(c change, f func(*Pack), celsius, days float64, o Options) (Loss, error) {
	p, err := half.pack(c)
	if err != nil {
		return Loss{}, err
	}
	if c.only {
		p = p.alone()
	}
	p.Zones = append([]WallZone(nil), p.Zones...)
	if f != nil {
		f(&p)
	}
	lane, err := climate.Constant("", unit.Celsius(celsius), 0.5, days*day).Course()
	if err != nil {
		return Loss{}, err
	}
	l, err := p.Run(lane, 0, o)
	if err != nil {
		return Loss{}, err
	}
	return l.Loss(days*day, Sealed)
}

// glassy makes every zone of glass.
func glassy(p *Pack) {
	for i := range p.Zones {
		p.Zones[i].Material = Material{Name: "glass", Tight: true}
	}
	p.Growth = Growth{}
}

// exponential is what the closure alone takes from the glass bottle by the
// lumped balance, at a carbonation where its gas is nearly ideal.
func exponential(days float64) float64 {
	p, err := half.pack(change{volumes: 0.8, only: true})
	if err != nil {
		return math.NaN()
	}
	t := unit.Celsius(22)
	k := Arrhenius{p.Cap.CO2, p.Cap.Energy, p.Cap.Reference}.At(t)
	water := p.Contents.Liquid * (1 - p.Liquid.MassFraction())
	c, err := Capacity(water, p.Liquid.HenryCO2(t), p.Volume-p.Contents.Liquid/p.Liquid.Density(t), t)
	if err != nil {
		return math.NaN()
	}
	x, err := LossExponential(k, c, days*day)
	return 100 * cite.Or(x, err)
}

// notRising counts the neighbours of a ladder of losses that do not rise.
func notRising(n int, at func(i int) (Loss, error)) float64 {
	wrong, last := 0.0, math.Inf(-1)
	for i := range n {
		x, err := at(i)
		if err != nil {
			return math.NaN()
		}
		if !(x.Total > last) {
			wrong++
		}
		last = x.Total
	}
	return wrong
}

// thicken and enlarge change every zone.
func thicken(by float64) func(*Pack) {
	return func(p *Pack) {
		for i := range p.Zones {
			p.Zones[i].Thickness *= by
		}
	}
}

func enlarge(by float64) func(*Pack) {
	return func(p *Pack) {
		for i := range p.Zones {
			p.Zones[i].Area *= by
		}
	}
}

// limitChecks are the limits that every run must keep: what is left when a way
// of loss is shut, and which way the loss goes with its causes.
func limitChecks() []cite.Check {
	const weeks26 = 182
	zero := func(id, what, u string, allowed float64, f func() float64) cite.Check {
		return cite.Check{ID: "permeation.limit." + id, Case: what, Source: "CommonPractice", Unit: u, Allowed: allowed, Mark: cite.Independent, Note: "limit that the equations must keep", Ours: f}
	}
	out := []cite.Check{
		zero("glass", "half-litre bottle of rigid glass, 26 weeks: loss that is neither through the closure nor in headspace and water", "%", 1e-9, func() float64 {
			x, err := made(change{}, glassy, 22, weeks26, Options{})
			return 100 * cite.Or(x.Total-x.Closure-x.Headspace-x.Water, err)
		}),
		{
			ID: "permeation.limit.glass.exponential", Case: "the same with carbon dioxide alone, 0.8 vol: loss over that of the exponential law of the closure, less one", Source: "PlummerBusenberg1982", Unit: "%", Allowed: 0.8,
			Mark: cite.Independent, Note: "analytic limit: the lumped balance with an ideal gas; under 1 bar the gas is 0.5 % off ideal and air holds 40 Pa of it", Ours: func() float64 {
				x, err := made(change{volumes: 0.8, only: true}, glassy, 22, weeks26, Options{})
				return 100 * (100*cite.Or(x.Total, err)/exponential(weeks26) - 1)
			},
		},
		zero("thick", "half-litre bottle with a tight closure and a rigid wall of 20 mm, 26 weeks: carbon dioxide that leaves the wall", "%", 1e-4, func() float64 {
			x, err := made(change{noCap: true, rigid: true}, func(p *Pack) {
				for i := range p.Zones {
					p.Zones[i].Thickness = 20e-3
				}
			}, 22, weeks26, Options{Cells: 60})
			if !(x.Sorption > 0.01) {
				return math.NaN() // it must take some up
			}
			return 100 * cite.Or(x.Wall+x.Closure, err)
		}),
	}
	for _, r := range []struct {
		id, what string
		n        int
		at       func(i int) (Loss, error)
	}{
		{"factor", "factor on the wall 0.01, 0.03, 0.1, 0.3, 1", 5, func(i int) (Loss, error) {
			return made(change{factor: []float64{0.01, 0.03, 0.1, 0.3, 1}[i]}, nil, 22, weeks26, Options{})
		}},
		{"temperature", "5, 15, 22, 30, 38 °C", 5, func(i int) (Loss, error) {
			return made(change{}, nil, []float64{5, 15, 22, 30, 38}[i], weeks26, Options{})
		}},
		{"closure", "closure shut, half, as it is, twice", 4, func(i int) (Loss, error) {
			return made([]change{{noCap: true}, {cap: 0.5}, {}, {cap: 2}}[i], nil, 22, weeks26, Options{})
		}},
		{"area", "area 0.5, 1, 2 times", 3, func(i int) (Loss, error) {
			return made(change{}, enlarge([]float64{0.5, 1, 2}[i]), 22, weeks26, Options{})
		}},
		{"thickness", "wall 2, 1, 0.5 times as thick", 3, func(i int) (Loss, error) {
			return made(change{}, thicken([]float64{2, 1, 0.5}[i]), 22, weeks26, Options{})
		}},
	} {
		out = append(out, zero("rises."+r.id, "half-litre bottle, 26 weeks, "+r.what+": steps at which the loss does not rise", "1", 0.5, func() float64 { return notRising(r.n, r.at) }))
	}
	return out
}
