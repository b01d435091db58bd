package run

import (
	"strings"
	"testing"

	"costrel/quality"
)

// A strain to the ultimate strength that was fitted carries what the fit leaves, and
// is no longer told to be from memory.
func TestExpansionKnowsItsFit(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := example(t, "sorrel-lime.yaml").Design.Clone()
	x := testsOf(t, d)
	for _, spread := range []float64{d.Handling.HardeningSD, 0} {
		d.Handling.HardeningSD = spread
		x.figures = nil
		x.burst()
		f := x.last("burst.expansion")
		if f == nil {
			t.Fatal(x.problems)
		}
		why, estimate := quality.IsEstimate(*f)
		effect := f.Effects[len(f.Effects)-1]
		if fitted := spread > 0; estimate == fitted || strings.Contains(effect.Basis, "fit") != fitted || strings.Contains(effect.Basis, "memory") == fitted {
			t.Errorf("spread %g: estimate %t %s, basis %s", spread, estimate, why, effect.Basis)
		}
		// The laboratory, 16.4 % (14.3 .. 18.6), see examples/lab.
		if spread > 0 && (f.Lo < 0.12 || f.Hi < 0.186 || f.Hi > 0.21) {
			t.Errorf("band %g .. %g", f.Lo, f.Hi)
		}
	}
}
