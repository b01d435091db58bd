package dist

import (
	"fmt"
	"math"
)

// NoncentralT is the distribution of (Z + Mu)/sqrt(X/Nu) with Z standard
// normal and X chi-squared of Nu degrees of freedom.
//
// Range: Nu >= 1, Mu finite. The probabilities are integrals over the scaled
// chi density by Gauss-Legendre panels that follow both the density and the
// step of the normal part, so no series is summed and a large Mu (many
// bottles, high coverage) costs no digits.
// Source: Owen1968 (definition and use for tolerance limits).
type NoncentralT struct {
	Nu float64 // degrees of freedom
	Mu float64 // non-centrality
}

func (d NoncentralT) check() error {
	if !(d.Nu >= 1) || math.IsInf(d.Nu, 0) {
		return fmt.Errorf("dist: non-central t: degrees of freedom %g below 1", d.Nu)
	}
	if math.IsNaN(d.Mu) || math.IsInf(d.Mu, 0) {
		return fmt.Errorf("dist: non-central t: non-centrality %g is not finite", d.Mu)
	}
	return nil
}

// CDF returns P(T <= t).
func (d NoncentralT) CDF(t float64) (float64, error) {
	return d.integral(t, func(x, _ float64) float64 { return NormalCDF(x) })
}

// Survival returns P(T > t) without the cancellation of 1 - CDF.
func (d NoncentralT) Survival(t float64) (float64, error) {
	return d.integral(t, func(x, _ float64) float64 { return NormalCDF(-x) })
}

// Prob returns the density at t.
func (d NoncentralT) Prob(t float64) (float64, error) {
	return d.integral(t, func(x, u float64) float64 { return u * NormalPDF(x) })
}

// integral returns the mean of g(t u - Mu, u) over the scaled chi density.
func (d NoncentralT) integral(t float64, g func(x, u float64) float64) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if math.IsNaN(t) || math.IsInf(t, 0) {
		return 0, fmt.Errorf("dist: non-central t: argument %g is not finite", t)
	}
	chi := newScaledChi(d.Nu)
	lo, hi := chi.support()
	const parts = 7 // panels of about 3.6 standard deviations of u
	var extra []float64
	if width := 1 / math.Abs(t); 3*width < (hi-lo)/parts {
		// The normal part is a step narrower than a panel.
		for _, s := range []float64{-9, -5, -1.5, 1.5, 5, 9} {
			extra = append(extra, d.Mu/t+s*width)
		}
	}
	r := newRule()
	if lo == 0 && d.Nu != math.Trunc(d.Nu) {
		// u^(nu-1) has no Taylor series at 0; in v = u^(1/4) it is flat there.
		for i, u := range extra {
			extra[i] = math.Pow(math.Max(u, 0), 0.25)
		}
		return r.over(panels(0, math.Pow(hi, 0.25), 3*parts, extra), func(v float64) float64 {
			u := v * v * v * v
			return g(t*u-d.Mu, u) * chi.pdf(u) * 4 * v * v * v
		}), nil
	}
	return r.over(panels(lo, hi, parts, extra), func(u float64) float64 {
		return g(t*u-d.Mu, u) * chi.pdf(u)
	}), nil
}

// Quantile returns t with P(T <= t) = p, 0 < p < 1.
func (d NoncentralT) Quantile(p float64) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(p > 0 && p < 1) {
		return 0, fmt.Errorf("dist: non-central t: quantile of probability %g outside 0..1", p)
	}
	// The logarithm of the smaller tail is nearly straight in asinh t, where
	// the tails fall with a power of t.
	tail, sign, want := NoncentralT.CDF, 1.0, p
	if p > 0.5 {
		tail, sign, want = NoncentralT.Survival, -1, 1-p
	}
	var fault error
	f := func(y float64) float64 {
		q, err := tail(d, math.Sinh(y))
		if err != nil {
			fault = err
		}
		return sign * (math.Log(math.Max(q, 1e-300)) - math.Log(want))
	}
	y, err := solve("non-central t quantile", f, math.Asinh(d.start(p)), 0.25)
	if fault != nil {
		return 0, fault
	}
	if err != nil {
		return 0, err
	}
	return math.Sinh(y), nil
}

// start is the quantile of the normal approximation of Johnson and Welch, or
// the non-centrality where that has no root.
func (d NoncentralT) start(p float64) float64 {
	z, err := NormalQuantile(p)
	if err != nil {
		return d.Mu
	}
	den := 1 - z*z/(2*d.Nu)
	if den < 0.2 {
		return d.Mu + z
	}
	return (d.Mu + z*math.Sqrt(math.Max(0, den+d.Mu*d.Mu/(2*d.Nu)))) / den
}

// NoncentralityAt returns the non-centrality Mu at which P(T <= t) = p with nu
// degrees of freedom: the confidence limit of a standardised distance after t
// was seen.
func NoncentralityAt(t, nu, p float64) (float64, error) {
	if !(p > 0 && p < 1) {
		return 0, fmt.Errorf("dist: non-centrality: probability %g outside 0..1", p)
	}
	if _, err := (NoncentralT{Nu: nu}).CDF(t); err != nil {
		return 0, err
	}
	z, err := NormalQuantile(p)
	if err != nil {
		return 0, err
	}
	var fault error
	// The survival rises with Mu.
	f := func(mu float64) float64 {
		d := NoncentralT{Nu: nu, Mu: mu}
		c, err := d.CDF(t)
		if err != nil {
			fault = err
		}
		s, err := d.Survival(t)
		if err != nil {
			fault = err
		}
		if p <= 0.5 {
			return math.Log(p) - math.Log(math.Max(c, 1e-300))
		}
		return math.Log(math.Max(s, 1e-300)) - math.Log(1-p)
	}
	mu, err := solve("non-centrality", f, t-z*math.Sqrt(1+t*t/(2*nu)), 0.5)
	if fault != nil {
		return 0, fault
	}
	return mu, err
}
