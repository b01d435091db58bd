package energy

import (
	"fmt"
	"math"
)

// Line is one consumer of a bottle. A credit, such as recovered air, is
// negative.
type Line struct {
	Key    string  // stable: "oven", "air", "air.recovered", "drives" ...
	Label  string  // in words
	Energy float64 // electric energy of one bottle [J]
	Low    float64 // range of Energy [J]; Low <= Energy <= High
	High   float64
	Source string // key of the source of the factor
	Note   string
}

// Exact returns a line without a range.
func Exact(key, label string, energy float64, source string) Line {
	return Line{Key: key, Label: label, Energy: energy, Low: energy, High: energy, Source: source}
}

// Factor returns the line of a quantity times a factor with a range, e.g.
// normal volume times work per normal volume. The quantity may be negative,
// for a credit; the factor may not.
func Factor(key, label string, quantity, value, low, high float64, source string) (Line, error) {
	if math.IsNaN(quantity) || math.IsInf(quantity, 0) {
		return Line{}, fmt.Errorf("energy: %s: quantity %g is not a number", key, quantity)
	}
	if !(low >= 0) || !(low <= value) || !(value <= high) || math.IsInf(high, 0) {
		return Line{}, fmt.Errorf("energy: %s: want 0 <= low <= value <= high, have %g, %g, %g", key, low, value, high)
	}
	l := Line{Key: key, Label: label, Energy: quantity * value, Low: quantity * low, High: quantity * high, Source: source}
	if quantity < 0 {
		l.Low, l.High = l.High, l.Low
	}
	return l, nil
}

// Sheet is the energy of one bottle, consumer by consumer.
type Sheet struct {
	Lines  []Line
	Energy float64 // total [J a bottle]
	Low    float64 // [J]; ranges of the lines added in quadrature
	High   float64
}

// Sum totals the lines. The ranges are taken as independent, so that their
// halves add in quadrature. A key that stands twice, a line that is not finite
// or a range that does not hold its value is an error.
func Sum(lines ...Line) (Sheet, error) {
	s := Sheet{Lines: append([]Line(nil), lines...)}
	seen := map[string]bool{}
	var down, up float64
	for _, l := range lines {
		switch {
		case l.Key == "":
			return Sheet{}, fmt.Errorf("energy: sum: a line without a key (%q)", l.Label)
		case seen[l.Key]:
			return Sheet{}, fmt.Errorf("energy: sum: line %s stands twice", l.Key)
		case !(math.Abs(l.Energy) <= 1e9):
			return Sheet{}, fmt.Errorf("energy: sum: line %s: ‹%g J› outside ‹-1e9..1e9 J›", l.Key, l.Energy)
		case !(l.Low <= l.Energy && l.Energy <= l.High) || !(math.Abs(l.Low) <= 1e9 && math.Abs(l.High) <= 1e9):
			return Sheet{}, fmt.Errorf("energy: sum: line %s: range ‹%g..%g J› does not hold ‹%g J›", l.Key, l.Low, l.High, l.Energy)
		}
		seen[l.Key] = true
		s.Energy += l.Energy
		down = math.Hypot(down, l.Energy-l.Low)
		up = math.Hypot(up, l.High-l.Energy)
	}
	s.Low, s.High = s.Energy-down, s.Energy+up
	return s, nil
}

// PerThousand returns the energy of 1000 bottles [J] from that of one.
func PerThousand(energy float64) float64 { return 1000 * energy }
