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
	rest = strings.TrimLeft(rest, " \u00a0\u2009\u202f")
	if rest == "" {
		return ""
	}
	after := func(sep string) (int, bool) {
		r, ok := strings.CutPrefix(rest, sep)
		n := 0
		for n < len(r) && isDigit(r[n]) {
			n++
		}
		return n, ok && n > 0
	}
	if n, ok := after(","); ok {
		digits := rest[1 : 1+n]
		if n == 3 && !strings.Contains(num, ".") {
			return "has a comma: write " + num + "." + digits + " with a point, or " + num + digits + " without a separator"
		}
		return "has a comma: write " + num + "." + digits + " with a point"
	}
	for _, sep := range []string{"'", "’", "_"} {
		if n, ok := after(sep); ok {
			return "has a separator: write " + num + rest[len(sep):len(sep)+n] + " without it"
		}
	}
	if n, ok := after("."); ok {
		return "has two points: write " + strings.ReplaceAll(num, ".", "") + rest[1:1+n] + " without separators"
	}
	if n, ok := after(""); ok && n == 3 && (len(rest) == 3 || rest[3] == ' ' || rest[3] == '.' || rest[3] == ',') {
		return "has a separator: write " + num + rest[:3] + " without it"
	}
	if (num == "0" || num == "-0" || num == "+0") && (rest[0] == 'x' || rest[0] == 'X') && len(rest) > 1 {
		return "is a hexadecimal number: write it in decimals"
	}
	return ""
}
