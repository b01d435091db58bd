package run

import (
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// TestShelfSays holds what a life says of designs at the edge of sense.
func TestShelfSays(t *testing.T) {
	lossLimit := func(value string) func(d *design.Design) {
		return func(d *design.Design) {
			d.Limits = []design.Limit{{Figure: "shelf.loss.end", Side: "max", Value: value, Owner: "test", Source: "example"}}
		}
	}
	rows := func(rows ...design.LaneRow) func(d *design.Design) {
		return func(d *design.Design) { d.Climate.Lane = rows }
	}
	const hot, csd = "golden-hotfill.yaml", "golden-carbonated.yaml"
	for _, c := range []struct {
		of, key, want string
		left          bool // said as a reason, not beside the figure
		change        func(d *design.Design)
	}{
		{csd, "shelf.life", "the limit on shelf.loss.end is 0 %", true, lossLimit("0 %")},
		{csd, "shelf.life", "the limit on shelf.loss.end is 100 %", true, lossLimit("100 %")},
		{csd, "shelf.life", "no limit on shelf.loss.end is set", true, func(d *design.Design) { d.Limits = nil }},
		{csd, "shelf.loss.end", `stretch 2 of the lane (yard) reaches it on day 7`, true, rows(
			design.LaneRow{Duration: 7 * day, Temperature: unit.Celsius(22)}, design.LaneRow{Place: "yard", Duration: 7 * day, Temperature: unit.Celsius(68), Swing: 5},
			design.LaneRow{Duration: 700 * day, Temperature: unit.Celsius(22)},
		)},
		{csd, "shelf.loss.end", "no filling gives that", true, func(d *design.Design) { d.Drink.Carbonation = new(0.01 * unit.VolumeCO2) }},
		{hot, "shelf.oxygen.end", "negative: more oxygen leaves", false, func(d *design.Design) {
			d.Drink.Oxygen, d.Brief.ShelfLife = 20e-3, 28*day
		}},
		{hot, "shelf.vacuum.max", "the liquid fills the bottle", false, func(d *design.Design) { d.HotFill.Steam, d.Drink.NitrogenIn, d.Drink.Oxygen = 0, 0, 0 }},
		{csd, "shelf.loss.end", "the lane begins at 2240 m, climate.altitude_fill is 1400 m", false, func(d *design.Design) { d.Climate.Named = "highland" }},
	} {
		doc := golden(t, c.of)
		c.change(doc.Design)
		r := Check(doc, nil)
		said := why(r, c.key)
		if !c.left {
			said = unit.Spell(strings.Join(figureOf(t, r, c.key).Origin.Warnings, "; "), unit.EU)
		}
		if !strings.Contains(said, c.want) {
			t.Errorf("%s: want %q, said %q", c.key, c.want, said)
		}
	}
}

// TestNothingIsNothing: a pack of glass under a closure that passes nothing
// loses nothing, and no rounding of it.
func TestNothingIsNothing(t *testing.T) {
	r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
		d.Shelf.Material, d.Closure.CO2, d.Closure.O2, d.Closure.N2, d.Closure.Water = "glass", 0, 0, 0, 0
	})
	for _, key := range []string{"shelf.loss.end", "shelf.loss.wall", "shelf.loss.headspace"} {
		if v := value(t, r, key); v != 0 {
			t.Errorf("%s is %g", key, v)
		}
	}
}
