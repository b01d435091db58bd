package cost

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
	"costrel/unit"

	"pgregory.net/rapid"
)

func full() Quantities {
	return Quantities{
		Preform: 0.0388, Recycled: 0.25, Closure: 0.0024, Labels: 1,
		AirEnergy: 0.0428 * 0.22 * kWh, OvenEnergy: 0.0388 * 0.16 * kWh, Other: 1800,
		Tooling: 600e3, Life: 60e6,
	}
}

// Every line by hand from the prices of the card.
func TestPerThousandByHand(t *testing.T) {
	s, err := PerThousand(full(), Prices())
	if err != nil {
		t.Fatal(err)
	}
	electric := (0.0428*0.22 + 0.0388*0.16 + 0.0005) * 1000 * 0.14
	resin := 38.8 * (0.75*1.20 + 0.25*1.45)
	lost := resin + 7.7 + 5.0 + electric
	want := lost + (lost-38.8*0.30)*0.01/0.99 + 2.4*1.40 + 3.0 + 3.0 + 10
	if math.Abs(s.Amount-want) > 1e-9 {
		t.Errorf("got %g want %g", s.Amount, want)
	}
	var sum float64
	for _, l := range s.Lines {
		sum += l.Amount
		if !(l.Low <= l.Amount && l.Amount <= l.High) {
			t.Errorf("%s: %g outside %g..%g", l.Key, l.Amount, l.Low, l.High)
		}
	}
	if math.Abs(sum-s.Amount) > 1e-12 || s.Low >= s.Amount || s.High <= s.Amount {
		t.Errorf("%g: lines sum to %g, range %g..%g", s.Amount, sum, s.Low, s.High)
	}
}

// Without scrap, closure, label and tooling only the bottle is left.
func TestPerThousandBare(t *testing.T) {
	p := Prices()
	for i := range p.Data {
		if p.Data[i].Key == "scrap.share" {
			p.Data[i].Value, p.Data[i].Low, p.Data[i].High = 0, 0, 0
		}
	}
	s, err := PerThousand(Quantities{Preform: 0.030}, p)
	if err != nil || math.Abs(s.Amount-(36+7.7+5.0)) > 1e-9 {
		t.Errorf("got %g, %v", s.Amount, err)
	}
}

func TestPerThousandRefuses(t *testing.T) {
	q := full()
	q.Recycled = 1.1
	if _, err := PerThousand(q, Prices()); err == nil || !strings.Contains(err.Error(), "recycled share") {
		t.Errorf("got %v", err)
	}
	q = full()
	q.Life = 0
	if _, err := PerThousand(q, Prices()); err == nil || !strings.Contains(err.Error(), "tooling") {
		t.Errorf("got %v", err)
	}
	if _, err := PerThousand(full(), cite.Card{Name: "mine"}); err == nil || !strings.Contains(err.Error(), `"resin.virgin"`) {
		t.Errorf("got %v", err)
	}
	p := Prices()
	p.Data[0].Value = math.NaN()
	if _, err := PerThousand(full(), p); err == nil {
		t.Error("a price of NaN accepted")
	}
}

// A changed price moves its lines in proportion, and nothing else but scrap.
func TestPriceMovesItsLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(0.1, 5).Draw(t, "f")
		base, err := PerThousand(full(), Prices())
		if err != nil {
			t.Fatal(err)
		}
		p := Prices()
		for i := range p.Data {
			if p.Data[i].Key == "electricity" {
				d := &p.Data[i]
				d.Value, d.Low, d.High = f*d.Value, f*d.Low, f*d.High
			}
		}
		got, err := PerThousand(full(), p)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range got.Lines {
			want := base.Lines[i].Amount
			switch l.Key {
			case "air", "oven", "other":
				want *= f
			case "scrap":
				continue
			}
			if math.Abs(l.Amount-want) > 1e-9 {
				t.Fatalf("%s: %g want %g", l.Key, l.Amount, want)
			}
		}
	})
}

func TestEffects(t *testing.T) {
	s, err := PerThousand(full(), Prices())
	if err != nil {
		t.Fatal(err)
	}
	e := s.Effects()
	if len(e) == 0 {
		t.Fatal("no effects")
	}
	var electricity Effect
	for i := range e {
		if i > 0 && e[i].High-e[i].Low > e[i-1].High-e[i-1].Low {
			t.Errorf("%s stands below %s", e[i].Price, e[i-1].Price)
		}
		if e[i].Price == "electricity" {
			electricity = e[i]
		}
	}
	// 0.08 and 0.25 against 0.14 on the three electric lines together.
	kwh := (0.0428*0.22 + 0.0388*0.16 + 0.0005) * 1000
	if math.Abs(electricity.Low+kwh*0.06) > 1e-9 || math.Abs(electricity.High-kwh*0.11) > 1e-9 {
		t.Errorf("electricity %+v", electricity)
	}
}

func TestChange(t *testing.T) {
	c := shortNeck(2.2)
	p, err := c.Run()
	if err != nil {
		t.Fatal(err)
	}
	// Twice the savings halve the time.
	c.Bottles *= 2
	q, _ := c.Run()
	if math.Abs(q.Time*2-p.Time) > 1e-6 {
		t.Errorf("%g and %g", p.Time, q.Time)
	}
	c.Savings = []Saving{{Key: "resin", Quantity: -1e-3, Kind: unit.Mass, Price: 1.2}}
	if p, err = c.Run(); err != nil || !p.Never || p.Time != 0 {
		t.Errorf("a dearer bottle pays back: %+v, %v", p, err)
	}
	c.Savings = []Saving{{Key: "x", Quantity: 1, Kind: unit.Length, Price: 1}}
	if _, err = c.Run(); err == nil {
		t.Error("a price per metre accepted")
	}
	c = shortNeck(2.2)
	c.Bottles = 0
	if _, err = c.Run(); err == nil {
		t.Error("no bottles accepted")
	}
}
