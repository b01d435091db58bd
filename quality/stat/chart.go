package stat

import (
	"fmt"
	"math"
)

// Chart is a control chart of single values in the order they came.
type Chart struct {
	Centre  float64  `json:"centre"`
	Sigma   float64  `json:"sigma"` // from the mean moving range: the spread between neighbours, without drift
	Lower   float64  `json:"lower"`
	Upper   float64  `json:"upper"`
	Signals []Signal `json:"signals"`
}

// Signal is a sign that the process moved.
type Signal struct {
	Index int    `json:"index"` // last value of the pattern, from 0
	Rule  string `json:"rule"`
}

// d2 is the mean range of two standard normal values, 2/sqrt(pi).
const d2 = 1.1283791670955126

// Individuals returns the control chart of at least five single values in
// order,
//
//	sigma = mean |x_i - x_i-1| / d2,  limits = mean ± 3 sigma
//
// and the signals of four rules: one value beyond 3 sigma, two of three beyond
// 2 sigma on one side, four of five beyond 1 sigma on one side, eight in a row
// on one side. Control limits say what the process does, not what the
// specification wants. Values that are all equal are refused.
// Sources: NIST2012 6.3.2.2, Nelson1984.
func Individuals(x []float64) (Chart, error) {
	if err := finite("control chart", x, 5); err != nil {
		return Chart{}, err
	}
	s, err := Summarize(x)
	if err != nil {
		return Chart{}, err
	}
	var mr float64
	for i := 1; i < len(x); i++ {
		mr += math.Abs(x[i]-x[i-1]) / float64(len(x)-1)
	}
	if !(mr > 0) {
		return Chart{}, fmt.Errorf("stat: control chart: the %d values are equal", len(x))
	}
	out := Chart{Centre: s.Mean, Sigma: mr / d2}
	out.Lower, out.Upper = s.Mean-3*out.Sigma, s.Mean+3*out.Sigma
	for _, r := range []struct {
		name         string
		beyond       float64
		need, within int
	}{
		{"one value beyond 3 sigma", 3, 1, 1},
		{"two of three beyond 2 sigma on one side", 2, 2, 3},
		{"four of five beyond 1 sigma on one side", 1, 4, 5},
		{"eight in a row on one side", 0, 8, 8},
	} {
		for i := r.within - 1; i < len(x); i++ {
			for _, side := range []float64{-1, 1} {
				// A pattern is complete with the value that adds to it.
				if side*(x[i]-out.Centre) <= r.beyond*out.Sigma {
					continue
				}
				n := 0
				for j := i - r.within + 1; j <= i; j++ {
					if side*(x[j]-out.Centre) > r.beyond*out.Sigma {
						n++
					}
				}
				if n >= r.need {
					out.Signals = append(out.Signals, Signal{Index: i, Rule: r.name})
				}
			}
		}
	}
	return out, nil
}
