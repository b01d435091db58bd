package dist

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

func checkTolerance(n int, coverage, confidence float64) error {
	switch {
	case n < 2:
		return fmt.Errorf("dist: tolerance factor: sample size %d below 2", n)
	case !(coverage > 0 && coverage < 1):
		return fmt.Errorf("dist: tolerance factor: coverage %g outside 0..1", coverage)
	case !(confidence > 0 && confidence < 1):
		return fmt.Errorf("dist: tolerance factor: confidence %g outside 0..1", confidence)
	}
	return nil
}

// OneSidedFactor returns k such that mean + k s of a normal sample of n lies
// above the given fraction (coverage) of the population with the given
// confidence:
//
//	k = t(confidence; n-1, z sqrt(n)) / sqrt(n)
//
// with t the quantile of the non-central t and z the normal quantile of the
// coverage. Exact for normal data. Range: n >= 2; coverage and confidence
// inside 0..1. Source: Owen1968, NIST2012 7.2.6.3.
func OneSidedFactor(n int, coverage, confidence float64) (float64, error) {
	if err := checkTolerance(n, coverage, confidence); err != nil {
		return 0, err
	}
	z, err := NormalQuantile(coverage)
	if err != nil {
		return 0, err
	}
	root := math.Sqrt(float64(n))
	t, err := NoncentralT{Nu: float64(n - 1), Mu: z * root}.Quantile(confidence)
	if err != nil {
		return 0, err
	}
	return t / root, nil
}

// TwoSidedFactor returns k such that mean - k s .. mean + k s of a normal
// sample of n holds the given fraction (coverage) of the population with the
// given confidence. It solves
//
//	2 ∫ phi(z) P(chi²(n-1) > (n-1) r²/k²) dz = confidence,  z = 0..inf
//	Phi(x+r) - Phi(x-r) = coverage,                         x = z/sqrt(n)
//
// Exact for normal data. Range as OneSidedFactor.
// Source: OdehOwen1980 (method); checked with ISO16269 and NIST2012.
func TwoSidedFactor(n int, coverage, confidence float64) (float64, error) {
	if err := checkTolerance(n, coverage, confidence); err != nil {
		return 0, err
	}
	const far = 9.0 // normal tail beyond it: 1e-19
	nu := float64(n - 1)
	breaks := panels(0, far, 7, nil)
	r := newRule()
	// The half widths depend on the nodes alone.
	var halves []float64
	var fault error
	r.over(breaks, func(z float64) float64 {
		h, err := coveringHalf(z/math.Sqrt(float64(n)), coverage)
		if err != nil {
			fault = err
		}
		halves = append(halves, h)
		return 0
	})
	if fault != nil {
		return 0, fault
	}
	f := func(logK float64) float64 {
		i := 0
		miss := r.over(breaks, func(z float64) float64 {
			h := halves[i] * math.Exp(-logK)
			i++
			return 2 * NormalPDF(z) * mathext.GammaIncReg(nu/2, nu*h*h/2)
		})
		return math.Log(1-confidence) - math.Log(math.Max(miss, 1e-300))
	}
	howe, err := HoweFactor(n, coverage, confidence)
	if err != nil {
		return 0, err
	}
	logK, err := solve("two-sided tolerance factor", f, math.Log(howe), 0.01)
	if err != nil {
		return 0, err
	}
	return math.Exp(logK), nil
}

// coveringHalf returns r with Phi(x+r) - Phi(x-r) = coverage, x >= 0.
func coveringHalf(x, coverage float64) (float64, error) {
	out := 1 - coverage
	outside := func(r float64) float64 { return NormalCDF(x-r) + NormalCDF(-x-r) }
	z, err := NormalQuantile((1 + coverage) / 2)
	if err != nil {
		return 0, err
	}
	return solve("covering interval", func(r float64) float64 {
		return math.Log(out) - math.Log(math.Max(outside(r), 1e-300))
	}, z*math.Sqrt(1+x*x/(z*z+1)), 0.1)
}

// HoweFactor returns Howe's approximation of the two-sided factor,
//
//	k = z sqrt( (n-1)(1+1/n) / chi²(1-confidence; n-1) )
//
// with z the normal quantile of (1+coverage)/2. Low by up to 3 % at n = 2;
// kept because handbooks print it. Source: Howe1969.
func HoweFactor(n int, coverage, confidence float64) (float64, error) {
	if err := checkTolerance(n, coverage, confidence); err != nil {
		return 0, err
	}
	z, err := NormalQuantile((1 + coverage) / 2)
	if err != nil {
		return 0, err
	}
	nu := float64(n - 1)
	x, err := ChiSquaredQuantile(1-confidence, nu)
	if err != nil {
		return 0, err
	}
	return z * math.Sqrt(nu*(1+1/float64(n))/x), nil
}
