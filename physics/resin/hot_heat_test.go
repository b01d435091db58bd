package resin

import (
	"math"
	"testing"
)

func TestHeatContentInverts(t *testing.T) {
	for T := 255.0; T < 595; T += 3.7 {
		if got := TemperatureOf(HeatContent(T)); math.Abs(got-T) > 1e-9 {
			t.Errorf("at %g K: %g K", T, got)
		}
	}
	if c := (HeatContent(380.001) - HeatContent(379.999)) / 0.002; math.Abs(c/HeatSlope(380)-1) > 1e-6 {
		t.Errorf("slope %g, capacity %g", c, HeatSlope(380))
	}
}
