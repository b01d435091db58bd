package calibrate

import (
	"math"
	"slices"

	"costrel/project/run"
)

// Ends of the strain to the ultimate strength that a fit may set.
const hardeningLow, hardeningHigh = 0.02, 0.8

// hardeningProbe is how far the slope of the expansion is taken on both sides of
// the strain, in its logarithm.
const hardeningProbe = 0.15

// parted takes the volume expansion at burst out of the tests: it hangs on the
// strain to the ultimate strength, which moves the others by hardly anything, and
// is met by that alone.
func parted(tests []Tested) (others []Tested, expansion *Tested) {
	for i, t := range tests {
		if t.Key == run.ExpansionKey {
			expansion = &tests[i]
		}
	}
	return slices.DeleteFunc(slices.Clone(tests), func(t Tested) bool { return t.Key == run.ExpansionKey }), expansion
}

// harden sets the strain to the ultimate strength by the volume expansion at
// burst, by halving: the expansion rises with it. Beyond its ends it is left alone.
// What it leaves of the strain is what scatter of the test and of the model, as of
// the other tests, make by the slope there.
func (w *weighing) harden(test Tested) error {
	measured := test.Mean
	f := Fitted{Knob: Knob{Path: "handling.hardening_strain", Label: "Strain to the ultimate strength", Low: hardeningLow, High: hardeningHigh}, Before: w.d.Handling.Hardening}
	f.After = f.Before
	w.out.Hardening = &f
	d := w.d.Clone()
	was := w.d
	w.d = d
	gain := func(x float64) (float64, error) {
		d.Handling.Hardening = x
		_, err := w.at(nil, nil)
		return w.gain, err
	}
	lo, hi := hardeningLow, hardeningHigh
	least, err := gain(lo)
	if err != nil {
		return err
	}
	most, err := gain(hi)
	if err != nil {
		return err
	}
	if measured < least || measured > most {
		w.d, f.Why = was, "left alone: no strain within its range gives that expansion"
		return nil
	}
	for range 7 {
		// Between the straight line and the middle: the course is bent.
		mid := (lo + hi + 2*(lo+(hi-lo)*(measured-least)/(most-least))) / 4
		v, err := gain(mid)
		if err != nil {
			return err
		}
		if v < measured {
			lo, least = mid, v
		} else {
			hi, most = mid, v
		}
	}
	x := lo + (hi-lo)*(measured-least)/(most-least)
	below, above := math.Max(hardeningLow, x*math.Exp(-hardeningProbe)), math.Min(hardeningHigh, x*math.Exp(hardeningProbe))
	if least, err = gain(below); err != nil {
		return err
	}
	if most, err = gain(above); err != nil {
		return err
	}
	slope := math.Log(most/least) / math.Log(above/below)
	d.Handling.Hardening = x
	f.After, f.Identified = x, true
	f.SD = x * math.Min(1, test.scatter()/math.Max(slope, 1e-3))
	return nil
}
