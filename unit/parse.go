package unit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Value is a parsed quantity: its SI value and the unit it was written in.
type Value struct {
	SI     float64
	Kind   Kind
	Symbol string // canonical symbol of the unit it was written in
}

// Unit is one accepted unit of a kind: SI = value*Scale + Offset.
type Unit struct {
	Symbol  string   `json:"symbol"`  // canonical, as printed
	Aliases []string `json:"aliases"` // also accepted
	Scale   float64  `json:"scale"`
	Offset  float64  `json:"offset"`
}

// ParseError says why a text is not a quantity of the kind.
type ParseError struct {
	Text     string
	Kind     Kind
	Why      string   // what is wrong, to be read behind the text
	Accepted []string // the units that would do; nil where the unit is not the fault
}

// Error returns one line with the text, the fault and the remedy.
func (e *ParseError) Error() string {
	text := e.Text
	if len(text) > 60 {
		text = strings.ToValidUTF8(text[:60], "") + "..."
	}
	line := strconv.Quote(text) + " " + e.Why
	if len(e.Accepted) > 0 {
		names := slices.Clone(e.Accepted)
		for i, n := range names {
			if n == "1" {
				names[i] = "1 for a part of one, as in 0.25 1"
			}
		}
		line += ": " + orList(names)
	}
	return line
}

func orList(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

// fullVacuum is the share of the standard atmosphere down to which a gauge
// pressure is full vacuum, rounded: -14.7 psi(g) is 14.696 psi.
const fullVacuum = 1.0003

// longest is the length of text that Parse looks at [bytes].
const longest = 200

// Parse reads a number with a unit of the given kind, such as "28 mm",
// "9.5 bar(g)" or "71.4 EUR/1000". Spelling is free within reason: spaces,
// the sign between factors, ² or 2, brackets, full words of the common units.
// A count and a ratio are written bare; every other kind needs its unit.
//
// The error is a [*ParseError]. Refused are numbers with a decimal comma or
// separators, hexadecimal, NaN and infinite numbers, sizes outside
// 1e-200..1e200, a gauge unit for an absolute pressure or the reverse, a
// pressure that says neither where it matters, and what lies below absolute
// zero or vacuum.
func Parse(k Kind, text string) (Value, error) {
	fail := func(why string, units bool) (Value, error) {
		e := &ParseError{Text: text, Kind: k, Why: why}
		if units {
			e.Accepted = Accepted(k)
		}
		return Value{}, e
	}
	if _, ok := table().byKind[k]; !ok {
		return fail(fmt.Sprintf("cannot be read: there is no quantity %q", string(k)), false)
	}
	if len(text) > longest {
		return fail(fmt.Sprintf("is longer than %d bytes", longest), false)
	}
	s := strings.TrimSpace(text)
	if hasMoney(k) {
		s = currencyFirst(s)
	}
	if s == "" {
		return fail(fmt.Sprintf("is empty: write a number for %s%s", k, inUnit(k)), true)
	}
	n := numberLength(s)
	if n == 0 {
		if why := fractionFault(s); why != "" {
			return fail(why, false)
		}
		return fail(noNumber(s, k), false)
	}
	num, rest := s[:n], strings.TrimSpace(s[n:])
	v, err := number(num)
	if err != nil {
		return fail(err.Error(), false)
	}
	u, ok := Unit{}, false
	if rest == "" {
		if u, ok = bare(k); !ok {
			return fail("needs a unit for "+string(k), true)
		}
	} else if u, ok = Find(k, rest); !ok {
		for _, why := range []string{fractionFault(s), numberFault(num, s[n:])} {
			if why != "" {
				return fail(why, false)
			}
		}
		return fail(wrongUnit(k, rest), !isBare(k))
	}
	si := toSI(u, v)
	if err := inSize(si); err != nil {
		return fail(err.Error()+" in "+SI(k), false)
	}
	if si < 0 && k == TemperaturePoint {
		return fail("is below absolute zero", false)
	}
	if si < 0 && k == PressureAbs {
		return fail("is below vacuum; an absolute pressure is not negative", false)
	}
	if vacuum := -float64(Atm); k == PressureGauge && si < vacuum {
		if si < vacuum*fullVacuum {
			return fail("is below vacuum, which is "+Format(k, vacuum, u.Symbol, 6)+" at sea level", false)
		}
		si = vacuum
	}
	return Value{SI: si, Kind: k, Symbol: u.Symbol}, nil
}

// isBare tells whether a kind is written without a unit.
func isBare(k Kind) bool { return k == Count || k == Ratio }

func bare(k Kind) (Unit, bool) {
	if !isBare(k) {
		return Unit{}, false
	}
	return Find(k, "")
}

func inUnit(k Kind) string {
	if isBare(k) {
		return ""
	}
	return " with its unit"
}

func noNumber(s string, k Kind) string {
	switch strings.ToLower(strings.TrimLeft(s, "+-")) {
	case "nan", "inf", "infinity", "∞":
		return "is not a finite number"
	}
	if t := s[signLength(s):]; len(t) > 1 && t[0] == ',' && isDigit(t[1]) {
		return "has a decimal comma: write 0." + t[1:1+numberLength(t[1:])] + " with a point"
	}
	if r, _ := utf8.DecodeRuneInString(s); strings.ContainsRune("<>≤≥", r) && s != "" {
		return "bounds the value and does not give it: write the number itself, or leave the value out"
	}
	return "does not begin with a number for " + string(k)
}

// wrongUnit explains a unit that the kind does not have. The accepted units
// follow it.
func wrongUnit(k Kind, name string) string {
	if isBare(k) {
		return fmt.Sprintf("has a unit: a %s is a bare number", k)
	}
	has := func(o Kind) bool {
		_, ok := Find(o, name)
		return ok
	}
	reading := has(PressureGauge) || has(PressureAbs)
	switch {
	case (k == PressureGauge || k == PressureAbs) && reading:
		other := PressureAbs
		if k == PressureAbs {
			other = PressureGauge
		}
		return fmt.Sprintf("is %s, and %s is wanted; the two differ by the ambient pressure, 1.01325 bar at sea level; accepted", article(other), article(k))
	case (k == PressureGauge || k == PressureAbs) && has(PressureChange):
		return fmt.Sprintf("must state gauge or absolute: bar(g) and psi(g) count from the ambient pressure, bar(a) and psi(a) from vacuum; accepted for %s", k)
	case (k == PressureChange || k == Stress) && reading:
		return fmt.Sprintf("states gauge or absolute, and %s is neither; accepted", article(k))
	}
	for _, o := range Kinds() {
		if u, ok := Find(o, name); ok && !isBare(o) {
			return fmt.Sprintf("is in %s, a unit of %s; accepted for %s", u.Symbol, o, k)
		}
	}
	return fmt.Sprintf("has the unknown unit %s for %s; accepted", strconv.Quote(name), k)
}

func article(k Kind) string {
	if strings.ContainsRune("aeiou", rune(k[0])) {
		return "an " + string(k)
	}
	return "a " + string(k)
}

// toSI returns the SI value of v in unit u. A scale that is one over a whole
// number is divided by that number, which rounds once: 28 mm is 0.028 m to the last
// bit.
func toSI(u Unit, v float64) float64 {
	if inv := wholeInverse(u.Scale); inv != 0 {
		return v/inv + u.Offset
	}
	return v*u.Scale + u.Offset
}

// fromSI returns the value in unit u of an SI value.
func fromSI(u Unit, si float64) float64 {
	if inv := wholeInverse(u.Scale); inv != 0 {
		return (si - u.Offset) * inv
	}
	return (si - u.Offset) / u.Scale
}
