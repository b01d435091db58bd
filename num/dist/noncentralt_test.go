package dist

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// The series of algorithm AS 243 agrees where it holds.
func TestNoncentralTAgainstSeries(t *testing.T) {
	for _, nu := range []float64{1, 2, 4, 11, 23, 59, 500} {
		for _, mu := range []float64{-3, 0, 0.7, 4, 9, 20} {
			for _, x := range []float64{-2, 0.1, 1, 4, 12, 25} {
				got, err := NoncentralT{Nu: nu, Mu: mu}.CDF(x)
				if err != nil {
					t.Fatal(err)
				}
				want := distuv.NoncentralT{Nu: nu, Mu: mu}.CDF(x)
				if math.Abs(got-want) > 3e-11 {
					t.Errorf("nu %g, mu %g, t %g: %.14g, series %.14g", nu, mu, x, got, want)
				}
			}
		}
	}
}

// P(T <= t) integrated over the normal variable instead of the chi variable,
// in many fine panels.
func TestNoncentralTAgainstDirectIntegration(t *testing.T) {
	r := newRule()
	for _, nu := range []float64{1, 1.5, 2.5, 7, 40, 1999} {
		for _, mu := range []float64{0, 2, 30, 150} {
			for _, f := range []float64{0.5, 0.97, 1.04, 2, 10} {
				x := f * math.Max(mu, 0.8)
				lo := math.Max(-mu, -10)
				want := NormalCDF(-mu) + r.over(panels(0, math.Pow(10-lo, 0.25), 200, nil), func(s float64) float64 {
					z := lo + s*s*s*s // flat at the edge, where |z+mu|^nu has no Taylor series
					q := (z + mu) / x
					return NormalPDF(z) * mathext.GammaIncRegComp(nu/2, nu/2*q*q) * 4 * s * s * s
				})
				d := NoncentralT{Nu: nu, Mu: mu}
				got, err := d.CDF(x)
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(got-want) > 1e-12 {
					t.Errorf("nu %g, mu %g, t %g: %.15g, integral %.15g", nu, mu, x, got, want)
				}
			}
		}
	}
}

func TestNoncentralTProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NoncentralT{
			Nu: float64(rapid.IntRange(1, 2000).Draw(t, "nu")),
			Mu: rapid.Float64Range(-120, 170).Draw(t, "mu"),
		}
		p := rapid.Float64Range(0.0005, 0.9995).Draw(t, "p")
		x, err := d.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		c, err := d.CDF(x)
		if err != nil {
			t.Fatal(err)
		}
		s, err := d.Survival(x)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(c-p) > 1e-11 {
			t.Fatalf("CDF of the quantile %g is %g, want %g", x, c, p)
		}
		if math.Abs(c+s-1) > 1e-12 {
			t.Fatalf("CDF + survival = %g at %g", c+s, x)
		}
		// Mirror: P(T_mu <= x) = P(T_-mu > -x).
		m, err := NoncentralT{Nu: d.Nu, Mu: -d.Mu}.Survival(-x)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(m-c) > 1e-12 {
			t.Fatalf("mirror: %g and %g", m, c)
		}
		// The density is the slope.
		h := 1e-4 * (1 + math.Abs(x)/10)
		up, _ := d.CDF(x + h)
		dn, _ := d.CDF(x - h)
		f, err := d.Prob(x)
		if err != nil {
			t.Fatal(err)
		}
		if slope := (up - dn) / (2 * h); math.Abs(slope-f) > 1e-4*f+1e-7 {
			t.Fatalf("density %g, slope %g at %g", f, slope, x)
		}
	})
}

func TestNoncentralTRefuses(t *testing.T) {
	for _, d := range []NoncentralT{{Nu: 0, Mu: 1}, {Nu: 3, Mu: math.NaN()}, {Nu: math.Inf(1), Mu: 0}} {
		if _, err := d.CDF(1); err == nil {
			t.Errorf("%+v: no error", d)
		}
		if _, err := d.Quantile(0.5); err == nil {
			t.Errorf("%+v: no error from the quantile", d)
		}
	}
	if _, err := (NoncentralT{Nu: 3}).CDF(math.Inf(1)); err == nil {
		t.Error("infinite argument: no error")
	}
	if _, err := (NoncentralT{Nu: 3}).Quantile(1); err == nil {
		t.Error("probability 1: no error")
	}
}

func TestNoncentralityInvertsTheProbability(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nu := float64(rapid.IntRange(1, 1000).Draw(t, "nu"))
		x := rapid.Float64Range(-20, 200).Draw(t, "t")
		p := rapid.Float64Range(0.001, 0.999).Draw(t, "p")
		mu, err := NoncentralityAt(x, nu, p)
		if err != nil {
			t.Fatal(err)
		}
		got, err := NoncentralT{Nu: nu, Mu: mu}.CDF(x)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got-p) > 1e-10 {
			t.Fatalf("P at mu %g is %g, want %g", mu, got, p)
		}
	})
	if _, err := NoncentralityAt(1, 5, 1); err == nil {
		t.Error("probability 1: no error")
	}
}
