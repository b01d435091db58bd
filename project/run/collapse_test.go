package run

import (
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
)

// TestVacuumBeyondCollapse: a vacuum that the empty bottle does not stand is
// marked at both figures, one within reach of the bands as well.
func TestVacuumBeyondCollapse(t *testing.T) {
	for _, c := range []struct {
		vacuum, hi float64
		panels     bool
		word       string
	}{{16e3, 20e3, false, "collapses at"}, {1.2e3, 1.8e3, false, "the bands of both"}, {0.5e3, 0.6e3, false, ""}, {16e3, 20e3, true, "the panels and ribs of the real bottle"}} {
		figures := []figure.Figure{
			{Key: "shelf.vacuum.max", Value: c.vacuum, Lo: c.vacuum / 2, Hi: c.hi},
			{Key: "vacuum.collapse", Value: 1.65e3, Lo: 1.6e3, Hi: 1.7e3},
		}
		collapseOf(figures, c.panels)
		for _, f := range figures {
			w := strings.Join(f.Origin.Warnings, ";")
			if (c.word == "") != (w == "") || !strings.Contains(w, c.word) || c.word != "" && strings.HasPrefix(w, quality.EstimatePrefix) == c.panels {
				t.Errorf("%g Pa, %s: %q", c.vacuum, f.Key, w)
			}
		}
	}
	// A pack filled cold says that its wall is taken as rigid.
	r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
		d.Brief.Product, d.Drink.Carbonation, d.Climate.AltitudeFill = "still", nil, 2240
	})
	if w := strings.Join(figureOf(t, r, "shelf.vacuum.max").Origin.Warnings, ";"); !strings.Contains(w, rigidWall) {
		t.Errorf("%q", w)
	}
}
