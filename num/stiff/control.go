package stiff

import "math"

// Controller sets the step of a one-step method from the estimated errors of
// its steps. An error of 1 is the tolerance. Make it with [NewController]; it
// holds the history of one integration.
type Controller struct {
	order    float64 // of the estimate, plus one
	last     float64 // error of the last accepted step
	rejected bool
}

// The step changes by these factors at most, and aims a little below the
// tolerance.
const (
	safety = 0.9
	shrink = 0.2
	expand = 5.0
)

// NewController returns a controller for a tableau.
func NewController(t Tableau) Controller {
	return Controller{order: float64(min(t.Order, t.Lower)) + 1, last: 1}
}

// Next judges a step of size h with the error err and returns whether it is
// accepted and the step to take next: proportional and integral control, and
// no growth right after a refusal. An error that is no number refuses the step
// and shrinks it by most.
// Source: Gustafsson1991 (from memory).
func (c *Controller) Next(h, err float64) (ok bool, next float64) {
	if !(err <= 1) { // NaN too
		f := shrink
		if !math.IsNaN(err) && !math.IsInf(err, 0) {
			f = math.Max(shrink, safety*math.Pow(err, -1/c.order))
		}
		c.rejected = true
		return false, h * math.Min(f, safety)
	}
	err = math.Max(err, 1e-8)
	f := safety * math.Pow(err, -0.7/c.order) * math.Pow(c.last, 0.4/c.order)
	f = math.Min(expand, math.Max(shrink, f))
	if c.rejected {
		f = math.Min(f, 1)
	}
	c.last, c.rejected = err, false
	return true, h * f
}

// Restart forgets the history: after a jump of the right-hand side.
func (c *Controller) Restart() { c.last, c.rejected = 1, false }
