package footprint

import (
	"fmt"
	"math"

	"costrel/cite"
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

// Line is one entry of the footprint of 1000 bottles.
type Line struct {
	Key      string    // stable: "resin.virgin", "blowing" ...
	Label    string    // in words
	Quantity float64   // of 1000 bottles, SI of Kind
	Kind     unit.Kind // mass, energy, count
	Factor   cite.Datum
	Amount   float64 // kg CO2e per 1000 bottles
	Low      float64 // with the low and high end of the factor
	High     float64
}

// Sheet is the footprint of 1000 good bottles.
type Sheet struct {
	Lines    []Line
	Amount   float64 // kg CO2e per 1000 bottles
	Low      float64 // ranges of the factors, taken as independent, in quadrature
	High     float64
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
// 10 MJ a bottle; a missing factor and a value outside its range is an error.
func PerThousand(q Quantities, factors cite.Card) (Sheet, error) {
	type row struct {
		name      string
		value     float64
		low, high float64
	}
	for _, r := range []row{
		{"preform mass [kg]", q.Preform, 1e-4, 1},
		{"recycled share", q.Recycled, 0, 1},
		{"closure mass [kg]", q.Closure, 0, 0.1},
		{"label mass [kg]", q.Label, 0, 0.1},
		{"moulding energy [J]", q.Moulding, 0, 1e7},
		{"blowing energy [J]", q.Blowing, 0, 1e7},
	} {
		if !(r.value >= r.low) || r.value > r.high {
			return Sheet{}, fmt.Errorf("footprint: %s: %g outside %g..%g", r.name, r.value, r.low, r.high)
		}
	}
	b := builder{factors: factors}
	b.line("resin.virgin", "Resin, virgin", 1000*q.Preform*(1-q.Recycled), unit.Mass, "resin.virgin")
	b.line("resin.recycled", "Resin, recycled", 1000*q.Preform*q.Recycled, unit.Mass, "resin.recycled")
	b.line("moulding", "Preform making, electricity", 1000*q.Moulding, unit.Energy, "electricity")
	b.line("blowing", "Blowing, electricity", 1000*q.Blowing, unit.Energy, "electricity")
	b.scrap()
	b.line("closure", "Closure", 1000*q.Closure, unit.Mass, "closure")
	b.line("label", "Label", 1000*q.Label, unit.Mass, "label")
	s, err := b.sheet()
	s.Boundary = boundary(q)
	return s, err
}

type builder struct {
	factors cite.Card
	lines   []Line
	err     error
}

func (b *builder) factor(key string) cite.Datum {
	d, ok := b.factors.Get(key)
	if b.err != nil {
		return d
	}
	if !ok {
		b.err = fmt.Errorf("footprint: no factor %q in card %q", key, b.factors.Name)
		return d
	}
	// A factor may be negative (a credit someone chose to enter), not infinite.
	if !(d.Low <= d.Value) || !(d.Value <= d.High) || math.IsInf(d.High, 0) || math.IsInf(d.Low, 0) {
		b.err = fmt.Errorf("footprint: factor %s: want low <= value <= high, have %g, %g, %g", key, d.Low, d.Value, d.High)
	}
	return d
}

func (b *builder) line(key, label string, quantity float64, kind unit.Kind, factor string) {
	d := b.factor(factor)
	b.lines = append(b.lines, Line{
		Key: key, Label: label, Quantity: quantity, Kind: kind, Factor: d,
		Amount: quantity * d.Value, Low: quantity * d.Low, High: quantity * d.High,
	})
}

func (b *builder) scrap() {
	s := b.factor("scrap.share")
	if b.err == nil && (s.Low < 0 || s.High > 0.5) {
		b.err = fmt.Errorf("footprint: scrap share %g..%g outside 0..0.5", s.Low, s.High)
	}
	if b.err != nil {
		return
	}
	var lost float64
	for _, l := range b.lines {
		lost += l.Amount
	}
	more := func(share float64) float64 { return share / (1 - share) * lost }
	low, high := more(s.Low), more(s.High)
	b.lines = append(b.lines, Line{
		Key: "scrap", Label: "Scrap", Quantity: 1000 * s.Value / (1 - s.Value), Kind: unit.Count, Factor: s,
		Amount: more(s.Value), Low: min(low, high), High: max(low, high),
	})
}

func (b *builder) sheet() (Sheet, error) {
	if b.err != nil {
		return Sheet{}, b.err
	}
	s := Sheet{Lines: b.lines}
	// Lines of one factor move together, different factors apart.
	down, up := map[string]float64{}, map[string]float64{}
	var order []string
	for _, l := range b.lines {
		s.Amount += l.Amount
		if _, ok := down[l.Factor.Key]; !ok {
			order = append(order, l.Factor.Key)
		}
		down[l.Factor.Key] += l.Amount - l.Low
		up[l.Factor.Key] += l.High - l.Amount
	}
	var low, high float64
	for _, k := range order {
		low, high = math.Hypot(low, down[k]), math.Hypot(high, up[k])
	}
	s.Low, s.High = s.Amount-low, s.Amount+high
	return s, nil
}
