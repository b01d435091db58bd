package closure

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "closure.", Checks())
	// Named in notes of the cards.
	citetest.Sources(t, "EN17665", "GBT17876", "GasworldClosure", "WiskSiebert1987", "MetalClosureTorque")
}
