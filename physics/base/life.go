package base

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Failure is one bottle of a stress-crack test.
type Failure struct {
	Stress float64 // Pa at the place that cracked, 1e4..1e9
	Time   float64 // s to failure, 1e-3..1e9
}

// Life is the line of time over stress that laboratory data show:
//
//	log10 t = a - b sigma
//
// with t in s and sigma in Pa.
type Life struct {
	A        float64 // log10 of s, at no stress
	B        float64 // per Pa
	SEB      float64 // per Pa, standard error of B
	Residual float64 // standard deviation of log10 t about the line
	R2       float64 // share of the scatter of log10 t that the line explains
	N        int
	Low      float64 // Pa, range of the stresses
	High     float64 // Pa
	Label    string  // always [Ranking]
	Warnings []string

	mean, sxx float64 // of the stresses
}

// FitLife returns the line of time to failure over stress by least squares on
// log10 t. Give bottles that failed only: one that outlived the test would have
// to be left out, which makes the line too short-lived at low stress. It
// refuses fewer than 5 bottles and stresses that span less than 5 % of their
// mean: bottles of one design under one pressure show scatter, no slope. It
// warns where the slope is not clear of zero (95 %, one-sided), or where life
// grows with stress.
func FitLife(data []Failure) (Life, error) {
	if len(data) < 5 {
		return Life{}, fmt.Errorf("base: life: %d bottles, want 5 or more", len(data))
	}
	n := float64(len(data))
	out := Life{N: len(data), Low: math.Inf(1), High: math.Inf(-1), Label: Ranking}
	var mt float64
	for i, d := range data {
		switch {
		case !(d.Stress >= 1e4 && d.Stress <= 1e9):
			return Life{}, fmt.Errorf("base: life: bottle %d: stress ‹%g Pa› outside ‹1e4..1e9 Pa›", i+1, d.Stress)
		case !(d.Time >= 1e-3 && d.Time <= 1e9):
			return Life{}, fmt.Errorf("base: life: bottle %d: time %g s outside 1e-3..1e9 s", i+1, d.Time)
		}
		out.Low, out.High = math.Min(out.Low, d.Stress), math.Max(out.High, d.Stress)
		out.mean += d.Stress / n
		mt += math.Log10(d.Time) / n
	}
	if span := out.High - out.Low; !(span >= 0.05*out.mean) {
		return Life{}, fmt.Errorf("base: life: the stresses span ‹%.3g MPa› about ‹%.3g MPa›, want 5 %% or more: test at two pressures or two walls at least", span/1e6, out.mean/1e6)
	}
	var sxy, syy float64
	for _, d := range data {
		x, y := d.Stress-out.mean, math.Log10(d.Time)-mt
		out.sxx, sxy, syy = out.sxx+x*x, sxy+x*y, syy+y*y
	}
	out.B = -sxy / out.sxx
	out.A = mt + out.B*out.mean
	var sse float64
	for _, d := range data {
		e := math.Log10(d.Time) - (out.A - out.B*d.Stress)
		sse += e * e
	}
	out.Residual = math.Sqrt(sse / (n - 2))
	out.SEB = out.Residual / math.Sqrt(out.sxx)
	if syy > 0 {
		out.R2 = 1 - sse/syy
	}
	t, err := dist.StudentQuantile(0.95, n-2)
	if err != nil {
		return Life{}, fmt.Errorf("base: life: %w", err)
	}
	switch {
	case out.B <= 0:
		out.Warnings = append(out.Warnings, "life: the times grow with stress; the stress is not what these bottles differ in: do not use the line")
	case out.B < t*out.SEB:
		out.Warnings = append(out.Warnings, fmt.Sprintf("life: the slope %.3g per MPa is not clear of zero (standard error %.3g): the data do not show an effect of stress", out.B*1e6, out.SEB*1e6))
	}
	return out, nil
}

// TimeAt is a predicted time to failure with its interval for one bottle.
type TimeAt struct {
	Time, Low, High float64 // s
	Warning         string  // empty inside the stresses of the data
	Label           string  // always [Ranking]
}

// At returns the median time to failure at a stress [Pa] and the interval in
// which one bottle fails with a confidence (two-sided, 0.5..0.999):
//
//	log10 t ± t_(n-2) s sqrt(1 + 1/n + (sigma - mean)²/S_xx)
//
// Stresses outside the data by up to half their span are answered with a
// warning, further ones refused.
func (l Life) At(stress, confidence float64) (TimeAt, error) {
	if l.N < 5 || !(l.sxx > 0) {
		return TimeAt{}, fmt.Errorf("base: life: no line: fit data first")
	}
	if !(confidence >= 0.5 && confidence <= 0.999) {
		return TimeAt{}, fmt.Errorf("base: life: confidence %g outside 0.5..0.999", confidence)
	}
	margin := (l.High - l.Low) / 2
	if !(stress >= l.Low-margin && stress <= l.High+margin) {
		return TimeAt{}, fmt.Errorf("base: life: stress ‹%.4g MPa› outside ‹%.4g..%.4g MPa›, half a span beyond the data", stress/1e6, (l.Low-margin)/1e6, (l.High+margin)/1e6)
	}
	t, err := dist.StudentQuantile((1+confidence)/2, float64(l.N-2))
	if err != nil {
		return TimeAt{}, fmt.Errorf("base: life: %w", err)
	}
	half := t * l.Residual * math.Sqrt(1+1/float64(l.N)+(stress-l.mean)*(stress-l.mean)/l.sxx)
	y := l.A - l.B*stress
	out := TimeAt{Time: math.Pow(10, y), Low: math.Pow(10, y-half), High: math.Pow(10, y+half), Label: Ranking}
	if math.IsInf(out.High, 0) || out.Low == 0 {
		return TimeAt{}, fmt.Errorf("base: life: the interval at ‹%.4g MPa› has no end (log10 t %.3g ± %.3g): too few data", stress/1e6, y, half)
	}
	if stress < l.Low || stress > l.High {
		out.Warning = fmt.Sprintf("life: ‹%.4g MPa› lies outside the data, ‹%.4g..%.4g MPa›: extrapolated", stress/1e6, l.Low/1e6, l.High/1e6)
	}
	return out, nil
}
