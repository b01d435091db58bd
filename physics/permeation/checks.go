package permeation

import (
	"math"

	"costrel/cite"
)

func or(v float64, err error) float64 {
	if err != nil {
		return math.NaN()
	}
	return v
}

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	return append(steadyChecks(), append(transientChecks(), hotChecks()...)...)
}
