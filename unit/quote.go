package unit

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// Quote writes an SI value into a sentence so that whoever prints the sentence
// for a reader can put it in the reader's unit with [Spell]: value, significant
// digits (1 to 17) and kind in a mark such as ‹0.0125|3|length›. Where the
// preferred units of the kind are not the ones to print, those of the EU and the
// US follow.
//
// A number that stands in the sentence already, with its EU unit, is marked
// without Quote: ‹12.5 mm›, or "‹%.1f mm›" in a format. Several numbers of one unit
// stand in one mark: ‹0..20 bar›, ‹3 to 6 mm›. K is a difference of temperatures
// there.
func Quote(k Kind, si float64, digits int, euUS ...string) string {
	part := append([]string{strconv.FormatFloat(si, 'g', digits+2, 64), strconv.Itoa(digits), string(k)}, euUS...)
	return "‹" + strings.Join(part, "|") + "›"
}

const (
	digits  = `(?:[+\-−]?[0-9]+(?:\.[0-9]+)?(?:e[+-]?[0-9]+)?|NaN|[+-]Inf)`
	between = `(?:, | and | to | ?\.\. ?)`
)

var (
	quoted  = regexp.MustCompile(`‹([^‹›|]+)\|([0-9]{1,2})\|([^‹›|]+)(?:\|([^‹›|]+)\|([^‹›|]+))?›`)
	written = regexp.MustCompile(`‹(` + digits + `(?:` + between + digits + `)*)(?: ([^‹›|]*))?›`)
	one     = regexp.MustCompile(digits)
)

// Spell returns a sentence with every mark of [Quote] as a number with the
// unit of the system. What is no such mark stays.
func Spell(text string, s System) string {
	if !strings.Contains(text, "‹") {
		return text
	}
	text = quoted.ReplaceAllStringFunc(text, func(mark string) string {
		part := quoted.FindStringSubmatch(mark)
		si, err := strconv.ParseFloat(part[1], 64)
		digits, _ := strconv.Atoi(part[2]) // at most two figures
		k := Kind(part[3])
		symbol := Shown(k, part[4], part[5], s)
		if symbol == "" {
			symbol = Preferred(k, s)
		}
		if err != nil || symbol == "" {
			return mark
		}
		return Format(k, si, symbol, digits)
	})
	return written.ReplaceAllStringFunc(text, func(mark string) string {
		part := written.FindStringSubmatch(mark)
		k, known := kindOf()[part[2]]
		to, okTo := Find(k, Shown(k, part[2], besideEU(k, part[2]), s))
		from, okFrom := Find(k, part[2])
		if !known || !okTo || !okFrom || to.Symbol == part[2] {
			return strings.TrimSpace(strings.Trim(mark, "‹›"))
		}
		return one.ReplaceAllStringFunc(part[1], func(n string) string {
			v, err := strconv.ParseFloat(strings.Replace(n, "−", "-", 1), 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				return n
			}
			return decimal(fromSI(to, toSI(from, v)), digitsIn(n))
		}) + " " + to.Symbol
	})
}

// besideEU returns the unit that a reader of US units sees in the place of one that
// a sentence was written with.
func besideEU(k Kind, symbol string) string {
	switch {
	case k == Length && symbol == "m":
		return "ft" // altitudes, and heights of drops
	case k == PressureChange && symbol == "kPa":
		return "inHg" // vacuums
	case Preferred(k, EU) == Preferred(k, US):
		return symbol
	}
	return Preferred(k, US)
}

// digitsIn returns the significant digits with which a number is converted that
// was written with few: one more, so that 4 mm are not 0.2 in.
func digitsIn(number string) int {
	mantissa, _, _ := strings.Cut(strings.TrimLeft(number, "+-−"), "e")
	n := len(strings.TrimLeft(strings.Replace(mantissa, ".", "", 1), "0"))
	if n < 4 {
		n++
	}
	return max(n, 2)
}

// kindOf returns the kind that a unit stands for in a sentence: the first that has
// it, those with a unit of their own in the US before the others; K is a difference.
var kindOf = sync.OnceValue(func() map[string]Kind {
	out := map[string]Kind{"K": TemperatureChange}
	for _, differs := range []bool{true, false} {
		for _, e := range entries() {
			for _, u := range e.units {
				if _, taken := out[u.Symbol]; !taken && u.Symbol != "" && differs == (e.eu != e.us) && (u.Symbol == e.eu || Metric(u.Symbol) || !differs) {
					out[u.Symbol] = e.kind
				}
			}
		}
	}
	return out
})

// Metric reports whether a unit of the table is one of the metric system.
func Metric(symbol string) bool {
	head, _, _ := strings.Cut(strings.TrimSuffix(strings.TrimSuffix(symbol, "(g)"), "(a)"), "/")
	switch head {
	case "mm", "µm", "cm", "m", "nm", "mm²", "cm²", "m²", "mm³", "cm³", "m³", "mL", "cL", "dL", "L", "hL",
		"bar", "mbar", "Pa", "kPa", "MPa", "GPa", "N", "kN", "N·m", "°C", "K", "J", "kJ", "MJ", "NL", "Nm³":
		return true
	}
	return false
}
