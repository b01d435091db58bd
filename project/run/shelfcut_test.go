package run

import (
	"math"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

const week = 7 * day

// TestBestBeforeCutsAStep: the highest pressure of a life does not depend on
// what the lane would do after best-before.
func TestBestBeforeCutsAStep(t *testing.T) {
	highest := func(lane float64) float64 {
		doc := example(t, "sorrel-lime.yaml")
		d := doc.Design
		d.Brief.ShelfLife = 14 * week
		d.Climate.SeasonStart = 0 // filled in midwinter: the warmest day of the life is its last
		d.Climate.Lane = []design.LaneRow{{Duration: lane, Temperature: unit.Celsius(15), Season: 9}}
		return figureOf(t, Check(doc, nil), "shelf.pressure.max").Value
	}
	long, cut := highest(60*week), highest(14*week)
	if math.Abs(long/cut-1) > 5e-3 {
		t.Errorf("%.4g bar(g) with a lane that goes on, %.4g with one that ends", long/1e5, cut/1e5)
	}
}

// TestLaneSumsUp: a hundred stretches of 1.4 days are twenty weeks.
func TestLaneSumsUp(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Brief.ShelfLife = 20 * week
	for range 100 {
		doc.Design.Climate.Lane = append(doc.Design.Climate.Lane, design.LaneRow{Duration: 1.4 * day, Temperature: unit.Celsius(20)})
	}
	for _, p := range Check(doc, nil).Problems {
		if strings.Contains(p.Reason, "add a stretch") {
			t.Fatal(p.Reason)
		}
	}
}

// TestWallSpreadCounts: the scatter of the wall is that of the design.
func TestWallSpreadCounts(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Shelf.Spread = 0.4
	doc.Design.Shelf.FittedAt = nil
	done := evaluate(doc.Design, preview, NewCache(64))
	pc, _, err := shelfCase(&pass{d: doc.Design, name: "shelf", work: preview, done: done})
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range pc.Uncertainties() {
		if strings.HasPrefix(u.Key, "thickness.") {
			if !strings.Contains(u.Basis, "40 %") {
				t.Errorf("%s: %s", u.Key, u.Basis)
			}
			return
		}
	}
	t.Error("no thickness among what makes the band")
}
