package cost

import (
	"fmt"
	"math"

	"costrel/cite"
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

// Line is one entry of the cost of 1000 bottles.
type Line struct {
	Key      string    // stable: "resin.virgin", "air" ...
	Label    string    // in words
	Quantity float64   // of 1000 bottles, SI of Kind
	Kind     unit.Kind // mass, energy, count, money
	Price    cite.Datum
	Amount   float64 // money per 1000 bottles
	Low      float64 // with the low and high end of the price
	High     float64
}

// Sheet is the cost of 1000 good bottles.
type Sheet struct {
	Lines  []Line
	Amount float64 // money per 1000 bottles
	Low    float64 // the ranges of the prices, taken as independent, in quadrature
	High   float64
}

func (q Quantities) check() error {
	type row struct {
		name      string
		value     float64
		low, high float64
	}
	for _, r := range []row{
		{"preform mass [kg]", q.Preform, 1e-4, 1},
		{"recycled share", q.Recycled, 0, 1},
		{"closure mass [kg]", q.Closure, 0, 0.1},
		{"labels", q.Labels, 0, 10},
		{"air energy [J]", q.AirEnergy, 0, 1e7},
		{"oven energy [J]", q.OvenEnergy, 0, 1e7},
		{"other energy [J]", q.Other, 0, 1e7},
		{"tooling [money]", q.Tooling, 0, 1e10},
		{"tooling life [bottles]", q.Life, 0, 1e13},
	} {
		if !(r.value >= r.low) || r.value > r.high {
			return fmt.Errorf("cost: %s: %g outside %g..%g", r.name, r.value, r.low, r.high)
		}
	}
	if q.Tooling > 0 && q.Life < 1 {
		return fmt.Errorf("cost: tooling: %g money without a number of bottles to write it off over", q.Tooling)
	}
	return nil
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
// outside its range is an error.
func PerThousand(q Quantities, prices cite.Card) (Sheet, error) {
	if err := q.check(); err != nil {
		return Sheet{}, err
	}
	b := builder{prices: prices}
	virgin, recycled := 1000*q.Preform*(1-q.Recycled), 1000*q.Preform*q.Recycled
	b.line("resin.virgin", "Resin, virgin", virgin, unit.Mass, "resin.virgin")
	b.line("resin.recycled", "Resin, recycled", recycled, unit.Mass, "resin.recycled")
	b.line("conversion", "Preform making", 1000, unit.Count, "conversion")
	b.line("blowing", "Blowing", 1000, unit.Count, "blowing")
	b.line("air", "Blowing air", 1000*q.AirEnergy, unit.Energy, "electricity")
	b.line("oven", "Oven", 1000*q.OvenEnergy, unit.Energy, "electricity")
	b.line("other", "Drives and cooling", 1000*q.Other, unit.Energy, "electricity")
	b.scrap(1000 * q.Preform)
	if q.Closure > 0 {
		b.line("closure", "Closure, material", 1000*q.Closure, unit.Mass, "closure")
		b.line("closure.piece", "Closure, making", 1000, unit.Count, "closure.piece")
	}
	if q.Labels > 0 {
		b.line("label", "Label", 1000*q.Labels, unit.Count, "label")
	}
	if q.Tooling > 0 {
		share := 1000 / q.Life * q.Tooling
		b.add(Line{Key: "tooling", Label: "Tooling written off", Quantity: share, Kind: unit.Money, Amount: share, Low: share, High: share})
	}
	return b.sheet()
}

// builder collects the lines of a sheet and the first fault.
type builder struct {
	prices cite.Card
	lines  []Line
	err    error
}

func (b *builder) price(key string) cite.Datum {
	d, ok := b.prices.Get(key)
	if b.err != nil {
		return d
	}
	if !ok {
		b.err = fmt.Errorf("cost: no price %q in card %q", key, b.prices.Name)
		return d
	}
	if !(d.Low >= 0) || !(d.Low <= d.Value) || !(d.Value <= d.High) || math.IsInf(d.High, 0) {
		b.err = fmt.Errorf("cost: price %s: want 0 <= low <= value <= high, have %g, %g, %g", key, d.Low, d.Value, d.High)
	}
	return d
}

func (b *builder) add(l Line) { b.lines = append(b.lines, l) }

func (b *builder) line(key, label string, quantity float64, kind unit.Kind, price string) {
	d := b.price(price)
	per := quantity
	if kind == unit.Count {
		per /= 1000 // the price is per 1000 pieces
	}
	b.add(Line{
		Key: key, Label: label, Quantity: quantity, Kind: kind, Price: d,
		Amount: per * d.Value, Low: per * d.Low, High: per * d.High,
	})
}

// scrap adds the line of lost bottles; every line so far is lost with them.
// Its range is that of the share: the prices vary on their own lines.
func (b *builder) scrap(resin float64) {
	s, sold := b.price("scrap.share"), b.price("scrap.value")
	if b.err == nil && s.High > 0.5 {
		b.err = fmt.Errorf("cost: scrap share %g above 0.5", s.High)
	}
	if b.err != nil {
		return
	}
	var lost float64
	for _, l := range b.lines {
		lost += l.Amount
	}
	lost -= resin * sold.Value
	more := func(share float64) float64 { return share / (1 - share) * lost }
	l := Line{
		Key: "scrap", Label: "Scrap, less its value", Quantity: 1000 * s.Value / (1 - s.Value), Kind: unit.Count, Price: s,
		Amount: more(s.Value), Low: more(s.Low), High: more(s.High),
	}
	if lost < 0 {
		l.Low, l.High = l.High, l.Low
	}
	b.add(l)
}

func (b *builder) sheet() (Sheet, error) {
	if b.err != nil {
		return Sheet{}, b.err
	}
	s := Sheet{Lines: b.lines}
	// One price may stand on several lines (electricity): its lines move
	// together, different prices move apart.
	down, up := map[string]float64{}, map[string]float64{}
	for i, l := range b.lines {
		s.Amount += l.Amount
		key := l.Price.Key
		if key == "" {
			key = fmt.Sprint(i)
		}
		down[key] += l.Amount - l.Low
		up[key] += l.High - l.Amount
	}
	s.Low, s.High = s.Amount-quadrature(down), s.Amount+quadrature(up)
	return s, nil
}

// Share returns the part of the total that the named lines make up, 0..1.
func (s Sheet) Share(keys ...string) float64 {
	if s.Amount == 0 {
		return 0
	}
	var sum float64
	for _, k := range keys {
		for _, l := range s.Lines {
			if l.Key == k {
				sum += l.Amount
			}
		}
	}
	return sum / s.Amount
}
