package run

import (
	"math"
	"testing"
)

// The virtual tests find the same whether plots are asked for or not: a calibration,
// which asks for none, fits what the board shows.
func TestStrengthKnowsNoPlots(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "returnable-1000")
	var value [2]map[string]float64
	for i, drawn := range []bool{false, true} {
		w := work{ctx: t.Context(), full: true, even: true, drawn: drawn, until: "strength"}
		value[i] = map[string]float64{}
		for _, f := range evaluate(d, w, NewCache(64))["strength"].figures {
			value[i][f.Key] = f.Value
		}
	}
	if len(value[0]) < 15 || len(value[0]) != len(value[1]) {
		t.Fatalf("%d figures without plots, %d with", len(value[0]), len(value[1]))
	}
	for key, x := range value[0] {
		if y := value[1][key]; math.Abs(x-y) > 1e-9*math.Abs(y) {
			t.Errorf("%s %g without plots, %g with", key, x, y)
		}
	}
}
