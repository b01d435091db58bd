package cite

import (
	"errors"
	"fmt"
	"strings"

	"costrel/unit"
)

// Datum is one value of a data card with its range and where it comes from.
// Value, Low and High are SI of the datum's kind.
type Datum struct {
	Key        string    `json:"key"`
	Label      string    `json:"label"`
	Kind       unit.Kind `json:"kind"`
	Unit       string    `json:"unit"` // as written in the card
	Value      float64   `json:"value"`
	Low        float64   `json:"low"`
	High       float64   `json:"high"`
	Source     string    `json:"source"`     // key of a source; CommonPractice where there is none
	Confidence string    `json:"confidence"` // high, medium, low
	Note       string    `json:"note"`
}

// Card is a named set of data: one resin, one closure, one price list.
type Card struct {
	Name  string
	Title string
	Data  []Datum
}

// Get returns the datum with the given key.
func (c Card) Get(key string) (Datum, bool) {
	for _, d := range c.Data {
		if d.Key == key {
			return d, true
		}
	}
	return Datum{}, false
}

// Value returns the SI value of the datum with the given key. It panics when
// the card lacks it: a card is embedded and its keys are tested.
func (c Card) Value(key string) float64 {
	d, ok := c.Get(key)
	if !ok {
		panic("cite: card " + c.Name + " has no " + key)
	}
	return d.Value
}

// LowConfidence returns the keys of the card whose values are marked with low
// confidence.
func (c Card) LowConfidence() []string {
	var out []string
	for _, d := range c.Data {
		if d.Confidence == "low" {
			out = append(out, d.Key)
		}
	}
	return out
}

// ParseCards reads data cards from text. A card begins with "[name] title";
// each line below it is one datum:
//
//	key | label | kind | value | low | high | unit | source | confidence | note
//
// The unit is one of [unit.Accepted] of the kind; a count or a ratio has none
// or "-". Empty lines and lines that begin with # are skipped. Every fault is
// reported, each with its line; file is the name to report.
func ParseCards(file, text string) ([]Card, error) {
	var out []Card
	var faults []string
	fault := func(n int, format string, args ...any) {
		faults = append(faults, fmt.Sprintf("%s:%d: %s", file, n, fmt.Sprintf(format, args...)))
	}
	sources, err := table()
	if err != nil {
		return nil, err // else every source below would be a fault
	}
	names := map[string]bool{}
	var keys map[string]bool // of the card at hand
	for i, line := range strings.Split(text, "\n") {
		n := i + 1
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if strings.HasPrefix(line, "[") {
			name, title, ok := strings.Cut(line[1:], "]")
			name = strings.TrimSpace(name)
			if !ok || name == "" {
				fault(n, "want \"[name] title\", have %q", line)
			} else if names[name] {
				fault(n, "card %q stands twice", name)
			}
			names[name], keys = true, map[string]bool{}
			out = append(out, Card{Name: name, Title: strings.TrimSpace(title)})
			continue
		}
		if len(out) == 0 {
			fault(n, "a value before the first [name]")
			continue
		}
		d, bad := parseDatum(line, sources)
		for _, b := range bad {
			fault(n, "%s", b)
		}
		if d.Key != "" && keys[d.Key] {
			fault(n, "%s stands twice in card %q", d.Key, out[len(out)-1].Name)
		}
		keys[d.Key] = true
		out[len(out)-1].Data = append(out[len(out)-1].Data, d)
	}
	if faults != nil {
		return nil, errors.New(strings.Join(faults, "\n"))
	}
	return out, nil
}

// parseDatum reads one line of a card and returns every fault of it.
func parseDatum(line string, sources map[string]Source) (Datum, []string) {
	f := strings.Split(line, "|")
	if len(f) != 10 {
		return Datum{}, []string{fmt.Sprintf("want 10 fields, have %d", len(f))}
	}
	for j := range f {
		f[j] = strings.TrimSpace(f[j])
	}
	d := Datum{Key: f[0], Label: f[1], Kind: unit.Kind(f[2]), Unit: f[6], Source: f[7], Confidence: f[8], Note: f[9]}
	var bad []string
	fault := func(format string, args ...any) { bad = append(bad, d.Key+": "+fmt.Sprintf(format, args...)) }
	if d.Key == "" || strings.ContainsAny(d.Key, " \t") {
		bad = append(bad, fmt.Sprintf("want a key of one word, have %q", d.Key))
	}
	if d.Label == "" {
		fault("has no label")
	}
	if unit.Units(d.Kind) == nil {
		fault("there is no quantity %q", string(d.Kind))
	} else if d.Unit == "" && unit.SI(d.Kind) != "" {
		fault("has no unit; %s has %s", d.Kind, strings.Join(unit.Accepted(d.Kind), ", "))
	} else {
		whole := true
		for j, p := range []*float64{&d.Value, &d.Low, &d.High} {
			v, err := unit.Parse(d.Kind, strings.TrimSpace(f[3+j]+" "+d.Unit))
			if err != nil {
				fault("%s: %v", []string{"value", "low", "high"}[j], err)
				whole = false
				continue
			}
			*p = v.SI
		}
		if whole && (d.Low > d.Value || d.Value > d.High) {
			fault("want low <= value <= high, have %s, %s, %s %s", f[4], f[3], f[5], d.Unit)
		}
	}
	if _, ok := sources[d.Source]; !ok {
		fault("source %q is not in sources.txt", d.Source)
	}
	switch d.Confidence {
	case "high", "medium", "low":
	default:
		fault("confidence %q is not high, medium or low", d.Confidence)
	}
	return d, bad
}

// MustCards is ParseCards for embedded text; it panics on a fault.
func MustCards(file, text string) []Card {
	cards, err := ParseCards(file, text)
	if err != nil {
		panic(err)
	}
	return cards
}
