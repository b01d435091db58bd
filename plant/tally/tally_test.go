package tally

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
	"costrel/unit"
)

// prices are two rates with ranges of 3 and 4 about their values, and a share.
func prices() cite.Card {
	return cite.Card{Name: "mine", Data: []cite.Datum{
		{Key: "a", Value: 10, Low: 7, High: 14},
		{Key: "b", Value: 20, Low: 16, High: 23},
		{Key: "share", Value: 0.2, Low: 0.1, High: 0.5},
	}}
}

func newBuilder() *Builder { return &Builder{Op: "cost", Noun: "price", Rates: prices()} }

// Two rates in quadrature, 3-4-5; the lines of one rate add up first.
func TestSheet(t *testing.T) {
	b := newBuilder()
	b.Line("one", "One", 0.5, unit.Mass, "a")
	b.Line("two", "Two", 500, unit.Count, "a")
	b.Line("three", "Three", 1, unit.Energy, "b")
	b.Add(Line{Key: "four", Amount: 5, Low: 5, High: 5})
	s, err := b.Sheet()
	if err != nil {
		t.Fatal(err)
	}
	if s.Amount != 35 || s.Low != 30 || s.High != 40 {
		t.Errorf("%g, %g..%g; want 35, 30..40", s.Amount, s.Low, s.High)
	}
	if l := s.Lines[1]; l.Amount != 5 || l.Low != 3.5 || l.High != 7 || l.Quantity != 500 || l.Rate.Key != "a" {
		t.Errorf("%+v", l)
	}
	if x := s.Share("one", "four", "none"); math.Abs(x-10.0/35) > 1e-15 {
		t.Errorf("share %g", x)
	}
	if (Sheet{}).Share("one") != 0 {
		t.Error("a share of nothing")
	}
}

// A fifth of what is made is lost: a quarter more of the lines so far.
func TestScrap(t *testing.T) {
	for _, c := range []struct{ quantity, sold, amount, low, high float64 }{
		{1, 0, 2.5, 10.0 / 9, 10},
		{1, 2, 2, 8.0 / 9, 8},
		{1, 14, -1, -4, -4.0 / 9}, // scrap that brings more than it took
	} {
		b := newBuilder()
		b.Line("one", "One", c.quantity, unit.Mass, "a")
		b.Scrap("Scrap", b.Rate("share"), c.sold)
		b.Line("three", "Three", 1, unit.Energy, "b") // not lost
		s, err := b.Sheet()
		if err != nil {
			t.Fatal(err)
		}
		l := s.Lines[1]
		for _, v := range [][2]float64{{l.Amount, c.amount}, {l.Low, c.low}, {l.High, c.high}, {l.Quantity, 250}} {
			if math.Abs(v[0]-v[1]) > 1e-12 {
				t.Errorf("%+v: %+v", c, l)
			}
		}
	}
}

func TestFaults(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		what           string
		low, at, high  float64
		credit, refuse bool
	}{
		{"plain", 1, 2, 3, false, false},
		{"exact zero", 0, 0, 0, false, false},
		{"negative", -1, 2, 3, false, true},
		{"credit", -3, -2, -1, true, false},
		{"turned", 3, 2, 1, true, true},
		{"value outside", 1, 4, 3, false, true},
		{"NaN", 1, math.NaN(), 3, true, true},
		{"low NaN", math.NaN(), 2, 3, false, true},
		{"no low end", -inf, 2, 3, true, true},
		{"no high end", 1, 2, inf, false, true},
	} {
		b := Builder{Op: "cost", Noun: "price", Credit: c.credit, Rates: cite.Card{Data: []cite.Datum{{Key: "a", Low: c.low, Value: c.at, High: c.high}}}}
		b.Line("one", "One", 1, unit.Mass, "a")
		s, err := b.Sheet()
		if (err != nil) != c.refuse || err != nil && (s.Lines != nil || !strings.Contains(err.Error(), "cost: price a: want ")) || (b.Err() == nil) == c.refuse {
			t.Errorf("%s: %+v, %v", c.what, s, err)
		}
	}
	b := newBuilder()
	b.Within("mass [kg]", 1, 0, 1)
	b.Within("share", math.NaN(), 0, 1)
	b.Line("one", "One", 1, unit.Mass, "x")
	b.Line("two", "Two", 1, unit.Mass, "x") // the same rate: one fault
	b.Rate("y")
	b.Fault("no %s", "sun")
	const want = "cost: share: NaN outside 0..1\ncost: no price \"x\" in card \"mine\"\ncost: no price \"y\" in card \"mine\"\ncost: no sun"
	if _, err := b.Sheet(); err == nil || err.Error() != want {
		t.Errorf("have %v\nwant %s", err, want)
	}
	for _, d := range []cite.Datum{{Low: -0.1, High: 0.1}, {High: 0.6}, {High: math.NaN()}} {
		b = newBuilder()
		b.Scrap("Scrap", d, 0)
		if _, err := b.Sheet(); err == nil || !strings.Contains(err.Error(), "outside 0..0.5") {
			t.Errorf("share %+v: %v", d, err)
		}
	}
}
