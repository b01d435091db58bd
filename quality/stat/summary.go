package stat

import (
	"fmt"
	"math"
	"slices"
)

// Scale is the scale on which a sample is taken as normal.
type Scale string

// The scales.
const (
	Linear Scale = "linear"
	Log    Scale = "log" // lognormal: times to failure, cracks
)

// Summary describes a sample.
type Summary struct {
	N      int     `json:"n"`
	Mean   float64 `json:"mean"`
	S      float64 `json:"s"` // standard deviation with n-1; 0 when n = 1
	Min    float64 `json:"min"`
	Max    float64 `json:"max"`
	Median float64 `json:"median"`
}

// Summarize returns the summary of a sample of at least one finite value.
//
//	mean = Σx/n,  s = sqrt(Σ(x-mean)²/(n-1))
func Summarize(x []float64) (Summary, error) {
	if err := finite("summary", x, 1); err != nil {
		return Summary{}, err
	}
	n := float64(len(x))
	var sum float64
	for _, v := range x {
		sum += v / n
	}
	var rest float64
	for _, v := range x {
		rest += (v - sum) / n
	}
	mean := sum + rest
	var ss, comp float64
	for _, v := range x {
		d := v - mean
		ss += d * d
		comp += d
	}
	s := 0.0
	if len(x) > 1 {
		s = math.Sqrt(math.Max(0, ss-comp*comp/n) / (n - 1))
	}
	out := Summary{N: len(x), Mean: mean, S: s, Min: slices.Min(x), Max: slices.Max(x), Median: median(x)}
	if math.IsInf(out.S, 0) || math.IsInf(out.Mean, 0) {
		return Summary{}, fmt.Errorf("stat: summary: values up to %g are too large", math.Max(math.Abs(out.Min), math.Abs(out.Max)))
	}
	return out, nil
}

// Normal is a normal fit on a scale: on the log scale Mean and S are those of
// the natural logarithms.
type Normal struct {
	N       int
	Mean, S float64
	Scale   Scale
}

// Fit returns the normal fit of a sample of at least two values on a scale.
// On the log scale every value must be above 0.
func Fit(x []float64, scale Scale) (Normal, error) {
	if err := finite("normal fit", x, 2); err != nil {
		return Normal{}, err
	}
	y, err := scale.To(x)
	if err != nil {
		return Normal{}, err
	}
	s, err := Summarize(y)
	if err != nil {
		return Normal{}, err
	}
	return Normal{N: s.N, Mean: s.Mean, S: s.S, Scale: scale}, nil
}

// Centre returns the centre of the fit on the scale of the values: the mean,
// or the geometric mean on the log scale.
func (f Normal) Centre() float64 { return f.Scale.From(f.Mean) }

// At returns the value that lies z standard deviations above the centre.
func (f Normal) At(z float64) float64 { return f.Scale.From(f.Mean + z*f.S) }

// To returns the values on the scale on which they are normal.
func (s Scale) To(x []float64) ([]float64, error) {
	if s != Log {
		return x, nil
	}
	y := make([]float64, len(x))
	for i, v := range x {
		if !(v > 0) {
			return nil, fmt.Errorf("stat: log scale: value %d is %g, want above 0", i+1, v)
		}
		y[i] = math.Log(v)
	}
	return y, nil
}

// From brings one value back from the scale.
func (s Scale) From(y float64) float64 {
	if s == Log {
		return math.Exp(y)
	}
	return y
}

// finite refuses a sample of fewer than least values or with one that is not
// finite.
func finite(op string, x []float64, least int) error {
	if len(x) < least {
		return fmt.Errorf("stat: %s: %d values, want at least %d", op, len(x), least)
	}
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("stat: %s: value %d is %g", op, i+1, v)
		}
	}
	return nil
}

// inside refuses a probability that is not strictly between 0 and 1.
func inside(op, name string, p float64) error {
	if !(p > 0 && p < 1) {
		return fmt.Errorf("stat: %s: %s %g outside 0..1", op, name, p)
	}
	return nil
}

func median(x []float64) float64 {
	y := slices.Clone(x)
	slices.Sort(y)
	n := len(y)
	if n%2 == 1 {
		return y[n/2]
	}
	return y[n/2-1] + (y[n/2]-y[n/2-1])/2
}
