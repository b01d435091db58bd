package unit

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// The size that a number may have, as written and in SI. Zero is allowed.
const (
	smallest = 1e-200
	largest  = 1e200
)

// minusSigns are read as a minus.
var minusSigns = []string{"-", "−", "–"}

// numberLength returns how many bytes of s belong to the number it begins
// with: sign, digits, a decimal point, and an exponent e-6 or ×10⁻⁶. It is 0
// where no number stands.
func numberLength(s string) int {
	n := signLength(s)
	digits := 0
	for n < len(s) && isDigit(s[n]) {
		n, digits = n+1, digits+1
	}
	if n < len(s) && s[n] == '.' {
		m := n + 1
		for m < len(s) && isDigit(s[m]) {
			m, digits = m+1, digits+1
		}
		if m > n+1 || digits > 0 && (m == len(s) || s[m] == ' ') {
			n = m
		}
	}
	if digits == 0 {
		return 0
	}
	if n < len(s) && (s[n] == 'e' || s[n] == 'E') {
		m := n + 1 + signLength(s[n+1:])
		if m < len(s) && isDigit(s[m]) {
			for m < len(s) && isDigit(s[m]) {
				m++
			}
			return m
		}
	}
	if m := powerLength(s[n:]); m > 0 {
		return n + m
	}
	return n
}

func signLength(s string) int {
	for _, sign := range append([]string{"+"}, minusSigns...) {
		if strings.HasPrefix(s, sign) {
			return len(sign)
		}
	}
	return 0
}

var superscripts = strings.NewReplacer(
	"⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9", "⁻", "-", "⁺", "+",
)

// powerLength returns the bytes of a power of ten such as "×10⁻⁶" or
// " x 10^-6" that s begins with. The exponent must be raised or follow "^".
func powerLength(s string) int {
	rest := strings.TrimLeft(s, " ")
	ok := false
	for _, times := range []string{"×", "x", "*", "·"} {
		if r, cut := strings.CutPrefix(rest, times); cut {
			rest, ok = strings.TrimLeft(r, " "), true
			break
		}
	}
	if !ok {
		return 0
	}
	rest, ok = strings.CutPrefix(rest, "10")
	if !ok {
		return 0
	}
	if r, cut := strings.CutPrefix(rest, "^"); cut {
		n := signLength(r)
		m := n
		for m < len(r) && isDigit(r[m]) {
			m++
		}
		if m == n {
			return 0
		}
		return len(s) - len(r) + m
	}
	end, digits := 0, 0
	for i, c := range rest {
		if !strings.ContainsRune("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", c) || (c == '⁻' || c == '⁺') && i > 0 {
			break
		}
		end = i + len(string(c))
		if c != '⁻' && c != '⁺' {
			digits++
		}
	}
	if digits == 0 {
		return 0
	}
	return len(s) - len(rest) + end
}

// number reads the text that numberLength has measured.
func number(s string) (float64, error) {
	for _, sign := range minusSigns {
		s = strings.ReplaceAll(s, sign, "-")
	}
	mantissa, power, _ := strings.Cut(s, "10^")
	if power == "" {
		for _, times := range []string{"×", "x", "*", "·"} {
			if m, p, ok := strings.Cut(s, times); ok {
				mantissa, power = m, superscripts.Replace(strings.TrimPrefix(strings.TrimSpace(p), "10"))
				break
			}
		}
	}
	if power != "" {
		s = strings.TrimRight(mantissa, " ×x*·") + "e" + power
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		if errors.Is(err, strconv.ErrRange) {
			return 0, errors.New("is too large")
		}
		return 0, errors.New("is not a number")
	}
	if v == 0 && strings.ContainsAny(strings.SplitN(strings.ToLower(s), "e", 2)[0], "123456789") {
		return 0, errors.New("is too small")
	}
	return v, inSize(v)
}

// inSize refuses what is not finite or so large or small that a conversion
// could overflow.
func inSize(v float64) error {
	switch a := math.Abs(v); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return errors.New("is not a finite number")
	case a > largest:
		return errors.New("is too large")
	case a != 0 && a < smallest:
		return errors.New("is too small")
	}
	return nil
}

// numberFault names the remedy for what follows a number when it is the rest
// of a number written in another habit; "" when it is none.
func numberFault(num, rest string) string {
	if (num == "0" || num == "-0" || num == "+0") && len(rest) > 1 && (rest[0] == 'x' || rest[0] == 'X') {
		return "is a hexadecimal number: write it in decimals"
	}
	groups, seps := habit(num, rest)
	if len(seps) == 0 {
		return ""
	}
	joined := strings.Join(groups, "")
	last := len(groups) - 1
	mixed := false
	for _, s := range seps[1:] {
		mixed = mixed || s != seps[0]
	}
	switch {
	case mixed:
		// Thousands first, then the sign of the decimals: 1.500,5 and 1,500.5.
		for _, s := range seps[1 : len(seps)-1] {
			if s != seps[0] {
				return "mixes separators: write one number with a point before the decimals"
			}
		}
		if d := seps[len(seps)-1]; (d == "," || d == ".") && thousands(groups[:last]) {
			return "has separators: write " + strings.Join(groups[:last], "") + "." + groups[last] + " without them"
		}
		return "mixes separators: write one number with a point before the decimals"
	case seps[0] == "," && len(seps) == 1:
		if thousands(groups) {
			return "has a comma: write " + groups[0] + "." + groups[1] + " with a point, or " + joined + " without a separator"
		}
		return "has a comma: write " + groups[0] + "." + groups[1] + " with a point"
	case seps[0] == " " && !thousands(groups):
		return ""
	case !thousands(groups):
		return "is not one number, it has " + count(len(seps)) + " " + signName(seps[0], len(seps)) + ": write it with one point before the decimals and no other separator"
	case seps[0] == ".":
		return "has " + count(len(seps)) + " points: write " + joined + " without separators"
	}
	return "has a separator: write " + joined + " without it"
}

// habit splits a number and the digits behind it at the signs that separate
// them: "1.500" and ",5 mL" are 1, 500, 5 with a point and a comma. Spaces of
// any width are one sign, and so are the two apostrophes.
func habit(num, rest string) (groups, seps []string) {
	groups = strings.Split(num, ".")
	for range groups[1:] {
		seps = append(seps, ".")
	}
	own := len(seps)
	for {
		sep, n := separator(rest)
		digits := 0
		for n+digits < len(rest) && n > 0 && isDigit(rest[n+digits]) {
			digits++
		}
		// A space separates groups of three alone: "5 10-6/K" is no number.
		end := n + digits
		if digits == 0 || sep == " " && (digits != 3 || end < len(rest) && rest[end] != ' ' && rest[end] != '.' && rest[end] != ',' && rest[end] < 0x80) {
			break
		}
		groups, seps = append(groups, rest[n:end]), append(seps, sep)
		rest = rest[end:]
	}
	if len(seps) == own {
		return groups, nil // nothing follows the number itself
	}
	return groups, seps
}

// separator returns the sign that s begins with and its bytes; 0 for none.
func separator(s string) (string, int) {
	for _, c := range []struct{ written, sign string }{
		{",", ","}, {".", "."}, {"'", "'"}, {"’", "'"}, {"_", "_"}, {" ", " "}, {"\u00a0", " "}, {"\u2009", " "}, {"\u202f", " "},
	} {
		if strings.HasPrefix(s, c.written) {
			return c.sign, len(c.written)
		}
	}
	return "", 0
}

// thousands tells whether the groups are a number with its thousands set
// apart: one to three digits, no zero in front, then groups of three.
func thousands(groups []string) bool {
	first := groups[0][signLength(groups[0]):]
	if len(first) == 0 || len(first) > 3 || first[0] == '0' {
		return false
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

func count(n int) string {
	switch n {
	case 1:
		return "one"
	case 2:
		return "two"
	}
	return strconv.Itoa(n)
}

// signName returns the word for n separators of a kind.
func signName(sep string, n int) string {
	name := map[string]string{".": "point", ",": "comma", "'": "apostrophe", "_": "underscore"}[sep]
	if n > 1 {
		name += "s"
	}
	return name
}
