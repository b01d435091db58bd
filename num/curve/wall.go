package curve

import (
	"fmt"
	"sort"
)

// Wall is a wall thickness along a meridian: T [m], positive, at rising arc
// lengths S [m], straight between and constant beyond the ends. One entry is
// a constant wall.
type Wall struct{ S, T []float64 }

// Uniform returns the constant wall t [m].
func Uniform(t float64) Wall { return Wall{S: []float64{0}, T: []float64{t}} }

// Check refuses an empty wall, thicknesses that are not positive and arc
// lengths that do not rise.
func (w Wall) Check() error {
	if len(w.S) == 0 || len(w.S) != len(w.T) {
		return fmt.Errorf("curve: wall: %d arc lengths and %d thicknesses: want as many of each, at least one", len(w.S), len(w.T))
	}
	for i := range w.S {
		if !finite(w.S[i]) || (i > 0 && w.S[i] <= w.S[i-1]) {
			return fmt.Errorf("curve: wall: station %d: arc length %s does not rise", i+1, mm(w.S[i]))
		}
		if !finite(w.T[i]) || w.T[i] <= 0 {
			return fmt.Errorf("curve: wall: station %d: thickness %s is not positive", i+1, mm(w.T[i]))
		}
	}
	return nil
}

// At returns the thickness [m] at arc length s and its slope dt/ds just after
// s.
func (w Wall) At(s float64) (t, slope float64) {
	n := len(w.S)
	switch {
	case n == 1 || s < w.S[0]:
		return w.T[0], 0
	case s >= w.S[n-1]:
		return w.T[n-1], 0
	}
	i := sort.SearchFloat64s(w.S, s)
	if i == n || w.S[i] > s {
		i--
	}
	slope = (w.T[i+1] - w.T[i]) / (w.S[i+1] - w.S[i])
	return w.T[i] + slope*(s-w.S[i]), slope
}

// between returns the arc lengths of w strictly inside (a, b).
func (w Wall) between(a, b float64) []float64 {
	if len(w.S) == 1 {
		return nil
	}
	eps := 1e-9 * (b - a)
	i := sort.SearchFloat64s(w.S, a+eps)
	j := sort.SearchFloat64s(w.S, b-eps)
	if i >= j {
		return nil
	}
	return w.S[i:j]
}
