package stat

import (
	"fmt"
	"math"
	"slices"

	"costrel/num/dist"
)

// Normality is the Anderson-Darling test of a sample against the normal with
// its own mean and s.
type Normality struct {
	A2 float64 `json:"a2"` // corrected for the sample size
	P  float64 `json:"p"`  // probability of so large an A2 from normal data
}

// AndersonDarling tests whether a sample of at least 8 looks normal:
//
//	A² = -n - Σ (2i-1)/n [ln F(x_i) + ln(1 - F(x_n+1-i))],  A*² = A² (1 + 0.75/n + 2.25/n²)
//
// A*² above 0.752 speaks against normality at 5 %. Source:
// DAgostinoStephens1986, table 4.9.
func AndersonDarling(x []float64) (Normality, error) {
	if err := finite("normality test", x, 8); err != nil {
		return Normality{}, err
	}
	s, err := Summarize(x)
	if err != nil {
		return Normality{}, err
	}
	if !(s.S > 0) {
		return Normality{}, fmt.Errorf("stat: normality test: the %d values are equal", s.N)
	}
	y := slices.Clone(x)
	slices.Sort(y)
	n := float64(len(y))
	sum := 0.0
	for i := range y {
		lo := dist.NormalCDF((y[i] - s.Mean) / s.S)
		hi := dist.NormalCDF(-(y[len(y)-1-i] - s.Mean) / s.S)
		sum += (2*float64(i) + 1) / n * (math.Log(math.Max(lo, 1e-300)) + math.Log(math.Max(hi, 1e-300)))
	}
	a := (-n - sum) * (1 + 0.75/n + 2.25/(n*n))
	return Normality{A2: a, P: adProbability(a)}, nil
}

func adProbability(a float64) float64 {
	var p float64
	switch {
	case a >= 0.6:
		p = math.Exp(1.2937 - 5.709*a + 0.0186*a*a)
	case a >= 0.34:
		p = math.Exp(0.9177 - 4.279*a - 1.38*a*a)
	case a >= 0.2:
		p = 1 - math.Exp(-8.318+42.796*a-59.938*a*a)
	default:
		p = 1 - math.Exp(-13.436+101.14*a-223.73*a*a)
	}
	if a > 10 { // beyond the fit
		p = 0
	}
	return math.Min(1, math.Max(0, p))
}

// HalfSpreads returns the root mean square distances from the centre of the
// values below and above it: which tail makes the standard deviation. A side
// without values has 0.
func HalfSpreads(x []float64) (below, above float64, err error) {
	s, err := Summarize(x)
	if err != nil {
		return 0, 0, err
	}
	var nb, na int
	for _, v := range x {
		d := v - s.Mean
		switch {
		case d < 0:
			below += d * d
			nb++
		case d > 0:
			above += d * d
			na++
		}
	}
	if nb > 0 {
		below = math.Sqrt(below / float64(nb))
	}
	if na > 0 {
		above = math.Sqrt(above / float64(na))
	}
	return below, above, nil
}
