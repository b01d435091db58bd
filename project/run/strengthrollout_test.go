package run

import (
	"strings"
	"testing"

	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/unit"
)

// A stronger or stiffer wall holds its base longer, evenly: the limit is no child of
// the steps in which it is passed, and carries the estimate of its mesh.
func TestRollOutGoesEvenly(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "returnable-1000")
	x := testsOf(t, d)
	for _, q := range []struct {
		name                  string
		least, most, from, by float64
	}{{"strength", 1.007, 1.012, 1.3, 0.025}, {"stiffness", 1.01, 1.018, 0.68, 0.02}} {
		last := 0.0
		for i := range 6 {
			f := q.from + float64(i)*q.by
			stiff, strong := 1.0, 1.0
			if q.name == "stiffness" {
				stiff = f
			} else {
				strong = f
			}
			in := shell.RollOutInput{Bottle: changed(x.b, stiff, strong, 1), Soft: x.hotSoft}
			in.Quick = true
			r, err := shell.RollOut(in)
			if err != nil || !r.Snaps {
				t.Fatalf("%s %g: snaps %t, %v", q.name, f, r.Snaps, err)
			}
			if step := r.Snap / last; last > 0 && (step < q.least || step > q.most) {
				t.Errorf("%s %g: %g Pa, %g times that before", q.name, f, r.Snap, step)
			}
			last = r.Snap
		}
	}
	x.rollOut()
	f := x.last("base.rollout")
	if f == nil || f.Effects[len(f.Effects)-1].Label != "Mesh of the virtual test" {
		t.Errorf("%+v %v", f, x.problems)
	}
}

// A base that holds to the end of the search meets a limit below it, and leaves one
// above it open.
func TestRollOutBeyondTheSearch(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "returnable-1000")
	x := testsOf(t, d)
	x.b = changed(x.b, 3, 3, 1)
	x.rollOut()
	f := x.last("base.rollout")
	if f == nil || f.Value < 8e5 || f.Origin.Equation != "p >= p_1" || !strings.Contains(strings.Join(f.Origin.Warnings, " "), "at or above") {
		t.Fatalf("%+v %+v", f, x.problems)
	}
	if f.Hi != f.Value || f.Lo > 0.8*f.Value {
		t.Errorf("at or above %g Pa: band %g .. %g", f.Value, f.Lo, f.Hi)
	}
	for _, side := range []string{"min", "max"} {
		d.Limits, x.figures, x.problems = []design.Limit{{Figure: "base.rollout", Side: side, Value: "40 bar(g)"}}, nil, nil
		x.rollOut()
		if x.last("base.rollout") != nil || len(x.problems) != 1 || !strings.Contains(unit.Spell(x.problems[0].Reason, unit.EU), "the limit is 40 bar(g)") {
			t.Errorf("%s beyond the search: %+v", side, x.problems)
		}
	}
}
