package footprint

import (
	"costrel/cite"
	"costrel/plant/tally"
	"costrel/unit"
)

// Quantities is what one good bottle takes.
type Quantities struct {
	Preform  float64 // mass of PET [kg]
	Recycled float64 // share of the PET that is recycled, 0..1
	Closure  float64 // mass of the closure [kg]
	Label    float64 // mass of the label [kg]
	Moulding float64 // electric energy of drying and preform moulding [J]
	Blowing  float64 // electric energy of oven, air, drives, cooling [J]
}

// Sheet is the footprint of 1000 good bottles, kg CO2e, line by line; the rate
// of a line is its emission factor.
type Sheet struct {
	tally.Sheet
	Boundary string // what is counted and what is not
}

// PerThousand counts 1000 good bottles with the given card of factors; see
// [Factors] for its keys.
//
//	amount = quantity of 1000 bottles * factor
//
// Recycled resin carries the burden of recycling and none of its first life,
// and no credit is given for what is recycled afterwards (cut-off). Scrap is
// a line of its own: 1000 good bottles carry s/(1-s) of resin, moulding and
// blowing more; scrap that is recycled elsewhere leaves without a credit.
// Preform mass up to 1 kg, closure and label up to 0.1 kg, energies up to
// 10 MJ a bottle; a missing factor and a value outside its range is an
// error, every one reported.
func PerThousand(q Quantities, factors cite.Card) (Sheet, error) {
	b := builder(factors)
	b.Within("preform mass [kg]", q.Preform, 1e-4, 1)
	b.Within("recycled share", q.Recycled, 0, 1)
	b.Within("closure mass [kg]", q.Closure, 0, 0.1)
	b.Within("label mass [kg]", q.Label, 0, 0.1)
	b.Within("moulding energy [J]", q.Moulding, 0, 1e7)
	b.Within("blowing energy [J]", q.Blowing, 0, 1e7)
	b.Line("resin.virgin", "Resin, virgin", 1000*q.Preform*(1-q.Recycled), unit.Mass, "resin.virgin")
	b.Line("resin.recycled", "Resin, recycled", 1000*q.Preform*q.Recycled, unit.Mass, "resin.recycled")
	b.Line("moulding", "Preform making, electricity", 1000*q.Moulding, unit.Energy, "electricity")
	b.Line("blowing", "Blowing, electricity", 1000*q.Blowing, unit.Energy, "electricity")
	b.Scrap("Scrap", b.Rate("scrap.share"), 0)
	b.Line("closure", "Closure", 1000*q.Closure, unit.Mass, "closure")
	b.Line("label", "Label", 1000*q.Label, unit.Mass, "label")
	s, err := b.Sheet()
	return Sheet{s, boundary(q)}, err
}

// builder counts with the given factors. One may be negative: a credit that
// someone chose to enter.
func builder(factors cite.Card) *tally.Builder {
	return &tally.Builder{Op: "footprint", Noun: "factor", Rates: factors, Credit: true}
}
