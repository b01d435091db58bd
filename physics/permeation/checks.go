package permeation

import (
	"slices"

	"costrel/cite"
)

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	return slices.Concat(steadyChecks(), transientChecks(), limitChecks(), hotChecks(), fullChecks())
}
