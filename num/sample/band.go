package sample

import (
	"fmt"
	"math"
	"sort"
)

// Quantile returns the quantile p of values, 0..1, by straight lines between
// the order statistics at (i - 1/2)/n. Beyond the first and the last it is
// these.
func Quantile(values []float64, p float64) (float64, error) {
	if len(values) == 0 {
		return 0, fmt.Errorf("sample: quantile of no values")
	}
	if !(p >= 0 && p <= 1) {
		return 0, fmt.Errorf("sample: quantile %g outside 0..1", p)
	}
	s := append([]float64(nil), values...)
	sort.Float64s(s)
	if math.IsNaN(s[0]) || math.IsInf(s[0], 0) || math.IsInf(s[len(s)-1], 0) {
		return 0, fmt.Errorf("sample: quantile of values that are not finite")
	}
	x := p*float64(len(s)) - 0.5
	i := int(math.Floor(x))
	switch {
	case i < 0:
		return s[0], nil
	case i >= len(s)-1:
		return s[len(s)-1], nil
	}
	return s[i] + (x-float64(i))*(s[i+1]-s[i]), nil
}

// Band returns the range that holds the share coverage of the values, with
// equal tails, and their median.
func Band(values []float64, coverage float64) (lo, median, hi float64, err error) {
	if !(coverage > 0 && coverage < 1) {
		return 0, 0, 0, fmt.Errorf("sample: coverage %g outside 0..1", coverage)
	}
	if lo, err = Quantile(values, (1-coverage)/2); err != nil {
		return 0, 0, 0, err
	}
	if median, err = Quantile(values, 0.5); err != nil {
		return 0, 0, 0, err
	}
	hi, err = Quantile(values, (1+coverage)/2)
	return lo, median, hi, err
}
