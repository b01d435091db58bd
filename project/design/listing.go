package design

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"costrel/figure"
	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/physics/permeation"
	"costrel/physics/resin"
	"costrel/unit"
)

// Listed is one value of a design as the page shows it.
type Listed struct {
	Path     string            `json:"path"`
	Label    string            `json:"label"`
	Doc      string            `json:"doc"`
	Quantity unit.Kind         `json:"quantity"` // empty for words, switches, whole numbers and tables
	Unit     string            `json:"unit"`     // symbol that display is in
	Value    any               `json:"value"`    // SI number, word or switch; null for a table and an absent value
	Display  string            `json:"display"`
	Text     string            `json:"text"` // as written in the document; empty when not written
	Origin   figure.OriginKind `json:"origin"`
	Min      *float64          `json:"min"` // SI
	Max      *float64          `json:"max"` // SI
	Choices  []string          `json:"choices,omitempty"`
	Source   string            `json:"source,omitempty"`
	Section  string            `json:"section"`
	Table    *ListedTable      `json:"table,omitempty"`
}

// ListedTable is a list or table as it would be written in the units of the
// reader: headers with their unit, and cells.
type ListedTable struct {
	Columns []string   `json:"columns"`
	Rows    [][]string `json:"rows"`
}

// Listing returns every value of the design in the order of the document,
// shown in the units of a system. Columns of tables keep the unit in which the
// document writes them.
func (doc *Document) Listing(system unit.System) []Listed {
	return doc.ListingBeside(doc, system)
}

// ListingBeside is [Document.Listing] with the columns of tables in the units of
// another document, so that equal rows read alike.
func (doc *Document) ListingBeside(other *Document, system unit.System) []Listed {
	items := Walk()
	out := make([]Listed, 0, len(items))
	for _, it := range items {
		out = append(out, doc.listed(it, other, system))
	}
	return out
}

func (doc *Document) listed(it Item, other *Document, system unit.System) Listed {
	f, m := it.Field, doc.Marks[it.Path]
	l := Listed{Path: it.Path, Label: f.Label, Doc: unit.Spell(f.Doc, system), Quantity: f.Kind, Origin: m.Kind, Source: m.Source, Section: it.Section, Choices: choices(it)}
	if m.Kind == figure.Given {
		l.Text = m.Text
	}
	if lo, hi, hasLo, hasHi := f.Limits(); !it.Table {
		if hasLo {
			l.Min = &lo
		}
		if hasHi {
			l.Max = &hi
		}
	}
	v, _, ok := doc.Design.at(it.Path)
	if f.Kind != "" {
		l.Unit = doc.fieldSymbol(f.Kind, m, system)
	}
	switch {
	case !ok:
	case it.Table:
		l.Table = doc.listedTable(it, v, other, system)
		l.Display = strconv.Itoa(v.Len()) + " rows"
		if v.Len() == 1 {
			l.Display = "1 row"
		}
	case v.Kind() == reflect.Float64:
		l.Value = v.Float()
		l.Display = doc.show(f.Kind, v.Float(), l.Unit, system)
	case v.Kind() == reflect.Int:
		l.Value = float64(v.Int())
		l.Display = strconv.FormatInt(v.Int(), 10)
	case v.Kind() == reflect.Bool:
		l.Value = v.Bool()
		l.Display = "no"
		if v.Bool() {
			l.Display = "yes"
		}
	default:
		l.Value = v.String()
		l.Display = v.String()
	}
	return l
}

// symbol returns the unit in which a kind is shown, with the currency of the
// design.
func (doc *Document) symbol(k unit.Kind, system unit.System) string {
	if !isMoney(k) {
		return unit.Preferred(k, system)
	}
	return unit.WithCurrency(unit.Preferred(k, system), doc.Design.Plant.Currency)
}

// fieldSymbol returns the unit in which a value of the document is shown: a
// field remembers the unit it was written in, for a reader of US units unless
// that is a metric one with a usual counterpart. A unit that the reader chose for
// the kind goes before both.
func (doc *Document) fieldSymbol(k unit.Kind, m Mark, system unit.System) string {
	if isMoney(k) || m.Symbol == "" {
		return doc.symbol(k, system)
	}
	us := unit.Preferred(k, unit.US)
	switch {
	case k == unit.Mass && m.Symbol == "kg":
		us = "lb"
	case us == unit.Preferred(k, unit.EU):
		us = m.Symbol // mg/L, ppm and the like are theirs, too
	case k == unit.Length && m.Symbol == "m":
		us = "ft" // altitudes, and heights of drops
	}
	return unit.Shown(k, m.Symbol, us, system)
}

// show prints a value in a unit, with no more digits than it needs.
func (doc *Document) show(k unit.Kind, si float64, symbol string, system unit.System) string {
	if isMoney(k) {
		text := unit.Show(k, si, system)
		if own := unit.Preferred(k, system); own != symbol {
			text = strings.TrimSuffix(text, own) + symbol
		}
		return text
	}
	if symbol == "" {
		return unit.Show(k, si, system)
	}
	return unit.Format(k, si, symbol, 6)
}

// choices returns the words that a value accepts.
func choices(it Item) []string {
	switch it.Path {
	case "finish.type":
		return finish.Names()
	case "closure.type":
		return closure.Names()
	case "resin.grade":
		return gradeNames()
	case "shelf.material":
		return permeation.Materials()
	case "blow.law":
		var out []string
		for _, l := range resin.HotLaws() {
			out = append(out, l.Name())
		}
		return out
	}
	return slices.Clone(it.Field.Enum)
}
