package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// ZeroFailureN returns the number that must be tested without a failure to
// show the reliability R with the confidence C,
//
//	n = ln(1-C) / ln R, rounded up
func ZeroFailureN(reliability, confidence float64) (int, error) {
	if err := inside("zero-failure n", "reliability", reliability); err != nil {
		return 0, err
	}
	if err := inside("zero-failure n", "confidence", confidence); err != nil {
		return 0, err
	}
	n := math.Log1p(-confidence) / math.Log(reliability)
	if n > 1e9 {
		return 0, fmt.Errorf("stat: zero-failure n: reliability %g needs %.3g tests", reliability, n)
	}
	return max(1, int(math.Ceil(n-1e-9))), nil
}

// AcceptanceN returns the smallest number of tests that shows the reliability
// with the confidence when the given number of failures is seen.
func AcceptanceN(failures int, reliability, confidence float64) (int, error) {
	if failures == 0 {
		return ZeroFailureN(reliability, confidence)
	}
	if failures < 0 {
		return 0, fmt.Errorf("stat: acceptance n: %d failures", failures)
	}
	if err := inside("acceptance n", "reliability", reliability); err != nil {
		return 0, err
	}
	if err := inside("acceptance n", "confidence", confidence); err != nil {
		return 0, err
	}
	n, ok, err := smallest(failures+1, 10_000_000, func(n int) (bool, error) {
		p, err := dist.BinomialCDF(failures, n, 1-reliability)
		return p <= 1-confidence, err
	})
	if err == nil && !ok {
		err = fmt.Errorf("stat: acceptance n: reliability %g with %d failures needs more than 10 million tests", reliability, failures)
	}
	return n, err
}

// Fraction is an observed failing fraction with its limits of Clopper and
// Pearson, each at the one-sided confidence.
type Fraction struct {
	Failures int     `json:"failures"`
	N        int     `json:"n"`
	Observed float64 `json:"observed"`
	Lower    float64 `json:"lower"`
	Upper    float64 `json:"upper"`
}

// FailingFraction returns the failing fraction of x failures in n with its
// one-sided confidence limits. Source: ClopperPearson1934.
func FailingFraction(x, n int, confidence float64) (Fraction, error) {
	up, err := dist.FractionUpper(x, n, confidence)
	if err != nil {
		return Fraction{}, err
	}
	lo, err := dist.FractionLower(x, n, confidence)
	if err != nil {
		return Fraction{}, err
	}
	return Fraction{Failures: x, N: n, Observed: float64(x) / float64(n), Lower: lo, Upper: up}, nil
}

// OrderRank returns the rank r for which the r-th smallest (lower tail) or
// r-th largest (upper tail) of n values bounds the fraction Coverage of any
// population with the confidence of e: the bound without a distribution. Zero
// where n is too small; rank 1 needs 59 values for 95/95.
func OrderRank(n int, e Evidence) (int, error) {
	if err := inside("order rank", "coverage", e.Coverage); err != nil {
		return 0, err
	}
	if err := inside("order rank", "confidence", e.Confidence); err != nil {
		return 0, err
	}
	if n < 1 {
		return 0, fmt.Errorf("stat: order rank: %d values", n)
	}
	r := 0
	for r < n {
		// The (r+1)-th value is a bound when r or fewer beyond it are unlikely.
		p, err := dist.BinomialCDF(r, n, 1-e.Coverage)
		if err != nil {
			return 0, err
		}
		if p > 1-e.Confidence+1e-12 {
			break
		}
		r++
	}
	return r, nil
}
