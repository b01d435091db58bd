package impact

import (
	"fmt"
	"math"

	"costrel/num/dist"
	"costrel/num/root"
)

// tally is what happened at one height.
type tally struct {
	height       float64
	fails, stood int
}

// tallyOf sums the drops by height.
func tallyOf(drops []Drop, level []int) []tally {
	lowest, highest := level[0], level[0]
	for _, k := range level {
		lowest, highest = min(lowest, k), max(highest, k)
	}
	out := make([]tally, highest-lowest+1)
	for i, d := range drops {
		t := &out[level[i]-lowest]
		t.height = d.Height
		if d.Failed {
			t.fails++
		} else {
			t.stood++
		}
	}
	return out
}

// logLikelihood is that of a normal failing height; probabilities below 1e-300
// count as that.
func logLikelihood(counts []tally, mean, sd float64) float64 {
	sum := 0.0
	for _, t := range counts {
		x := (t.height - mean) / sd
		if t.fails > 0 {
			sum += float64(t.fails) * math.Log(math.Max(dist.NormalCDF(x), 1e-300))
		}
		if t.stood > 0 {
			sum += float64(t.stood) * math.Log(math.Max(dist.NormalCDF(-x), 1e-300))
		}
	}
	return sum
}

// peakShare is how well a peak is placed, of the range searched.
const peakShare = 5e-9

// peak returns the largest value of a function with one peak in a..b.
func peak(f func(float64) float64, a, b float64) (at, value float64) {
	return root.Peak(f, a, b, peakShare*(b-a))
}

// profile is the best log likelihood when the height with normal score q is
// held at h; the standard deviation runs over 0.05 to 50 steps.
func (s Staircase) profile(h, q float64) float64 {
	_, v := peak(func(u float64) float64 {
		sd := math.Exp(u)
		return logLikelihood(s.counts, h-q*sd, sd)
	}, math.Log(0.05*s.Step), math.Log(50*s.Step))
	return v
}

// lower is the height below the best one at which the likelihood ratio has
// fallen by k²/2: heights below are refused with the confidence of k.
func (s Staircase) lower(q, k, fraction float64) (float64, error) {
	if s.counts == nil {
		return 0, fmt.Errorf("impact: up and down: no drops: read a test first")
	}
	// The best height, from a start that brackets it.
	best, top := peak(func(h float64) float64 { return s.profile(h, q) }, s.heightMin-6*s.Step, s.heightMax+6*s.Step)
	drop := func(h float64) float64 { return 2*(top-s.profile(h, q)) - k*k }
	if k == 0 {
		return best, nil
	}
	if best <= 0 || drop(0) < 0 {
		return 0, fmt.Errorf("impact: up and down: the test does not bound the height at which %g fail: drop more packs, or ask for a larger fraction", fraction)
	}
	h, err := root.Brent(drop, 0, best, 1e-6)
	if err != nil {
		return 0, fmt.Errorf("impact: up and down: bound: %w", err)
	}
	return h, nil
}
