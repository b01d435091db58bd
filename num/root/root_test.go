package root

import (
	"errors"
	"math"
	"testing"

	"costrel/num/numtest"

	"pgregory.net/rapid"
)

func TestMain(m *testing.M) { numtest.Main(m) }

type curve struct {
	name  string
	f     func(float64) float64
	slope func(float64) float64
	a, b  float64
	want  float64
}

// The roots are exact by construction or known constants.
var curves = []curve{
	{"line", func(x float64) float64 { return 2*x - 3 }, func(float64) float64 { return 2 }, -10, 10, 1.5},
	{"dottie", func(x float64) float64 { return math.Cos(x) - x }, func(x float64) float64 { return -math.Sin(x) - 1 }, 0, 1, 0.7390851332151607},
	{"sqrt2 reversed", func(x float64) float64 { return x*x - 2 }, func(x float64) float64 { return 2 * x }, 2, 0, math.Sqrt2},
	{"cubic, Newton 1685", func(x float64) float64 { return x*x*x - 2*x - 5 }, func(x float64) float64 { return 3*x*x - 2 }, 2, 3, 2.0945514815423265},
	{"flat: (x-1)^9", func(x float64) float64 { return math.Pow(x-1, 9) }, func(x float64) float64 { return 9 * math.Pow(x-1, 8) }, -1, 4, 1},
	{"steep: exp", func(x float64) float64 { return math.Exp(20*x) - 1 }, func(x float64) float64 { return 20 * math.Exp(20*x) }, -10, 10, 0},
	{"jump", func(x float64) float64 { return math.Copysign(1, x-0.3) }, func(float64) float64 { return 0 }, 0, 1, 0.3},
	{"arctan, Newton diverges", func(x float64) float64 { return math.Atan(x - 0.1) }, func(x float64) float64 { return 1 / (1 + (x-0.1)*(x-0.1)) }, -1e6, 9e5, 0.1},
}

func (c curve) both(x float64) (float64, float64) { return c.f(x), c.slope(x) }

func TestKnownRoots(t *testing.T) {
	for _, c := range curves {
		tol := 1e-12
		if x, err := Brent(c.f, c.a, c.b, tol); err != nil || math.Abs(x-c.want) > 1e-11 {
			t.Errorf("brent %s: %.16g, %v; want %.16g", c.name, x, err, c.want)
		}
		if x, err := Newton(c.both, c.a, c.b, tol); err != nil || math.Abs(x-c.want) > 1e-10 {
			t.Errorf("newton %s: %.16g, %v; want %.16g", c.name, x, err, c.want)
		}
	}
}

func TestRootAtAnEnd(t *testing.T) {
	f := func(x float64) float64 { return x }
	g := func(x float64) (float64, float64) { return x, 1 }
	for _, in := range [][2]float64{{0, 1}, {-1, 0}, {0, 0}} {
		if x, err := Brent(f, in[0], in[1], 0); err != nil || x != 0 {
			t.Errorf("brent %v: %g, %v", in, x, err)
		}
		if x, err := Newton(g, in[0], in[1], 0); err != nil || x != 0 {
			t.Errorf("newton %v: %g, %v", in, x, err)
		}
	}
}

func TestFailures(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	square := func(x float64) float64 { return x*x + 1 }
	pole := func(x float64) float64 {
		if x > 0.4 && x < 0.6 {
			return nan
		}
		return x - 0.5
	}
	cases := []struct {
		name      string
		f         func(float64) float64
		a, b, tol float64
		want      error
	}{
		{"no sign change", square, -1, 1, 1e-9, ErrNoSignChange},
		{"NaN inside", pole, 0, 1, 1e-9, ErrNotFinite},
		{"NaN at an end", pole, 0.5, 1, 1e-9, ErrNotFinite},
		{"NaN interval", square, nan, 1, 1e-9, ErrInterval},
		{"infinite interval", square, 0, inf, 1e-9, ErrInterval},
		{"negative tolerance", square, 0, 1, -1, ErrInterval},
		{"NaN tolerance", square, 0, 1, nan, ErrInterval},
	}
	for _, c := range cases {
		if x, err := Brent(c.f, c.a, c.b, c.tol); !errors.Is(err, c.want) || x != 0 {
			t.Errorf("brent %s: %g, %v; want %v", c.name, x, err, c.want)
		}
		g := func(x float64) (float64, float64) { return c.f(x), 1 }
		if x, err := Newton(g, c.a, c.b, c.tol); !errors.Is(err, c.want) || x != 0 {
			t.Errorf("newton %s: %g, %v; want %v", c.name, x, err, c.want)
		}
	}
}

// Any increasing cubic: both rules find the root they were built around, and
// no evaluation falls outside the bracket.
func TestStaysInTheBracket(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Float64Range(-100, 100).Draw(t, "root")
		lin := rapid.Float64Range(1e-3, 10).Draw(t, "linear")
		cub := rapid.Float64Range(0, 10).Draw(t, "cubic")
		a := want - rapid.Float64Range(1e-3, 1e3).Draw(t, "left")
		b := want + rapid.Float64Range(1e-3, 1e3).Draw(t, "right")
		calls := 0
		f := func(x float64) float64 {
			calls++
			if x < a || x > b {
				t.Fatalf("evaluated at %g outside %g..%g", x, a, b)
			}
			d := x - want
			return lin*d + cub*d*d*d
		}
		g := func(x float64) (float64, float64) {
			d := x - want
			return f(x), lin + 3*cub*d*d
		}
		const tol = 1e-9
		x, err := Brent(f, a, b, tol)
		if err != nil || math.Abs(x-want) > 2*tol {
			t.Fatalf("brent: %g, %v; want %g", x, err, want)
		}
		if calls > 100 {
			t.Fatalf("brent needed %d evaluations", calls)
		}
		calls = 0
		x, err = Newton(g, a, b, tol)
		if err != nil || math.Abs(x-want) > 2*tol {
			t.Fatalf("newton: %g, %v; want %g", x, err, want)
		}
		if calls > 100 {
			t.Fatalf("newton needed %d evaluations", calls)
		}
	})
}

// Near a simple root Newton is of second order and Brent superlinear: the
// counts of evaluations for twelve digits are small and known.
func TestSpeed(t *testing.T) {
	calls := 0
	f := func(x float64) float64 { calls++; return math.Cos(x) - x }
	if _, err := Brent(f, 0, 1, 1e-12); err != nil || calls > 10 {
		t.Errorf("brent: %d evaluations, %v", calls, err)
	}
	calls = 0
	g := func(x float64) (float64, float64) { return f(x), -math.Sin(x) - 1 }
	if _, err := Newton(g, 0, 1, 1e-12); err != nil || calls > 8 {
		t.Errorf("newton: %d evaluations, %v", calls, err)
	}
}

func TestNoAllocation(t *testing.T) {
	k := 2.0
	n := testing.AllocsPerRun(100, func() {
		x, err := Brent(func(x float64) float64 { return x*x - k }, 0, 2, 1e-12)
		y, err2 := Newton(func(x float64) (float64, float64) { return x*x - k, 2 * x }, 0, 2, 1e-12)
		if err != nil || err2 != nil || math.Abs(x-y) > 1e-11 {
			t.Fatal(x, y, err, err2)
		}
	})
	if n != 0 {
		t.Errorf("%g allocations a run", n)
	}
}

func TestExpand(t *testing.T) {
	f := func(x float64) float64 { return x - 37 }
	a, b, err := Expand(f, 0, 1, -1e3, 1e3)
	if err != nil || f(a) > 0 || f(b) < 0 {
		t.Errorf("up: %g..%g, %v", a, b, err)
	}
	a, b, err = Expand(f, 50, 60, 0, 1e3)
	if err != nil || f(a) > 0 || f(b) < 0 || a < 0 {
		t.Errorf("down: %g..%g, %v", a, b, err)
	}
	if _, _, err = Expand(f, 0, 1, -10, 10); !errors.Is(err, ErrNoSignChange) {
		t.Errorf("limits: %v", err)
	}
	if _, _, err = Expand(f, 1, 0, -10, 10); !errors.Is(err, ErrInterval) {
		t.Errorf("reversed: %v", err)
	}
	if _, _, err = Expand(func(float64) float64 { return math.NaN() }, 0, 1, -10, 10); !errors.Is(err, ErrNotFinite) {
		t.Errorf("NaN: %v", err)
	}
}
