package run

import (
	"math"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
)

// meshed are the tests of a design with its elements times a factor.
func meshed(t *testing.T, d *design.Design, done map[string]*entry, times float64) map[string]figure.Figure {
	t.Helper()
	x, err := newStrengthTests(&pass{d: d, name: "strength", work: work{ctx: t.Context(), full: true, even: true}, done: done})
	if err != nil {
		t.Fatal(err)
	}
	if times != 1 {
		x.b.Sizing.Factor *= times
		x.b.Quick = true
	}
	x.growth()
	x.burst()
	x.vacuum()
	x.topLoads()
	x.base()
	out := map[string]figure.Figure{}
	for _, f := range x.figures {
		out[f.Key] = f
	}
	return out
}

// meshKeys are the figures that tell what their mesh does to them.
var meshKeys = []string{
	"topload.empty", "topload.sealed", "topload.filled", "vacuum.collapse", "burst.pressure", "growth.diameter", "growth.height", "fillpoint.drop",
	"base.clearance", "perpendicularity.growth", "base.crack.index", "stress.max",
}

// Elements a quarter as long against the estimate of the mesh that each figure
// carries, over the templates and the examples: within one and a half times the
// estimate, and within 2 %; the height, whose corners yield, within 3, the ranking by
// the largest stress of an element within 5.
func TestStrengthMesh(t *testing.T) {
	if testing.Short() {
		t.Skip("full runs")
	}
	for _, name := range []string{"csd-500", "csd-1500", "csd-2000", "still-500", "hotfill-500", "returnable-1000", "sorrel-lime.yaml", "wrenhollow.yaml", "ravensholt-old.yaml", "ravensholt-new.yaml"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var d *design.Design
			if strings.HasSuffix(name, ".yaml") {
				d = example(t, name).Design
			} else {
				doc, err := design.Load("", "schema: 1\nname: mesh\nclass: "+name+"\n")
				if err != nil {
					t.Fatal(err)
				}
				d = doc.Design
			}
			done := evaluate(d, work{ctx: t.Context(), full: true, even: true, until: "pressure"}, NewCache(64))
			ours, fine := meshed(t, d, done, 1), meshed(t, d, done, 0.25)
			for _, key := range meshKeys {
				f, there := ours[key]
				g, too := fine[key]
				if there != too {
					t.Errorf("%s: %v on the mesh of the stage, %v on the finer", key, there, too)
				}
				if !there || !too {
					continue
				}
				told := -1.0
				for _, e := range f.Effects {
					if e.Label == "Mesh of the virtual test" {
						told = e.High / math.Abs(f.Value)
					}
				}
				off := math.Abs(f.Value/g.Value - 1)
				t.Logf("%-24s %+6.2f %%, told %.2f %%", key, 100*(f.Value/g.Value-1), 100*told)
				most := 0.02
				switch key {
				case "growth.height":
					most = 0.03
				case "base.crack.index":
					most = 0.09
				}
				if told <= 0 || off > most || off > 1.5*told {
					t.Errorf("%s: the mesh moves it by %.2f %%, told are %.2f %%", key, 100*off, 100*told)
				}
			}
		})
	}
}
