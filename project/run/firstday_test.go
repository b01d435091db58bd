package run

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/climate"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// TestFirstDayInBothDays: growth and fall of the first day are those at the mean
// temperature of that day, whether its hours are averaged or followed.
func TestFirstDayInBothDays(t *testing.T) {
	read := func(days string, swing unit.TemperatureDiff) (growth, drop float64, warnings string) {
		r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
			d.Brief.ShelfLife, d.Climate.Days = 10*day, days
			d.Climate.Lane = []design.LaneRow{{Duration: 30 * day, Temperature: unit.Celsius(22), Swing: swing}}
		})
		f := figureOf(t, r, "growth.volume.day1")
		return f.Value, value(t, r, "fillpoint.drop.day1"), strings.Join(f.Origin.Warnings, ";")
	}
	flat, level, _ := read("averaged", 0)
	for _, c := range []struct {
		swing unit.TemperatureDiff
		by    float64 // of creep that runs ahead in warm hours
		mark  bool
	}{{10, 0.05, false}, {20, 0.12, true}} {
		a, x, w := read("averaged", c.swing)
		b, y, told := read("followed", c.swing)
		if math.Abs(a/b-1) > c.by || math.Abs(x/y-1) > c.by || !(b > flat) || !(y > level) {
			t.Errorf("swing %g K: growth %g and %g, drop %g and %g", float64(c.swing), a, b, x, y)
		}
		if strings.Contains(w, "averaging them holds up to") != c.mark || strings.Contains(told, "averag") {
			t.Errorf("swing %g K: %q, followed %q", float64(c.swing), w, told)
		}
	}
}

// TestMeanOfTheFirstDay: of whole days the swing falls out; of a calmed one the
// mean of the hours stays, not the kinetic one.
func TestMeanOfTheFirstDay(t *testing.T) {
	l := climate.Lane{Segments: []climate.Segment{
		{Duration: day / 2, Temperature: unit.Celsius(30), Humidity: 0.5},
		{Start: day / 2, Duration: 9 * day, Temperature: unit.Celsius(20), Humidity: 0.5},
	}}
	swung := climate.Constant("", unit.Celsius(22), 0.5, 9*day)
	swung.Segments[0].Daily = climate.Cycle{Temperature: 12, Peak: afternoon}
	calm, err := swung.Calm(carbonationEnergy)
	if err != nil {
		t.Fatal(err)
	}
	for want, l := range map[float64]climate.Lane{25: l, 22: swung, 22.0000001: calm} {
		c, err := l.Course()
		if err != nil {
			t.Fatal(err)
		}
		if got := c.MeanTo(day).Celsius(); math.Abs(got-want) > 1e-5 {
			t.Errorf("%g °C, want %g", got, want)
		}
	}
}

// TestShortLifeTellsHotStretch: a hot stretch after best-before is told.
func TestShortLifeTellsHotStretch(t *testing.T) {
	for life, want := range map[float64]bool{6 * day: true, 7.5 * day: true, 8 * day: false} {
		r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
			d.Brief.ShelfLife, d.Climate.HotTime, d.Climate.Hot = life, day, unit.Celsius(38)
		})
		w := strings.Join(figureOf(t, r, "shelf.pressure.max").Origin.Warnings, ";")
		if strings.Contains(w, quality.EstimatePrefix+": the hot stretch") != want {
			t.Errorf("%g d: %q", life/day, w)
		}
	}
}
