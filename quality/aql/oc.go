package aql

import (
	"fmt"

	"gonum.org/v1/gonum/mathext"

	"costrel/num/dist"
)

// Acceptance returns the probability that a lot of the failing fraction p is
// accepted: binomial for AQL up to 10 per cent, Poisson above, where p counts
// nonconformities a unit. A result between Ac and Re accepts.
func (p Plan) Acceptance(fraction float64) (float64, error) {
	if p.N < 1 || p.Re < 1 || p.Re > p.N+1 && p.AQL <= 10 {
		return 0, fmt.Errorf("aql: acceptance: sample %d with rejection number %d", p.N, p.Re)
	}
	most := p.Re - 1
	if p.AQL > 10 {
		if !(fraction >= 0 && fraction <= 1e6) {
			return 0, fmt.Errorf("aql: acceptance: %g nonconformities a unit", fraction)
		}
		if fraction == 0 {
			return 1, nil
		}
		return mathext.GammaIncRegComp(float64(most+1), float64(p.N)*fraction), nil
	}
	return dist.BinomialCDF(most, p.N, fraction)
}

// FractionAt returns the failing fraction at which the plan accepts with the
// given probability: 0.95 is the producer's, 0.10 the consumer's point.
func (p Plan) FractionAt(acceptance float64) (float64, error) {
	if !(acceptance > 0 && acceptance < 1) {
		return 0, fmt.Errorf("aql: fraction: probability %g outside 0..1", acceptance)
	}
	most := p.Re - 1
	if p.AQL > 10 {
		x, err := dist.ChiSquaredQuantile(1-acceptance, 2*float64(most+1))
		return x / 2 / float64(p.N), err
	}
	if p.N <= most || most < 0 {
		return 0, fmt.Errorf("aql: fraction: sample %d accepts with %d", p.N, most)
	}
	return dist.BetaQuantile(1-acceptance, float64(most+1), float64(p.N-most))
}
