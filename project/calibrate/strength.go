package calibrate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"costrel/num/fit"
	"costrel/project/design"
	"costrel/project/run"
	"costrel/quality/lab"
	"costrel/quality/stat"
)

// Tested is the mean of a strength test of the laboratory, by figure key, SI.
type Tested struct {
	Key string
	Reading
}

// TestedOf returns the strength tests that a laboratory table holds. variant
// chooses between designs in one table and may be empty.
//
// Errors, all at once: readings outside what a bottle can show, censored ones,
// a quantity that occurs twice, a mean of nothing.
func TestedOf(t *lab.Table, variant string) ([]Tested, error) {
	var out []Tested
	var faults []error
	found := false
	for _, s := range t.Series() {
		if !(slices.Contains(run.StrengthKeys, s.Key) || s.Key == run.ExpansionKey) || (variant != "" && s.Variant != variant) {
			continue
		}
		found = found || s.Key != run.ExpansionKey
		if slices.ContainsFunc(out, func(q Tested) bool { return q.Key == s.Key }) {
			faults = append(faults, fmt.Errorf("%s: %s occurs twice; name the variant", t.File, s.Name()))
			continue
		}
		if bad := impossible(t.File, s); bad != nil {
			faults = append(faults, bad...)
			continue
		}
		x, _ := s.Values()
		sum, err := stat.Summarize(x)
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %s: %w", t.File, s.Name(), err))
			continue
		}
		if !(sum.Mean > 0) {
			faults = append(faults, fmt.Errorf("%s: %s: mean %g; a strength test has a mean above 0", t.File, s.Name(), sum.Mean))
			continue
		}
		out = append(out, Tested{s.Key, Reading{Mean: sum.Mean, SD: sum.S, N: sum.N}})
	}
	if !found {
		faults = append(faults, fmt.Errorf("%s: no column of growth, fill drop, burst or top load of an empty bottle", t.File))
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	return out, nil
}

// StrengthFit is the answer of a strength calibration.
type StrengthFit struct {
	Knobs              []Fitted
	Data               []StrengthCompared
	Runs               int
	RMSFirst, RMSAfter float64
	// Spread is what the fit leaves of each knob, standard deviation of its
	// logarithm, 0 where it is not identified; of the top load factor that of its
	// product with the modulus, which the tests fix better than either.
	Spread []float64
	// Hardening is the strain to the ultimate strength, by the volume expansion at
	// burst; nil where the tests have none.
	Hardening *Fitted
	Residual  float64 // root mean square of the relative differences after the fit, at least leastResidual
}

// leastResidual is how far the model is taken to be off at least where few tests
// with as many factors leave nothing: half of its own scatter. Chosen for this
// project.
const leastResidual = strengthScatter / 2

// StrengthCompared is a test before and after the fit, in SI.
type StrengthCompared struct {
	Key                     string
	Measured, Before, After float64
}

// believed is what is held of a factor before any test: that the value of the
// template of the pack class is right within a relative standard deviation of
// its logarithm. The value of the design may stem from these very tests and is
// no prior: they would count once more with every fit. Chosen
// for this project from the spread of the two laws of stiffness, from what the
// creep law was written for, and for top load from what lies between the lower
// bound of tests and the collapse behind a buckle at a corner.
type believed struct {
	Knob
	spread float64
}

// Places of the two factors that make the top load.
const modulus, topLoad = 0, 3

var strengthFactors = []believed{
	{Knob{Path: "handling.modulus_factor", Label: "Modulus factor", Low: 0.35, High: 2.9, Log: true}, 0.25},
	{Knob{Path: "handling.creep_factor", Label: "Creep factor", Low: 0.01, High: 5, Log: true}, 1.0},
	{Knob{Path: "handling.strength_factor", Label: "Strength factor", Low: 0.35, High: 2.9, Log: true}, 0.2},
	{Knob{Path: "handling.topload_factor", Label: "Top load factor", Low: 0.25, High: 5, Log: true}, 0.5},
}

// strengthScatter of a test is what the model itself is off, relative. Chosen
// for this project.
const strengthScatter = 0.10

// leftAlone is said of a factor that keeps the value of the design.
const leftAlone = "left alone: the tests tell hardly more than was believed before"

// FitStrength weighs the tests against what is believed of the laws and returns
// the factors that agree best with both: a test counts with its own scatter and
// 10 % of the model, a factor with its spread about the value of the template. A
// factor on which the tests have no say keeps that of the design and is not Identified;
// the others are fitted again without it. Where tests contradict each other or
// the wall, the rest shows in Data.
func FitStrength(ctx context.Context, d *design.Design, tests []Tested, progress func(runs int)) (*StrengthFit, error) {
	if len(tests) == 0 {
		return nil, errors.New("calibrate: no strength test given")
	}
	tests, expansion := parted(tests)
	if len(tests) == 0 {
		return nil, errors.New("calibrate: no strength test given besides the volume expansion at burst")
	}
	w := &weighing{ctx: ctx, d: d, tests: tests, progress: progress, cache: run.NewCache(256), out: &StrengthFit{}}
	free := make([]int, len(strengthFactors))
	for i, b := range strengthFactors {
		v, _, ok := d.Number(b.Path)
		if !ok {
			return nil, fmt.Errorf("calibrate: the design has no number at %s", b.Path)
		}
		free[i] = i
		w.out.Knobs = append(w.out.Knobs, Fitted{Knob: b.Knob, Before: v, After: v, Why: leftAlone})
	}
	var err error
	if w.prior, err = priors(d.Class); err != nil {
		return nil, err
	}
	w.out.Spread = make([]float64, len(strengthFactors))
	before, err := w.at(nil, nil)
	if err != nil {
		return nil, fmt.Errorf("calibrate: the design as it stands: %w", err)
	}
	gain := w.gain
	if expansion != nil {
		if err := w.harden(*expansion); err != nil {
			return nil, err
		}
	}
	after, err := w.at(nil, nil)
	if err != nil {
		return nil, err
	}
	for len(free) > 0 {
		best, err := fit.LeastSquares(w.problem(free))
		if err != nil {
			return nil, err
		}
		if told := w.told(free, best); len(told) < len(free) {
			free = told
			continue
		}
		if after, err = w.at(free, best.X); err != nil {
			return nil, err
		}
		w.settled(free, best)
		break
	}
	first, last := make([]float64, len(tests)), make([]float64, len(tests))
	for i, t := range tests {
		first[i], last[i] = t.off(before[i]), t.off(after[i])
		w.out.Data = append(w.out.Data, StrengthCompared{t.Key, t.Mean, before[i], after[i]})
	}
	if expansion != nil {
		w.out.Data = append(w.out.Data, StrengthCompared{expansion.Key, expansion.Mean, gain, w.gain})
	}
	w.out.RMSFirst, w.out.RMSAfter = rms(first), rms(last)
	apart := make([]float64, len(tests))
	for i, t := range tests {
		apart[i] = math.Log(after[i] / t.Mean)
	}
	w.out.Residual = math.Max(rms(apart), leastResidual)
	return w.out, nil
}
