package impact

import (
	"fmt"

	"costrel/num/root"
)

// HeightAt returns the drop height at which the largest index of walls and
// gate reaches a value [m], between 0.01 and 10 m; the height in the input is
// not read. The rank it stands for is that of the index: an estimate. Put in
// the index of a pack of known half-failure height, not 1, to compare two
// packs. It errs where the pack reaches the index below 0.01 m (then pressure
// alone does) or not by 10 m.
func HeightAt(in Input, index float64) (float64, error) {
	if !(index > 0 && index <= 100) {
		return 0, fmt.Errorf("impact: height: index %g outside 0..100", index)
	}
	at := func(h float64) (float64, error) {
		in.Height = h
		r, err := Assess(in)
		return r.Worst.Index.Value, err
	}
	low, err := at(heightLow)
	if err != nil {
		return 0, err
	}
	high, err := at(heightHigh)
	if err != nil {
		return 0, err
	}
	if low >= index {
		return 0, fmt.Errorf("impact: height: the index is %.3g at ‹%g m› already, above %g: the pressure in the pack alone reaches it", low, heightLow, index)
	}
	if high < index {
		return 0, fmt.Errorf("impact: height: the index is %.3g at ‹%g m›, below %g: beyond the range", high, heightHigh, index)
	}
	var inner error
	h, err := root.Brent(func(h float64) float64 {
		v, err := at(h)
		if err != nil {
			inner = err
		}
		return v - index
	}, heightLow, heightHigh, 1e-9)
	if inner != nil {
		return 0, inner
	}
	if err != nil {
		return 0, fmt.Errorf("impact: height: %w", err)
	}
	return h, nil
}
