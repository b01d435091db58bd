package resin

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"costrel/cite"
	"costrel/unit"
)

func law(t *testing.T) Quiescent {
	t.Helper()
	g, err := Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	q, err := NewQuiescent(g)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func TestQuiescentChecks(t *testing.T) {
	for _, c := range QuiescentChecks() {
		if r := c.Run(); !r.OK {
			t.Errorf("%s: ours %g, published %g, allowed %g %s", c.ID, r.Value, c.Published, c.Allowed, r.Problem)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: no source %q", c.ID, c.Source)
		}
	}
}

// At constant temperature X passes one half at the half-time, and the closed
// form solves the rate equation.
func TestQuiescentHalfTime(t *testing.T) {
	q := law(t)
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(370, 510).Draw(t, "T")
		half, err := q.HalfTime(unit.Temperature(T))
		if err != nil {
			t.Fatal(err)
		}
		x := 0.0
		for range 16 {
			x = q.Advance(x, T, half/16)
		}
		if math.Abs(x-0.5) > 1e-9 {
			t.Fatalf("X = %g at the half-time", x)
		}
		// the rate equation at X = 0.5, by central difference
		h := half * 1e-5
		k := q.Rate(T)
		rate := (q.Advance(x, T, h) - x) / h
		want := q.Order * k * 0.5 * math.Pow(math.Ln2, (q.Order-1)/q.Order)
		if math.Abs(rate/want-1) > 1e-3 {
			t.Fatalf("rate %g, equation %g", rate, want)
		}
	})
}

func TestQuiescentLimits(t *testing.T) {
	q := law(t)
	if q.Rate(300) != 0 || q.Rate(560) != 0 || q.Rate(math.NaN()) != 0 {
		t.Error("rate outside the range is not zero")
	}
	if q.Advance(-1, 400, 0) != 0 || q.Advance(2, 400, 1) != 1 || q.Advance(0.3, 300, 100) > 0.3+1e-12 {
		t.Error("X not held")
	}
	for _, T := range []float64{300, 553, 600} {
		if _, err := q.HalfTime(unit.Temperature(T)); err == nil {
			t.Errorf("a half-time at %g K", T)
		}
	}
	if _, err := q.HeatingPeak(0); err == nil {
		t.Error("a peak without heating")
	}
	g, _ := Find("pet-water")
	g.HalfTime = 0
	if _, err := NewQuiescent(g); err == nil {
		t.Error("half-time 0 passes")
	}
	tab := q.Table()
	for T := 350.0; T < 508; T += 0.13 {
		if a, b := tab.Rate(T), q.Rate(T); math.Abs(a/b-1) > 1e-3 {
			t.Fatalf("table at %g K: %g, law %g", T, a, b)
		}
	}
	if tab.Rate(300) != 0 || tab.Rate(552.9) < 0 || tab.Rate(700) != 0 {
		t.Error("table outside its range")
	}
}
