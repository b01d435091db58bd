package run

import (
	"strings"
	"testing"

	"costrel/figure"
	"costrel/unit"
)

// TestCutBandIsTold: a part of the loss that may be negative keeps its band; a
// share that never is has it cut at nothing, and says so.
func TestCutBandIsTold(t *testing.T) {
	for _, c := range []struct {
		key            string
		v, lo, hi      float64
		wantLo, wantHi float64
		told           bool
	}{
		{"shelf.loss.growth", 0.0003, -0.0041, 0.0027, -0.0041, 0.0027, false},
		{"shelf.loss.headspace", 0.001, -0.002, 0.003, -0.002, 0.003, false},
		{"shelf.loss.closure", 0.001, -0.002, 0.003, 0, 0.003, true},
		{"shelf.loss.wall", 0.1, 0.05, 0.2, 0.05, 0.2, false},
		{"shelf.loss.end", 0.9, 0.5, 1.3, 0.5, 1, true},
		{"shelf.loss.end", -0.01, -0.02, 0.01, -0.02, 0.01, false},
	} {
		f := figure.Figure{Key: c.key, Value: c.v, Kind: unit.Fraction}
		inside(&f, c.lo, c.hi)
		told := strings.Contains(strings.Join(f.Origin.Warnings, ";"), cutBand)
		if f.Lo != c.wantLo || f.Hi != c.wantHi || told != c.told {
			t.Errorf("%s: %g to %g, %q", c.key, f.Lo, f.Hi, f.Origin.Warnings)
		}
	}
}
