package fit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestLine: the covariance of a straight line is that of the textbook.
func TestLine(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4, 5}
	y := []float64{1.1, 2.9, 5.2, 6.8, 9.1, 11.0}
	r, err := LeastSquares(Problem{
		Residual: func(p, r []float64) error {
			for i := range x {
				r[i] = p[0] + p[1]*x[i] - y[i]
			}
			return nil
		},
		Residuals: len(x), Start: []float64{0, 0}, Low: []float64{-100, -100}, High: []float64{100, 100},
	})
	if err != nil {
		t.Fatal(err)
	}
	// Slope Sxy/Sxx with Sxx = 17.5; variance 1/Sxx.
	sxy := 0.0
	for i := range x {
		sxy += (x[i] - 2.5) * y[i]
	}
	if math.Abs(r.X[1]-sxy/17.5) > 1e-7 {
		t.Errorf("slope %.9g, want %.9g", r.X[1], sxy/17.5)
	}
	if math.Abs(r.Inverse[1][1]-1/17.5) > 1e-9 || math.Abs(r.Inverse[0][0]-(1./6+2.5*2.5/17.5)) > 1e-9 || math.Abs(r.Inverse[0][1]+2.5/17.5) > 1e-9 {
		t.Errorf("inverse %v", r.Inverse)
	}
	if r.Freedom != 4 {
		t.Errorf("%d degrees of freedom", r.Freedom)
	}
}

// TestValley: the narrow curved valley of Rosenbrock, minimum 0 at (1, 1).
func TestValley(t *testing.T) {
	p := Problem{
		Residual: func(x, r []float64) error {
			r[0], r[1] = 10*(x[1]-x[0]*x[0]), 1-x[0]
			return nil
		},
		Residuals: 2, Start: []float64{-1.2, 1}, Low: []float64{-3, -3}, High: []float64{3, 3},
	}
	r, err := LeastSquares(p)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.X[0]-1) > 1e-6 || math.Abs(r.X[1]-1) > 1e-6 {
		t.Errorf("%v", r.X)
	}
	// The bound decides where the minimum lies beyond it.
	p.High = []float64{0.5, 3}
	if r, err = LeastSquares(p); err != nil {
		t.Fatal(err)
	}
	if r.X[0] != 0.5 || math.Abs(r.X[1]-0.25) > 1e-6 || !r.Bound[0] || r.Bound[1] || r.Freedom != 1 {
		t.Errorf("%+v", r)
	}
}

// TestDecay recovers an exponential decay from exact data from any start.
func TestDecay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, k := rapid.Float64Range(0.5, 5).Draw(t, "a"), rapid.Float64Range(0.05, 1.5).Draw(t, "k")
		r, err := LeastSquares(Problem{
			Residual: func(x, r []float64) error {
				for i := range r {
					s := float64(i)
					r[i] = x[0]*math.Exp(-x[1]*s) - a*math.Exp(-k*s)
				}
				return nil
			},
			Residuals: 8, Start: []float64{rapid.Float64Range(0.5, 5).Draw(t, "a0"), rapid.Float64Range(0.05, 1.5).Draw(t, "k0")},
			Low: []float64{0.1, 0.01}, High: []float64{10, 3},
		})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.X[0]-a) > 1e-5 || math.Abs(r.X[1]-k) > 1e-5 {
			t.Fatalf("%v, want %g %g", r.X, a, k)
		}
	})
}

// TestSettle: a coarse end with one-sided slopes saves evaluations and still
// lands within its share.
func TestSettle(t *testing.T) {
	var runs [2]int
	for i, settle := range []float64{0, 1e-2} {
		r, err := LeastSquares(Problem{
			Residual: func(x, r []float64) error {
				runs[i]++
				for k := range r {
					s := float64(k)
					r[k] = x[0]*math.Exp(-x[1]*s) - 2*math.Exp(-0.3*s) + 0.01*math.Cos(5*s)
				}
				return nil
			},
			Residuals: 8, Start: []float64{1, 1}, Low: []float64{0.1, 0.01}, High: []float64{10, 3}, Settle: settle, OneSided: settle > 0,
		})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.X[0]-2) > 0.02 || math.Abs(r.X[1]-0.3) > 0.01 {
			t.Errorf("settle %g: %v, want about 2 and 0.3", settle, r.X)
		}
	}
	t.Logf("%d evaluations", runs)
	if runs[1] >= runs[0] {
		t.Errorf("%d evaluations with a coarse end, %d without", runs[1], runs[0])
	}
}

func TestRefusals(t *testing.T) {
	ok := func(x, r []float64) error {
		for i := range r {
			r[i] = x[0] - float64(i)
		}
		return nil
	}
	boom := errors.New("boom")
	for _, c := range []struct {
		want string
		p    Problem
	}{
		{"no residuals", Problem{}},
		{"0 parameters", Problem{Residual: ok}},
		{"1 residuals for 2", Problem{Residual: ok, Residuals: 1, Start: []float64{0, 0}}},
		{"bounds 1..0", Problem{Residual: ok, Residuals: 2, Start: []float64{0}, Low: []float64{1}, High: []float64{0}}},
		{"start 5 outside", Problem{Residual: ok, Residuals: 2, Start: []float64{5}, Low: []float64{0}, High: []float64{1}}},
		{"boom", Problem{Residual: func(_, _ []float64) error { return boom }, Residuals: 2, Start: []float64{0}, Low: []float64{0}, High: []float64{1}}},
		{"settle 1 outside", Problem{Residual: ok, Residuals: 2, Start: []float64{0}, Low: []float64{0}, High: []float64{1}, Settle: 1}},
		{"not finite", Problem{Residual: func(_, r []float64) error { r[0] = math.NaN(); return nil }, Residuals: 2, Start: []float64{0}, Low: []float64{0}, High: []float64{1}}},
		{"do not depend", Problem{Residual: func(_, r []float64) error { r[0], r[1] = 1, 2; return nil }, Residuals: 2, Start: []float64{0.5}, Low: []float64{0}, High: []float64{1}}},
		{"apart", Problem{Residual: func(x, r []float64) error { r[0], r[1] = x[0]+x[1]-3, 2*(x[0]+x[1]); return nil }, Residuals: 2, Start: []float64{0.5, 0.5}, Low: []float64{0, 0}, High: []float64{9, 9}}},
	} {
		if _, err := LeastSquares(c.p); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want an error with %q, have %v", c.want, err)
		}
	}
}
