package cost

import (
	"costrel/cite"
	"costrel/plant/tally"
	"costrel/unit"
)

// Quantities is what one good bottle takes.
type Quantities struct {
	Preform    float64 // mass of PET [kg]
	Recycled   float64 // share of the PET that is recycled, 0..1
	Closure    float64 // mass of the closure [kg]; 0 = no closure is priced
	Labels     float64 // labels a bottle; 0 = none
	AirEnergy  float64 // electric energy of the air, net of recovery [J]
	OvenEnergy float64 // electric energy of the oven [J]
	Other      float64 // electric energy of drives, cooling ... [J]

	Tooling float64 // money in moulds and preform tooling to be written off
	Life    float64 // bottles over which it is written off; 0 = no tooling is priced
}

// Sheet is the cost of 1000 good bottles, money, line by line; the rate of a
// line is its price.
type Sheet struct{ tally.Sheet }

func (q Quantities) check(b *tally.Builder) {
	b.Within("preform mass [kg]", q.Preform, 1e-4, 1)
	b.Within("recycled share", q.Recycled, 0, 1)
	b.Within("closure mass [kg]", q.Closure, 0, 0.1)
	b.Within("labels", q.Labels, 0, 10)
	b.Within("air energy [J]", q.AirEnergy, 0, 1e7)
	b.Within("oven energy [J]", q.OvenEnergy, 0, 1e7)
	b.Within("other energy [J]", q.Other, 0, 1e7)
	b.Within("tooling [money]", q.Tooling, 0, 1e10)
	b.Within("tooling life [bottles]", q.Life, 0, 1e13)
	if q.Tooling > 0 && q.Life < 1 {
		b.Fault("tooling: %g money without a number of bottles to write it off over", q.Tooling)
	}
}

// PerThousand prices 1000 good bottles with the given card of prices; see
// [Prices] for its keys.
//
//	amount = quantity of 1000 bottles * price
//
// Scrap is a line of its own: a share s of the bottles blown is lost with its
// resin, conversion, air, oven and blowing, so that 1000 good bottles carry
// s/(1-s) of those lines more, less what the scrap is sold for. Closure and
// label go on good bottles only. A missing price, a quantity or a price
// outside its range is an error, every one reported.
func PerThousand(q Quantities, prices cite.Card) (Sheet, error) {
	b := tally.Builder{Op: "cost", Noun: "price", Rates: prices}
	q.check(&b)
	virgin, recycled := 1000*q.Preform*(1-q.Recycled), 1000*q.Preform*q.Recycled
	b.Line("resin.virgin", "Resin, virgin", virgin, unit.Mass, "resin.virgin")
	b.Line("resin.recycled", "Resin, recycled", recycled, unit.Mass, "resin.recycled")
	b.Line("conversion", "Preform making", 1000, unit.Count, "conversion")
	b.Line("blowing", "Blowing", 1000, unit.Count, "blowing")
	b.Line("air", "Blowing air", 1000*q.AirEnergy, unit.Energy, "electricity")
	b.Line("oven", "Oven", 1000*q.OvenEnergy, unit.Energy, "electricity")
	b.Line("other", "Drives and cooling", 1000*q.Other, unit.Energy, "electricity")
	b.Scrap("Scrap, less its value", b.Rate("scrap.share"), 1000*q.Preform*b.Rate("scrap.value").Value)
	if q.Closure > 0 {
		b.Line("closure", "Closure, material", 1000*q.Closure, unit.Mass, "closure")
		b.Line("closure.piece", "Closure, making", 1000, unit.Count, "closure.piece")
	}
	if q.Labels > 0 {
		b.Line("label", "Label", 1000*q.Labels, unit.Count, "label")
	}
	if q.Tooling > 0 {
		share := 1000 / q.Life * q.Tooling
		b.Add(tally.Line{Key: "tooling", Label: "Tooling written off", Quantity: share, Kind: unit.Money, Amount: share, Low: share, High: share})
	}
	s, err := b.Sheet()
	return Sheet{s}, err
}
