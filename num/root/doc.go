// Package root finds a zero of a function of one variable inside a bracket,
// and where one is largest.
//
// Both solvers of zeros keep the sign change enclosed at every step, so they cannot
// leave the interval they were given, and both allocate nothing when they
// succeed. A function that returns NaN or Inf, an interval without a sign
// change and a search that does not settle are errors, never numbers.
//
//	Brent   needs only f; superlinear
//	Newton  needs f and its derivative; quadratic near the root
//	Expand  widens an interval until it holds a sign change
//	Peak    the place of the largest value; needs only f
package root

import "errors"

// What can go wrong. Errors returned by this package wrap one of these.
var (
	ErrInterval      = errors.New("bad interval or tolerance")
	ErrNoSignChange  = errors.New("no sign change in the interval")
	ErrNotFinite     = errors.New("function is not finite")
	ErrNoConvergence = errors.New("no convergence")
)

// limit is the largest number of steps. Bisection alone needs about 60 to
// exhaust a double from any ordinary bracket, and Brent's rule falls back on
// it at least every third step or so.
const limit = 300

// eps is the spacing of doubles at 1.
const eps = 0x1p-52
