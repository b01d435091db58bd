package run

import (
	"math"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// A gate that its push-up presses together in the bath has an index of 0, and is
// told in words why; one that is pulled is not.
func TestGatePushedTogetherIsTold(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for up, pushed := range map[string]bool{"5 mm": false, "6 mm": true} {
		doc, err := design.Load("", "schema: 1\nname: gate\nclass: returnable-1000\nbottle: {base: {push_up: "+up+"}}\n")
		if err != nil {
			t.Fatal(err)
		}
		x := testsOf(t, doc.Design)
		x.cracks()
		f := x.last("base.crack.index")
		if f == nil {
			t.Fatal(x.problems)
		}
		if told := strings.Contains(strings.Join(f.Origin.Warnings, "; "), "pushes the wall round the gate together"); told != pushed || (f.Value == 0) != pushed {
			t.Errorf("%s: %g, told %t: %v", up, f.Value, told, f.Origin.Warnings)
		}
	}
}

// A bottle that bursts in the bath has no rank, and says why; the drop, which knows no
// bath, has the same index whatever its pressure.
func TestBathThatBurstsRanksNothing(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "csd-1500")
	x := testsOf(t, d)
	x.burst()
	burst := x.figures[0].Value
	tests := x.figures
	last := 0.0
	for _, q := range []struct {
		bath   float64
		ranked bool
	}{{0.5e5, true}, {5.25e5, true}, {0.98 * burst, true}, {1.02 * burst, false}, {1.2 * burst, false}} {
		x.figures, x.problems = tests, nil
		d.Handling.Bath = unit.GaugePressure(q.bath)
		x.cracks()
		if (x.last("base.crack.index") != nil) != q.ranked || len(x.problems) > 0 && !strings.Contains(x.problems[0].Reason, "bursts at") {
			t.Errorf("bath of %g Pa, burst at %g Pa: %v", q.bath, burst, x.problems)
		}
		x.drop()
		f := x.last("drop.index")
		if f == nil {
			t.Fatal(x.problems)
		}
		gate := x.gate
		if last == 0 {
			last = gate
		}
		if math.Abs(gate/last-1) > 1e-9 || !(gate > 0.1) {
			t.Errorf("bath of %g Pa: the gate gains %g, %g before", q.bath, gate, last)
		}
	}
}
