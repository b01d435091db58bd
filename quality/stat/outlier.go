package stat

import (
	"fmt"
	"math"
	"slices"

	"costrel/num/dist"
)

// Suspect is one value that a test for outliers looked at.
type Suspect struct {
	Index    int     `json:"index"` // place in the sample, from 0
	Value    float64 `json:"value"`
	G        float64 `json:"g"`        // distance from the mean in standard deviations of the values then left
	Critical float64 `json:"critical"` // G above it is an outlier at the level asked for
}

// GrubbsCritical returns the critical value of the two-sided Grubbs test for
// one outlier among n >= 3 normal values at the level alpha,
//
//	G = (n-1)/sqrt(n) sqrt( t²/(n-2+t²) ),  t = t(1-alpha/2n; n-2)
//
// Source: Grubbs1969, NIST2012 1.3.5.17.1.
func GrubbsCritical(n int, alpha float64) (float64, error) {
	return grubbsCritical(n, alpha/2)
}

// GrubbsCriticalOneSided is GrubbsCritical where only the largest, or only the
// smallest, value was suspected beforehand.
func GrubbsCriticalOneSided(n int, alpha float64) (float64, error) { return grubbsCritical(n, alpha) }

func grubbsCritical(n int, tail float64) (float64, error) {
	if n < 3 {
		return 0, fmt.Errorf("stat: Grubbs test: %d values, want at least 3", n)
	}
	if err := inside("Grubbs test", "level", tail); err != nil {
		return 0, err
	}
	t, err := dist.StudentQuantile(1-tail/float64(n), float64(n-2))
	if err != nil {
		return 0, err
	}
	m := float64(n)
	return (m - 1) / math.Sqrt(m) * math.Sqrt(t*t/(m-2+t*t)), nil
}

// Grubbs returns the value farthest from the mean with its statistic and
// critical value. A sample without spread has G = 0.
func Grubbs(x []float64, alpha float64) (Suspect, error) {
	steps, _, err := ESD(x, 1, alpha)
	if err != nil {
		return Suspect{}, err
	}
	if len(steps) == 0 {
		c, err := GrubbsCritical(len(x), alpha)
		return Suspect{Value: x[0], Critical: c}, err
	}
	return steps[0], nil
}

// ESD runs the generalised extreme studentised deviate test for up to most
// outliers: it takes away the farthest value again and again, and counts as
// outliers all up to the last step whose G exceeds its critical value, so that
// two that hide each other are both found. Holds for n >= 15, roughly from 10.
// Source: Rosner1983, NIST2012 1.3.5.17.3.
func ESD(x []float64, most int, alpha float64) (steps []Suspect, outliers int, err error) {
	if err := finite("outlier test", x, 3); err != nil {
		return nil, 0, err
	}
	if most < 1 || most > len(x)-2 {
		return nil, 0, fmt.Errorf("stat: outlier test: up to %d outliers among %d values", most, len(x))
	}
	left := make([]int, len(x))
	for i := range left {
		left[i] = i
	}
	for range most {
		values := make([]float64, len(left))
		for i, j := range left {
			values[i] = x[j]
		}
		s, err := Summarize(values)
		if err != nil {
			return nil, 0, err
		}
		if s.S <= 1e-14*math.Max(math.Abs(s.Min), math.Abs(s.Max)) {
			break
		}
		far := 0
		for i, v := range values {
			if math.Abs(v-s.Mean) > math.Abs(values[far]-s.Mean) {
				far = i
			}
		}
		c, err := GrubbsCritical(len(values), alpha)
		if err != nil {
			return nil, 0, err
		}
		steps = append(steps, Suspect{Index: left[far], Value: values[far], G: math.Abs(values[far]-s.Mean) / s.S, Critical: c})
		left = slices.Delete(left, far, far+1)
	}
	for i, s := range steps {
		if s.G > s.Critical {
			outliers = i + 1
		}
	}
	return steps, outliers, nil
}

// ModifiedZ returns the robust distances 0.6745 (x - median)/MAD of a sample;
// where half the values coincide and the MAD is 0 the mean deviation from the
// median takes its place. Beyond 3.5 a value is suspect. All zero for a sample
// without spread. Source: IglewiczHoaglin1993.
func ModifiedZ(x []float64) ([]float64, error) {
	if err := finite("robust distance", x, 3); err != nil {
		return nil, err
	}
	m := median(x)
	dev := make([]float64, len(x))
	var sum float64
	for i, v := range x {
		dev[i] = math.Abs(v - m)
		sum += dev[i]
	}
	scale := median(dev) / 0.6745
	if scale == 0 {
		scale = 1.253314 * sum / float64(len(x))
	}
	out := make([]float64, len(x))
	if scale == 0 {
		return out, nil
	}
	for i, v := range x {
		out[i] = (v - m) / scale
	}
	return out, nil
}

// Flag is a value that at least one test marks as an outlier. It is a reason
// to look at the bottle and the rig, never to drop the value silently.
type Flag struct {
	Index int      `json:"index"`
	Value float64  `json:"value"`
	Tests []string `json:"tests"`
}

// The level of the outlier test, two-sided, and the robust distance that is
// suspect. A flag costs a second look only, so the level is 5 % on each side.
const (
	flagAlpha = 0.10
	flagZ     = 3.5
)

// Flags returns the values of a sample of at least 6 that the generalised
// studentised test at 5 % a side (up to a quarter of the sample) or the robust
// distance marks, in the order of the sample; nil for smaller samples.
func Flags(x []float64) ([]Flag, error) {
	if err := finite("outlier flags", x, 0); err != nil {
		return nil, err
	}
	if len(x) < 6 {
		return nil, nil
	}
	steps, n, err := ESD(x, max(1, len(x)/4), flagAlpha)
	if err != nil {
		return nil, err
	}
	z, err := ModifiedZ(x)
	if err != nil {
		return nil, err
	}
	tests := map[int][]string{}
	for _, s := range steps[:n] {
		tests[s.Index] = append(tests[s.Index], "studentised deviate")
	}
	var out []Flag
	for i, v := range x {
		if math.Abs(z[i]) > flagZ {
			tests[i] = append(tests[i], "robust distance")
		}
		if tests[i] != nil {
			out = append(out, Flag{Index: i, Value: v, Tests: tests[i]})
		}
	}
	return out, nil
}
