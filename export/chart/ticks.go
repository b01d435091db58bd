package chart

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
)

// roundTicks marks an axis at one, two or five times a power of ten, with as
// many decimals as that step has.
type roundTicks struct{}

// about is how many steps an axis is split into.
const about = 5

// Ticks returns the marks of an axis from lo to hi.
func (roundTicks) Ticks(lo, hi float64) []plot.Tick {
	span := hi - lo
	if !(span > 0) || math.IsInf(span, 0) {
		return []plot.Tick{{Value: lo, Label: strconv.FormatFloat(lo, 'g', 4, 64)}}
	}
	power := math.Floor(math.Log10(span / about))
	step := math.Pow(10, power)
	for _, m := range []float64{1, 2, 5, 10} {
		if step = m * math.Pow(10, power); span/step <= about+1 {
			break
		}
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	var out []plot.Tick
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+1e-9*span; k++ {
		v := k * step
		label := strconv.FormatFloat(v+0, 'f', decimals, 64)
		if decimals > 6 || math.Abs(v) >= 1e6 {
			label = strconv.FormatFloat(v, 'g', 6, 64)
		}
		out = append(out, plot.Tick{Value: v, Label: label})
	}
	return out
}
