package cite_test

import (
	"testing"

	"costrel/cite"
	"costrel/cite/citetest"
)

// The rows of the unit factors, and that a row of another unit would fail.
func TestUnitChecks(t *testing.T) {
	citetest.Rows(t, "unit.", cite.UnitChecks())
	citetest.Sharp(t, 0.03, cite.UnitChecks())
}
