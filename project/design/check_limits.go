package design

import (
	"fmt"

	"costrel/figure"
	"costrel/unit"
)

// checkLimits reports limits on unknown figures or with values of another
// kind, and warns of pairs that nothing can meet.
func (doc *Document) checkLimits(add, warn faultFunc) {
	var keys []string
	for _, e := range figure.Entries() {
		keys = append(keys, e.Key)
	}
	type side struct {
		si float64
		at string
	}
	least := map[string]side{}
	for _, minimum := range []bool{true, false} {
		for i, l := range doc.Design.Limits {
			if (l.Side == "min") != minimum || l.Figure == "" {
				continue
			}
			path := fmt.Sprintf("limits[%d]", i)
			e, ok := figure.Find(l.Figure)
			if !ok {
				add(path+".figure", nearestOf(l.Figure, keys, "a key that the board prints"), "no figure has the key %q", clip(l.Figure))
				continue
			}
			if l.Value == "" {
				continue // told by the reader
			}
			q, err := unit.Parse(e.Kind, l.Value)
			if err != nil {
				add(path+".value", such(Field{Kind: e.Kind, typ: floatType}, doc.exampleOf(l, e.Kind))+"; or none", "%v", err)
				continue
			}
			if code, ok := unit.Currency(q.Symbol); ok && money[e.Kind] && code != doc.Design.Plant.Currency {
				add(path+".value", "a limit in "+doc.Design.Plant.Currency+", the currency of the design", "the limit is in %s; nothing is converted", code)
				continue
			}
			if minimum {
				least[l.Figure] = side{q.SI, l.Value}
			} else if lo, ok := least[l.Figure]; ok && lo.si > q.SI {
				warn(path+".value", "at least the minimum of "+lo.at, "no %s can meet both limits: at least %s and at most %s", l.Figure, lo.at, l.Value)
			}
		}
	}
}

// money are the kinds that carry a currency.
var money = map[unit.Kind]bool{unit.Money: true, unit.PricePerMass: true, unit.PricePerEnergy: true, unit.PricePerThousand: true}

// exampleOf shows how a limit is written: as the template has it, else one of
// its kind.
func (doc *Document) exampleOf(l Limit, k unit.Kind) string {
	if b, err := baseOf(doc.Design.Class); err == nil {
		for _, t := range b.design.Limits {
			if t.Figure == l.Figure {
				return t.Value
			}
		}
	}
	switch k {
	case unit.Fraction:
		return "15 %"
	case unit.Ratio, unit.Count:
		return "3.2"
	}
	return "1 " + unit.Preferred(k, unit.EU)
}

func nearestOf(word string, all []string, otherwise string) string {
	if near := nearest(word, all); near != "" {
		return near + " (nearest key)"
	}
	return otherwise
}
