package resin

import (
	"fmt"

	"costrel/unit"
)

// Range in which the stiffness of a warm wall is known.
const (
	warmMin  = -10.0 // °C, refused below
	warmRef  = 23.0  // °C, where the moduli of this package hold
	warmCold = 15.0  // °C, warned below
	warmMax  = 80.0  // °C, refused above
)

type warmPoint struct{ celsius, factor float64 }

// Relative stiffness of a stretched wall; from memory, low confidence.
var (
	warmPlain   = [...]warmPoint{{23, 1}, {38, 0.93}, {50, 0.85}, {60, 0.75}, {70, 0.50}, {80, 0.15}}
	warmHeatSet = [...]warmPoint{{23, 1}, {38, 0.93}, {50, 0.85}, {60, 0.75}, {80, 0.50}}
)

// RelativeModulus returns the modulus of a stretched wall at a temperature
// over its modulus at 23 °C: 1.0, 0.93, 0.85, 0.75, 0.50, 0.15 at 23, 38, 50,
// 60, 70, 80 °C, straight between. A heat-set wall keeps 0.50 at 80 °C.
//
// Below 23 °C it answers 1, which is a little low (safe for growth and top
// load), and says so below 15 °C; outside -10..80 °C it refuses. The values
// are from memory with low confidence: the knee between 60 and 75 °C is sure,
// its exact place is not. Source: CommonPractice.
func RelativeModulus(t unit.Temperature, heatSet bool) (float64, []string, error) {
	c := t.Celsius()
	if !(c >= warmMin && c <= warmMax) {
		return 0, nil, fmt.Errorf("resin: modulus: temperature ‹%.1f °C› outside ‹%g..%g °C›", c, warmMin, warmMax)
	}
	var warn []string
	if c < warmCold {
		warn = append(warn, fmt.Sprintf("modulus at ‹%.1f °C› taken as at ‹23 °C›: no value known below ‹%g °C›, the wall is somewhat stiffer", c, warmCold))
	}
	if c >= 60 {
		warn = append(warn, fmt.Sprintf("modulus at ‹%.1f °C› lies on the steep part of the softening curve: a few degrees change it by half", c))
	}
	table := warmPlain[:]
	if heatSet {
		table = warmHeatSet[:]
	}
	if c <= warmRef {
		return 1, warn, nil
	}
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		if c <= b.celsius {
			return a.factor + (b.factor-a.factor)*(c-a.celsius)/(b.celsius-a.celsius), warn, nil
		}
	}
	return table[len(table)-1].factor, warn, nil
}
