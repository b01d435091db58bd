package quality

import (
	"fmt"
	"math"
	"strings"

	"costrel/unit"
)

// Side says on which side of the limit a figure must stay.
type Side string

// The two sides.
const (
	Min Side = "min" // the figure must not fall below
	Max Side = "max" // the figure must not exceed
)

// Limit is one requirement on a figure. Limits are data: they differ by
// customer and carry who set them, where and when.
type Limit struct {
	Figure string    `json:"figure"` // key of the figure
	Side   Side      `json:"side"`
	Value  float64   `json:"value"` // SI
	Kind   unit.Kind `json:"quantity"`
	Unit   string    `json:"unit"` // display unit; empty = the preferred unit of the kind
	Owner  string    `json:"owner"`
	Source string    `json:"source"` // key in cite, a document, or "example"
	Date   string    `json:"date,omitempty"`
	Note   string    `json:"note,omitempty"`
}

// Margin returns how far inside the limit a value lies, SI; negative outside.
func (l Limit) Margin(value float64) float64 {
	if l.Side == Max {
		return l.Value - value
	}
	return value - l.Value
}

// slack is how far outside a value may be by rounding alone: a limit in inches
// beside a figure in millimetres is the same to six digits at best. Chosen for
// this project; no laboratory reads that fine.
func (l Limit) slack() float64 { return 1e-6 * math.Abs(l.Value) }

// Meets reports whether a value is on the right side of the limit. A value on
// the limit meets it, and so does one outside by a millionth of it.
func (l Limit) Meets(value float64) bool { return l.Margin(value) >= -l.slack() }

// Percent returns a margin in per cent of the limit; ok is false where that
// says nothing: a limit of zero, or a point on a temperature scale.
func (l Limit) Percent(margin float64) (percent float64, ok bool) {
	if l.Value == 0 || l.Kind == unit.TemperaturePoint {
		return 0, false
	}
	p := 100 * margin / math.Abs(l.Value)
	if math.IsInf(p, 0) || math.IsNaN(p) {
		return 0, false
	}
	return p, true
}

// InUnit returns a difference of two values of the limit's kind in the
// limit's unit, with the symbol of a difference: bar for bar(g), K for °C.
func (l Limit) InUnit(difference float64) (float64, string) {
	name := l.Unit
	if name == "" {
		name = unit.Preferred(l.Kind, unit.EU)
	}
	u, ok := unit.Find(l.Kind, name)
	if !ok || u.Scale == 0 {
		return difference, unit.SI(l.Kind)
	}
	symbol := strings.TrimSuffix(strings.TrimSuffix(u.Symbol, "(g)"), "(a)")
	if l.Kind == unit.TemperaturePoint && symbol == "°C" {
		symbol = "K"
	}
	return difference / u.Scale, symbol
}

// String returns the limit as one line: "bottle.height <= 310 mm".
func (l Limit) String() string {
	sign := ">="
	if l.Side == Max {
		sign = "<="
	}
	name := l.Unit
	if name == "" {
		name = unit.Preferred(l.Kind, unit.EU)
	}
	return fmt.Sprintf("%s %s %s", l.Figure, sign, unit.Format(l.Kind, l.Value, name, 4))
}
