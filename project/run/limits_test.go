package run

import (
	"strings"
	"testing"

	"costrel/figure"
	"costrel/quality"
	"costrel/unit"
)

// TestImplied: a pack that bursts under its own pressure fails though nobody
// wrote the limit down; one whose written limit lies above says nothing twice.
func TestImplied(t *testing.T) {
	of := func(key string, v float64) figure.Figure {
		return figure.Figure{Key: key, Kind: unit.PressureGauge, Value: v, Lo: v, Hi: v}
	}
	dosed := []figure.Figure{of("pack.pressure.hot", 14e5), of("shelf.pressure.max", 13e5), of("burst.pressure", 8e5)}
	got := implied(nil, dosed)
	if len(got) != 1 || got[0].Figure != "burst.pressure" || got[0].Side != quality.Min || got[0].Value != 14e5 {
		t.Fatalf("%+v", got)
	}
	if v := quality.Of(got[0], dosed[2]); v.Word != quality.Fail {
		t.Errorf("8 bar against 14 bar: %s", v.Word)
	}
	written := []quality.Limit{{Figure: "burst.pressure", Side: quality.Min, Value: 15e5}}
	if got := implied(written, dosed); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	written[0].Value = 9e5 // met by a pack that still bursts by itself
	if got := implied(written, dosed); len(got) != 1 {
		t.Errorf("%+v", got)
	}
	if got := implied(nil, dosed[:2]); len(got) != 0 {
		t.Errorf("without a burst: %+v", got)
	}
	if got := implied(nil, []figure.Figure{of("hotfill.pressure.closing", 3e5)}); len(got) != 1 || got[0].Value != 2e5 {
		t.Errorf("%+v", got)
	}
}

// A pack that does not carry its own stack fails: the load of the stack, with its
// factor, is a limit that nobody has to write. A tighter one of the design stands.
func TestStackLimit(t *testing.T) {
	of := func(key string, v float64) figure.Figure {
		return figure.Figure{Key: key, Label: key, Value: v, Kind: unit.Force}
	}
	both := []figure.Figure{of("stack.capacity", 229), of("stack.load", 375)}
	got := implied(nil, both)
	if len(got) != 1 || got[0].Figure != "stack.capacity" || got[0].Side != quality.Min || got[0].Value != 375 || got[0].Owner == "" || !strings.Contains(got[0].Note, "stack factor") {
		t.Fatalf("%+v", got)
	}
	if v := quality.Of(got[0], both[0]); v.Word != quality.Fail {
		t.Errorf("229 N under a stack of 375 N: %s", v.Word)
	}
	for _, c := range []struct {
		own  float64
		more int
	}{{400, 0}, {300, 1}} {
		if got := implied([]quality.Limit{{Figure: "stack.capacity", Side: quality.Min, Value: c.own}}, both); len(got) != c.more {
			t.Errorf("with an own limit of %g N: %+v", c.own, got)
		}
	}
	if got := implied(nil, both[:1]); len(got) != 0 {
		t.Errorf("without a stack: %+v", got)
	}
}

// TestHeadspaceOfThickWall: a wall far from the nominal one takes the room
// that the headspace is counted in.
func TestHeadspaceOfThickWall(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	if f := figureOf(t, Check(doc, nil), "bottle.headspace"); len(f.Origin.Warnings) != 0 {
		t.Errorf("%v", f.Origin.Warnings)
	}
	doc.Design.Preform.Wall = 6e-3
	f := figureOf(t, Check(doc, nil), "bottle.headspace")
	if len(f.Origin.Warnings) != 1 || !strings.HasPrefix(f.Origin.Warnings[0], quality.EstimatePrefix) {
		t.Errorf("%v", f.Origin.Warnings)
	}
}
