package run

import (
	"fmt"
	"math"
	"strconv"
)

// Numbers are the points of a drawing. As JSON each has six digits, which is
// more than a drawing can show and half as long as all of them. A few points
// keep all their digits, for they may be measured.
type Numbers []float64

// MarshalJSON fails on a number that is not finite.
func (n Numbers) MarshalJSON() ([]byte, error) {
	if n == nil {
		return []byte("null"), nil
	}
	out := make([]byte, 0, 10*len(n)+2)
	out = append(out, '[')
	digits := 6
	if len(n) <= 24 {
		digits = -1
	}
	for i, v := range n {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("point %d of a drawing is not finite", i)
		}
		if i > 0 {
			out = append(out, ',')
		}
		out = strconv.AppendFloat(out, v, 'g', digits, 64)
	}
	return append(out, ']'), nil
}
