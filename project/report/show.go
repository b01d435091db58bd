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
	if k == unit.Time {
		return unit.Format(k, si, timeUnit(si, sys), 4)
	}
	return currency(unit.Show(k, si, sys), money)
}

// timeUnit returns the unit in which a duration reads best, or the one that the
// reader chose where that is near it.
func timeUnit(si float64, sys unit.System) string {
	best := timeUnitOf(si)
	return unit.Shown(unit.Time, best, best, sys)
}

func timeUnitOf(si float64) string {
	switch s := math.Abs(si); {
	case s >= 14*86400:
		return "weeks"
	case s >= 2*86400:
		return "d"
	case s >= 2*3600:
		return "h"
	case s >= 120:
		return "min"
	}
	return "s"
}

// showIn prints an SI value in a named unit, or in the preferred one when none
// is named.
func showIn(k unit.Kind, symbol string, si float64, sys unit.System, money string) string {
	if symbol == "" {
		return Show(k, si, sys, money)
	}
	return currency(unit.Format(k, si, symbol, 4), money)
}

// inUnit returns the unit in which a figure is shown.
func inUnit(key string, sys unit.System) string {
	e, _ := figure.Find(key)
	return e.In(sys)
}

// unitBeside returns the unit in which an input of a figure is shown: its own,
// or that of the figure where both are of one kind; what is large for its kind
// stands in the unit for that, see [largeUnit].
func unitBeside(f figure.Figure, in figure.Input, sys unit.System) string {
	if u := largeUnit(in, sys); u != "" {
		return u
	}
	if u := inUnit(in.Key, sys); u != "" || in.Kind != f.Kind {
		return u
	}
	if in.Kind == unit.Time && math.Abs(in.Value) < math.Abs(f.Value)/50 {
		return "" // an hour among weeks
	}
	return inUnit(f.Key, sys)
}

// largeUnit returns the unit of a mass from 1 kg on, of an altitude and of a speed
// from 1 m/s on; empty for anything else.
func largeUnit(in figure.Input, sys unit.System) string {
	size := math.Abs(in.Value)
	switch {
	case in.Kind == unit.Mass && sys.Base() == unit.EU && size >= 1:
		return unit.Shown(in.Kind, "kg", "lb", sys)
	case in.Kind == unit.Length && (size >= 10 || strings.Contains(in.Key, "altitude")):
		return unit.Shown(in.Kind, "m", "ft", sys)
	case in.Kind == unit.Speed && size >= 1:
		if unit.Preferred(in.Kind, sys) == unit.Preferred(in.Kind, unit.US) {
			return "ft/s" // of a reader of in/s, by system or by choice
		}
		return unit.Shown(in.Kind, "m/s", "ft/s", sys)
	}
	return ""
}

// currency puts the design's currency in the place of the table's.
func currency(s, money string) string {
	if money == "" || money == "EUR" {
		return s
	}
	return strings.ReplaceAll(s, "EUR", money)
}

// siSymbol returns the SI unit of a kind; that of a bare number is 1.
func siSymbol(k unit.Kind, money string) string {
	if s := unit.SI(k); s != "" {
		return currency(s, money)
	}
	return "1"
}

// ChangeKind returns the kind in which a difference of two values is shown.
func ChangeKind(k unit.Kind) unit.Kind {
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
	return signedIn(k, "", si, sys, money)
}

func signedIn(k unit.Kind, symbol string, si float64, sys unit.System, money string) string {
	if ChangeKind(k) != k {
		symbol = ""
	}
	s := showIn(ChangeKind(k), symbol, math.Abs(si), sys, money)
	if number, percent := strings.CutSuffix(s, "%"); percent && k == unit.Fraction {
		s = number + "points" // a difference of two percentages
	}
	switch {
	case si > 0:
		return "+" + s
	case si < 0:
		return "−" + s
	}
	return s
}

// typed writes a printed difference with the minus of the keyboard, as values
// and per cents are printed on a terminal.
func typed(s string) string { return strings.ReplaceAll(s, "−", "-") }
