package run

import (
	"math"
	"strings"
	"testing"

	"costrel/project/design"
)

// chainHolds works out the equations of blow and sections from the numbers that
// are put in, and looks for what the process card sets among them.
func chainHolds(t *testing.T, doc *design.Document) {
	t.Helper()
	done := evaluate(doc.Design, work{ctx: t.Context(), full: true, until: "wall"}, nil)
	for _, f := range collect(done) {
		switch f.Key {
		case "blow.fill.time", "blow.pressure.pre", "blow.crystallinity.panel", "blow.stretch.inner", "section.base.mass", "section.panel.mass", "section.shoulder.mass":
			_, right, _ := strings.Cut(f.Origin.Equation, "=")
			if got, err := worked(right, f.Origin.Inputs); err != nil || math.Abs(got/f.Value-1) > 1e-6 {
				t.Errorf("%s: %s gives %g, shown is %g, %v", f.Key, f.Origin.Equation, got, f.Value, err)
			}
		default:
			continue
		}
		keys := map[string]bool{}
		symbols := map[string]string{}
		for _, in := range f.Origin.Inputs {
			keys[in.Key] = true
			if was, twice := symbols[in.Symbol]; twice && was != in.Key {
				t.Errorf("%s: %s stands for %s and %s", f.Key, in.Symbol, was, in.Key)
			}
			symbols[in.Symbol] = in.Key
		}
		for _, path := range []string{"oven.tilt", "oven.bow", "blow.friction", "blow.rod_speed", "blow.pre_start", "blow.high_orifice", "blow.body_temperature", "preform.wall"} {
			if !keys["design:"+path] {
				t.Errorf("%s does not tell that it rests on %s", f.Key, path)
			}
		}
	}
}
