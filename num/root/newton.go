package root

import (
	"fmt"
	"math"
)

// Newton returns a zero of f in [a, b] by Newton's rule kept inside a bracket:
// a step that leaves the bracket, or shrinks the residual too slowly, is
// replaced by a bisection.
//
// f returns the value and the derivative. f(a) and f(b) must have opposite
// signs or one of them be zero; a and b are finite, in either order; tol >= 0
// is the absolute size of the last step. A derivative that is zero or not
// finite costs a bisection, not the answer; a wrong derivative costs speed.
//
// Errors: ErrInterval, ErrNoSignChange, ErrNotFinite, ErrNoConvergence.
func Newton(f func(float64) (value, slope float64), a, b, tol float64) (float64, error) {
	if err := interval("newton", a, b, tol); err != nil {
		return 0, err
	}
	fa, _ := f(a)
	fb, _ := f(b)
	if err := ends("newton", a, fa, b, fb); err != nil {
		return 0, err
	}
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	low, high := a, b // f(low) < 0 < f(high)
	if fa > 0 {
		low, high = b, a
	}
	x := low + (high-low)/2
	before := math.Abs(high - low) // size of the step before the last
	step := before
	fx, dx := f(x)
	for range limit {
		switch {
		case !finite(fx):
			return 0, fmt.Errorf("root: newton: %w: f(%g) = %g", ErrNotFinite, x, fx)
		case fx == 0:
			return x, nil
		case fx < 0:
			low = x
		default:
			high = x
		}
		newton := fx / dx
		next := x - newton
		inside := (next > low && next < high) || (next > high && next < low)
		if !inside || !finite(newton) || math.Abs(2*newton) > math.Abs(before) {
			before = step
			step = (high - low) / 2
			next = low + step
		} else {
			before, step = step, newton
		}
		if next == x || math.Abs(step) <= tol+2*eps*math.Abs(next) {
			return next, nil
		}
		x = next
		fx, dx = f(x)
	}
	return 0, fmt.Errorf("root: newton: %w after %d steps: last interval %g..%g", ErrNoConvergence, limit, low, high)
}
