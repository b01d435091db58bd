package pallet

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "pallet.", Checks())
}
