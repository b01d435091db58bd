package run

import (
	"math"
	"os"
	"testing"

	"costrel/physics/blow"
	"costrel/project/design"
	"costrel/quality/lab"
	"costrel/unit"
)

// demoBlow is the blow of the carbonated demo bottle, with its design changed.
func demoBlow(t *testing.T, change func(d *design.Design)) (blow.Case, *Shape) {
	t.Helper()
	d := example(t, "sorrel-lime.yaml").Design
	if change != nil {
		change(d)
	}
	done := evaluate(d, work{ctx: t.Context(), full: true, until: "blow"}, NewCache(64))
	for _, n := range []string{"bottle", "preform", "reheat"} {
		if done[n].err != nil {
			t.Fatal(done[n].err)
		}
	}
	shape := done["bottle"].out.(*Shape)
	c, err := blowCase(d, shape, done["preform"].out.(*Preform).Body, done["reheat"].out.(*Reheated))
	if err != nil {
		t.Fatal(err)
	}
	return c, shape
}

// TestDemoConvergence prints section weights and walls of the demo blow over
// elements, layers and steps, and holds the default within 2.5 % of the finest: the base
// gains 0.4 g when the preform is a degree warmer, so that small errors grow.
func TestDemoConvergence(t *testing.T) {
	if testing.Short() {
		t.Skip("eight blows")
	}
	c, shape := demoBlow(t, nil)
	ledge := shape.Bottle.LedgeZ()
	var sections [][3]float64
	for _, o := range []struct {
		n, l     int
		ms, most float64
	}{
		{60, 5, 0.5, 0.05},
		{60, 5, 1, 0.05},
		{60, 5, 0.25, 0.03},
		{30, 5, 0.5, 0.05},
		{120, 5, 0.5, 0.05},
		{60, 3, 0.5, 0.05},
		{60, 9, 0.5, 0.05},
		{120, 5, 0.125, 0.02},
	} {
		k := c
		k.Numbers.Elements, k.Numbers.Layers, k.Numbers.StepMost, k.Numbers.StrainMost = o.n, o.l, o.ms/1e3, o.most
		k.Numbers.StepFirst = min(k.Numbers.StepFirst, k.Numbers.StepMost)
		r, err := blow.Run(t.Context(), k, nil)
		if err != nil {
			t.Fatal(err)
		}
		cut := [3]float64{r.MassBetween(ledge-0.060, 1) * 1e3, r.MassBetween(ledge-0.190, ledge-0.060) * 1e3, r.MassBetween(0, ledge-0.190) * 1e3}
		wall := func(mm float64) float64 { h, _ := r.WallAt(ledge - mm/1e3); return h * 1e3 }
		t.Logf("%3d elements, %d layers, steps %.3f ms and %.2f strain: base %.3f, panel %.3f, shoulder %.3f g; wall at 27, 121, 220, 262 mm %.4f %.4f %.4f %.4f mm; %d steps, %d iterations",
			o.n, o.l, o.ms, o.most, cut[0], cut[1], cut[2], wall(27), wall(121), wall(220), wall(262), r.Steps, r.Iterations)
		sections = append(sections, cut)
	}
	fine := sections[len(sections)-1]
	for i, name := range []string{"base", "panel", "shoulder"} {
		if off := sections[0][i]/fine[i] - 1; math.Abs(off) > 0.025 {
			t.Errorf("%s: %.3f g at the default, %.3f g at the finest: %+.1f %%", name, sections[0][i], fine[i], 100*off)
		} else {
			t.Logf("%s: default %+.2f %% of the finest", name, 100*off)
		}
	}
}

// levels are the wall readings of the demo laboratory, mean round the axis.
func levels(t *testing.T) (z, wall []float64) {
	t.Helper()
	const file = "sorrel-thickness.csv"
	b, err := os.ReadFile("../../examples/lab/" + file)
	if err != nil {
		t.Fatal(err)
	}
	table, err := lab.Read(file, b, "thickness")
	if err != nil {
		t.Fatal(err)
	}
	series, err := table.Find("wall", "", "")
	if err != nil {
		t.Fatal(err)
	}
	sum, n := map[int]float64{}, map[int]int{}
	for _, r := range series.Readings {
		sum[r.Row] += r.Value
		n[r.Row]++
	}
	for i := range table.Rows {
		if n[i] > 0 {
			z, wall = append(z, table.Rows[i].Settings["z"]), append(wall, sum[i]/float64(n[i]))
		}
	}
	return z, wall
}

// TestDemoPractice holds the demo against common practice: by its card without
// tuning, and calibrated as the example stands. What isn't met is printed.
func TestDemoPractice(t *testing.T) {
	z, measured := levels(t)
	weighed := map[string]float64{"base": 10.20, "panel": 15.53, "shoulder": 13.07} // g, means of the laboratory
	for _, o := range []struct {
		name         string
		change       func(d *design.Design)
		panel, grams float64 // allowed: share of a panel reading, g of a section; 0: printed only
		mean         float64 // allowed for the panel in the mean
	}{
		{"by the card", func(d *design.Design) { d.Oven.Tilt, d.Oven.Bow = 0, 0 }, 0.15, 0, 0.15},
		{"calibrated on section weights", nil, 0, 0.4, 0.05},
	} {
		doc := example(t, "sorrel-lime.yaml")
		if o.change != nil {
			o.change(doc.Design)
		}
		w, cut, shape, err := BlownWall(t.Context(), doc.Design, nil)
		if err != nil {
			t.Fatal(err)
		}
		r := w.Blown.Result
		// The strict volume of the air stage is what the blow lets in.
		strict := value(t, Check(doc, nil), "air.volume.strict") * float64(unit.Atm) / (blow.AirConstant * 273.15)
		if off := strict/r.Balance.AirUsed - 1; math.Abs(off) > 3e-3 {
			t.Errorf("%s: air.volume.strict is %+.2f %% of the air that the blow admits", o.name, 100*off)
		}
		chainHolds(t, doc)
		share := 0.0
		for _, m := range r.History {
			if m.Time <= r.RodEnd+1e-9 {
				share = m.Volume / r.Volume
			}
		}
		fill := r.FillTime - r.HighAt
		t.Logf("%s: when the rod stands %.0f %% of the volume is blown and the bubble reaches %.0f %% of the way down; filled %.1f ms after the high stage opened", o.name, 100*share, 100*r.BubbleAt, fill*1e3)
		if share < 1.0/3-0.01 || share > 0.5 || fill < 0.020 || fill > 0.060 {
			t.Errorf("%s: blown %.2f, want a third to a half; filled after %.1f ms, want 20 to 60", o.name, share, fill*1e3)
		}
		for _, s := range cut.Zones {
			off := s.Grams - weighed[s.Name]
			t.Logf("  %-8s %.2f g, weighed %.2f (%+.2f)", s.Name, s.Grams, weighed[s.Name], off)
			if o.grams > 0 && math.Abs(off) > o.grams {
				t.Errorf("%s: %s off by %.2f g", o.name, s.Name, off)
			}
		}
		ours, theirs := 0.0, 0.0
		for i, at := range z {
			h := w.RealAt(shape.Bottle.CutS(at))
			off := h/measured[i] - 1
			t.Logf("  wall at %3.0f mm %.3f mm, measured %.3f (%+.1f %%)", at*1e3, h*1e3, measured[i]*1e3, 100*off)
			if at < shape.Panel[0] || at > shape.Panel[1] {
				continue
			}
			ours, theirs = ours+h, theirs+measured[i]
			if o.panel > 0 && math.Abs(off) > o.panel {
				t.Errorf("%s: panel at %.0f mm off by %.1f %%", o.name, at*1e3, 100*off)
			}
		}
		if off := ours/theirs - 1; math.Abs(off) > o.mean {
			t.Errorf("%s: panel off by %.1f %% in the mean", o.name, 100*off)
		} else {
			t.Logf("  panel in the mean %+.1f %%", 100*off)
		}
	}
}
