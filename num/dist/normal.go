package dist

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// NormalCDF returns the standard normal probability P(Z <= x).
func NormalCDF(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }

// NormalPDF returns the standard normal density at x.
func NormalPDF(x float64) float64 { return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) }

// NormalQuantile returns z with P(Z <= z) = p for 0 < p < 1.
//
// The start value of the library is polished by Newton steps on the smaller
// tail, so that the relative error stays at rounding level in both tails.
func NormalQuantile(p float64) (float64, error) {
	if !(p > 0 && p < 1) {
		return 0, fmt.Errorf("dist: normal quantile: probability %g outside 0..1", p)
	}
	if p > 0.5 {
		z := newtonTail(1 - p)
		return -z, nil
	}
	return newtonTail(p), nil
}

// newtonTail solves P(Z <= z) = p for p <= 0.5.
func newtonTail(p float64) float64 {
	z := mathext.NormalQuantile(p)
	for range 3 {
		z -= (NormalCDF(z) - p) / NormalPDF(z)
	}
	return z
}
