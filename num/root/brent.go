package root

import (
	"fmt"
	"math"
)

// Brent returns a zero of f in [a, b]: a point within tol (plus four units in
// the last place) of a sign change of f.
//
// f(a) and f(b) must have opposite signs or one of them be zero; a and b are
// finite and may stand in either order; tol >= 0 is absolute. Inverse
// quadratic interpolation and the secant rule are used where they shrink the
// bracket fast enough, bisection elsewhere.
//
// Errors: ErrInterval, ErrNoSignChange, ErrNotFinite, ErrNoConvergence.
// Source: Brent1973, ch. 4.
func Brent(f func(float64) float64, a, b, tol float64) (float64, error) {
	if err := interval("brent", a, b, tol); err != nil {
		return 0, err
	}
	fa, fb := f(a), f(b)
	if err := ends("brent", a, fa, b, fb); err != nil {
		return 0, err
	}
	if fa == 0 {
		return a, nil
	}
	if fb == 0 {
		return b, nil
	}
	// b is the best point, c the end across the root, a the point before b.
	c, fc := a, fa
	step := b - a
	last := step // the step before the last one
	for range limit {
		if math.Abs(fc) < math.Abs(fb) {
			a, fa = b, fb
			b, fb = c, fc
			c, fc = a, fa
		}
		near := 2*eps*math.Abs(b) + tol/2
		half := (c - b) / 2
		if math.Abs(half) <= near || fb == 0 {
			return b, nil
		}
		if math.Abs(last) < near || math.Abs(fa) <= math.Abs(fb) {
			step, last = half, half
		} else {
			p, q := interpolate(a, fa, b, fb, c, fc, half)
			if 2*p < math.Min(3*half*q-math.Abs(near*q), math.Abs(last*q)) {
				last, step = step, p/q
			} else {
				step, last = half, half
			}
		}
		a, fa = b, fb
		if math.Abs(step) > near {
			b += step
		} else {
			b += math.Copysign(near, half)
		}
		fb = f(b)
		if !finite(fb) {
			return 0, fmt.Errorf("root: brent: %w: f(%g) = %g", ErrNotFinite, b, fb)
		}
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			step = b - a
			last = step
		}
	}
	return 0, fmt.Errorf("root: brent: %w after %d steps: last interval %g..%g", ErrNoConvergence, limit, b, c)
}

// interpolate returns the proposed step from b as p/q with p >= 0: inverse
// quadratic through three distinct points, else the secant.
func interpolate(a, fa, b, fb, c, fc, half float64) (p, q float64) {
	s := fb / fa
	if a == c {
		p = 2 * half * s
		q = 1 - s
	} else {
		u, v := fa/fc, fb/fc
		p = s * (2*half*u*(u-v) - (b-a)*(v-1))
		q = (u - 1) * (v - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	}
	return math.Abs(p), q
}

func interval(name string, a, b, tol float64) error {
	switch {
	case !finite(a) || !finite(b) || !finite(b-a):
		return fmt.Errorf("root: %s: %w: interval %g..%g is not finite", name, ErrInterval, a, b)
	case !(tol >= 0) || math.IsInf(tol, 0):
		return fmt.Errorf("root: %s: %w: tolerance %g, want 0 or more", name, ErrInterval, tol)
	}
	return nil
}

func ends(name string, a, fa, b, fb float64) error {
	switch {
	case !finite(fa):
		return fmt.Errorf("root: %s: %w: f(%g) = %g", name, ErrNotFinite, a, fa)
	case !finite(fb):
		return fmt.Errorf("root: %s: %w: f(%g) = %g", name, ErrNotFinite, b, fb)
	case (fa > 0 && fb > 0) || (fa < 0 && fb < 0):
		return fmt.Errorf("root: %s: %w: f(%g) = %g, f(%g) = %g", name, ErrNoSignChange, a, fa, b, fb)
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
