package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// TestPlotsMeetTheHotStretch: a stretch of six hours in a life of months is on
// the plot, and the peak of the plot is the highest pressure on the board.
func TestPlotsMeetTheHotStretch(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	c := &doc.Design.Climate
	for _, lane := range [][]design.LaneRow{nil, {
		{Duration: 50 * day, Temperature: unit.Celsius(20)},
		{Duration: 6 * 3600, Temperature: unit.Celsius(50)},
		{Duration: 3 * 3600, Temperature: unit.Celsius(8)},
		{Duration: 3 * doc.Design.Brief.ShelfLife, Temperature: unit.Celsius(20)},
	}} {
		c.Lane, c.Hot, c.HotTime = lane, unit.Celsius(45), 6*3600
		r := Check(doc, NewCache(32))
		p := plotOf(t, r, "shelf.pressure").Series[0]
		peak, want := slices.Max(p.Y), value(t, r, "shelf.pressure.max")
		if math.Abs(peak/want-1) > 0.01 {
			t.Errorf("%d rows: peak of the plot %g, highest pressure %g", len(lane), peak, want)
		}
		if !slices.IsSorted(p.X) || len(p.X) > 400 {
			t.Errorf("%d points, sorted: %t", len(p.X), slices.IsSorted(p.X))
		}
		hottest := slices.Max(plotOf(t, r, "shelf.lane").Series[0].Y)
		if lane != nil && math.Abs(hottest-float64(unit.Celsius(50))) > 0.01 {
			t.Errorf("the lane of the plot reaches %g K", hottest)
		}
	}
}

// TestFillPointFollowsTheTaper holds the fall of the level against the volume
// between the two levels: with the fill in a taper the area above is smaller.
func TestFillPointFollowsTheTaper(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	r := Check(doc, NewCache(32))
	drop := figureOf(t, r, "fillpoint.drop.day1")
	in := map[string]float64{}
	for _, i := range drop.Origin.Inputs {
		in[i.Symbol] = i.Value
	}
	done := evaluate(r.Doc.Design, preview, NewCache(32))
	inside := done["bottle"].out.(*Shape).Inside
	high, top := inside.To(in["h_0"])
	low, foot := inside.To(in["h_1"])
	fell := in["ΔV_bottle"] - in["ΔV_drink"]
	if math.Abs(high-low-fell) > 1e-6*fell || math.Abs(drop.Value-(in["h_0"]-in["h_1"])) > 1e-12 {
		t.Errorf("between the levels %g m³, the drink is short of %g m³", high-low, fell)
	}
	// Between the levels of two cylinders, one of either area.
	if !(drop.Value <= fell/math.Min(top, foot)*(1+1e-9) && drop.Value >= fell/math.Max(top, foot)*(1-1e-9)) {
		t.Errorf("drop %g m outside %g to %g m", drop.Value, fell/math.Max(top, foot), fell/math.Min(top, foot))
	}
}

// TestLossSaysFromWhat: method and axis begin with what the loss is counted
// from, and at every point of the plot the parts add up to the total.
func TestLossSaysFromWhat(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	for ref, want := range map[string]string{"sealed": "the sealed pack in balance", "filler": "the filler's set-point", "24h": "the reading after 24 hours"} {
		doc.Design.Shelf.Reference = ref
		r := Check(doc, NewCache(32))
		if w := why(r, "shelf.loss.end"); w != "" {
			if ref != "filler" {
				t.Errorf("%s: %s", ref, w)
			}
			continue
		}
		if m := figureOf(t, r, "shelf.loss.end").Origin.Method; !strings.HasPrefix(m, "Loss from "+want) {
			t.Errorf("%s: %q", ref, m)
		}
		p := plotOf(t, r, "shelf.loss")
		if p.Y.Label != "loss from "+want {
			t.Errorf("%s: axis %q", ref, p.Y.Label)
		}
		for i, total := range p.Series[0].Y {
			sum := 0.0
			for _, s := range p.Series[1:] {
				sum += s.Y[i]
			}
			if !(math.Abs(sum-total) < 1e-9) {
				t.Fatalf("%s: day %g: %g of parts, total %g", ref, p.Series[0].X[i]/day, sum, total)
			}
		}
	}
}
