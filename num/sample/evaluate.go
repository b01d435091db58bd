package sample

import (
	"fmt"
	"math"
	"sync"
	"sync/atomic"
)

// Outcome is a function evaluated over a sample.
type Outcome struct {
	Z [][]float64 // the points that gave a result
	Y [][]float64 // their results
	// Failed counts the points without a result, First is the error of the
	// first of them. They are left out of Z and Y, and a band must say so.
	Failed int
	First  error
}

// Column returns the results of one output.
func (o Outcome) Column(j int) []float64 {
	out := make([]float64, len(o.Y))
	for i, y := range o.Y {
		out[i] = y[j]
	}
	return out
}

// Evaluate returns f at every point, in the order of the points, from several
// workers at once; f must be safe for that. NaN says that a point does not have
// this one of its results, and stays in Y. A result with Inf, of NaN alone, or of
// another length than the first, is an error of its point. Where no point gives
// a result, or more than a tenth fail, Evaluate itself errs: what is left would
// not be the sample asked for.
func Evaluate(z [][]float64, workers int, f func(z []float64) ([]float64, error)) (Outcome, error) {
	if len(z) == 0 {
		return Outcome{}, fmt.Errorf("sample: no points")
	}
	if workers < 1 || workers > 1024 {
		return Outcome{}, fmt.Errorf("sample: %d workers outside 1..1024", workers)
	}
	y := make([][]float64, len(z))
	errs := make([]error, len(z))
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(workers, len(z)) {
		wg.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(z) {
					return
				}
				y[i], errs[i] = f(z[i])
				some := false
				for j, v := range y[i] {
					some = some || !math.IsNaN(v)
					if errs[i] == nil && math.IsInf(v, 0) {
						errs[i] = fmt.Errorf("result %d is %g", j, v)
					}
				}
				if errs[i] == nil && len(y[i]) > 0 && !some {
					errs[i] = fmt.Errorf("none of %d results is a number", len(y[i]))
				}
			}
		})
	}
	wg.Wait()
	var out Outcome
	length := -1
	for i := range z {
		if errs[i] == nil {
			if length < 0 {
				length = len(y[i])
			}
			if len(y[i]) != length {
				errs[i] = fmt.Errorf("%d results, want %d", len(y[i]), length)
			}
		}
		if errs[i] != nil {
			out.Failed++
			if out.First == nil {
				out.First = fmt.Errorf("sample: point %d: %w", i, errs[i])
			}
			continue
		}
		out.Z, out.Y = append(out.Z, z[i]), append(out.Y, y[i])
	}
	if len(out.Y) == 0 || out.Failed > len(z)/10 {
		return out, fmt.Errorf("sample: %d of %d points give no result; the first: %w", out.Failed, len(z), out.First)
	}
	return out, nil
}
