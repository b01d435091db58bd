package verify

import (
	"math"
	"testing"
)

// TestWideRowsSayWhy fails on a row that allows more than 15 % of what was
// published and does not say why.
func TestWideRowsSayWhy(t *testing.T) {
	for _, c := range Checks() {
		share := c.Allowed
		if !c.Relative {
			share /= math.Abs(c.Published)
		}
		if c.Published != 0 && share > 0.15 && c.Note == "" {
			t.Errorf("%s allows %.3g %s of %g, and no note says why", c.ID, c.Allowed, c.Unit, c.Published)
		}
	}
}
