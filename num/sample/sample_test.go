package sample

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestNormal(t *testing.T) {
	z, err := Normal(4096, 12, 7)
	if err != nil {
		t.Fatal(err)
	}
	for j := range 12 {
		var m [4]float64
		for _, p := range z {
			for k := range m {
				m[k] += math.Pow(p[j], float64(k+1)) / 4096
			}
		}
		for k, want := range []float64{0, 1, 0, 3} {
			if math.Abs(m[k]-want) > []float64{2e-3, 5e-3, 2e-2, 8e-2}[k] {
				t.Errorf("input %d: moment %d is %g, want %g", j, k+1, m[k], want)
			}
		}
	}
	again, _ := Normal(4096, 12, 7)
	other, _ := Normal(4096, 12, 8)
	if again[17][3] != z[17][3] || other[17][3] == z[17][3] {
		t.Error("the seed does not decide the sample")
	}
	for _, bad := range [][2]int{{0, 1}, {10, 0}, {10, 1000}} {
		if _, err := Normal(bad[0], bad[1], 1); err == nil {
			t.Errorf("%v is answered", bad)
		}
	}
}

// TestContributions: y = 3 z0 + z1² + 2 z2 z3 + 5 has variance 9 + 2 + 4.
func TestContributions(t *testing.T) {
	z, err := Normal(4096, 5, 1)
	if err != nil {
		t.Fatal(err)
	}
	out, err := Evaluate(z, 3, func(z []float64) ([]float64, error) {
		return []float64{3*z[0] + z[1]*z[1] + 2*z[2]*z[3] + 5}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	ranked, rest, err := Contributions(out.Z, out.Column(0))
	if err != nil {
		t.Fatal(err)
	}
	if ranked[0].Input != 0 || ranked[1].Input != 1 {
		t.Errorf("ranked %+v", ranked)
	}
	for i, want := range []float64{9. / 15, 2. / 15, 0, 0, 0} {
		if math.Abs(ranked[i].Share-want) > 0.01 {
			t.Errorf("rank %d: share %g, want %g", i, ranked[i].Share, want)
		}
	}
	if math.Abs(rest-4./15) > 0.01 {
		t.Errorf("rest %g, want %g", rest, 4./15)
	}
	if math.Abs(ranked[0].Slope-3) > 0.02 {
		t.Errorf("slope %g, want 3", ranked[0].Slope)
	}
}

func TestBand(t *testing.T) {
	z, _ := Normal(8192, 1, 3)
	y := make([]float64, len(z))
	for i := range z {
		y[i] = math.Exp(0.2 * z[i][0])
	}
	lo, mid, hi, err := Band(y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ got, want float64 }{{lo, math.Exp(-0.2 * 1.959964)}, {mid, 1}, {hi, math.Exp(0.2 * 1.959964)}} {
		if math.Abs(c.got/c.want-1) > 2e-3 {
			t.Errorf("%g, want %g", c.got, c.want)
		}
	}
	if q, err := Quantile([]float64{3, 1, 2}, 0.5); err != nil || q != 2 {
		t.Errorf("median %g, %v", q, err)
	}
	if _, err := Quantile(nil, 0.5); err == nil {
		t.Error("a quantile of nothing")
	}
	if _, err := Quantile([]float64{1, math.NaN()}, 0.5); err == nil {
		t.Error("a quantile of NaN")
	}
	if _, _, _, err := Band(y, 1); err == nil {
		t.Error("a band of everything")
	}
}

func TestFailures(t *testing.T) {
	z, _ := Normal(100, 1, 1)
	fail := func(share int) (Outcome, error) {
		calls := 0
		return Evaluate(z, 1, func(z []float64) ([]float64, error) {
			calls++
			if calls <= share {
				return nil, errors.New("no")
			}
			return []float64{z[0]}, nil
		})
	}
	out, err := fail(5)
	if err != nil || out.Failed != 5 || len(out.Y) != 95 || out.First == nil {
		t.Errorf("%d failed, %d left, %v, %v", out.Failed, len(out.Y), out.First, err)
	}
	if _, err := fail(20); err == nil || !strings.Contains(err.Error(), "20 of 100") {
		t.Errorf("a fifth failed: %v", err)
	}
	if _, err := Evaluate(z, 2, func([]float64) ([]float64, error) { return []float64{math.Inf(1)}, nil }); err == nil {
		t.Error("Inf is a result")
	}
	if _, err := Evaluate(z, 2, func([]float64) ([]float64, error) { return []float64{math.NaN()}, nil }); err == nil {
		t.Error("NaN alone is a result")
	}
	part := func(z []float64) ([]float64, error) { return []float64{z[0], math.Sqrt(z[0])}, nil }
	if out, err := Evaluate(z, 2, part); err != nil || out.Failed != 0 || len(out.Y) != 100 {
		t.Errorf("half of the second results are missing: %d failed, %v", out.Failed, err)
	}
	if _, _, err := Contributions(z[:3], []float64{1, 2, 3}); err == nil {
		t.Error("three points are enough")
	}
	if r, _, err := Contributions(z, make([]float64, 100)); err != nil || r != nil {
		t.Errorf("a constant: %v, %v", r, err)
	}
}
