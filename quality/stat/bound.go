package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Tail is the end of the population that a bound covers.
type Tail string

// The tails.
const (
	Lower Tail = "lower"
	Upper Tail = "upper"
)

func (t Tail) sign() float64 {
	if t == Upper {
		return 1
	}
	return -1
}

// Evidence is how much a sample must show: that the fraction Coverage of the
// population keeps the limit, with the confidence Confidence.
type Evidence struct {
	Coverage   float64 `json:"coverage"`
	Confidence float64 `json:"confidence"`
}

// Usual is the evidence asked for where nothing else is said: 95 % of the
// bottles with 95 % confidence.
func Usual() Evidence { return Evidence{Coverage: 0.95, Confidence: 0.95} }

// Bound is a one-sided tolerance bound.
type Bound struct {
	Tail  Tail    `json:"tail"`
	K     float64 `json:"k"`
	Value float64 `json:"value"` // in the unit of the sample
}

// Bound returns the one-sided tolerance bound mean ± k s of the fit, on the
// scale of the values. Exact for normal data of n >= 2.
// Source: Owen1968, NIST2012 7.2.6.3.
func (f Normal) Bound(tail Tail, e Evidence) (Bound, error) {
	k, err := dist.OneSidedFactor(f.N, e.Coverage, e.Confidence)
	if err != nil {
		return Bound{}, err
	}
	v := f.At(tail.sign() * k)
	if math.IsInf(v, 0) {
		return Bound{}, fmt.Errorf("stat: bound: %d values with k %.4g leave no finite bound", f.N, k)
	}
	return Bound{Tail: tail, K: k, Value: v}, nil
}

// Interval returns the two-sided tolerance interval of the fit and its factor.
// Source: OdehOwen1980, ISO16269.
func (f Normal) Interval(e Evidence) (lo, hi, k float64, err error) {
	k, err = dist.TwoSidedFactor(f.N, e.Coverage, e.Confidence)
	if err != nil {
		return 0, 0, 0, err
	}
	lo, hi = f.At(-k), f.At(k)
	if math.IsInf(hi, 0) {
		return 0, 0, 0, fmt.Errorf("stat: interval: %d values with k %.4g leave no finite interval", f.N, k)
	}
	return lo, hi, k, nil
}

// distance returns the standardised distance of the centre from the limit,
// positive inside, and whether there is spread to standardise with.
func (f Normal) distance(tail Tail, limit float64) (float64, bool, error) {
	y, err := f.Scale.To([]float64{limit})
	if err != nil {
		return 0, false, err
	}
	d := tail.sign() * (y[0] - f.Mean)
	if f.S == 0 {
		return d, false, nil
	}
	return d / f.S, true, nil
}

// MaxN is the largest sample size that the searches for n consider.
const MaxN = 10000

// NeededN returns the smallest sample size at which a sample of the same mean
// and s would show the limit, and ok = false where no size up to [MaxN] does:
// the centre itself is too near the limit.
func (f Normal) NeededN(tail Tail, limit float64, e Evidence) (n int, ok bool, err error) {
	if err := inside("needed n", "coverage", e.Coverage); err != nil {
		return 0, false, err
	}
	if err := inside("needed n", "confidence", e.Confidence); err != nil {
		return 0, false, err
	}
	d, spread, err := f.distance(tail, limit)
	if err != nil {
		return 0, false, err
	}
	if !spread {
		return 2, d >= 0, nil
	}
	return smallest(2, MaxN, func(n int) (bool, error) {
		k, err := dist.OneSidedFactor(n, e.Coverage, e.Confidence)
		return k <= d, err
	})
}

// smallest returns the smallest n in lo..hi at which a condition that once
// met stays met is met.
func smallest(lo, hi int, met func(n int) (bool, error)) (int, bool, error) {
	step, below, n := 1, lo-1, lo
	for {
		ok, err := met(n)
		if err != nil {
			return 0, false, err
		}
		if ok {
			break
		}
		if n == hi {
			return 0, false, nil
		}
		below = n
		n = min(n+step, hi)
		step *= 2
	}
	for n-below > 1 {
		mid := below + (n-below)/2
		ok, err := met(mid)
		if err != nil {
			return 0, false, err
		}
		if ok {
			n = mid
		} else {
			below = mid
		}
	}
	return n, true, nil
}

// Refuted reports whether the sample shows with the confidence of e that less
// than the coverage of e keeps the limit: the opposite bound on the quantile
// lies outside.
func (f Normal) Refuted(tail Tail, limit float64, e Evidence) (bool, error) {
	d, spread, err := f.distance(tail, limit)
	if err != nil {
		return false, err
	}
	if !spread {
		return d < 0, nil
	}
	k, err := dist.OneSidedFactor(f.N, e.Coverage, 1-e.Confidence)
	return d < k, err
}

// ShownCoverage returns the largest fraction that the sample shows to keep the
// limit with the given confidence.
func (f Normal) ShownCoverage(tail Tail, limit, confidence float64) (float64, error) {
	if err := inside("shown coverage", "confidence", confidence); err != nil {
		return 0, err
	}
	if f.N < 2 {
		return 0, fmt.Errorf("stat: shown coverage: %d values, want at least 2", f.N)
	}
	d, spread, err := f.distance(tail, limit)
	if err != nil {
		return 0, err
	}
	if !spread {
		if d >= 0 {
			return 1, nil
		}
		return 0, nil
	}
	root := math.Sqrt(float64(f.N))
	mu, err := dist.NoncentralityAt(d*root, float64(f.N-1), confidence)
	if err != nil {
		return 0, err
	}
	return dist.NormalCDF(mu / root), nil
}
