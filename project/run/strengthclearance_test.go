package run

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// What is left of a push-up that nearly comes down is a small difference: its mesh
// is told as a length, which holds against elements a quarter as long.
func TestMeshOfSmallClearance(t *testing.T) {
	if testing.Short() {
		t.Skip("full runs")
	}
	for _, up := range []float64{3, 3.5, 4, 4.5, 5, 8} {
		doc, err := design.Load("", fmt.Sprintf("schema: 1\nname: mesh\nclass: returnable-1000\nbottle: {base: {push_up: %g mm}}\n", up))
		if err != nil {
			t.Fatal(err)
		}
		done := evaluate(doc.Design, work{ctx: t.Context(), full: true, even: true, until: "pressure"}, NewCache(64))
		f, fine := meshed(t, doc.Design, done, 1)["base.clearance"], meshed(t, doc.Design, done, 0.25)["base.clearance"]
		told := 0.0
		for _, e := range f.Effects {
			if e.Label == "Mesh of the virtual test" {
				told = e.High
			}
		}
		off := math.Abs(f.Value - fine.Value)
		t.Logf("%g mm: %.3f mm, told %.3f mm, off %.3f mm", up, 1e3*f.Value, 1e3*told, 1e3*off)
		if f.Key == "" || fine.Key == "" || off > told {
			t.Errorf("push-up %g mm: clearance %g m, told ± %g m, off %g m", up, f.Value, told, off)
		}
		why := unit.Spell(strings.Join(f.Origin.Warnings, "; "), unit.EU)
		if !strings.Contains(why, "it moves base.clearance by up to some 0.") || !strings.Contains(why, " mm") {
			t.Errorf("push-up %g mm: %s", up, why)
		}
	}
}
