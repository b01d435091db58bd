package report

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"
)

// TestNumbersOfADifference: numbers stand in the unit of their text and add up.
func TestNumbersOfADifference(t *testing.T) {
	d := compareWith(t, "wall: 3.60 mm", "wall: 3.50 mm", `figure: shelf.loss.end, side: max, value: "12 %"`, `figure: shelf.loss.end, side: max, value: "15 %"`)
	check := func(what string, n Numbers, change string) {
		t.Helper()
		if n.Old == nil || n.New == nil {
			return
		}
		if n.Change == nil {
			t.Errorf("%s: no change: %+v", what, n)
			return
		}
		if sum := *n.Old + *n.Change - *n.New; math.Abs(sum) > 1e-9*math.Max(math.Abs(*n.Old), math.Abs(*n.New)) {
			t.Errorf("%s: %g + %g is not %g", what, *n.Old, *n.Change, *n.New)
		}
		if n.ChangeUnit != "" && !strings.HasSuffix(change, n.ChangeUnit) {
			t.Errorf("%s: %q is not in %q", what, change, n.ChangeUnit)
		}
	}
	if d.Mass.Unit != "g" || math.Abs(*d.Mass.Change+1e3*d.Saved) > 1e-9 {
		t.Errorf("mass: %+v beside %g kg saved", d.Mass, d.Saved)
	}
	limits := 0
	for _, m := range d.Margins {
		check(m.Figure, m.Margin, m.LostDisplay)
		if m.OldLimit != m.NewLimit {
			limits++
			if *m.Limit.Old != 12 || *m.Limit.New != 15 || m.Limit.Unit != "%" || m.Margin.Unit != "points" {
				t.Errorf("%s: limits %+v, margin in %q", m.Figure, m.Limit, m.Margin.Unit)
			}
		}
	}
	if limits != 1 {
		t.Errorf("%d limits moved, want 1", limits)
	}
	for _, f := range d.Figures {
		if f.ChangeDisplay != "" && f.Numbers.ChangeUnit != "min" { // each time in a unit of its own as a text
			check(f.Key, f.Numbers, f.ChangeDisplay)
		}
	}
	for _, c := range d.Inputs {
		if c.Path == "preform.wall" && (*c.Numbers.Old != 3.6 || *c.Numbers.New != 3.5 || c.Numbers.Unit != "mm") {
			t.Errorf("%s: %+v", c.Path, *c.Numbers)
		}
	}
	if n := numbersOf(unit.TemperaturePoint, "", 293.15, 303.15, false, unit.EU, "EUR"); *n.Old != 20 || *n.New != 30 || *n.Change != 10 || n.Unit != "°C" || n.ChangeUnit != "K" {
		t.Errorf("temperature: %g, %g, %g in %s and %s", *n.Old, *n.New, *n.Change, n.Unit, n.ChangeUnit)
	}
}
