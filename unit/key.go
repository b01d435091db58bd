package unit

import (
	"slices"
	"strings"
	"unicode"
)

// plain maps the many ways to print one sign to one of them.
var plain = strings.NewReplacer(
	"µ", "u", "μ", "u", "º", "°", "˚", "°", "℃", "°C", "℉", "°F", "\u212a", "K", "㎥", "m3",
	"¹", "1", "²", "2", "³", "3", "⁰", "0", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-",
	"₂", "2", "−", "-", "–", "-", "‑", "-",
	"·", "*", "⋅", "*", "•", "*", "∙", "*", "×", "*", "^", "",
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", "[", "(", "]", ")", "″", `"`, "”", `"`, "''", `"`,
)

// formulas takes the digit out of a chemical formula, so that it is not read
// as an exponent.
var formulas = strings.NewReplacer(
	"CO2-eq", "COe", "CO2eq", "COe", "CO2e", "COe", "co2e", "COe", "CO2", "COt", "co2", "COt", "H2O", "HtO", "h2o", "HtO",
)

// words maps the spellings of a unit inside a compound to one of them. They
// are looked up as written, then in lower case.
var words = map[string]string{
	"day": "d", "days": "d", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "sec": "s", "secs": "s", "second": "s", "seconds": "s",
	"mins": "min", "minute": "min", "minutes": "min", "ml": "mL", "l": "L", "dl": "dL", "cl": "cL", "hl": "hL", "ccm": "cc",
	"liter": "L", "litre": "L", "liters": "L", "litres": "L", "inch": "in", "inches": "in", `"`: "in", "lbs": "lb",
	"pkg": "pack", "package": "pack", "packs": "pack", "bottle": "bottles", "b": "bottles", "piece": "pieces", "pc": "pieces", "pcs": "pieces", "thousand": "1000",
	"celsius": "°C", "degc": "°C", "fahrenheit": "°F", "degf": "°F", "°c": "°C", "°f": "°F", "deg": "°", "degree": "°", "degrees": "°",
	"barg": "bar(g)", "bara": "bar(a)", "mbarg": "mbar(g)", "mbara": "mbar(a)", "psig": "psi(g)", "psia": "psi(a)",
	"kpag": "kPa(g)", "kpaa": "kPa(a)", "pag": "Pa(g)", "paa": "Pa(a)",
	"MPag": "MPa(g)", "MPaa": "MPa(a)", "eur": "EUR", "nl": "NL", "btu": "BTU", "barrer": "Barrer",
}

// reference maps the word behind a pressure to gauge or absolute.
var reference = map[string]string{
	"g": "(g)", "gauge": "(g)", "gage": "(g)", "a": "(a)", "abs": "(a)", "absolute": "(a)",
}

func isPressure(atom string) bool {
	switch lowerButM(atom) {
	case "bar", "mbar", "psi", "pa", "kpa", "Mpa", "hpa", "atm", "inhg", "mmhg":
		return true
	}
	return false
}

// word returns the common spelling of an atom.
func word(atom string) string {
	if w, ok := words[atom]; ok {
		return w
	}
	if w, ok := words[strings.ToLower(atom)]; ok && !strings.HasPrefix(atom, "M") {
		return w
	}
	return atom
}

// factor is one atom of a compound unit with its exponent.
type factor struct {
	atom string
	exp  string // "" for one
	over bool   // behind a slash
}

// key returns a form of a unit's spelling that is the same for all ways to
// write it: the atoms with their exponents, sorted. Separators, order and
// brackets leave no trace; what follows the first slash is the denominator.
// With loose set the case of the letters leaves no trace either, except for a
// capital M, for mPa and MPa differ by 10⁹.
func key(name string, loose bool) string {
	fs := factors(formulas.Replace(plain.Replace(name)))
	parts := make([]string, 0, len(fs))
	for _, f := range fs {
		exp := f.exp
		if f.over {
			if inner, negative := strings.CutPrefix(exp, "-"); negative {
				exp = inner
			} else if exp == "" {
				exp = "-1"
			} else {
				exp = "-" + exp
			}
		}
		atom := f.atom
		switch {
		case atom == "°C" && strings.HasPrefix(exp, "-"):
			atom = "K" // per degree
		case atom == "cm" && (exp == "3" || exp == "-3"):
			atom, exp = "cc", strings.TrimSuffix(exp, "3")
			if exp == "-" {
				exp = "-1"
			}
		}
		if exp == "1" {
			exp = ""
		}
		if loose {
			atom = lowerButM(atom)
		}
		parts = append(parts, atom+"^"+exp)
	}
	if len(parts) > 1 {
		parts = slices.DeleteFunc(parts, func(p string) bool { return p == "1^" }) // 1/s is s⁻¹
	}
	slices.Sort(parts)
	return strings.Join(parts, " ")
}

// wellFormed tells whether signs stand between factors only and every bracket
// is closed: "-mL", ")mL(" and ".mL" are no units.
func wellFormed(name string) bool {
	s := strings.TrimSpace(plain.Replace(name))
	if s == "" || strings.ContainsRune("-*.)", rune(s[0])) || strings.ContainsRune("-*/(", rune(s[len(s)-1])) {
		return false
	}
	open := 0
	before := byte(0)
	for i := range len(s) {
		c := s[i]
		switch c {
		case '(':
			open++
		case ')':
			if open--; open < 0 || before == '(' {
				return false
			}
		case '*', '/', '-':
			if before == '*' || before == '/' || before == '-' || before == '(' {
				return false
			}
		}
		if c != ' ' {
			before = c
		}
	}
	return open == 0
}

func lowerButM(s string) string {
	return strings.Map(func(r rune) rune {
		if r == 'M' {
			return r
		}
		return unicode.ToLower(r)
	}, s)
}

// factors splits a spelling with plain signs into its factors.
func factors(s string) []factor {
	var out []factor
	over := false
	for i := 0; i < len(s); {
		r := s[i]
		switch {
		case r == '/':
			over = true
			i++
		case isDigit(r):
			n := numberToken(s[i:])
			out = append(out, factor{atom: s[i : i+n], over: over})
			i += n
		case isAtom(r):
			n := i
			for n < len(s) && isAtom(s[n]) {
				n++
			}
			atom := word(s[i:n])
			i = n
			if atom == "per" {
				over = true
				continue
			}
			if (atom == "of" || atom == "COt") && len(out) > 0 {
				continue // "volumes of CO2"
			}
			exp := ""
			atom, i = suffix(atom, s, i)
			if i < len(s) && (isDigit(s[i]) || s[i] == '-' && i+1 < len(s) && isDigit(s[i+1])) {
				n := i + 1
				for n < len(s) && isDigit(s[n]) {
					n++
				}
				exp, i = s[i:n], n
				atom, i = suffix(atom, s, i) // cm³(STP)
			}
			out = join(out, factor{atom, exp, over})
		default: // separators, brackets
			i++
		}
	}
	return out
}

// suffix reads a bracket that belongs to the atom: bar(g), cc(STP).
func suffix(atom, s string, i int) (string, int) {
	if i >= len(s) || s[i] != '(' {
		return atom, i
	}
	end := strings.IndexByte(s[i:], ')')
	if end < 0 {
		return atom, i
	}
	inner := strings.ToLower(strings.TrimSpace(s[i+1 : i+end]))
	if inner == "stp" {
		return atom, i + end + 1
	}
	if ref, ok := reference[inner]; ok && isPressure(atom) {
		return atom + ref, i + end + 1
	}
	return atom, i
}

// join appends a factor, or makes one atom of it and the last where the trade
// writes one unit in two words.
func join(out []factor, f factor) []factor {
	if len(out) == 0 {
		return append(out, f)
	}
	last := &out[len(out)-1]
	if last.exp != "" || last.over != f.over {
		return append(out, f)
	}
	switch {
	case isPressure(last.atom) && f.exp == "" && reference[strings.ToLower(f.atom)] != "":
		last.atom += reference[strings.ToLower(f.atom)]
	case last.atom == "°" && strings.EqualFold(f.atom, "C"), last.atom == "°" && f.atom == "°C":
		last.atom, last.exp = "°C", f.exp
	case last.atom == "°" && strings.EqualFold(f.atom, "F"), last.atom == "°" && f.atom == "°F":
		last.atom, last.exp = "°F", f.exp
	case f.atom == "COe":
		last.atom, last.exp = last.atom+"COe", f.exp
	case strings.EqualFold(f.atom, "STP"):
	default:
		return append(out, f)
	}
	return out
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// isAtom tells whether a byte belongs to the name of a unit: all but digits,
// brackets and the signs that stand between factors.
func isAtom(b byte) bool {
	switch b {
	case ' ', '*', '.', '-', '/', '(', ')':
		return false
	}
	return !isDigit(b)
}

// numberToken returns the length of the number s begins with: "100", "0.21",
// "1e-6", "10-6".
func numberToken(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	if n+1 < len(s) && s[n] == '.' && isDigit(s[n+1]) {
		n++
		for n < len(s) && isDigit(s[n]) {
			n++
		}
	}
	m := n
	if m < len(s) && (s[m] == 'e' || s[m] == 'E') {
		m++
	}
	if m < len(s) && s[m] == '-' && m+1 < len(s) && isDigit(s[m+1]) {
		m++
		for m < len(s) && isDigit(s[m]) {
			m++
		}
		return m
	}
	return n
}
