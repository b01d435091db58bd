package resin

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "resin.", Checks())
}

func TestSources(t *testing.T) {
	var keys []string
	for _, p := range DensityPairs() {
		keys = append(keys, p.Source)
	}
	for _, f := range RecycledFindings() {
		keys = append(keys, f.Source)
	}
	// Named in doc comments.
	keys = append(keys, "Liu2004", "ESAFORM2007", "ATHAS", "StressOptical2014", "Zhang2020", "PolymerHandbook1999", "Berkowitz1984", "Billmeyer1949", "ASTMD4603", "PTIMethods")
	citetest.Sources(t, keys...)
}
