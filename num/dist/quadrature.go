package dist

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// rulePoints is the number of Gauss-Legendre points a panel: exact to degree
// 47, and the panels below are at most about four standard deviations wide.
const rulePoints = 24

// rule is the Gauss-Legendre rule on -1..1.
type rule struct{ x, w [rulePoints]float64 }

func newRule() *rule {
	var r rule
	quad.Legendre{}.FixedLocations(r.x[:], r.w[:], -1, 1)
	return &r
}

// over integrates f over the panels between successive breaks.
func (r *rule) over(breaks []float64, f func(float64) float64) float64 {
	var sum float64
	for i := 1; i < len(breaks); i++ {
		half := (breaks[i] - breaks[i-1]) / 2
		mid := (breaks[i] + breaks[i-1]) / 2
		var part float64
		for j := range r.x {
			part += r.w[j] * f(mid+half*r.x[j])
		}
		sum += half * part
	}
	return sum
}

// panels returns the breaks of n equal panels on lo..hi together with the
// extra breaks that lie inside, sorted.
func panels(lo, hi float64, n int, extra []float64) []float64 {
	out := make([]float64, 0, n+1+len(extra))
	for i := range n {
		out = append(out, lo+(hi-lo)*float64(i)/float64(n))
	}
	out = append(out, hi)
	for _, b := range extra {
		if b > lo && b < hi {
			out = append(out, b)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// solve returns the root of the rising function f near the start x0. It
// widens a bracket by doubling steps and then runs false position with the
// Illinois weights, falling back to bisection. f is a difference of
// logarithms of probabilities, so below 1e-15 it is rounding.
func solve(what string, f func(float64) float64, x0, step float64) (float64, error) {
	lo, hi := x0, x0
	flo := f(lo)
	fhi := flo
	for i := 0; flo > 0; i++ {
		if i == 60 {
			return 0, fmt.Errorf("dist: %s: no lower bracket below %g", what, lo)
		}
		hi, fhi = lo, flo
		lo -= step
		step *= 2
		flo = f(lo)
	}
	for i := 0; fhi < 0; i++ {
		if i == 60 {
			return 0, fmt.Errorf("dist: %s: no upper bracket above %g", what, hi)
		}
		lo, flo = hi, fhi
		hi += step
		step *= 2
		fhi = f(hi)
	}
	if flo == 0 {
		return lo, nil
	}
	if fhi == 0 {
		return hi, nil
	}
	wlo, whi, side := flo, fhi, 0
	for i := range 200 {
		x := (lo*whi - hi*wlo) / (whi - wlo)
		if i%4 == 3 || !(x > lo && x < hi) {
			x = lo + (hi-lo)/2
		}
		if x <= lo || x >= hi || hi-lo <= 1e-15*(math.Abs(lo)+math.Abs(hi)) {
			return x, nil
		}
		fx := f(x)
		switch {
		case math.Abs(fx) < 1e-15:
			return x, nil
		case math.IsNaN(fx):
			return 0, fmt.Errorf("dist: %s: no value at %g", what, x)
		case fx < 0:
			lo, flo, wlo = x, fx, fx
			if side == -1 {
				whi /= 2
			} else {
				whi = fhi
			}
			side = -1
		default:
			hi, fhi, whi = x, fx, fx
			if side == 1 {
				wlo /= 2
			} else {
				wlo = flo
			}
			side = 1
		}
	}
	return 0, fmt.Errorf("dist: %s: no convergence between %g and %g", what, lo, hi)
}
