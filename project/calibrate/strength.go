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
func TestedOf(t *lab.Table, variant string) ([]Tested, error) {
	var out []Tested
	for _, s := range t.Series() {
		if !slices.Contains(run.StrengthKeys, s.Key) || (variant != "" && s.Variant != variant) {
			continue
		}
		x, censored := s.Values()
		if censored > 0 {
			return nil, fmt.Errorf("%s: %s: %d censored readings; give the values themselves", t.File, s.Name(), censored)
		}
		if slices.ContainsFunc(out, func(q Tested) bool { return q.Key == s.Key }) {
			return nil, fmt.Errorf("%s: %s occurs twice; name the variant", t.File, s.Name())
		}
		sum, err := stat.Summarize(x)
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", t.File, s.Name(), err)
		}
		if !(sum.Mean > 0) {
			return nil, fmt.Errorf("%s: %s: mean %g; a strength test has a mean above 0", t.File, s.Name(), sum.Mean)
		}
		out = append(out, Tested{s.Key, Reading{Mean: sum.Mean, SD: sum.S, N: sum.N}})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("%s: no column of growth, fill drop, burst or top load of an empty bottle", t.File)
	}
	return out, nil
}

// StrengthFit is the answer of a strength calibration.
type StrengthFit struct {
	Knobs              []Fitted
	Data               []StrengthCompared
	Runs               int
	RMSFirst, RMSAfter float64
}

// StrengthCompared is a test before and after the fit, in SI.
type StrengthCompared struct {
	Key                     string
	Measured, Before, After float64
}

// believed is what is held of a factor before any test: a mean and a relative
// standard deviation of its logarithm. Chosen for this project from the spread
// of the two laws of stiffness and from what the creep law was written for.
type believed struct {
	Knob
	mean, spread float64
}

var strengthFactors = []believed{
	{Knob{Path: "handling.modulus_factor", Label: "Modulus factor", Low: 0.35, High: 2.9, Log: true}, 1, 0.25},
	{Knob{Path: "handling.creep_factor", Label: "Creep factor", Low: 0.01, High: 5, Log: true}, 0.3, 1.0},
	{Knob{Path: "handling.strength_factor", Label: "Strength factor", Low: 0.35, High: 2.9, Log: true}, 1, 0.2},
}

// strengthScatter of a test is what the model itself is off, relative. Chosen
// for this project.
const strengthScatter = 0.10

// FitStrength weighs the tests against what is believed of the laws and returns
// the factors that agree best with both: a test counts with its own scatter and
// 10 % of the model, a factor with its spread before. Where tests contradict
// each other or the wall, the rest shows in Data.
func FitStrength(ctx context.Context, d *design.Design, tests []Tested, progress func(runs int)) (*StrengthFit, error) {
	if len(tests) == 0 {
		return nil, errors.New("calibrate: no strength test given")
	}
	cache := run.NewCache(256)
	out := &StrengthFit{}
	k := len(strengthFactors)
	n := len(tests) + k
	var last []float64
	residual := func(x, r []float64) error {
		c := d.Clone()
		c.Handling.Modulus, c.Handling.Creep, c.Handling.Strength = math.Exp(x[0]), math.Exp(x[1]), math.Exp(x[2])
		v, err := run.LabStrength(ctx, c, cache)
		if err != nil {
			if out.Runs == 0 || ctx.Err() != nil {
				return err
			}
			// So weak that the pack does not survive a test: far from any data.
			for i := range r {
				r[i] = 100
			}
			return nil
		}
		out.Runs++
		if progress != nil {
			progress(out.Runs)
		}
		last = last[:0]
		for i, t := range tests {
			m, ok := v[t.Key]
			if !ok || !(m > 0) {
				return fmt.Errorf("calibrate: the pack of this design has no %s", t.Key)
			}
			last = append(last, m)
			r[i] = math.Log(m/t.Mean) / math.Hypot(strengthScatter, t.SD/t.Mean/math.Sqrt(float64(max(t.N, 1))))
		}
		for i, b := range strengthFactors {
			r[len(tests)+i] = (x[i] - math.Log(b.mean)) / b.spread
		}
		return nil
	}
	p := fit.Problem{Residuals: n, Residual: residual, Settle: settle, OneSided: true}
	first := make([]float64, n)
	for _, b := range strengthFactors {
		v, _, ok := d.Number(b.Path)
		if !ok {
			return nil, fmt.Errorf("calibrate: the design has no number at %s", b.Path)
		}
		p.Low, p.High = append(p.Low, math.Log(b.Low)), append(p.High, math.Log(b.High))
		p.Start = append(p.Start, math.Log(math.Min(math.Max(v, b.Low), b.High)))
		p.Step = append(p.Step, 0.03)
	}
	if err := residual(p.Start, first); err != nil {
		return nil, fmt.Errorf("calibrate: the design as it stands: %w", err)
	}
	before := append([]float64(nil), last...)
	best, err := fit.LeastSquares(p)
	if err != nil {
		return nil, err
	}
	if err := residual(best.X, first[:n:n]); err != nil {
		return nil, err
	}
	out.RMSAfter = rms(best.Residual[:len(tests)])
	for i, t := range tests {
		out.Data = append(out.Data, StrengthCompared{t.Key, t.Mean, before[i], last[i]})
	}
	for i, t := range tests {
		first[i] = math.Log(before[i]/t.Mean) / math.Hypot(strengthScatter, t.SD/t.Mean/math.Sqrt(float64(max(t.N, 1))))
	}
	out.RMSFirst = rms(first[:len(tests)])
	for i, b := range strengthFactors {
		v, _, _ := d.Number(b.Path)
		f := Fitted{Knob: b.Knob, Before: v, After: math.Exp(best.X[i]), Identified: true}
		sd := math.Sqrt(math.Max(best.Inverse[i][i], 0))
		f.SD = f.After * sd
		if best.Bound[i] {
			f.SD, f.Identified, f.Why = 0, false, "it ends on its bound"
		} else if sd > 0.9*b.spread {
			f.Identified, f.Why = false, "the tests tell hardly more than was believed before"
		}
		out.Knobs = append(out.Knobs, f)
	}
	return out, nil
}
