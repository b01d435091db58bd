package lab

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// Censor says that a reading is only a bound of the true value.
type Censor string

// The censorings.
const (
	Exact Censor = ""
	Below Censor = "<" // the true value is below the reading
	Above Censor = ">" // the true value is above it
)

// comma says how a file writes decimals.
type comma int

const (
	point    comma = iota // 12.5
	decimal               // 12,5
	doubtful              // only numbers like 1,234, which may be either
)

// isMissing reports whether a text marks a missing value.
func isMissing(s string) bool {
	switch strings.ToLower(s) {
	case "-", "–", "—", "−", ".", "n/a", "n.a.", "na", "nan", "n.d.", "nd", "none", "missing", "k.a.", "#n/a", "#nv":
		return true
	}
	return false
}

// numberParts are the pieces of a cell that holds a number.
type numberParts struct {
	censor Censor
	mark   string // "°" or "%" in front
	sign   string
	body   string // digits and separators
	exp    string // exponent with its e
	unit   string // what follows
}

// cut takes a cell apart; ok is false where it holds no number.
func cut(s string) (p numberParts, ok bool) {
	for _, c := range []struct {
		text string
		c    Censor
	}{{"<=", Below}, {"≤", Below}, {"<", Below}, {">=", Above}, {"≥", Above}, {">", Above}} {
		if r, has := strings.CutPrefix(s, c.text); has {
			p.censor, s = c.c, trim(r)
			break
		}
	}
	for _, m := range []string{"°", "%"} {
		if r, has := strings.CutPrefix(s, m); has {
			p.mark, s = m, trim(r)
			break
		}
	}
	for _, m := range []string{"+", "-", "−", "–"} {
		if r, has := strings.CutPrefix(s, m); has {
			s = trim(r)
			if m != "+" {
				p.sign = "-"
			}
			break
		}
	}
	digits, end := 0, 0
	for i, r := range s {
		if r >= '0' && r <= '9' {
			digits++
			end = i + 1
			continue
		}
		if strings.ContainsRune(".,'’ \u00a0\u2009\u202f", r) && nextIsDigit(s[i+len(string(r)):]) {
			end = i + len(string(r))
			continue
		}
		break
	}
	if digits == 0 {
		return p, false
	}
	p.body = s[:end]
	rest := s[end:]
	// A trailing separator, as in "12.", belongs to the number.
	if r, has := strings.CutPrefix(rest, "."); has && (r == "" || r[0] == ' ') {
		rest = r
	}
	if len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') {
		k := 1
		if rest[k] == '+' || rest[k] == '-' {
			k++
		}
		d := k
		for k < len(rest) && rest[k] >= '0' && rest[k] <= '9' {
			k++
		}
		if k > d {
			p.exp, rest = rest[:k], rest[k:]
		}
	}
	if rest != "" && strings.ContainsRune(".,", rune(rest[0])) {
		return p, false
	}
	p.unit = trim(rest)
	return p, true
}

func nextIsDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }

// value reads the digits of the parts.
func (p numberParts) value(c comma) (float64, error) {
	body, err := plainDigits(p.body, c)
	if err != nil {
		return 0, err
	}
	v, err := strconv.ParseFloat(p.sign+body+p.exp, 64)
	if err != nil || math.IsInf(v, 0) || math.Abs(v) > 1e200 {
		return 0, errors.New("the number is too large")
	}
	return v, nil
}

// plainDigits turns digits with separators into digits with a decimal point.
func plainDigits(body string, c comma) (string, error) {
	for _, space := range []string{" ", "\u00a0", "\u2009", "\u202f", "'", "’"} {
		if strings.Contains(body, space) {
			whole := body
			if i := strings.IndexAny(body, ".,"); i >= 0 {
				whole = body[:i]
			}
			parts := strings.Split(whole, space)
			for i, p := range parts {
				if len(p) > 3 || i > 0 && len(p) != 3 || strings.Trim(p, "0123456789") != "" {
					return "", errors.New("the number has a gap: write it without")
				}
			}
			body = strings.ReplaceAll(whole, space, "") + body[len(whole):]
		}
	}
	commas, points := strings.Count(body, ","), strings.Count(body, ".")
	switch {
	case commas == 0 && points == 0:
		return body, nil
	case commas > 0 && points > 0: // 1.234,5 or 1,234.5: the last one is the decimal
		group, dec := ",", "."
		if strings.LastIndex(body, ",") > strings.LastIndex(body, ".") {
			group, dec = ".", ","
		}
		whole, frac, _ := strings.Cut(body, dec)
		if strings.Contains(frac, group) || strings.Contains(frac, dec) || !grouped(whole, group) {
			return "", errors.New("the separators of the number contradict each other")
		}
		return strings.ReplaceAll(whole, group, "") + "." + frac, nil
	case commas > 1 || points > 1:
		sep := ","
		if points > 1 {
			sep = "."
		}
		if !grouped(body, sep) {
			return "", errors.New("the number has several separators")
		}
		return strings.ReplaceAll(body, sep, ""), nil
	case commas == 1:
		switch {
		case c == decimal || !threeBehind(body, ","):
			return strings.Replace(body, ",", ".", 1), nil
		default:
			return "", errors.New("the comma may be a decimal or a thousands mark: write it without doubt")
		}
	default: // one point
		if c == decimal && threeBehind(body, ".") {
			return "", errors.New("the point may be a thousands mark, for the file writes decimals with a comma: write it without doubt")
		}
		return body, nil
	}
}

// threeBehind reports whether a single separator could be a thousands mark:
// one to three digits, not a lone zero, before it and exactly three behind.
func threeBehind(body, sep string) bool {
	whole, frac, _ := strings.Cut(body, sep)
	return len(frac) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0'
}

// grouped reports whether the digits are in groups of three.
func grouped(body, sep string) bool {
	for i, p := range strings.Split(body, sep) {
		if i == 0 && (len(p) < 1 || len(p) > 3) || i > 0 && len(p) != 3 {
			return false
		}
	}
	return true
}

// habit finds out from all cells how a file writes decimals.
func habit(rows [][]cell) comma {
	out := point
	for _, r := range rows {
		for _, c := range r {
			p, ok := cut(c.text)
			if !ok || strings.Count(p.body, ",") != 1 {
				continue
			}
			i, j := strings.Index(p.body, ","), strings.Index(p.body, ".")
			if j > i { // 1,234.5: a thousands mark
				continue
			}
			if j >= 0 || !threeBehind(p.body, ",") {
				return decimal
			}
			out = doubtful
		}
	}
	return out
}
