package aql

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"gonum.org/v1/gonum/mathext"

	"costrel/num/dist"
)

// VariablesPlan is a plan by variables, standard deviation unknown, normal
// inspection: measure N, accept where the mean lies at least K standard
// deviations inside the limit.
type VariablesPlan struct {
	Letter string  `json:"letter"`
	AQL    float64 `json:"aql"` // per cent
	N      int     `json:"n"`
	K      float64 `json:"k"`
}

//go:embed variables.csv
var variablesText string

var variables = sync.OnceValues(func() ([]VariablesPlan, error) {
	var out []VariablesPlan
	for i, line := range strings.Split(strings.TrimSpace(variablesText), "\n")[1:] {
		f := strings.Split(line, ",")
		if len(f) != 4 {
			return nil, fmt.Errorf("aql: variables.csv:%d: %d fields, want 4", i+2, len(f))
		}
		a, err1 := strconv.ParseFloat(f[1], 64)
		n, err2 := strconv.Atoi(f[2])
		k, err3 := strconv.ParseFloat(f[3], 64)
		if err1 != nil || err2 != nil || err3 != nil {
			return nil, fmt.Errorf("aql: variables.csv:%d: %q", i+2, line)
		}
		out = append(out, VariablesPlan{Letter: f[0], AQL: a, N: n, K: k})
	}
	return out, nil
})

// Variables returns the plan by variables of a code letter (B..P, with I) and
// an AQL of 0.10..10 per cent. The letters are those of the tables by
// variables, whose lot sizes are not the ones of [CodeLetter].
// Source: MILSTD414, limits M converted to k.
func Variables(letter string, aql float64) (VariablesPlan, error) {
	plans, err := variables()
	if err != nil {
		return VariablesPlan{}, err
	}
	for _, p := range plans {
		if p.Letter == letter && math.Abs(p.AQL-aql) <= 1e-9*p.AQL {
			return p, nil
		}
	}
	return VariablesPlan{}, fmt.Errorf("aql: plan by variables: no letter %q with AQL %g", letter, aql)
}

// EstimatedFraction returns the estimate of the fraction beyond a limit that
// lies q standard deviations from the mean of n >= 3 values,
//
//	p = I_x(n/2-1, n/2-1),  x = max(0, (1 - q sqrt(n)/(n-1))/2)
//
// the minimum-variance unbiased estimate. Source: MILSTD414, Duncan1986.
func EstimatedFraction(q float64, n int) (float64, error) {
	if n < 3 || math.IsNaN(q) {
		return 0, fmt.Errorf("aql: estimated fraction: %d values at %g standard deviations", n, q)
	}
	x := 0.5 * (1 - q*math.Sqrt(float64(n))/float64(n-1))
	switch {
	case x <= 0:
		return 0, nil
	case x >= 1:
		return 1, nil
	}
	b := float64(n)/2 - 1
	return mathext.RegIncBeta(b, b, x), nil
}

// M returns the largest estimated fraction that the plan accepts: the
// criterion where both sides have a limit.
func (p VariablesPlan) M() (float64, error) { return EstimatedFraction(p.K, p.N) }

// Acceptance returns the probability that a lot of normal values with the
// failing fraction beyond one limit is accepted, by the non-central t.
// Source: Owen1968.
func (p VariablesPlan) Acceptance(fraction float64) (float64, error) {
	if !(fraction > 0 && fraction < 1) {
		return 0, fmt.Errorf("aql: acceptance by variables: fraction %g outside 0..1", fraction)
	}
	z, err := dist.NormalQuantile(1 - fraction)
	if err != nil {
		return 0, err
	}
	root := math.Sqrt(float64(p.N))
	return dist.NoncentralT{Nu: float64(p.N - 1), Mu: z * root}.Survival(p.K * root)
}

// Accepts reports whether a sample of mean and s is accepted against a lower
// and an upper limit; use -Inf or +Inf for a side that is open. s must be
// above 0 and at least one side set.
func (p VariablesPlan) Accepts(mean, s, lower, upper float64) (bool, error) {
	hasL, hasU := !math.IsInf(lower, -1), !math.IsInf(upper, 1)
	if !(s > 0) || math.IsNaN(mean) || math.IsNaN(lower) || math.IsNaN(upper) || !hasL && !hasU {
		return false, fmt.Errorf("aql: decision by variables: mean %g, s %g, limits %g and %g", mean, s, lower, upper)
	}
	if hasL != hasU {
		q := (upper - mean) / s
		if hasL {
			q = (mean - lower) / s
		}
		return q >= p.K, nil
	}
	m, err := p.M()
	if err != nil {
		return false, err
	}
	pl, err := EstimatedFraction((mean-lower)/s, p.N)
	if err != nil {
		return false, err
	}
	pu, err := EstimatedFraction((upper-mean)/s, p.N)
	return pl+pu <= m, err
}
