package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/physics/shell"
)

// A hot-filled pack with nitrogen stands under pressure when it has cooled, and
// days later, when the drink has taken up some of it, under vacuum: each top load
// is that of its own pack.
func TestNitrogenLeavesEachPackItsPressure(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := example(t, "wrenhollow.yaml").Design.Clone()
	d.Drink.Nitrogen = 28e-6
	x := testsOf(t, d)
	in := shell.TopLoadInput{Fill: shell.Filled, Soft: x.labSoft, Headspace: x.shape.Brimful - d.Brief.Nominal}
	cooled, none := x.cold(in, d.Handling.Lab, false)
	stood, settled := x.cold(in, d.Handling.Lab, true)
	if !(cooled.Gauge > 5e3) || none.below != 0 || !(settled.below > 1e3) {
		t.Fatalf("cooled at %g Pa, days later under %g Pa", cooled.Gauge, settled.below)
	}
	x.topLoads()
	got := map[string]float64{}
	for _, f := range x.figures {
		switch got[f.Key] = f.Value; f.Key {
		case "topload.filled":
			if p := inputOf(t, f, "p"); math.Abs(p/cooled.Gauge-1) > 1e-6 {
				t.Errorf("filled at %g Pa, the pack cools to %g Pa", p, cooled.Gauge)
			}
		case "stack.capacity":
			if p := inputOf(t, f, "Δp"); math.Abs(p/settled.below-1) > 1e-6 {
				t.Errorf("stack under %g Pa, the pack settles to %g Pa", p, settled.below)
			}
		}
	}
	p := x.push("stack.capacity", stood)
	if p == nil || got["topload.filled"] == 0 || got["stack.capacity"] == 0 {
		t.Fatal(got, x.problems)
	}
	if p.pulls(x, settled); math.Abs(got["stack.capacity"]/p.likely()-1) > 1e-3 {
		t.Errorf("stack %g N, the pack that has stood carries %g N", got["stack.capacity"], p.likely())
	}
}

// Nitrogen holds a round wall up on the first day, and no longer in the stack: what
// is lost is the stack alone.
func TestNitrogenHoldsTheFirstDayAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	x := testsOf(t, loaded(t, "class: hotfill-500\ndrink: {nitrogen: 20 mg}\nhotfill: {panel_source: computed}"))
	x.vacuum()
	x.topLoads()
	filled := slices.ContainsFunc(x.figures, func(f figure.Figure) bool { return f.Key == "topload.filled" })
	stack := slices.ContainsFunc(x.problems, func(p Problem) bool {
		return p.Key == "stack.capacity" && strings.Contains(p.Reason, "days after filling") && strings.Contains(p.Reason, "collapses at")
	})
	if !filled || !stack {
		t.Errorf("filled shown %t, no stack %t: %+v", filled, stack, x.problems)
	}
}
