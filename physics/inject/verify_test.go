package inject

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "inject.", Checks())
}

func TestSources(t *testing.T) {
	citetest.Sources(t, "BallmanShusman1959", "BrandauCycles", "Halek1986", "Bashir2002", "Lucchetta2014", "PreformTrader2013", "CarslawJaeger1959")
}
