package unit

import (
	"regexp"
	"strconv"
	"strings"
)

// Quote writes an SI value into a sentence so that whoever prints the sentence
// for a reader can put it in the reader's unit with [Spell]: value, significant
// digits (1 to 17) and kind in a mark such as ‹0.0125|3|length›. Where the
// preferred units of the kind are not the ones to print, those of the EU and the
// US follow.
func Quote(k Kind, si float64, digits int, euUS ...string) string {
	part := append([]string{strconv.FormatFloat(si, 'g', digits+2, 64), strconv.Itoa(digits), string(k)}, euUS...)
	return "‹" + strings.Join(part, "|") + "›"
}

var quoted = regexp.MustCompile(`‹([^‹›|]+)\|([0-9]{1,2})\|([^‹›|]+)(?:\|([^‹›|]+)\|([^‹›|]+))?›`)

// Spell returns a sentence with every mark of [Quote] as a number with the
// unit of the system. What is no such mark stays.
func Spell(text string, s System) string {
	return quoted.ReplaceAllStringFunc(text, func(mark string) string {
		part := quoted.FindStringSubmatch(mark)
		si, err := strconv.ParseFloat(part[1], 64)
		digits, _ := strconv.Atoi(part[2]) // at most two figures
		k := Kind(part[3])
		symbol := Preferred(k, s)
		switch {
		case err != nil || symbol == "":
			return mark
		case part[4] == "":
		case s == US:
			symbol = part[5]
		default:
			symbol = part[4]
		}
		return Format(k, si, symbol, digits)
	})
}
