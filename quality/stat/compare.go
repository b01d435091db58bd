package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Comparison is the difference of two means, second less first.
type Comparison struct {
	Difference float64 `json:"difference"`
	SE         float64 `json:"se"`
	DF         float64 `json:"df"`
	P          float64 `json:"p"`  // two-sided
	Lo         float64 `json:"lo"` // two-sided confidence interval of the difference
	Hi         float64 `json:"hi"`
}

// Compare returns Welch's comparison of two samples given by mean, s and n,
// without taking their spreads as equal. A difference that is not significant
// is not shown to be absent: look at Lo and Hi. Source: Welch1947.
func Compare(a, b Summary, confidence float64) (Comparison, error) {
	if err := inside("comparison", "confidence", confidence); err != nil {
		return Comparison{}, err
	}
	if a.N < 2 || b.N < 2 {
		return Comparison{}, fmt.Errorf("stat: comparison: samples of %d and %d, want at least 2 each", a.N, b.N)
	}
	va, vb := a.S*a.S/float64(a.N), b.S*b.S/float64(b.N)
	if !(va+vb > 0) || math.IsInf(va+vb, 0) || math.IsNaN(a.Mean-b.Mean) || math.IsInf(a.Mean-b.Mean, 0) {
		return Comparison{}, fmt.Errorf("stat: comparison: spreads %g and %g", a.S, b.S)
	}
	out := Comparison{Difference: b.Mean - a.Mean, SE: math.Sqrt(va + vb)}
	out.DF = (va + vb) * (va + vb) / (va*va/float64(a.N-1) + vb*vb/float64(b.N-1))
	p, err := dist.StudentCDF(-math.Abs(out.Difference)/out.SE, out.DF)
	if err != nil {
		return Comparison{}, err
	}
	out.P = 2 * p
	t, err := dist.StudentQuantile((1+confidence)/2, out.DF)
	if err != nil {
		return Comparison{}, err
	}
	out.Lo, out.Hi = out.Difference-t*out.SE, out.Difference+t*out.SE
	return out, nil
}
