package lab

import (
	"strings"
	"unicode"

	"costrel/quality/stat"
	"costrel/unit"
)

// Role says what a column holds.
type Role string

// The roles.
const (
	Measure Role = "measure" // a test result
	Setting Role = "setting" // a number that says under what condition: week, height, temperature
	Label   Role = "label"   // a text that says which piece, mould, zone, lot
	Derived Role = "derived" // a number that the sender worked out from other columns: kept, not used
	Code    Role = "code"    // long tables: which test the row reports
	Result  Role = "result"  // long tables: its value
	UnitOf  Role = "unit"    // long tables: its unit
)

// Rule says which heading means which quantity.
type Rule struct {
	// Name is the heading without its unit, in lower case with underscores; a
	// "#" stands for a number that tells replicates apart.
	Name      string
	Key       string // of the quantity; a figure's key where there is one
	Label     string // in words
	Kind      unit.Kind
	Unit      string // unit that the name itself says; "" = the heading or the cell must say it
	Role      Role
	Variant   string     // old, new
	Condition string     // 4 °C
	Scale     stat.Scale // on which the values are normal; "" = linear
}

// Sheet is a kind of lab table.
type Sheet struct {
	Name  string
	Title string
	Rules []Rule
}

// heading is a column's heading as read.
type heading struct {
	name string // as written, parts joined
	unit string // from brackets or a row of units
	line int
}

// column is a column with its rule.
type column struct {
	heading
	col       int // from 1
	rule      *Rule
	unit      unit.Unit
	hasUnit   bool
	replicate string
}

// words cuts a name into words, signs taken out, case kept.
func words(name string) []string {
	return strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '#' })
}

// squash makes names comparable: lower case, no signs or spaces.
func squash(name string) string { return strings.ToLower(strings.Join(words(name), "")) }

// index is a sheet made ready for matching.
type index struct {
	Sheet
	exact    map[string][]int // squashed name -> rules
	patterns []pattern
}

// pattern is the name of a rule with replicates.
type pattern struct {
	before, after string
	rule          int
}

func newIndex(s Sheet) *index {
	x := &index{Sheet: s, exact: map[string][]int{}}
	for i, r := range s.Rules {
		if before, after, has := strings.Cut(squash(r.Name), "#"); has {
			x.patterns = append(x.patterns, pattern{before, after, i})
		} else {
			x.exact[before] = append(x.exact[before], i)
		}
	}
	return x
}

// candidate is a rule that a name fits, and the replicate it names.
type candidate struct {
	rule      int
	replicate string
}

// named returns the rules that a squashed name fits.
func (x *index) named(name string) []candidate {
	var out []candidate
	for _, i := range x.exact[name] {
		out = append(out, candidate{rule: i})
	}
	for _, p := range x.patterns {
		if len(name) <= len(p.before)+len(p.after) || !strings.HasPrefix(name, p.before) || !strings.HasSuffix(name, p.after) {
			continue
		}
		if mid := name[len(p.before) : len(name)-len(p.after)]; strings.Trim(mid, "0123456789") == "" {
			out = append(out, candidate{p.rule, mid})
		}
	}
	return out
}

// match returns the rule that a heading follows and the unit it names. Up to
// three words at the end may be the unit. Where several rules have the name,
// the one whose kind knows the unit is taken. reason says why a known name
// could not be read.
func (x *index) match(h heading) (c column, ok bool, reason string) {
	w := words(h.name)
	for behind := 0; behind <= 3 && behind < len(w); behind++ {
		if behind > 0 && h.unit != "" {
			break
		}
		own := strings.Join(w[len(w)-behind:], "_")
		for _, hit := range x.named(strings.ToLower(strings.Join(w[:len(w)-behind], ""))) {
			r := &x.Rules[hit.rule]
			c := column{heading: h, rule: r, replicate: hit.replicate}
			switch r.Role {
			case Label, Code, UnitOf, Result:
				if behind == 0 {
					return c, true, ""
				}
				continue
			}
			text := own
			switch {
			case h.unit != "":
				text = h.unit
			case own == "":
				text = r.Unit
			}
			if u, found := findUnit(r.Kind, text); found {
				c.unit, c.hasUnit = u, true
				return c, true, ""
			}
			if text == "" {
				return c, true, "" // the cells must say the unit
			}
			reason = "unit " + strings.ReplaceAll(text, "_", " ") + " is none of a " + string(r.Kind) + remedy(r.Kind)
		}
	}
	return column{}, false, reason
}

// remedy names the usual cure of a wrong unit.
func remedy(k unit.Kind) string {
	switch k {
	case unit.PressureGauge:
		return ": write bar(g), psi(g) or kPa(g)"
	case unit.PressureAbs:
		return ": write bar(a), psi(a) or kPa(a)"
	}
	if a := unit.Accepted(k); len(a) > 0 {
		return ": write " + strings.Join(a[:min(3, len(a))], ", ")
	}
	return ""
}

// findUnit finds a unit from a heading: "barg", "pct", "g_cm3".
func findUnit(k unit.Kind, text string) (unit.Unit, bool) {
	if text == "" {
		u, ok := unit.Find(k, "")
		return u, ok && u.Symbol == ""
	}
	if text == "pct" || text == "PCT" {
		text = "%"
	}
	if !strings.Contains(text, "_") {
		return unit.Find(k, text)
	}
	for _, t := range []string{text, strings.ReplaceAll(text, "_", "/"), strings.ReplaceAll(text, "_", "·"), strings.ReplaceAll(text, "_", ""), strings.ReplaceAll(text, "_", " ")} {
		if u, ok := unit.Find(k, t); ok {
			return u, true
		}
	}
	return unit.Unit{}, false
}

// unitWords knows which texts are units; it remembers what it was asked.
type unitWords map[string]bool

// is reports whether a text is a unit of any kind.
func (m unitWords) is(text string) bool {
	if text == "" || len(text) > 24 {
		return false
	}
	yes, asked := m[text]
	if !asked {
		for _, k := range unit.Kinds() {
			if _, ok := findUnit(k, text); ok {
				yes = true
				break
			}
		}
		m[text] = yes
	}
	return yes
}

// take cuts a unit in brackets, or behind a comma, from the end of a heading.
func (m unitWords) take(text string) (name, u string) {
	text = trim(text)
	for _, b := range []struct{ open, shut byte }{{'(', ')'}, {'[', ']'}} {
		if len(text) < 2 || text[len(text)-1] != b.shut {
			continue
		}
		depth := 0
		for i := len(text) - 1; i >= 0; i-- {
			switch text[i] {
			case b.shut:
				depth++
			case b.open:
				depth--
			}
			if depth == 0 {
				if m.is(text) { // "bar(g)" without a name in front
					return "", text
				}
				if inner := trim(text[i+1 : len(text)-1]); m.is(inner) {
					return trim(text[:i]), inner
				}
				break
			}
		}
	}
	if i := strings.LastIndex(text, ","); i > 0 && m.is(trim(text[i+1:])) {
		return trim(text[:i]), trim(text[i+1:])
	}
	return text, ""
}
