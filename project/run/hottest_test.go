package run

import (
	"strings"
	"testing"

	"costrel/project/design"
)

// A lane hotter than climate.hot rules the figures and the cautions, its daily
// swing included.
func TestHottest(t *testing.T) {
	const text = "schema: 1\nname: hot\nclass: csd-1500\n"
	load := func(more string) *Result {
		doc, err := design.Load("hot.yaml", text+more)
		if err != nil {
			t.Fatal(err)
		}
		return Check(doc, nil)
	}
	plain := figureOf(t, load(""), "pack.pressure.hot").Value
	r := load("climate:\n  lane:\n    columns: [place, duration, temperature, swing]\n    rows:\n      - [truck, 100 weeks, 42 °C, 8 K]\n")
	f := figureOf(t, r, "pack.pressure.hot")
	same := load("climate:\n  hot: 50 °C\n")
	want := figureOf(t, same, "pack.pressure.hot").Value
	if f.Value != want || !(want > plain) {
		t.Errorf("a lane up to 50 °C gives %g Pa, climate.hot 50 °C %g, the template %g", f.Value, want, plain)
	}
	if figureOf(t, r, "closure.lift").Value != figureOf(t, same, "closure.lift").Value {
		t.Error("the lift on the closure does not follow the lane")
	}
	for _, c := range r.Cautions {
		if c.Key == "overpressure" && strings.Contains(c.Trigger, "50 °C") {
			return
		}
	}
	t.Error("no caution for a lane of 50 °C")
}
