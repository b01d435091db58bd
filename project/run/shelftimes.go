package run

import (
	"math"
	"slices"
)

// Points of a plot of the life: on the grid, and near each boundary of the
// lane. Chosen for this project: enough for the eye, few enough for a page.
const (
	plotGrid = 81
	plotNear = 16
	plotMost = 40 // boundaries that get points near them
)

// plotTimes returns the times of the plots [s], rising: a grid dense at the
// start, where the life is fast; each boundary of the lane with a minute to
// either side; of the steps of the life those that follow a boundary within
// three days; and the time of the highest pressure.
func (s *shelfLife) plotTimes(steps []float64) []float64 {
	last := steps[len(steps)-1]
	var out []float64
	for i := range plotGrid {
		f := float64(i) / (plotGrid - 1)
		out = append(out, last*f*f)
	}
	const minute = 60.0
	for i, b := range s.pc.Lane.Segments {
		if i == 0 || i > 20*plotMost {
			continue
		}
		out = append(out, b.Start-minute, b.Start, b.Start+minute)
		if i > plotMost {
			continue
		}
		first, _ := slices.BinarySearch(steps, b.Start)
		after, _ := slices.BinarySearch(steps, b.Start+3*day)
		every := max(1, int(math.Ceil(float64(after-first)/plotNear)))
		for k := first; k < after; k += every {
			out = append(out, steps[k])
		}
	}
	out = append(out, s.life.MaxTime)
	slices.Sort(out)
	out = slices.Compact(out)
	return slices.DeleteFunc(out, func(t float64) bool { return t < 0 || t > last })
}
