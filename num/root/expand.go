package root

import (
	"fmt"
	"math"
)

// Expand widens [a, b] by growing the side with the smaller residual until f
// changes sign over it, and returns the new ends. It never steps outside
// [low, high]; a < b, low <= a, b <= high.
//
// Errors: ErrInterval; ErrNotFinite; ErrNoSignChange when the limits are
// reached without a sign change.
func Expand(f func(float64) float64, a, b, low, high float64) (float64, float64, error) {
	if err := interval("expand", a, b, 0); err != nil {
		return 0, 0, err
	}
	if !finite(low) || !finite(high) || !(a < b) || low > a || high < b {
		return 0, 0, fmt.Errorf("root: expand: %w: interval %g..%g inside %g..%g", ErrInterval, a, b, low, high)
	}
	const grow = 1.6
	fa, fb := f(a), f(b)
	for range limit {
		err := ends("expand", a, fa, b, fb)
		if err == nil {
			return a, b, nil
		}
		if !finite(fa) || !finite(fb) || (a == low && b == high) {
			return 0, 0, err
		}
		width := b - a
		if b == high || (a > low && math.Abs(fa) < math.Abs(fb)) {
			a = math.Max(low, a-grow*width)
			fa = f(a)
		} else {
			b = math.Min(high, b+grow*width)
			fb = f(b)
		}
	}
	return 0, 0, fmt.Errorf("root: expand: %w within %d steps: interval %g..%g", ErrNoSignChange, limit, a, b)
}
