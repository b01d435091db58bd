package run

import (
	"math"
	"testing"

	"costrel/num/numtest"
	"costrel/physics/permeation"
	"costrel/quality"
)

// TestBarrierAlong: what the places of a zone let through adds up to what the
// zone does, area times permeability over thickness.
func TestBarrierAlong(t *testing.T) {
	for _, coating := range []string{"none", "inner", "outer"} {
		for _, blown := range []bool{false, true} {
			doc := example(t, "sorrel-lime.yaml")
			d := doc.Design
			d.Shelf.Coating, d.Shelf.Improve, d.Shelf.Factor = coating, 5, 1.3
			done := evaluate(d, preview, NewCache(16))
			w, shape := *done["wall"].out.(*Wall), done["bottle"].out.(*Shape)
			if blown {
				w.Blown = &Blown{S: []float64{0, 0.1, 1}, X: []float64{0.05, 0.25, 0.3}}
			}
			zones := numtest.Must(wallZones(d, &w, shape))
			_, permeance, err := barrierAlong(d, &w, shape, zones, permeation.CO2)
			if err != nil {
				t.Fatal(err)
			}
			got, want := map[string]float64{}, map[string]float64{}
			for i, p := range wallPieces(&w, shape) {
				got[zoneNames[p.zone]] += p.area * permeance[i]
			}
			for _, z := range zones {
				r := z.Thickness / numtest.Must(plasticPermeability(z.Material, permeation.CO2))
				for _, c := range []permeation.Coating{z.Inner, z.Outer} {
					if c.CO2 > 0 {
						r += 1 / c.CO2
					}
				}
				want[z.Name] += z.Area / r
			}
			// Lumps of changing crystals, and of changing walls under a coating, are means.
			within := 1e-4
			if coating != "none" {
				within = 0.03
			}
			for _, name := range zoneNames {
				if want[name] > 0 && math.Abs(got[name]/want[name]-1) > within {
					t.Errorf("%s, blown %v, %s: the places let through %g, the zone %g", coating, blown, name, got[name], want[name])
				}
			}
		}
	}
}

func TestMarginPlots(t *testing.T) {
	plots := []Plot{
		{Key: "wall.arc", Stage: "wall", Series: []Series{{Name: "preview", X: Numbers{0, 1}, Y: Numbers{1, 1}}, {Name: "blown", X: Numbers{0, 1}, Y: Numbers{2.5e-4, 4e-4}}}},
		{Key: "strength.use", Stage: "strength", Series: []Series{{Name: "use", X: Numbers{0, 1}, Y: Numbers{0.4, 1.2}}}},
	}
	limit := func(side quality.Side, v float64) quality.Verdict {
		return quality.Verdict{Limit: quality.Limit{Figure: "wall.min", Side: side, Value: v}}
	}
	got := marginPlots(plots, []quality.Verdict{limit(quality.Min, 2e-4), limit(quality.Min, 2.5e-4), limit(quality.Max, 9e-4)})
	if len(got) != 2 {
		t.Fatalf("%d plots", len(got))
	}
	numtest.Near(t, "thinnest", 1+got[0].Series[0].Y[0], 1, 1e-12)
	numtest.Near(t, "wall", got[0].Series[0].Y[1], 0.6, 1e-12)
	numtest.Near(t, "in reserve", got[1].Series[0].Y[0], 0.6, 1e-12)
	numtest.Near(t, "overloaded", got[1].Series[0].Y[1], -0.2, 1e-12)
	if got = marginPlots(plots[:1], nil); len(got) != 0 {
		t.Error("a margin without a limit")
	}
}
