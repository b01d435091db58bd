package run

import (
	"strings"
	"testing"

	"costrel/physics/blow"
)

// A blow that makes no bottle leaves the preview standing, says so, and gives
// no virtual test anything to test.
func TestUnformed(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Blow.High, doc.Design.Blow.PreBlow = 2e5, 1e5
	r, err := Full(t.Context(), doc, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if f := figureOf(t, r, "wall.min"); !strings.Contains(strings.Join(f.Origin.Warnings, " "), "does not fill the mould") {
		t.Errorf("wall.min does not say that the blow failed: %v", f.Origin.Warnings)
	}
	for _, f := range r.Figures {
		switch f.Key {
		case "burst.pressure", "topload.empty", "blow.fill.time", "blow.eject.temperature", "blow.crystallinity.panel", "blow.stretch.inner", "blow.slack":
			t.Errorf("%s %g of a bottle that was not blown", f.Key, f.Value)
		}
	}
	for _, stage := range []string{"blow", "wall"} {
		if !strings.Contains(r.Broken(stage), "does not fill the mould") {
			t.Errorf("stage %s is not told to have failed: %q", stage, r.Broken(stage))
		}
	}
	if !r.Fails() {
		t.Error("limits of the virtual tests cannot be held, which must not look like success")
	}
	if why := unformed(&blow.Result{PeakRod: 6e3}); !strings.Contains(why, "rod") {
		t.Errorf("a rod of 6 kN: %q", why)
	}
	for _, c := range []struct {
		field  func()
		wanted string
	}{
		{func() { doc.Design.Blow.PreStart = 0.4 }, "blow.pre_start"},
		{func() { doc.Design.Preform.Body = 0.29 }, "body_length"},
	} {
		doc = example(t, "sorrel-lime.yaml")
		c.field()
		r, _ := Full(t.Context(), doc, nil, nil)
		found := false
		for _, p := range r.Problems {
			found = found || strings.Contains(p.Reason, c.wanted)
		}
		if !found {
			t.Errorf("no problem names %s", c.wanted)
		}
	}
}
