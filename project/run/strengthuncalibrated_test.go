package run

import (
	"math"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
)

// unfitted takes the fit to strength tests out of a design.
func unfitted(d *design.Design) {
	h := &d.Handling
	h.Modulus, h.Creep, h.Strength, h.TopLoad, h.Hardening = 1, 0.3, 1, 1, 0.1
	h.ModulusSD, h.CreepSD, h.StrengthSD, h.TopLoadSD, h.HardeningSD, h.Residual = 0, 0, 0, 0, 0, 0
}

// What the virtual tests say before any calibration: the means of both invented
// laboratories lie in the bands.
func TestStrengthUncalibrated(t *testing.T) {
	if testing.Short() {
		t.Skip("full runs")
	}
	for _, c := range []struct {
		file  string
		means map[string]float64
	}{
		{"sorrel-lime.yaml", labA},
		{"ravensholt-old.yaml", map[string]float64{"burst.pressure": 10.29e5, "topload.empty": 269.5}},
		{"ravensholt-new.yaml", map[string]float64{"burst.pressure": 9.56e5, "topload.empty": 242.8}},
		{"wrenhollow.yaml", map[string]float64{"topload.filled": 208.3}}, // under its own vacuum
	} {
		doc := example(t, c.file)
		unfitted(doc.Design)
		e := evaluate(doc.Design, work{ctx: t.Context(), full: true, until: "strength"}, NewCache(64))["strength"]
		if e.err != nil {
			t.Fatal(c.file, e.err)
		}
		at := map[string]figure.Figure{}
		for _, f := range e.figures {
			at[f.Key] = f
		}
		for key, mean := range c.means {
			if f, ok := at[key]; !ok || mean < f.Lo || mean > f.Hi {
				t.Errorf("%s: %s: laboratory %g outside %g..%g (%g)", c.file, key, mean, f.Lo, f.Hi, f.Value)
			} else {
				// A band of a factor of 8 hardly fails: the miss itself is held, as
				// docs/theory/strength.md states it.
				miss := math.Max(f.Value/mean, mean/f.Value)
				t.Logf("%s: %s: %.4g (%.4g..%.4g), laboratory %.4g: missed by a factor of %.2f", c.file, key, f.Value, f.Lo, f.Hi, mean, miss)
				most := 2.4
				if key == "burst.pressure" {
					most = 1.35
				}
				if miss > most {
					t.Errorf("%s: %s: missed by a factor of %.2f, the theory page says at most %g", c.file, key, miss, most)
				}
			}
		}
		for _, key := range []string{"topload.empty", "topload.filled", "stack.capacity"} {
			f := at[key]
			_, right, _ := strings.Cut(f.Origin.Equation, "=")
			if got, err := worked(right, f.Origin.Inputs); err != nil || math.Abs(got-f.Value) > 1e-6*f.Value {
				t.Errorf("%s: %s: %s gives %g, shown is %g: %v", c.file, key, f.Origin.Equation, got, f.Value, err)
			}
			if hot := c.file == "wrenhollow.yaml" && key != "topload.empty"; hot != strings.Contains(f.Origin.Equation, "- Δp π r²") {
				t.Errorf("%s: %s: %s", c.file, key, f.Origin.Equation)
			}
		}
	}
}
