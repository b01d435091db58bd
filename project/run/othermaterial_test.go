package run

import (
	"strings"
	"testing"

	"costrel/unit"
)

func TestAgainstYield(t *testing.T) {
	for _, c := range []struct {
		stress float64
		want   string
	}{
		{30e6, "30 MPa of hoop stress is above the yield of 26 MPa: such a bottle does not hold"},
		{13e6, "13 MPa of hoop stress is 50 % below the short-time yield of 26 MPa"},
		{26e6, "0 % below"},
	} {
		if got := unit.Spell(againstYield(c.stress, 26e6), unit.EU); !strings.Contains(got, c.want) {
			t.Errorf("%g Pa: %q", c.stress, got)
		}
	}
}
