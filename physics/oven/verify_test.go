package oven

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "oven.", Checks())
}

func TestSources(t *testing.T) {
	citetest.Sources(t, "CODATA2018", "Planck1901", "Zhang2020", "SiegelHowell2002", "Rannacher1984", "Sidorov2018", "ATHAS")
}
