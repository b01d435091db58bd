package footprint

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
)

const kWh = 3.6e6

func bottle() Quantities {
	return Quantities{
		Preform: 0.0388, Recycled: 0.25, Closure: 0.0024, Label: 0.0006,
		Moulding: 0.0388 * 0.4 * kWh, Blowing: 0.016 * kWh,
	}
}

// Every line by hand from the factors of the card.
func TestPerThousandByHand(t *testing.T) {
	s, err := PerThousand(bottle(), Factors())
	if err != nil {
		t.Fatal(err)
	}
	lost := 38.8*(0.75*2.15+0.25*0.45) + (38.8*0.4+16)*0.35
	want := lost/0.99 + 2.4*1.9 + 0.6*2.5
	if math.Abs(s.Amount-want) > 1e-9 {
		t.Errorf("got %g want %g", s.Amount, want)
	}
	if !(s.Low < s.Amount && s.Amount < s.High) {
		t.Errorf("range %g..%g", s.Low, s.High)
	}
}

// What has no quantity is named as not counted.
func TestBoundary(t *testing.T) {
	q := bottle()
	q.Label = 0
	s, err := PerThousand(q, Factors())
	if err != nil {
		t.Fatal(err)
	}
	counted, left, _ := strings.Cut(s.Boundary, "Not counted")
	if !strings.Contains(counted, "closure material") || strings.Contains(counted, "label") || !strings.Contains(left, "label material") {
		t.Errorf("%s", s.Boundary)
	}
}

// All recycled against all virgin: the ratio of the two factors.
func TestRecycledLimit(t *testing.T) {
	q := Quantities{Preform: 0.03}
	a, err := PerThousand(q, Factors())
	if err != nil {
		t.Fatal(err)
	}
	q.Recycled = 1
	b, _ := PerThousand(q, Factors())
	if math.Abs(b.Amount/a.Amount-0.45/2.15) > 1e-12 {
		t.Errorf("ratio %g", b.Amount/a.Amount)
	}
}

func TestRefuses(t *testing.T) {
	q := bottle()
	q.Recycled = -0.1
	if _, err := PerThousand(q, Factors()); err == nil {
		t.Error("a negative share accepted")
	}
	if _, err := PerThousand(bottle(), cite.Card{}); err == nil {
		t.Error("no factors accepted")
	}
	if _, err := Change(1, 2, 0, 0, Factors()); err == nil {
		t.Error("a share of two accepted")
	}
	if _, err := Change(math.Inf(1), 0, 0, 0, Factors()); err == nil {
		t.Error("infinite resin accepted")
	}
}
