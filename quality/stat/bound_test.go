package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g", what, got, want)
	}
}

func TestSummaryByHand(t *testing.T) {
	s, err := Summarize([]float64{2, 4, 4, 4, 5, 5, 7, 9})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", s.Mean, 5, 1e-15)
	near(t, "s", s.S, math.Sqrt(32.0/7), 1e-14)
	if s.N != 8 || s.Min != 2 || s.Max != 9 || s.Median != 4.5 {
		t.Errorf("%+v", s)
	}
	// A large offset costs no digits.
	far, err := Summarize([]float64{1e7 + 1, 1e7 + 3, 1e7 + 2})
	if err != nil || far.S != 1 || far.Mean != 1e7+2 {
		t.Errorf("%+v, %v", far, err)
	}
	if one, err := Summarize([]float64{3}); err != nil || one.S != 0 || one.Median != 3 {
		t.Errorf("%+v, %v", one, err)
	}
	for _, bad := range [][]float64{nil, {1, math.NaN()}, {math.Inf(1)}, {-math.MaxFloat64, math.MaxFloat64}} {
		if _, err := Summarize(bad); err == nil {
			t.Errorf("summary of %v: no error", bad)
		}
	}
}

func TestBoundByHand(t *testing.T) {
	// mean 100, s 10, n 12: 100 - 2.736*10
	f := Normal{N: 12, Mean: 100, S: 10}
	b, err := f.Bound(Lower, Usual())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "lower bound", b.Value, 72.64, 0.005)
	up, err := f.Bound(Upper, Usual())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "symmetry", up.Value+b.Value, 200, 1e-9)
	// The log scale is the same bound of the logarithms.
	g := Normal{N: 12, Mean: math.Log(100), S: 0.1, Scale: Log}
	lb, err := g.Bound(Lower, Usual())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "log bound", lb.Value, 100*math.Exp(-0.1*b.K), 1e-9)
	if _, err := Fit([]float64{1, 0}, Log); err == nil {
		t.Error("log of zero: no error")
	}
	if _, err := Fit([]float64{1}, Linear); err == nil {
		t.Error("one value: no error")
	}
	lo, hi, k, err := f.Interval(Usual())
	if err != nil || hi-lo < 2*b.K*10 {
		t.Errorf("two-sided interval %g..%g with %g: %v", lo, hi, k, err)
	}
}

func TestNeededN(t *testing.T) {
	// 2.309 is the factor of 24, so a distance of 2.31 s needs 24.
	f := Normal{N: 12, Mean: 100, S: 10}
	n, ok, err := f.NeededN(Lower, 100-23.1, Usual())
	if err != nil || !ok || n != 24 {
		t.Errorf("n %d, %t, %v", n, ok, err)
	}
	// A centre nearer than z cannot be shown by any number.
	if _, ok, err := f.NeededN(Lower, 100-16, Usual()); ok || err != nil {
		t.Errorf("1.6 s: %t, %v", ok, err)
	}
	if n, ok, err := (Normal{N: 3, Mean: 1}).NeededN(Upper, 2, Usual()); n != 2 || !ok || err != nil {
		t.Errorf("no spread: %d, %t, %v", n, ok, err)
	}
}

func TestBoundProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Normal{
			N: rapid.IntRange(2, 60).Draw(t, "n"), Mean: rapid.Float64Range(-50, 50).Draw(t, "mean"),
			S: rapid.Float64Range(0.1, 20).Draw(t, "s"),
		}
		tail := rapid.SampledFrom([]Tail{Lower, Upper}).Draw(t, "tail")
		e := Evidence{Coverage: rapid.Float64Range(0.6, 0.99).Draw(t, "p"), Confidence: rapid.Float64Range(0.6, 0.99).Draw(t, "c")}
		b, err := f.Bound(tail, e)
		if err != nil {
			t.Fatal(err)
		}
		// The coverage shown at the bound is the coverage asked for.
		p, err := f.ShownCoverage(tail, b.Value, e.Confidence)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(p-e.Coverage) > 1e-7 {
			t.Fatalf("coverage shown at the bound %g, want %g", p, e.Coverage)
		}
		// The needed n at the bound is the n at hand, and nothing is refuted there.
		n, ok, err := f.NeededN(tail, b.Value+tail.sign()*1e-7*f.S, e)
		if err != nil || !ok || n != f.N {
			t.Fatalf("needed n %d (%t, %v), have %d", n, ok, err, f.N)
		}
		no, err := f.Refuted(tail, b.Value, e)
		if err != nil || no {
			t.Fatalf("refuted at the bound: %t, %v", no, err)
		}
		yes, err := f.Refuted(tail, f.Mean-tail.sign()*f.S*500, e)
		if err != nil || !yes {
			t.Fatalf("not refuted 500 s outside: %t, %v", yes, err)
		}
	})
}

func TestCounts(t *testing.T) {
	n, err := AcceptanceN(1, 0.95, 0.95)
	if err != nil || n != 93 { // the usual table of one failure allowed
		t.Errorf("one failure allowed: %d, %v", n, err)
	}
	if _, err := ZeroFailureN(1, 0.95); err == nil {
		t.Error("reliability 1: no error")
	}
	f, err := FailingFraction(0, 12, 0.95)
	if err != nil || f.Lower != 0 {
		t.Errorf("%+v, %v", f, err)
	}
	// 0 of n shows exactly the reliability of the zero-failure rule.
	near(t, "upper limit of 0 of 59", mustFraction(t, 0, 59), 1-math.Pow(0.05, 1.0/59), 1e-12)
	if r, err := OrderRank(58, Usual()); r != 0 || err != nil {
		t.Errorf("58 values: rank %d, %v", r, err)
	}
	if r, err := OrderRank(93, Usual()); r != 2 || err != nil {
		t.Errorf("93 values: rank %d, %v", r, err)
	}
}

func mustFraction(t *testing.T, x, n int) float64 {
	t.Helper()
	f, err := FailingFraction(x, n, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return f.Upper
}
