package lab

import (
	"fmt"
	"math"

	"costrel/quality"
	"costrel/quality/stat"
)

// LossTrend is the loss of a quantity extrapolated along a straight line of
// its logarithms.
type LossTrend struct {
	Word      quality.Word `json:"verdict"`
	Reference float64      `json:"reference"` // mean at the setting 0, SI
	Value     float64      `json:"value"`     // extrapolated, SI
	Loss      float64      `json:"loss"`      // fraction of the reference
	Lo, Hi    float64      // interval of the loss from the line alone
	WideLo    float64      `json:"wide_lo"` // with the scatter of the reference
	WideHi    float64      `json:"wide_hi"`
	LastSeen  float64      `json:"last_seen"` // loss of the mean at the last setting
	S         float64      `json:"s"`         // residual standard deviation of the logarithms
	Reason    string       `json:"reason"`
}

// JudgeLoss extrapolates pulls to the setting at (a time, SI) and compares the
// loss against the mean at setting 0 with the largest allowed fraction.
//
//	ln x = a + b t  over t > 0
//
// Pass: the whole interval, scatter of the reference included, is within.
// Fail: the whole interval is beyond. Otherwise not shown. A straight line
// through fast early losses predicts too much later; where a model of the
// pack is at hand its fit is the better judge.
func JudgeLoss(s Series, setting string, at, most, confidence float64) (LossTrend, error) {
	if !(most > 0 && most < 1) || !(at > 0) {
		return LossTrend{}, fmt.Errorf("lab: %s: loss %g at %s %g", s.Name(), most, setting, at)
	}
	var start, x, y []float64
	last := 0.0
	for _, r := range s.Readings {
		t, ok := s.Rows[r.Row].Settings[setting]
		if !ok {
			return LossTrend{}, fmt.Errorf("lab: %s: line %d has no %s", s.Name(), r.Line, setting)
		}
		if !(r.Value > 0) || r.Censor != Exact {
			return LossTrend{}, fmt.Errorf("lab: %s: line %d: %q has no logarithm", s.Name(), r.Line, r.Text)
		}
		if t == 0 {
			start = append(start, r.Value)
			continue
		}
		x, y = append(x, t), append(y, math.Log(r.Value))
		last = math.Max(last, t)
	}
	if len(start) < 2 {
		return LossTrend{}, fmt.Errorf("lab: %s: %d readings at %s 0, want at least 2", s.Name(), len(start), setting)
	}
	ref, err := stat.Summarize(start)
	if err != nil {
		return LossTrend{}, err
	}
	line, err := stat.FitLine(x, y)
	if err != nil {
		return LossTrend{}, err
	}
	v, half, _, err := line.At(at, confidence)
	if err != nil {
		return LossTrend{}, err
	}
	var end []float64
	for i := range x {
		if x[i] == last {
			end = append(end, math.Exp(y[i]))
		}
	}
	fin, err := stat.Summarize(end)
	if err != nil {
		return LossTrend{}, err
	}
	m := math.Log(ref.Mean)
	// The reference adds its own scatter; both half widths are at the same
	// confidence, that of the line with its more degrees of freedom.
	_, t, _, err := line.At(line.MeanX, confidence)
	if err != nil {
		return LossTrend{}, err
	}
	wide := half
	if line.S > 0 {
		factor := t / (line.S / math.Sqrt(float64(line.N)))
		wide = math.Hypot(half, factor*ref.S/ref.Mean/math.Sqrt(float64(ref.N)))
	}
	out := LossTrend{
		Reference: ref.Mean, Value: math.Exp(v), Loss: 1 - math.Exp(v-m), Lo: 1 - math.Exp(v+half-m), Hi: 1 - math.Exp(v-half-m),
		WideLo: 1 - math.Exp(v+wide-m), WideHi: 1 - math.Exp(v-wide-m), LastSeen: 1 - fin.Mean/ref.Mean, S: line.S,
	}
	out.Reason = fmt.Sprintf("a line through the logarithms gives %.1f %% (%.1f to %.1f %%), allowed %.1f %%", 100*out.Loss, 100*out.WideLo, 100*out.WideHi, 100*most)
	switch {
	case out.WideHi <= most:
		out.Word = quality.Pass
	case out.WideLo > most:
		out.Word = quality.Fail
	default:
		out.Word = quality.NotShown
		out.Reason += ": the interval straddles the limit"
	}
	if at > last {
		out.Reason += fmt.Sprintf("; extrapolated to %.2g times the last pull", at/last)
	}
	return out, nil
}
