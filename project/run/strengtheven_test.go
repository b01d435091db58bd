package run

import (
	"fmt"
	"math"
	"testing"

	"costrel/physics/shell"
	"costrel/project/design"
)

// templates are the bottles of the classes.
var templates = []string{"csd-500", "csd-1500", "csd-2000", "still-500", "hotfill-500", "returnable-1000"}

// loadsOf are vacuum and top loads of a template whose panel is blown with a
// factor and whose whole wall then is times another.
func loadsOf(t *testing.T, class string, panel, all float64) (map[string]float64, shell.Bottle) {
	t.Helper()
	doc, err := design.Load("", "schema: 1\nname: steps\nclass: "+class+"\n")
	if err != nil {
		t.Fatal(err)
	}
	doc.Design.Blow.WallFactor = panel
	w := work{ctx: t.Context(), full: true, even: true, until: "pressure"}
	x, err := newStrengthTests(&pass{d: doc.Design, name: "strength", work: w, done: evaluate(doc.Design, w, NewCache(64))})
	if err != nil {
		t.Fatal(err)
	}
	if all != 1 {
		x.b.Stations = append([]shell.Station(nil), x.b.Stations...)
		for i := range x.b.Stations {
			x.b.Stations[i].Wall *= all
		}
		if x.b, err = x.b.Meshed(); err != nil {
			t.Fatal(err)
		}
	}
	x.b.Quick = true
	x.vacuum()
	x.topLoads()
	now := map[string]float64{}
	for _, f := range x.figures {
		now[f.Key] = f.Value
	}
	return now, x.b
}

// Two per cent more of every wall: thin walls buckle as the square of the wall,
// under vacuum as its power of 2.5, so that a step is 4 and 5 %, and nothing of the
// mesh or of the order of the buckles slides. What the pressure carries of a
// filled pack does not go with the wall.
func TestLoadsGoEvenly(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for _, class := range templates {
		t.Run(class, func(t *testing.T) {
			t.Parallel()
			var last map[string]float64
			for i := range 8 {
				factor := 0.92 + 0.02*float64(i)
				now, _ := loadsOf(t, class, 1, factor)
				for key, span := range map[string][2]float64{"topload.empty": {0.04, 0.07}, "topload.sealed": {0.04, 0.07}, "topload.filled": {0, 0.07}, "vacuum.collapse": {0.02, 0.08}} {
					if last == nil {
						continue
					}
					step := now[key]/last[key] - 1
					t.Logf("%s %.2f %+.1f %%", key, factor, 100*step)
					if !(step > span[0] && step < span[1]) {
						t.Errorf("%s: a step of 2 %% of the whole wall to %.2f moves it by %+.1f %%", key, factor, 100*step)
					}
				}
				last = now
			}
		})
	}
}

// blow.wall_factor takes what it gives the panel from the rest of the preform's
// material: heel and base become thinner. A load that buckles the panel rises with
// it, one that buckles the heel falls; where one takes over from the other, the
// slope turns. None of this is a jump: a jump would be a buckle that the search
// sees on one side only.
func TestPanelWallMovesLoadsWithoutJump(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for _, class := range templates {
		t.Run(class, func(t *testing.T) {
			t.Parallel()
			var last map[string]float64
			before := 0.0
			for i := range 16 {
				factor := 0.9 + 0.02*float64(i)
				now, b := loadsOf(t, class, factor, 1)
				heel := 0.0 // least wall of the heel
				for _, s := range b.Stations {
					if s.Z > 5e-3 && s.Z < 20e-3 && (heel == 0 || s.Wall < heel) {
						heel = s.Wall
					}
				}
				if before > 0 && !(heel < before) {
					t.Errorf("a factor of %.2f of the panel: heel of %.4f mm after %.4f", factor, 1e3*heel, 1e3*before)
				}
				for _, key := range []string{"topload.empty", "topload.sealed", "topload.filled"} {
					if last == nil {
						continue
					}
					if step := now[key]/last[key] - 1; math.Abs(step) > 0.07 {
						t.Errorf("%s: a step of 2 %% of the panel to %.2f moves it by %+.1f %%", key, factor, 100*step)
					}
				}
				last, before = now, heel
			}
		})
	}
	for _, q := range []struct {
		class    string
		from, to float64
	}{{"still-500", 1.0975, 1.1}, {"csd-500", 1.1575, 1.16}, {"hotfill-500", 1.135, 1.14}, {"hotfill-500", 1.155, 1.16}} {
		t.Run(fmt.Sprintf("%s %g", q.class, q.to), func(t *testing.T) {
			t.Parallel()
			a, _ := loadsOf(t, q.class, q.from, 1)
			b, _ := loadsOf(t, q.class, q.to, 1)
			for _, key := range []string{"topload.empty", "topload.sealed", "topload.filled"} {
				step := b[key]/a[key] - 1
				t.Logf("%s %+.2f %%", key, 100*step)
				if math.Abs(step) > 0.015 {
					t.Errorf("%s: from %g to %g by %+.1f %%", key, q.from, q.to, 100*step)
				}
			}
		})
	}
}
