package drink

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "drink.", Checks())
}

func TestLawSources(t *testing.T) {
	for _, l := range Laws() {
		citetest.Sources(t, l.Source)
	}
}
