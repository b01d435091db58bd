package root

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPeak(t *testing.T) {
	for _, c := range []struct {
		name           string
		f              func(float64) float64
		a, b, at, want float64
	}{
		{"parabola", func(x float64) float64 { return 2 - (x-1)*(x-1) }, -10, 3, 1, 2},
		{"x exp(-x)", func(x float64) float64 { return x * math.Exp(-x) }, 0, 5, 1, math.Exp(-1)},
		{"kink", func(x float64) float64 { return -math.Abs(x - 0.3) }, 0, 1, 0.3, 0},
		{"rising", func(x float64) float64 { return x }, 0, 1, 1, 1},
		{"falling", func(x float64) float64 { return -x }, 0, 1, 0, 0},
		{"flat: the first", func(float64) float64 { return 7 }, 0, 1, 0, 7},
		{"one point", math.Sin, 2, 2, 2, math.Sin(2)},
	} {
		calls := 0
		at, top := Peak(func(x float64) float64 { calls++; return c.f(x) }, c.a, c.b, 1e-7)
		if math.Abs(at-c.at) > 2e-7 || math.Abs(top-c.want) > 2e-7 || top != c.f(at) {
			t.Errorf("%s: %.12g at %.12g, want %.12g at %g", c.name, top, at, c.want, c.at)
		}
		if most := 4 + 1.44*math.Log2(max(1, (c.b-c.a)/1e-7)); float64(calls) > most {
			t.Errorf("%s: %d values of f, want %.0f at most", c.name, calls, most)
		}
	}
	if _, top := Peak(func(float64) float64 { return math.NaN() }, 0, 1, 1e-3); !math.IsNaN(top) {
		t.Errorf("a peak of %g where there is no number", top)
	}
}

// Wherever the peak of a skew hill lies, it is found, and never left outside.
func TestPeakAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-3, 3).Draw(t, "at")
		left, right := rapid.Float64Range(0.1, 10).Draw(t, "left"), rapid.Float64Range(0.1, 10).Draw(t, "right")
		f := func(x float64) float64 {
			if x < at {
				return -left * (at - x)
			}
			return -right * (x - at)
		}
		x, _ := Peak(f, -4, 5, 1e-9)
		if !(math.Abs(x-at) <= 1e-9) {
			t.Fatalf("%.12g, want %.12g", x, at)
		}
	})
}
