package cost

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Saving is one thing that a change takes away from every bottle; a negative
// quantity is one it adds.
type Saving struct {
	Key      string    // stable: "resin", "closure", "air"
	Label    string    // in words
	Quantity float64   // saved by one bottle, SI of Kind: kg, J; pieces for a count
	Kind     unit.Kind // mass, energy, count
	Price    float64   // money per kg, per J, per 1000 pieces
	Source   string
}

// Expense is one payment that the change takes once.
type Expense struct {
	Label  string
	Amount float64 // money
}

// Change is a change of a bottle that saves every year and costs once.
type Change struct {
	Bottles float64 // a year
	Savings []Saving
	Once    []Expense
}

// Yearly is a saving over a year.
type Yearly struct {
	Saving
	Total  float64 // saved quantity [SI of Kind a year]
	Amount float64 // money a year
}

// Payback is the result of a change.
type Payback struct {
	Savings []Yearly
	Yearly  float64 // money a year
	Once    float64 // money
	// Never is true where the change saves nothing; Time is then 0.
	Never bool
	Time  float64 // [s], simple and undiscounted
}

// year is the Julian year [s], the one of package unit.
const year = 365.25 * 86400

// Months returns the payback in twelfths of a year.
func (p Payback) Months() float64 { return p.Time / (year / 12) }

// Run works out the change.
//
//	payback = once / (bottles a year * sum of quantity * price)
//
// Undiscounted; a saving counts from the first day. Bottles 1..1e12 a year;
// prices not negative. A change that saves nothing a year never pays back and
// says so.
func (c Change) Run() (Payback, error) {
	if !(c.Bottles >= 1) || c.Bottles > 1e12 {
		return Payback{}, fmt.Errorf("cost: change: %g bottles a year outside 1..1e12", c.Bottles)
	}
	var p Payback
	for _, s := range c.Savings {
		if !(math.Abs(s.Quantity) <= 1e9) {
			return Payback{}, fmt.Errorf("cost: change: %s: quantity %g outside -1e9..1e9", s.Key, s.Quantity)
		}
		if !(s.Price >= 0) || s.Price > 1e9 {
			return Payback{}, fmt.Errorf("cost: change: %s: price %g outside 0..1e9", s.Key, s.Price)
		}
		y := Yearly{Saving: s, Total: c.Bottles * s.Quantity}
		switch s.Kind {
		case unit.Count:
			y.Amount = y.Total / 1000 * s.Price
		case unit.Mass, unit.Energy:
			y.Amount = y.Total * s.Price
		default:
			return Payback{}, fmt.Errorf("cost: change: %s: kind %q is none of mass, energy, count", s.Key, s.Kind)
		}
		p.Savings = append(p.Savings, y)
		p.Yearly += y.Amount
	}
	for _, e := range c.Once {
		if !(e.Amount >= 0) || e.Amount > 1e12 {
			return Payback{}, fmt.Errorf("cost: change: %s: %g money outside 0..1e12", e.Label, e.Amount)
		}
		p.Once += e.Amount
	}
	if p.Yearly <= 0 {
		p.Never = true
		return p, nil
	}
	p.Time = p.Once / p.Yearly * year
	return p, nil
}
