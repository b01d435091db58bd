package permeation

import (
	"math"

	"costrel/cite"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

// brim is a half litre of still water in a wall that gives 1 mL/kPa, closed with
// little gas: at 22 °C the liquid is 20 mL short of the bottle.
func brim(nitrogen float64) (Pack, error) {
	l, err := (drink.Drink{}).Liquid()
	if err != nil {
		return Pack{}, err
	}
	p, err := half.pack(change{})
	if err != nil {
		return Pack{}, err
	}
	p.Liquid, p.Filler = l, nil
	p.Contents = drink.Contents{Liquid: 0.498, Oxygen: 3e-5, Nitrogen: nitrogen}
	p.Volume = 0.498/drink.SucroseDensity(unit.Celsius(22), 0) + 20e-6
	p.Growth.Panel = Compliance(1e-9)
	return p, nil
}

// fullChecks are those of a bottle that its liquid fills.
func fullChecks() []cite.Check {
	run := func(years float64) (*Life, error) {
		p, err := brim(1e-4)
		if err != nil {
			return nil, err
		}
		c, err := climate.Constant("room", unit.Celsius(22), 0.5, years*365.25*day).Course()
		if err != nil {
			return nil, err
		}
		return p.Run(c, 0, Options{})
	}
	return []cite.Check{
		{
			ID: "permeation.full.vacuum", Case: "half a litre of water, 20 mL short in a wall of 1 mL/kPa, its gas all dissolved: vacuum at closing", Source: "MoranShapiro2006", Unit: "kPa", Published: 20, Allowed: 1e-6,
			Mark: cite.Independent, Note: "by hand: the wall gives what the liquid lacks", Ours: func() float64 {
				l, err := run(0.01)
				if err != nil {
					return math.NaN()
				}
				p, err := l.At(0)
				return cite.Or(-float64(p.Gauge)/1e3, err)
			},
		},
		{
			ID: "permeation.full.balance", Case: "half a litre of water that fills its bottle, three years at 22 °C, in which a gas space opens: largest part of a gas not accounted for", Source: "MoranShapiro2006", Unit: "1", Published: 0, Allowed: 1e-8,
			Mark: cite.Independent, Note: "conservation", Ours: func() float64 {
				l, err := run(3)
				if err != nil {
					return math.NaN()
				}
				if p, err := l.At(l.end); err != nil || !(p.Headspace > 0) {
					return math.NaN() // it must come to one
				}
				worst := 0.0
				for _, b := range l.Balance() {
					worst = math.Max(worst, math.Abs(b))
				}
				return worst
			},
		},
	}
}
