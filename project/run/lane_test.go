package run

import (
	"testing"

	"costrel/project/design"
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
