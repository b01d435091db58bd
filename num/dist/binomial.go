package dist

import (
	"fmt"

	"gonum.org/v1/gonum/mathext"
)

// FractionUpper returns the upper confidence limit of Clopper and Pearson on
// the failing fraction after x failures in n: the fraction at which x or
// fewer would be seen with probability 1 - confidence. One when x = n.
//
// Range: n >= 1, 0 <= x <= n, confidence inside 0..1.
// Source: ClopperPearson1934.
func FractionUpper(x, n int, confidence float64) (float64, error) {
	if err := checkFraction(x, n, confidence); err != nil {
		return 0, err
	}
	if x == n {
		return 1, nil
	}
	return BetaQuantile(confidence, float64(x+1), float64(n-x))
}

// FractionLower returns the lower confidence limit of Clopper and Pearson on
// the failing fraction after x failures in n; zero when x = 0. Range and
// source as FractionUpper.
func FractionLower(x, n int, confidence float64) (float64, error) {
	if err := checkFraction(x, n, confidence); err != nil {
		return 0, err
	}
	if x == 0 {
		return 0, nil
	}
	return BetaQuantile(1-confidence, float64(x), float64(n-x+1))
}

func checkFraction(x, n int, confidence float64) error {
	if n < 1 || x < 0 || x > n {
		return fmt.Errorf("dist: fraction limit: %d failures in %d", x, n)
	}
	if !(confidence > 0 && confidence < 1) {
		return fmt.Errorf("dist: fraction limit: confidence %g outside 0..1", confidence)
	}
	return nil
}

// BinomialCDF returns the probability of x or fewer failures in n at the
// failing fraction p.
func BinomialCDF(x, n int, p float64) (float64, error) {
	if n < 1 || !(p >= 0 && p <= 1) {
		return 0, fmt.Errorf("dist: binomial: %d trials at fraction %g", n, p)
	}
	switch {
	case x < 0:
		return 0, nil
	case x >= n, p == 0:
		return 1, nil
	case p == 1:
		return 0, nil
	}
	return mathext.RegIncBeta(float64(n-x), float64(x+1), 1-p), nil
}
