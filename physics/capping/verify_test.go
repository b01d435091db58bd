package capping

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "capping.", Checks())
	keys := []string{"Shigley1989", "Brandau201304", "Brandau201610", "GBT17876", "MoranShapiro2006"} // named in doc comments
	for _, c := range Cautions(1e6) {
		keys = append(keys, c.Source)
	}
	citetest.Sources(t, keys...)
}
