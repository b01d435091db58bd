package run

import (
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// TestCautionThresholds walks over each threshold of the cautions.
func TestCautionThresholds(t *testing.T) {
	carbonation := func(vol float64) func(*design.Design) {
		return func(d *design.Design) { c := vol * unit.VolumeCO2; d.Drink.Carbonation = &c }
	}
	hot := func(c float64) func(*design.Design) {
		return func(d *design.Design) { d.Climate.Hot = unit.Celsius(c) }
	}
	fill := func(c float64) func(*design.Design) {
		return func(d *design.Design) { d.Drink.FillTemperature = unit.Celsius(c) }
	}
	for _, c := range []struct {
		name    string
		change  func(*design.Design)
		caution string
		want    bool
		why     string
	}{
		{"4.19 vol", carbonation(4.19), "overpressure", false, ""},
		{"4.21 vol", carbonation(4.21), "overpressure", true, "4.2 vol"},
		{"hot lane 44.9 °C", hot(44.9), "overpressure", false, ""},
		{"hot lane 45.1 °C", hot(45.1), "overpressure", true, "45 °C"},
		{"sugar", func(d *design.Design) { d.Drink.Sugar = 50 }, "overpressure", true, "preservative"},
		{"sugar, preserved", func(d *design.Design) { d.Drink.Sugar, d.Drink.Preservative = 50, true }, "overpressure", false, ""},
		{"still, sugar", func(d *design.Design) { d.Drink.Sugar, d.Drink.Carbonation = 50, nil }, "overpressure", true, "sugar without preservative"},
		{"still, no sugar", func(d *design.Design) { d.Drink.Carbonation = nil }, "overpressure", false, ""},
		{"all three", func(d *design.Design) { carbonation(4.3)(d); hot(46)(d); d.Drink.Sugar = 50 }, "overpressure", true, "carbonation above 4.2 vol; hottest stretch of the lane 46 °C, above 45 °C; sugar without preservative"},
		{"burst, carbonated", func(d *design.Design) { d.Limits = nil }, "burst", true, "3.6 vol"},
		{"burst, still", func(d *design.Design) { d.Drink.Carbonation, d.Limits = nil, nil }, "burst", false, ""},
		{"burst, limit", func(d *design.Design) {
			d.Drink.Carbonation, d.Limits = nil, []design.Limit{{Figure: "burst.pressure", Side: "min", Value: "5 bar(g)"}}
		}, "burst", true, "a limit on burst.pressure"},
		{"carbonated", func(*design.Design) {}, "charged", true, "3.6 vol"},
		{"0 vol", carbonation(0), "charged", false, ""},
		{"still", func(d *design.Design) { d.Drink.Carbonation = nil }, "charged", false, ""},
		{"fill 60 °C", fill(60), "hot", false, ""},
		{"fill 60.5 °C", fill(60.5), "hot", true, "fill temperature"},
		{"no nitrogen", func(*design.Design) {}, "nitrogen", false, ""},
		{"1 mg of nitrogen", func(d *design.Design) { d.Drink.Nitrogen = 1e-6 }, "nitrogen", true, "1 mg"},
		{"petaloid", func(*design.Design) {}, "caustic", true, ""},
		{"punt", func(d *design.Design) { d.Bottle.Base.Type = "punt" }, "caustic", false, ""},
		{"blown", func(*design.Design) {}, "air", true, "31.0 bar(g)"},
		{"not blown", func(d *design.Design) { d.Blow.High = 0 }, "air", false, ""},
		{"dropped", func(*design.Design) {}, "drop", true, "10 J and ends at 6.3 m/s"}, // √(2 · 9.80665 m/s² · 2 m) = 6.26 m/s, (0.48 + 0.05) kg · 9.80665 · 2 m = 10.4 J
	} {
		d := golden(t, "golden-carbonated.yaml").Design
		d.Drink.Sugar, d.Drink.Nitrogen = 0, 0
		c.change(d)
		found := false
		for _, x := range Cautions(d) {
			x = x.In(unit.EU)
			if x.Key == c.caution {
				found = true
				if !strings.Contains(x.Trigger, c.why) {
					t.Errorf("%s: caution %s because %q, want %q", c.name, x.Key, x.Trigger, c.why)
				}
			}
		}
		if found != c.want {
			t.Errorf("%s: caution %s is there: %t", c.name, c.caution, found)
		}
	}
}
