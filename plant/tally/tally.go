// Package tally adds up what 1000 bottles take, line by line: a quantity times
// a rate of a data card - a price, an emission factor - with the range of the
// rate.
package tally

import (
	"errors"
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Line is one entry of a sheet.
type Line struct {
	Key      string     // stable: "resin.virgin", "air" ...
	Label    string     // in words
	Quantity float64    // of 1000 bottles, SI of Kind
	Kind     unit.Kind  // mass, energy, count, money
	Rate     cite.Datum // price or emission factor; none where the key is empty
	Amount   float64    // per 1000 bottles, in what the sheet counts
	Low      float64    // with the low and high end of the rate
	High     float64
}

// Sheet is the sum of its lines, for 1000 good bottles.
type Sheet struct {
	Lines  []Line
	Amount float64
	Low    float64 // the ranges of the rates, taken as independent, in quadrature
	High   float64
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

// Builder collects the lines of a sheet and its faults. With a fault there is
// no sheet.
type Builder struct {
	Op     string    // who counts, at the front of messages: "cost"
	Noun   string    // what a rate is called there: "price"
	Rates  cite.Card // the rates
	Credit bool      // whether a rate may be negative
	lines  []Line
	faults []error
	seen   map[string]bool // rates looked at
}

// Err returns the faults so far, every one.
func (b *Builder) Err() error { return errors.Join(b.faults...) }

// Fault adds a fault; Op stands at its front.
func (b *Builder) Fault(format string, args ...any) {
	b.faults = append(b.faults, fmt.Errorf(b.Op+": "+format, args...))
}

// Within holds a quantity of the caller against its ends; name carries the
// unit: "preform mass [kg]".
func (b *Builder) Within(name string, value, low, high float64) {
	if !(value >= low && value <= high) {
		b.Fault("%s: %g outside %g..%g", name, value, low, high)
	}
}

// Rate returns a rate of the card. One that is missing and one whose range is
// not finite or does not hold its value is a fault.
func (b *Builder) Rate(key string) cite.Datum {
	d, ok := b.Rates.Get(key)
	if b.seen[key] {
		return d
	}
	if b.seen == nil {
		b.seen = map[string]bool{}
	}
	b.seen[key] = true
	floor, want := 0.0, "0 <= low"
	if b.Credit {
		floor, want = math.Inf(-1), "low"
	}
	switch {
	case !ok:
		b.Fault("no %s %q in card %q", b.Noun, key, b.Rates.Name)
	case !(d.Low >= floor && d.Low <= d.Value && d.Value <= d.High) || math.IsInf(d.Low, 0) || math.IsInf(d.High, 0):
		b.Fault("%s %s: want %s <= value <= high, have %g, %g, %g", b.Noun, key, want, d.Low, d.Value, d.High)
	}
	return d
}

// Add adds a line as it is.
func (b *Builder) Add(l Line) { b.lines = append(b.lines, l) }

// Line adds quantity times rate. The rate of a count is per 1000 pieces.
func (b *Builder) Line(key, label string, quantity float64, kind unit.Kind, rate string) {
	d := b.Rate(rate)
	per := quantity
	if kind == unit.Count {
		per /= 1000
	}
	b.Add(Line{
		Key: key, Label: label, Quantity: quantity, Kind: kind, Rate: d,
		Amount: per * d.Value, Low: per * d.Low, High: per * d.High,
	})
}

// Scrap adds the line of lost bottles, of which a share s of all made is lost
// with every line so far: 1000 good bottles carry
//
//	s/(1-s) (sum of the lines - sold)
//
// more, where sold is the amount that the scrap of 1000 bottles brings in. The
// range of the line is that of the share, 0..0.5: the rates vary on their own
// lines.
func (b *Builder) Scrap(label string, share cite.Datum, sold float64) {
	if !(share.Low >= 0 && share.High <= 0.5) {
		b.Fault("scrap share %g..%g outside 0..0.5", share.Low, share.High)
		return
	}
	var lost float64
	for _, l := range b.lines {
		lost += l.Amount
	}
	lost -= sold
	more := func(s float64) float64 { return s / (1 - s) * lost }
	low, high := more(share.Low), more(share.High)
	b.Add(Line{
		Key: "scrap", Label: label, Quantity: 1000 * share.Value / (1 - share.Value), Kind: unit.Count, Rate: share,
		Amount: more(share.Value), Low: min(low, high), High: max(low, high),
	})
}

// Sheet returns the sum, or every fault.
func (b *Builder) Sheet() (Sheet, error) {
	if err := b.Err(); err != nil {
		return Sheet{}, err
	}
	s := Sheet{Lines: b.lines}
	// One rate may stand on several lines (electricity): its lines move
	// together, different rates move apart.
	down, up := map[string]float64{}, map[string]float64{}
	var order []string
	for i, l := range b.lines {
		s.Amount += l.Amount
		key := l.Rate.Key
		if key == "" {
			key = fmt.Sprint("line ", i)
		}
		if _, ok := down[key]; !ok {
			order = append(order, key)
		}
		down[key] += l.Amount - l.Low
		up[key] += l.High - l.Amount
	}
	var low, high float64
	for _, k := range order {
		low, high = math.Hypot(low, down[k]), math.Hypot(high, up[k])
	}
	s.Low, s.High = s.Amount-low, s.Amount+high
	return s, nil
}
