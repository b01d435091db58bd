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
		w, cut, s, err := BlownWall(t.Context(), d, nil)
		if err != nil {
			t.Fatal(err)
		}
		shape = s
		for _, z := range cut.Zones {
			fine["section."+z.Name+".mass"] += sign * z.Grams * 0.5e-3
		}
		fine["wall.panel.mean"] += sign * w.PanelMean / 2
		fine["blow.rod.force"] += sign * w.Blown.Result.PeakRod / 2
	}
	still, err := newBlowTrial(t.Context(), doc.Design, shape)
	if err != nil {
		t.Fatal(err)
	}
	ends := heat.blow(t.Context(), doc.Design, shape).Trials
	m := blowMove{by: movedEnds([2]map[string]float64{ends[0].weighed(doc.Design, shape), ends[1].weighed(doc.Design, shape)}, still.weighed(doc.Design, shape))}
	half := func(key string) float64 { return (m.by[key][1] - m.by[key][0]) / 2 }
	for key, want := range fine {
		if got := half(key); math.Abs(got/want-1) > 0.15 {
			t.Errorf("%s moves by %g at the default and by %g in the coarse blow", key, want, got)
		} else {
			t.Logf("%s moves by %.4g at the default and by %.4g in the coarse blow", key, want, got)
		}
	}
	if got := half("reheat.temperature.mean"); math.Abs(got-3) > 1e-6 {
		t.Errorf("the preform is moved by %g K", got)
	}

	// Each end for itself: both may lie on one side, an end that failed is the other
	// mirrored, and without the design they have half of their difference.
	pair := [2]map[string]float64{{"a": 6.883, "b": 1}, {"a": 6.974, "c": 5}}
	for _, o := range []struct {
		still map[string]float64
		key   string
		want  [2]float64
	}{
		{map[string]float64{"a": 6.853}, "a", [2]float64{0.030, 0.121}},
		{nil, "a", [2]float64{-0.0455, 0.0455}},
		{map[string]float64{"b": 3}, "b", [2]float64{-2, 2}},
		{map[string]float64{"c": 4}, "c", [2]float64{-1, 1}},
	} {
		if got := movedEnds(pair, o.still)[o.key]; math.Abs(got[0]-o.want[0]) > 1e-9 || math.Abs(got[1]-o.want[1]) > 1e-9 {
			t.Errorf("ends of %s move by %v, want %v", o.key, got, o.want)
		}
	}

	figures := []figure.Figure{{Key: "section.base.mass", Value: 10e-3, Lo: 10e-3, Hi: 10e-3}, {Key: "other", Value: 1}, {Key: "sampled", Value: 1, Lo: 0.7, Hi: 1.1, Effects: []figure.Effect{{Path: "c", Low: -0.2, High: 0.2}}}}
	movedBy(example(t, "sorrel-lime.yaml").Design, figures, []blowMove{
		{path: "a", by: map[string][2]float64{"section.base.mass": {-3e-4, 3e-4}}},
		{path: "b", by: map[string][2]float64{"section.base.mass": {4e-4, -4e-4}}, broken: "it does not fill"},
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
	// After a fit weights and wall have what the fit has left, figures of the blow what
	// the process does. It counts for what was measured, and within reach of where it
	// was made.
	fitted := doc.Design.Clone()
	fitted.Blow.Residual, fitted.Blow.WeightLeft, fitted.Blow.FitMass = 0.04, 0.13e-3, 38.77e-3
	fitted.Blow.FitAt = FitPlace(fitted)
	const weight, panel = 1.96 * 0.13e-3, 1.96 * 0.04 * 0.28e-3
	for _, o := range []struct {
		name              string
		move              func(d *design.Design)
		base, panel, push float64
		said              string
	}{
		{"fitted", func(*design.Design) {}, weight, panel, 50, ""},
		{"within reach", func(d *design.Design) { d.Oven.Mean += 2.9; d.Blow.RodSpeed *= 1.04 }, weight, panel, 50, ""},
		{"no panel read", func(d *design.Design) { d.Blow.Residual = 0 }, weight, 0.01e-3, 50, ""},
		{"not weighed", func(d *design.Design) { d.Blow.WeightLeft = 0 }, 1.4e-3, panel, 50, ""},
		{"not said where", func(d *design.Design) { d.Blow.FitAt = "" }, 1.4e-3, 0.01e-3, 50, "does not say"},
		{"broken", func(d *design.Design) { d.Blow.FitAt = strings.Replace(d.Blow.FitAt, "1500 mm/s", "fast", 1) }, 1.4e-3, 0.01e-3, 50, "blow.rod_speed in blow.fit_at"},
		{"another preform", func(d *design.Design) { d.Preform.Wall *= 1.02 }, 1.4e-3, 0.01e-3, 50, "Wall"},
		{"colder", func(d *design.Design) { d.Oven.Mean -= 8 }, 1.4e-3, 0.01e-3, 50, "Preform temperature"},
		{"slow rod", func(d *design.Design) { d.Blow.RodSpeed = 0.8 }, 1.4e-3, 0.01e-3, 50, "(± 5 % counts)"},
		{"pre-blow", func(d *design.Design) { d.Blow.PreBlow = 14e5 }, 1.4e-3, 0.01e-3, 50, "Pre-blow pressure"},
		{"high blow", func(d *design.Design) { d.Blow.High = 20e5 }, 1.4e-3, 0.01e-3, 50, "High blow pressure"},
		{"rod tip", func(d *design.Design) { d.Blow.RodTip = "holding" }, 1.4e-3, 0.01e-3, 50, "fitted with sliding"},
		{"law", func(d *design.Design) { d.Blow.Law = "glass-rubber-b" }, 1.4e-3, 0.01e-3, 50, "fitted with glass-rubber-a"},
		{"lamps", func(d *design.Design) { d.Oven.Lamps = "lamps" }, 1.4e-3, 0.01e-3, 50, "fitted with card"},
	} {
		d := fitted.Clone()
		o.move(d)
		if said := fitNote(d); o.said == "" && said != "" || !strings.Contains(said, o.said) {
			t.Errorf("%s: told %q, want %q", o.name, said, o.said)
		}
		figures := []figure.Figure{{Key: "section.base.mass", Value: 10e-3}, {Key: "wall.panel.mean", Value: 0.28e-3}, {Key: "blow.rod.force", Value: 400}}
		movedBy(d, figures, []blowMove{{path: "a", by: map[string][2]float64{"section.base.mass": {-1.4e-3, 1.4e-3}, "wall.panel.mean": {-0.01e-3, 0.01e-3}, "blow.rod.force": {-50, 50}}}})
		for i, want := range []float64{o.base, o.panel, o.push} {
			if f := figures[i]; math.Abs((f.Hi-f.Lo)/2/want-1) > 1e-3 || len(f.Effects) != 1 {
				t.Errorf("%s: %s has a band of ± %g by %v, want ± %g", o.name, f.Key, (f.Hi-f.Lo)/2, f.Effects, want)
			}
		}
	}
	for _, s := range processSpreads {
		if _, ok := design.Lookup(s.path); !ok {
			t.Errorf("no number %s in the design", s.path)
		}
	}
}
