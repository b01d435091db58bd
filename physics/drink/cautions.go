package drink

import (
	"fmt"

	"costrel/unit"
)

// Cautions returns what to tell those who handle packs of this drink, warm up
// to the given temperature. Texts are advice of common practice, not limits of
// any standard; a still drink in a cool lane gets none.
func Cautions(d Drink, warmest unit.Temperature) []string {
	var out []string
	if d.Carbonation > 0 {
		out = append(out,
			"A carbonated pack is a charged vessel; at ‹40 °C› it holds about twice the pressure of ‹20 °C›. "+
				"Chill before opening, vent slowly, degas before cutting. A closure can fly off: keep faces away and use a shield.")
	}
	if v := Volumes(d.Carbonation); v > 4.2 {
		out = append(out, fmt.Sprintf(
			"Carbonation of %.2f volumes is above 4.2: check bottle, closure and relief for the warmest lane before filling.", v))
	}
	if d.Carbonation > 0 && warmest > 318.15 {
		out = append(out, fmt.Sprintf(
			"A lane at ‹%.0f °C› is above ‹45 °C›: store carbonated packs below ‹30 °C› and out of the sun.", warmest.Celsius()))
	}
	if d.Carbonation > 0 && d.Sugar > 0 {
		out = append(out,
			"Sugar without a preservative or heat treatment can ferment and raise the pressure far above the computed one.")
	}
	return out
}
