package run

import (
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// TestLaneHumidity: dry air that is written is dry; a stretch without a
// humidity has that of the climate.
func TestLaneHumidity(t *testing.T) {
	dry := 0.0
	d := example(t, "sorrel-lime.yaml").Design.Clone()
	d.Climate.Humidity = 0.6
	d.Climate.Lane = []design.LaneRow{
		{Duration: d.Brief.ShelfLife, Temperature: unit.Celsius(20), Humidity: &dry},
		{Duration: d.Brief.ShelfLife, Temperature: unit.Celsius(20)},
	}
	l, err := laneOf(d)
	if err != nil || l.Segments[0].Humidity != 0 || l.Segments[1].Humidity != 0.6 {
		t.Errorf("%+v, %v", l.Segments, err)
	}
}

// TestHotLaneIsAnEstimate: from 60 °C on the barrier is carried on beyond what
// it rests on, warm hours counted, and no limit passes on it; glass has none.
func TestHotLaneIsAnEstimate(t *testing.T) {
	for _, c := range []struct {
		celsius  float64
		swing    unit.TemperatureDiff
		material string
		want     bool
	}{{59, 0, "wall", false}, {60, 0, "wall", true}, {52, 8, "wall", true}, {52, 7, "wall", false}, {65, 0, "glass", false}, {65, 0, "hdpe", true}} {
		r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
			d.Shelf.Material, d.Drink.Carbonation = c.material, nil
			d.Climate.Lane = []design.LaneRow{
				{Duration: day, Temperature: unit.Celsius(c.celsius), Swing: c.swing},
				{Duration: 2 * d.Brief.ShelfLife, Temperature: unit.Celsius(20)},
			}
		})
		f := figureOf(t, r, "shelf.oxygen.end")
		said := false
		for _, w := range f.Origin.Warnings {
			said = said || strings.Contains(w, "carried on beyond") && strings.HasPrefix(w, quality.EstimatePrefix)
		}
		if said != c.want {
			t.Errorf("%+v: %q", c, f.Origin.Warnings)
		}
	}
}
