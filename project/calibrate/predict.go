package calibrate

import (
	"fmt"
	"math"

	"costrel/num/dist"
	"costrel/num/root"
	"costrel/physics/permeation"
)

// Prediction is the loss at a time, of the mean of the bottles.
type Prediction struct {
	Time         float64 // [s]
	Loss, Lo, Hi float64 // share of the reading it is counted from, with the interval
	Carbonation  float64 // [kg/m³]
	// Extrapolated is the time over that of the last pull; the interval holds
	// the scatter of the readings, not the doubt about the model.
	Extrapolated float64
}

// loss returns the loss at t and its slopes in the parameters.
func (f *PullFit) loss(t float64, from permeation.Reference) (v, carbonation float64, slope []float64, err error) {
	c := f.s.Case
	if f.along != nil {
		c = *f.along
	}
	at := func(x []float64) (float64, float64, error) {
		l, err := f.life(c, x, t)
		if err != nil {
			return 0, 0, err
		}
		loss, err := l.Loss(t, from)
		if err != nil {
			return 0, 0, err
		}
		p, err := l.At(t)
		return loss.Total, p.Carbonation, err
	}
	if v, carbonation, err = at(f.x); err != nil {
		return 0, 0, nil, err
	}
	slope = make([]float64, len(f.x))
	for i := range f.x {
		x := append([]float64(nil), f.x...)
		x[i] += step
		a, _, err := at(x)
		if err != nil {
			return 0, 0, nil, err
		}
		x[i] -= 2 * step
		b, _, err := at(x)
		if err != nil {
			return 0, 0, nil, err
		}
		slope[i] = (a - b) / (2 * step)
	}
	return v, carbonation, slope, nil
}

// spread returns the standard error of a linear combination.
func spread(cov [][]float64, slope []float64) float64 {
	s := 0.0
	for i := range slope {
		for j := range slope {
			s += slope[i] * cov[i][j] * slope[j]
		}
	}
	return math.Sqrt(math.Max(s, 0))
}

// Predict returns the loss at t [s] with the interval of the mean at the
// confidence, 0..1. It is counted from the 24-h reading where from is empty;
// see permeation.Reference for the others. A refused fit has no interval: it
// then reaches from 0 to 1, all that a loss can be.
func (f *PullFit) Predict(t, confidence float64, from permeation.Reference) (Prediction, error) {
	if !(confidence > 0 && confidence < 1) {
		return Prediction{}, fmt.Errorf("calibrate: predict: confidence %g outside 0..1", confidence)
	}
	if from == "" {
		from = permeation.FirstDay
	}
	v, c, slope, err := f.loss(t, from)
	if err != nil {
		return Prediction{}, fmt.Errorf("calibrate: predict: %w", err)
	}
	q, err := dist.StudentQuantile((1+confidence)/2, f.df)
	if err != nil {
		return Prediction{}, fmt.Errorf("calibrate: predict: %w", err)
	}
	if f.Refused != "" {
		return Prediction{Time: t, Loss: v, Lo: math.Min(v, 0), Hi: math.Max(v, 1), Carbonation: c, Extrapolated: t / f.last}, nil
	}
	half := q * spread(f.cov, slope)
	// A straight line in the parameters does not know that nothing can be lost
	// twice.
	return Prediction{Time: t, Loss: v, Lo: math.Max(v-half, math.Min(v, 0)), Hi: math.Min(v+half, math.Max(v, 1)), Carbonation: c, Extrapolated: t / f.last}, nil
}

// Shown returns the time [s] up to which the whole interval stays within the
// limit on the loss, until where it does so throughout, and the time at which the
// loss itself reaches it, +Inf where it does not before until. Times to a
// hundredth of a day. A refused fit shows nothing: 0.
func (f *PullFit) Shown(limit, confidence, until float64, from permeation.Reference) (shown, reached float64, err error) {
	if !(limit > 0 && limit < 1) {
		return 0, 0, fmt.Errorf("calibrate: shown: limit %g outside 0..1", limit)
	}
	if !(until > 2*day) {
		return 0, 0, fmt.Errorf("calibrate: shown: until %g d, want more than 2 d", until/day)
	}
	find := func(g func(Prediction) float64) (float64, error) {
		var failed error
		over := func(t float64) float64 {
			p, err := f.Predict(t, confidence, from)
			if err != nil && failed == nil {
				failed = err
			}
			return g(p) - limit
		}
		low, high := over(day*1.01), over(until)
		switch {
		case failed != nil:
			return 0, failed
		case high <= 0:
			return math.Inf(1), nil
		case low >= 0:
			return 0, nil
		}
		t, err := root.Brent(over, day*1.01, until, 0.01*day)
		if failed != nil {
			err = failed
		}
		return t, err
	}
	if shown, err = find(func(p Prediction) float64 { return p.Hi }); err != nil {
		return 0, 0, err
	}
	shown = math.Min(shown, until)
	reached, err = find(func(p Prediction) float64 { return p.Loss })
	return shown, reached, err
}

// FactorSpread returns the standard deviation of ln of the factor on the wall
// that gives the loss at t as wide a band as the fit leaves it: with it and with
// wall and closure held, a band of the design counts what the pulls have not
// settled. It is less than the interval of the factor alone where start, closure
// and growth were fitted with it and offset it. Errors as of [PullFit.Predict].
func (f *PullFit) FactorSpread(t float64, from permeation.Reference) (float64, error) {
	p, err := f.Predict(t, 0.95, from)
	if err != nil {
		return 0, err
	}
	_, _, slope, err := f.loss(t, from)
	if err != nil {
		return 0, err
	}
	if !(slope[0] > 0) {
		return 0, fmt.Errorf("calibrate: pulls: the loss does not rise with the factor (slope %g)", slope[0])
	}
	return (p.Hi - p.Lo) / 2 / two95 / slope[0], nil
}
