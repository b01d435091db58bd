package unit

import "sync"

// entry is one kind of the table with its units in the order of the trade.
type entry struct {
	kind       Kind
	si, eu, us string
	units      []Unit
}

func in(symbol string, scale float64, aliases ...string) Unit {
	return Unit{Symbol: symbol, Aliases: aliases, Scale: scale}
}

// entries returns the whole table. The order of kinds is the order in which
// they are listed to the user.
func entries() []entry {
	var all []entry
	for _, part := range [][]entry{mechanics, heat, barrier, plant, numbers, useEntries()} {
		all = append(all, part...)
	}
	return all
}

// index is the table with its indices, built once and never changed.
type index struct {
	list   []entry
	byKind map[Kind]*page
}

type page struct {
	entry
	exact map[string]int // symbol or alias as written
	keys  map[string]int // key of the symbol or alias
	loose map[string]int // key without case; -1 where it is ambiguous
}

var table = sync.OnceValue(func() index {
	s := index{list: entries(), byKind: map[Kind]*page{}}
	for _, e := range s.list {
		p := &page{entry: e, exact: map[string]int{}, keys: map[string]int{}, loose: map[string]int{}}
		for i, u := range e.units {
			for _, name := range append([]string{u.Symbol}, u.Aliases...) {
				p.exact[name] = i
				p.keys[key(name, false)] = i
				l := key(name, true)
				if j, taken := p.loose[l]; taken && j != i {
					p.loose[l] = -1
				} else {
					p.loose[l] = i
				}
			}
		}
		s.byKind[e.kind] = p
	}
	return s
})

// find returns the unit of the page with the given symbol or alias.
func (p *page) find(name string) (Unit, bool) {
	if i, ok := p.exact[name]; ok {
		return p.units[i], true
	}
	if !wellFormed(name) {
		return Unit{}, false
	}
	if i, ok := p.keys[key(name, false)]; ok {
		return p.units[i], true
	}
	if i, ok := p.loose[key(name, true)]; ok && i >= 0 {
		return p.units[i], true
	}
	return Unit{}, false
}

// KindInfo is one kind of the table for a reader outside Go, such as the web
// page: SI = value*scale + offset.
type KindInfo struct {
	Kind  Kind   `json:"kind"`
	SI    string `json:"si"`
	EU    string `json:"eu"`
	US    string `json:"us"`
	Units []Unit `json:"units"`
}

// Table returns the kinds with their units, the SI unit first, and the
// preferred unit of each system.
func Table() []KindInfo {
	out := make([]KindInfo, 0, len(table().list))
	for _, e := range table().list {
		out = append(out, KindInfo{Kind: e.kind, SI: e.si, EU: e.eu, US: e.us, Units: Units(e.kind)})
	}
	return out
}

// Kinds returns every kind in the order of the table.
func Kinds() []Kind {
	out := make([]Kind, 0, len(table().list))
	for _, e := range table().list {
		out = append(out, e.kind)
	}
	return out
}

// Accepted returns the symbols of the units of a kind in the order of the
// trade; nil for a kind that is written bare and for an unknown kind.
func Accepted(k Kind) []string {
	p, ok := table().byKind[k]
	if !ok {
		return nil
	}
	var out []string
	for _, u := range p.units {
		if u.Symbol != "" {
			out = append(out, u.Symbol)
		}
	}
	return out
}

// Units returns the accepted units of a kind, the SI unit first.
func Units(k Kind) []Unit {
	p, ok := table().byKind[k]
	if !ok {
		return nil
	}
	out := make([]Unit, 0, len(p.units))
	for _, first := range []bool{true, false} {
		for _, u := range p.units {
			if (u.Symbol == p.si) == first {
				u.Aliases = append([]string{}, u.Aliases...)
				out = append(out, u)
			}
		}
	}
	return out
}

// Find returns the unit of kind k with the given symbol or alias. For a kind
// of money any three capital letters stand for a currency; the unit keeps them.
func Find(k Kind, symbol string) (Unit, bool) {
	p, ok := table().byKind[k]
	if !ok {
		return Unit{}, false
	}
	u, ok := p.find(symbol)
	if !ok && hasMoney(k) {
		u, ok = findMoney(p, symbol)
	}
	u.Aliases = append([]string{}, u.Aliases...)
	return u, ok
}

// SI returns the symbol of the SI unit of a kind: "m", "Pa(g)"; "" for a kind
// that is written bare.
func SI(k Kind) string {
	if p, ok := table().byKind[k]; ok {
		return p.si
	}
	return ""
}
