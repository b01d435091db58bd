package sample

import (
	"fmt"
	"math"
	"sort"
)

// Contribution is what one input does to a result.
type Contribution struct {
	Input int // index of the input
	// Share of the variance of the result that the input causes by itself: the
	// first-order index of Sobol.
	Share float64
	// Slope is the change of the result with one standard deviation of the
	// input, others at their mean.
	Slope float64
	// Narrows is the factor by which the band shrinks when this input is known
	// exactly: sqrt(1 - Share).
	Narrows float64
}

// Contributions ranks the inputs by the variance they cause. z are the normal
// scores, y the results. The result is fitted by the straight line and the
// parabola in every input,
//
//	y = y0 + sum of a_i z_i + b_i (z_i² - 1)/sqrt 2,  share_i = (a_i² + b_i²)/var y
//
// which are uncorrelated for normal inputs. rest is the share that is left to
// steeper curves and to inputs acting together. Needs more than 4 points for
// each input; a result that does not vary has no contributions.
// Source: Sobol2001 for the index, Sudret2008 for the fit (from memory).
func Contributions(z [][]float64, y []float64) (ranked []Contribution, rest float64, err error) {
	n := len(y)
	if n == 0 || len(z) != n {
		return nil, 0, fmt.Errorf("sample: contributions: %d points and %d results", len(z), n)
	}
	d := len(z[0])
	k := 2*d + 1
	if n < 2*k {
		return nil, 0, fmt.Errorf("sample: contributions: %d points for %d inputs, want %d or more", n, d, 2*k)
	}
	mean, variance := 0.0, 0.0
	for _, v := range y {
		mean += v / float64(n)
	}
	for _, v := range y {
		variance += (v - mean) * (v - mean) / float64(n)
	}
	if math.IsNaN(variance) || math.IsInf(variance, 0) {
		return nil, 0, fmt.Errorf("sample: contributions: results that are not finite")
	}
	if variance <= 1e-26*mean*mean {
		return nil, 0, nil
	}
	a := make([][]float64, k)
	for i := range a {
		a[i] = make([]float64, k+1)
	}
	row := make([]float64, k)
	for p := range z {
		if len(z[p]) != d {
			return nil, 0, fmt.Errorf("sample: contributions: point %d has %d inputs, want %d", p, len(z[p]), d)
		}
		row[0] = 1
		for i, x := range z[p] {
			row[1+i] = x
			row[1+d+i] = (x*x - 1) / math.Sqrt2
		}
		for i := range k {
			for j := range k {
				a[i][j] += row[i] * row[j]
			}
			a[i][k] += row[i] * (y[p] - mean)
		}
	}
	c, err := solve(a)
	if err != nil {
		return nil, 0, err
	}
	rest = 1
	for i := range d {
		s := math.Min(1, (c[1+i]*c[1+i]+c[1+d+i]*c[1+d+i])/variance)
		ranked = append(ranked, Contribution{Input: i, Share: s, Slope: c[1+i], Narrows: math.Sqrt(1 - s)})
		rest -= s
	}
	sort.SliceStable(ranked, func(i, j int) bool { return ranked[i].Share > ranked[j].Share })
	return ranked, math.Max(rest, 0), nil
}

// solve solves a system given as rows with the right-hand side last, by
// elimination with row pivots; the rows are overwritten.
func solve(a [][]float64) ([]float64, error) {
	n := len(a)
	for k := range n {
		q := k
		for i := k + 1; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[q][k]) {
				q = i
			}
		}
		if !(math.Abs(a[q][k]) > 0) {
			return nil, fmt.Errorf("sample: contributions: an input does not vary by itself")
		}
		a[k], a[q] = a[q], a[k]
		for i := k + 1; i < n; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j <= n; j++ {
				a[i][j] -= f * a[k][j]
			}
		}
	}
	x := make([]float64, n)
	for k := n - 1; k >= 0; k-- {
		x[k] = a[k][n]
		for j := k + 1; j < n; j++ {
			x[k] -= a[k][j] * x[j]
		}
		x[k] /= a[k][k]
	}
	return x, nil
}
