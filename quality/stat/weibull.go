package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Reading is a time or a load, and whether the piece had not failed by then
// (right-censored).
type Reading struct {
	Value    float64
	Censored bool
}

// Weibull is a two-parameter Weibull fit by maximum likelihood,
//
//	P(X > x) = exp(-(x/Eta)^Beta)
//
// with the covariance of the logarithms of the parameters from the observed
// information.
type Weibull struct {
	Beta     float64 `json:"beta"`
	Eta      float64 `json:"eta"`
	LogLik   float64 `json:"log_likelihood"`
	Failures int     `json:"failures"`
	N        int     `json:"n"`

	varA, covAB, varB float64 // of a = ln Beta and b = ln Eta
}

// FitWeibull fits readings, some of which may be right-censored. It needs two
// different failures; every value must be above 0, the shape in 0.05..1e5.
// Source: MeekerEscobar1998; checked with NIST2012 8.4.1.3.
func FitWeibull(readings []Reading) (Weibull, error) {
	var logs []float64 // of all readings, less the largest
	var fails []float64
	top := math.Inf(-1)
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, r := range readings {
		if !(r.Value > 0) || math.IsInf(r.Value, 0) {
			return Weibull{}, fmt.Errorf("stat: Weibull fit: reading %d is %g, want above 0", i+1, r.Value)
		}
		top = math.Max(top, math.Log(r.Value))
		if !r.Censored {
			lo, hi = math.Min(lo, r.Value), math.Max(hi, r.Value)
		}
	}
	var meanFail float64
	for _, r := range readings {
		l := math.Log(r.Value) - top
		logs = append(logs, l)
		if !r.Censored {
			fails = append(fails, l)
			meanFail += l
		}
	}
	r := float64(len(fails))
	if len(fails) < 2 || lo == hi {
		return Weibull{}, fmt.Errorf("stat: Weibull fit: %d failures, want at least 2 that differ", len(fails))
	}
	meanFail /= r
	// The profile score falls with beta; its root is the estimate.
	sums := func(beta float64) (s0, s1, s2 float64) {
		for _, l := range logs {
			e := math.Exp(beta * l)
			s0 += e
			s1 += e * l
			s2 += e * l * l
		}
		return s0, s1, s2
	}
	score := func(beta float64) float64 {
		s0, s1, _ := sums(beta)
		return 1/beta + meanFail - s1/s0
	}
	const least, most = 0.05, 1e5
	if score(least) < 0 || score(most) > 0 {
		return Weibull{}, fmt.Errorf("stat: Weibull fit: the shape is outside %g..%g", least, most)
	}
	blo, bhi := least, most
	beta := 1.0
	for range 200 {
		g := score(beta)
		if g > 0 {
			blo = beta
		} else {
			bhi = beta
		}
		s0, s1, s2 := sums(beta)
		slope := -1/(beta*beta) - (s2/s0 - s1*s1/(s0*s0))
		next := beta - g/slope
		if !(next > blo && next < bhi) {
			next = math.Sqrt(blo * bhi)
		}
		if math.Abs(next-beta) <= 1e-15*beta {
			beta = next
			break
		}
		beta = next
	}
	s0, _, _ := sums(beta)
	logEta := top + math.Log(s0/r)/beta
	out := Weibull{Beta: beta, Eta: math.Exp(logEta), Failures: len(fails), N: len(readings)}
	// Second derivatives in a = ln beta, b = ln eta with w = beta (ln x - b).
	var laa, lab, lbb float64
	for i, rd := range readings {
		w := beta * (logs[i] + top - logEta)
		e := math.Exp(w)
		out.LogLik -= e
		if !rd.Censored {
			out.LogLik += math.Log(beta) + w - (logs[i] + top)
			laa += w
			lab -= beta
		}
		laa -= e * (w + w*w)
		lab += e * beta * (1 + w)
		lbb -= beta * beta * e
	}
	det := laa*lbb - lab*lab
	if !(det > 0) || math.IsInf(det, 0) || math.IsInf(out.Eta, 0) || math.IsInf(out.LogLik, 0) {
		return Weibull{}, fmt.Errorf("stat: Weibull fit: no finite estimate from %d failures in %d", len(fails), len(readings))
	}
	out.varA, out.covAB, out.varB = -lbb/det, lab/det, -laa/det
	return out, nil
}

// AIC returns Akaike's criterion of the fit.
func (w Weibull) AIC() float64 { return 4 - 2*w.LogLik }

// Mean returns the mean of the fitted distribution.
func (w Weibull) Mean() float64 { return w.Eta * math.Gamma(1+1/w.Beta) }

// SD returns the standard deviation of the fitted distribution.
func (w Weibull) SD() float64 {
	m := math.Gamma(1 + 1/w.Beta)
	return w.Eta * math.Sqrt(math.Max(0, math.Gamma(1+2/w.Beta)-m*m))
}

// LogErrors returns the standard errors of ln Beta and ln Eta.
func (w Weibull) LogErrors() (beta, eta float64) { return math.Sqrt(w.varA), math.Sqrt(w.varB) }

// Quantile returns the value below which the fraction p fails.
func (w Weibull) Quantile(p float64) (float64, error) {
	if err := inside("Weibull quantile", "fraction", p); err != nil {
		return 0, err
	}
	return w.Eta * math.Pow(-math.Log1p(-p), 1/w.Beta), nil
}

// QuantileLower returns the lower confidence bound of the value below which
// the fraction p fails, one-sided, by the normal approximation on the
// logarithm. With fewer than ten failures it is somewhat too high.
func (w Weibull) QuantileLower(p, confidence float64) (float64, error) {
	if err := inside("Weibull bound", "fraction", p); err != nil {
		return 0, err
	}
	z, err := dist.NormalQuantile(confidence)
	if err != nil {
		return 0, err
	}
	u := math.Log(-math.Log1p(-p)) // standardised smallest-extreme quantile
	ga := -u / w.Beta
	v := ga*ga*w.varA + 2*ga*w.covAB + w.varB
	return math.Exp(math.Log(w.Eta) + u/w.Beta - z*math.Sqrt(v)), nil
}

// Wald returns the two-sided confidence intervals of Beta and Eta by the
// normal approximation of their logarithms.
func (w Weibull) Wald(confidence float64) (beta, eta [2]float64, err error) {
	if err := inside("Weibull interval", "confidence", confidence); err != nil {
		return beta, eta, err
	}
	z, err := dist.NormalQuantile((1 + confidence) / 2)
	if err != nil {
		return beta, eta, err
	}
	sa, sb := w.LogErrors()
	beta = [2]float64{w.Beta * math.Exp(-z*sa), w.Beta * math.Exp(z*sa)}
	eta = [2]float64{w.Eta * math.Exp(-z*sb), w.Eta * math.Exp(z*sb)}
	return beta, eta, nil
}
