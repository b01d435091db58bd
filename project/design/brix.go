package design

import (
	"regexp"
	"strconv"
	"strings"

	"costrel/physics/drink"
	"costrel/unit"
)

var degreesBrix = regexp.MustCompile(`^([0-9.]+)\s*(?:°|º|deg(?:rees)?|degrees)?\s*(?i:bx|brix)\.?$`)

// brix returns the grams of sugar in a litre at 20 °C that degrees Brix stand
// for; ok is false for any other text and beyond what the density is known for.
func brix(text string) (grams string, ok bool) {
	m := degreesBrix.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return "", false
	}
	w, err := strconv.ParseFloat(m[1], 64)
	if err != nil || w <= 0 || w/100 > drink.MaxSugar {
		return "", false
	}
	return unit.Format(unit.Concentration, drink.SugarConcentration(w/100), "g/L", 4) + ", the same sugar at 20 °C", true
}
