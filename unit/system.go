package unit

import (
	"errors"
	"fmt"
	"strings"
)

// System is a reader's habit of units: one of [EU] and [US], and behind it the
// quantities that this reader wants in another unit, in the order of
// [Preferences]: "us", "us,length=mm,pressure=bar". [ParseSystem] gives this form;
// a text that it would refuse counts as its first word.
type System string

// The two systems of the trade.
const (
	EU System = "eu"
	US System = "us"
)

// LongestSystem is the length of a text that ParseSystem looks at [bytes].
const LongestSystem = 2000

// ParseSystem reads a system: eu or us, then after commas a quantity with its
// unit each, such as "us,pressure=bar,length=mm". Quantities are those of
// [Preferences], in any case, with spaces or hyphens; units are spelled as freely
// as [Parse] takes them. The more particular quantity wins: "us,pressure=bar,vacuum=mbar".
//
// The error joins one for each fault: another system, a quantity without units, a
// unit that the quantity does not have, and a quantity that stands twice.
func ParseSystem(text string) (System, error) {
	if len(text) > LongestSystem {
		return "", fmt.Errorf("the text of the units is longer than %d bytes", LongestSystem)
	}
	parts := strings.Split(text, ",")
	base := System(strings.ToLower(strings.TrimSpace(parts[0])))
	var faults []error
	if base != EU && base != US {
		faults = append(faults, fmt.Errorf("%q is no system of units: begin with eu or us, as in us,pressure=bar", strings.TrimSpace(parts[0])))
	}
	chosen := map[string]string{}
	for _, part := range parts[1:] {
		key, symbol, ok := strings.Cut(part, "=")
		if !ok {
			faults = append(faults, fmt.Errorf("%q is no choice of a unit: write a quantity and its unit, as in pressure=bar", strings.TrimSpace(part)))
			continue
		}
		p, ok := preference(key)
		if !ok {
			faults = append(faults, fmt.Errorf("%q is no quantity with a choice of units: write one of %s", strings.TrimSpace(key), orList(preferenceKeys())))
			continue
		}
		c, ok := p.choice(symbol)
		if !ok {
			faults = append(faults, fmt.Errorf("%s: %q is no unit to show it in: write %s", p.Key, strings.TrimSpace(symbol), orList(p.symbols())))
			continue
		}
		if _, twice := chosen[p.Key]; twice {
			faults = append(faults, fmt.Errorf("%s stands twice: leave one", p.Key))
			continue
		}
		chosen[p.Key] = c.Unit
	}
	if len(faults) > 0 {
		return "", errors.Join(faults...)
	}
	out := string(base)
	for _, key := range preferenceKeys() {
		if symbol, ok := chosen[key]; ok {
			out += "," + key + "=" + symbol
		}
	}
	return System(out), nil
}

// UnmarshalText reads a system as [ParseSystem] does.
func (s *System) UnmarshalText(text []byte) error {
	got, err := ParseSystem(string(text))
	if err == nil {
		*s = got
	}
	return err
}

// Base returns the system without the reader's own choices: US, or EU for all else.
func (s System) Base() System {
	if head, _, _ := strings.Cut(string(s), ","); head == string(US) {
		return US
	}
	return EU
}

// chosen returns the unit that the reader chose for a kind; false where the kind
// follows the base. What stands later wins, which is the more particular.
func (s System) chosen(k Kind) (symbol string, ok bool) {
	_, rest, more := strings.Cut(string(s), ",")
	for more {
		var part string
		part, rest, more = strings.Cut(rest, ",")
		key, name, _ := strings.Cut(part, "=")
		if u := catalogue().units[key][name][k]; u != "" {
			symbol, ok = u, true
		}
	}
	return symbol, ok
}

// Preferred returns the symbol in which the reader sees a kind. A kind of money is
// shown in EUR in both systems, for no currency is converted: where the currency is
// known, give [WithCurrency] of it to [Format].
func Preferred(k Kind, s System) string {
	p, ok := table().byKind[k]
	if !ok {
		return ""
	}
	if u, ok := s.chosen(k); ok {
		return u
	}
	if s.Base() == US {
		return p.us
	}
	return p.eu
}

// Shown returns the unit of a number that the trade writes in a unit of its own:
// eu for readers of the EU, us for those of the US, such as kN and tonf(US) for a
// clamp force, weeks for a shelf life; empty stands for that of the kind. A reader
// who chose a unit for the kind sees it, save where it is fifty times larger or
// smaller than the one that the trade writes in its system: N leaves a clamp force in
// kN, d a cooling time in s. Walls and vacuums follow [Wall] and [Vacuum], altitudes
// stay in m or ft. Empty is returned where the preferred unit of the kind holds.
func Shown(k Kind, eu, us string, s System) string {
	for _, e := range uses {
		if e.of == k && e.us == us && us != "" {
			return Preferred(e.kind, s)
		}
	}
	own := eu
	if s.Base() == US {
		own = us
	}
	chosen, ok := s.chosen(k)
	if !ok {
		return own
	}
	if own = eu; customary(chosen) {
		own = us
	}
	euOf, usOf := Preferred(k, EU), Preferred(k, US)
	switch {
	case own == "":
		return ""
	case k != Time && (own == euOf || own == usOf):
		return chosen
	case k == Length && (own == "m" || own == "ft"):
		return own // altitudes, and heights of drops
	}
	a, okA := Find(k, chosen)
	b, okB := Find(k, own)
	if okA && okB && (a.Scale > 50*b.Scale || b.Scale > 50*a.Scale) {
		return own
	}
	return chosen
}
