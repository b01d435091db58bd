package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/quality"
	"costrel/unit"
)

// TestHotFillIsSampled: the sampled bands of a hot-filled pack are about those
// of the preview, lean to the same side, and say how they were made. That of the
// pasteurisation units was drawn elsewhere with 2000 pseudo-random numbers:
// 5.37 to 13.65 minutes.
func TestHotFillIsSampled(t *testing.T) {
	doc := example(t, "wrenhollow.yaml")
	done := evaluate(doc.Design, preview, nil)
	c := &pass{d: doc.Design, name: "hotfill", work: preview, done: done, figures: slices.Clone(done["hotfill"].figures)}
	h, err := c.hotPack()
	if err != nil {
		t.Fatal(err)
	}
	here := h.values()
	h.sampled()
	r := Check(doc, nil)
	for _, f := range h.figures {
		if math.Abs(here[f.Key]-f.Value) > 1e-9*math.Abs(f.Value) {
			t.Errorf("%s: %g in the sample, %g on the board", f.Key, here[f.Key], f.Value)
		}
		q := figureOf(t, r, f.Key)
		if f.Key == "hotfill.budget.nitrogen" {
			continue // none is dosed
		}
		if w := (f.Hi - f.Lo) / (q.Hi - q.Lo); w < 0.85 || w > 1.25 || f.Banding != sampledBand || q.Banding != lent {
			t.Errorf("%s: %g to %g (%s), preview %g to %g (%s)", f.Key, f.Lo, f.Hi, f.Banding, q.Lo, q.Hi, q.Banding)
		}
	}
	units := figureOf(t, &Result{Figures: h.figures}, "pasteur.units")
	if math.Abs(units.Lo/60-5.37) > 0.3 || math.Abs(units.Hi/60-13.65) > 0.6 || units.Effects[0].Path != "drink.fill_temperature" {
		t.Errorf("%g to %g min, %+v", units.Lo/60, units.Hi/60, units.Effects)
	}
}

// TestNoCoarseRunIsSaid: a figure of the board that the run behind the bands has
// not cannot pass; one of the slow solvers is not spoken of.
func TestNoCoarseRunIsSaid(t *testing.T) {
	figures := []figure.Figure{
		{Key: "hotfill.vacuum", Value: 1e3, Lo: 1e3, Hi: 1e3, Kind: unit.PressureChange},
		{Key: "burst.pressure", Value: 1e6, Lo: 1e6, Hi: 1e6, Kind: unit.PressureGauge},
	}
	lend(figures, nil)
	if w, is := quality.IsEstimate(figures[0]); !is || !strings.Contains(w, "coarse run") {
		t.Errorf("%q", figures[0].Origin.Warnings)
	}
	if v := quality.Of(quality.Limit{Figure: "hotfill.vacuum", Side: quality.Max, Value: 2e4, Kind: unit.PressureChange}, figures[0]); v.Word != quality.NotShown {
		t.Errorf("the verdict is %s", v.Word)
	}
	if len(figures[1].Origin.Warnings) > 0 {
		t.Errorf("%q", figures[1].Origin.Warnings)
	}
}
