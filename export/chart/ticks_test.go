package chart

import (
	"strings"
	"testing"
)

// TestRoundTicks: an axis is marked at round numbers, without needless decimals.
func TestRoundTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		want   string
	}{
		{0, 30, "0 5 10 15 20 25 30"},
		{-1.3, 38.2, "0 10 20 30"},
		{20, 37.9, "20 25 30 35"},
		{3.61, 4.12, "3.7 3.8 3.9 4.0 4.1"},
		{0, 0.0123, "0.000 0.005 0.010"},
		{0, 2.4e7, "0 5e+06 1e+07 1.5e+07 2e+07"},
		{5, 5, "5"},
	} {
		var got []string
		for _, x := range (roundTicks{}).Ticks(c.lo, c.hi) {
			got = append(got, x.Label)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%g to %g: %s, want %s", c.lo, c.hi, s, c.want)
		}
	}
}
