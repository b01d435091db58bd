package run

import (
	"math"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
)

// TestBlowBand holds the slopes of the coarse blows against the same blows at the
// default, and what a figure is given of them.
func TestBlowBand(t *testing.T) {
	if testing.Short() {
		t.Skip("two blows")
	}
	doc := example(t, "sorrel-lime.yaml")
	var heat spread
	for _, s := range processSpreads {
		if s.path == "oven.mean_temperature" {
			heat = s
		}
	}
	fine := map[string]float64{}
	var shape *Shape
	for _, sign := range []float64{-1, 1} {
		d := doc.Design.Clone()
		heat.set(d, sign*heat.by)
		w, s, err := BlownWall(t.Context(), d, nil)
		if err != nil {
			t.Fatal(err)
		}
		shape = s
		for _, z := range w.Zones {
			fine["section."+z.Name+".mass"] += sign * z.Grams * 0.5e-3
		}
		fine["wall.panel.mean"] += sign * w.PanelMean / 2
		fine["blow.rod.force"] += sign * w.Blown.Result.PeakRod / 2
	}
	m := heat.blow(t.Context(), doc.Design, shape)
	for key, want := range fine {
		if got := m.by[key]; math.Abs(got/want-1) > 0.15 {
			t.Errorf("%s moves by %g at the default and by %g in the coarse blow", key, want, got)
		} else {
			t.Logf("%s moves by %.4g at the default and by %.4g in the coarse blow", key, want, got)
		}
	}
	if got := m.by["reheat.temperature.mean"]; math.Abs(got-3) > 1e-6 {
		t.Errorf("the preform is moved by %g K", got)
	}

	figures := []figure.Figure{{Key: "section.base.mass", Value: 10e-3, Lo: 10e-3, Hi: 10e-3}, {Key: "other", Value: 1}, {Key: "sampled", Value: 1, Lo: 0.7, Hi: 1.1, Effects: []figure.Effect{{Path: "c", Low: -0.2, High: 0.2}}}}
	movedBy(figures, []blowMove{
		{path: "a", by: map[string]float64{"section.base.mass": 3e-4}},
		{path: "b", by: map[string]float64{"section.base.mass": -4e-4}, broken: "it does not fill"},
	})
	f := figures[0]
	if math.Abs(f.Lo-9.5e-3) > 1e-12 || math.Abs(f.Hi-10.5e-3) > 1e-12 || len(f.Effects) != 2 || f.Effects[0].Path != "b" || f.Effects[0].Low != 4e-4 {
		t.Errorf("band %g to %g of %v", f.Lo, f.Hi, f.Effects)
	}
	if w, is := quality.IsEstimate(f); !is || !strings.Contains(w, "it does not fill") {
		t.Errorf("an end that cannot be blown is not told: %q", w)
	}
	if figures[1].Effects != nil {
		t.Error("a figure that no blow makes was moved")
	}
	if f := figures[2]; f.Lo != 0.7 || f.Hi != 1.1 {
		t.Errorf("the band of a figure that no blow makes becomes %g to %g", f.Lo, f.Hi)
	}
	for _, s := range processSpreads {
		if _, ok := design.Lookup(s.path); !ok {
			t.Errorf("no number %s in the design", s.path)
		}
	}
}
