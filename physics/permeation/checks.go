package permeation

import (
	"costrel/cite"
)

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	return append(steadyChecks(), append(transientChecks(), hotChecks()...)...)
}
