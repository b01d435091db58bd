package unit

import (
	"regexp"
	"strconv"
	"strings"
)

var (
	slashed = regexp.MustCompile(`^([+-]?)(?:(\d+)[ \x{00a0}-]+)?(\d+)[/⁄](\d+)(?:\D|$)`)
	vulgar  = regexp.MustCompile(`^([+-]?)(\d*)[ \x{00a0}-]*([¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])`)
)

var vulgarParts = map[string][2]float64{
	"¼": {1, 4}, "½": {1, 2}, "¾": {3, 4}, "⅐": {1, 7}, "⅑": {1, 9}, "⅒": {1, 10}, "⅓": {1, 3}, "⅔": {2, 3}, "⅕": {1, 5},
	"⅖": {2, 5}, "⅗": {3, 5}, "⅘": {4, 5}, "⅙": {1, 6}, "⅚": {5, 6}, "⅛": {1, 8}, "⅜": {3, 8}, "⅝": {5, 8}, "⅞": {7, 8},
}

// fractionFault names the decimal to write in place of a fraction that s
// begins with, such as 1/8, 3 1/2 or 5½; "" where none stands.
func fractionFault(s string) string {
	for _, sign := range minusSigns {
		s = strings.ReplaceAll(s, sign, "-")
	}
	var sign, whole string
	var top, bottom float64
	if m := slashed.FindStringSubmatch(s); m != nil {
		sign, whole = m[1], m[2]
		top, _ = strconv.ParseFloat(m[3], 64) // digits alone
		bottom, _ = strconv.ParseFloat(m[4], 64)
	} else if m := vulgar.FindStringSubmatch(s); m != nil {
		sign, whole = m[1], m[2]
		top, bottom = vulgarParts[m[3]][0], vulgarParts[m[3]][1]
	}
	if bottom == 0 {
		return ""
	}
	w, _ := strconv.ParseFloat(whole, 64) // digits, or nothing
	return "has a fraction: write " + strings.TrimPrefix(sign, "+") + decimal(w+top/bottom, 6) + " with a point"
}
