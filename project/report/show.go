package report

import (
	"math"
	"strings"

	"costrel/figure"
	"costrel/unit"
)

// Show prints an SI value of a kind in the reader's preferred unit. Prices
// carry the currency of the design.
func Show(k unit.Kind, si float64, sys unit.System, money string) string {
	return currency(unit.Show(k, si, sys), money)
}

// currency puts the design's currency in the place of the table's.
func currency(s, money string) string {
	if money == "" || money == "EUR" {
		return s
	}
	return strings.ReplaceAll(s, "EUR", money)
}

func siSymbol(k unit.Kind, money string) string { return currency(unit.SI(k), money) }

// changeKind is the kind in which a difference of two values is shown.
func changeKind(k unit.Kind) unit.Kind {
	switch k {
	case unit.TemperaturePoint:
		return unit.TemperatureChange
	case unit.PressureGauge, unit.PressureAbs:
		return unit.PressureChange
	}
	return k
}

// signed prints a difference with its sign.
func signed(k unit.Kind, si float64, sys unit.System, money string) string {
	s := Show(changeKind(k), math.Abs(si), sys, money)
	switch {
	case si > 0:
		return "+" + s
	case si < 0:
		return "−" + s
	}
	return s
}

// substitute puts the numbers of the inputs into the equation of a figure.
func substitute(f figure.Figure, sys unit.System, money string) string {
	eq := f.Origin.Equation
	if eq == "" {
		return ""
	}
	left, right, ok := strings.Cut(eq, "=")
	if !ok {
		return ""
	}
	var b strings.Builder
	rs := []rune(right)
	for i := 0; i < len(rs); {
		if !letter(rs[i]) {
			b.WriteRune(rs[i])
			i++
			continue
		}
		j := i
		for j < len(rs) && (letter(rs[j]) || digit(rs[j]) || rs[j] == '_') {
			j++
		}
		word := string(rs[i:j])
		done := false
		for _, in := range f.Origin.Inputs {
			if in.Symbol == word {
				b.WriteString(Show(in.Kind, in.Value, sys, money))
				done = true
				break
			}
		}
		if !done {
			b.WriteString(word)
		}
		i = j
	}
	return strings.TrimSpace(left) + " =" + b.String() + " → " + Show(f.Kind, f.Value, sys, money)
}

func letter(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= 'α' && r <= 'ω' || r == 'Σ' || r == 'Δ'
}
func digit(r rune) bool { return r >= '0' && r <= '9' }
