package unit

import (
	"math"
	"strconv"
	"strings"
)

// Format prints an SI value in the named unit with the given significant
// digits, 1 to 17; with digits 0 it prints the shortest text that keeps the
// value. Trailing zeros fall away. Below 1e-4 and from 1e7 the number has an
// exponent. [Parse] reads the text back.
//
// An unknown unit, or a value too large for it, is printed in the SI unit; a
// value that is not finite is printed "n/a".
func Format(k Kind, si float64, symbol string, digits int) string {
	u, ok := Find(k, symbol)
	if !ok {
		u = siUnit(k)
	}
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return "n/a"
	}
	v := fromSI(u, si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		u = siUnit(k)
		v = si
	}
	return withSymbol(decimal(v, digits), u.Symbol)
}

// Show prints an SI value in the preferred unit with four significant digits,
// and all digits before the point of a number below 1e7. Millimetres have at
// most three decimals and temperatures at most two.
func Show(k Kind, si float64, s System) string {
	u, ok := Find(k, Preferred(k, s))
	if !ok {
		u = siUnit(k)
	}
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return "n/a"
	}
	v := fromSI(u, si)
	return Format(k, si, u.Symbol, showDigits(k, u.Symbol, v))
}

// showDigits returns the significant digits with which Show prints v.
func showDigits(k Kind, symbol string, v float64) int {
	const usual = 4
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return usual
	}
	whole := int(math.Floor(math.Log10(math.Abs(v)))) + 1 // digits before the point
	digits := usual
	if whole > digits && whole <= 7 {
		digits = whole
	}
	decimals, least := 0, 2
	switch {
	case k == Length && symbol == "mm":
		decimals = 3
	case k == TemperaturePoint:
		decimals, least = 2, 1
	default:
		return digits
	}
	return max(min(digits, whole+decimals), least)
}

func siUnit(k Kind) Unit {
	u, ok := Find(k, SI(k))
	if !ok {
		return Unit{Scale: 1}
	}
	return u
}

func withSymbol(number, symbol string) string {
	switch symbol {
	case "":
		return number
	case "°":
		return number + symbol
	}
	return number + " " + symbol
}

// decimal prints v with the given significant digits without trailing zeros.
func decimal(v float64, digits int) string {
	if v == 0 {
		return "0"
	}
	digits = min(digits, 17)
	if digits < 1 {
		digits = 0
	}
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(v, 'e', digits-1, 64), "e")
	exp, _ := strconv.Atoi(power) // FormatFloat wrote it
	sign := ""
	if strings.HasPrefix(mantissa, "-") {
		sign, mantissa = "-", mantissa[1:]
	}
	d := strings.TrimRight(strings.Replace(mantissa, ".", "", 1), "0")
	switch {
	case exp < -4 || exp >= 7:
		out := sign + d[:1]
		if len(d) > 1 {
			out += "." + d[1:]
		}
		return out + "e" + strconv.Itoa(exp)
	case exp < 0:
		return sign + "0." + strings.Repeat("0", -exp-1) + d
	case len(d) <= exp+1:
		return sign + d + strings.Repeat("0", exp+1-len(d))
	}
	return sign + d[:exp+1] + "." + d[exp+1:]
}

// wholeInverse returns 1/scale where it is a whole number, else 0.
func wholeInverse(scale float64) float64 {
	if scale >= 1 || scale <= 0 {
		return 0
	}
	inv := math.Round(1 / scale)
	if inv < 1<<53 && 1/inv == scale {
		return inv
	}
	return 0
}
