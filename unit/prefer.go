package unit

import (
	"slices"
	"strings"
	"sync"
)

// Kinds that stand for a use of another: a number is of the other kind, and what
// has its own habit is the unit in which it is read.
const (
	Wall   Kind = "wall"   // m; a length
	Vacuum Kind = "vacuum" // Pa below ambient; a pressure difference
)

// use is a kind that is another one in a use of its own.
type use struct {
	kind, of Kind
	eu, us   string
	symbols  []string
}

var uses = []use{
	{Wall, Length, "mm", "mil", []string{"mm", "µm", "cm", "in", "mil"}},
	{Vacuum, PressureChange, "kPa", "inHg", []string{"kPa", "mbar", "bar", "Pa", "psi", "inHg", "mmHg", "inH2O"}},
}

// useEntries returns the uses as kinds of the table, with the units of the kinds
// that they are of.
func useEntries() []entry {
	var out []entry
	for _, u := range uses {
		i := slices.IndexFunc(mechanics, func(e entry) bool { return e.kind == u.of })
		e := entry{kind: u.kind, si: mechanics[i].si, eu: u.eu, us: u.us}
		for _, x := range mechanics[i].units {
			if slices.Contains(u.symbols, x.Symbol) || x.Symbol == e.si {
				e.units = append(e.units, x)
			}
		}
		out = append(out, e)
	}
	return out
}

// Preference is a quantity for which a reader may choose a unit, alone or with
// its family.
type Preference struct {
	Key     string   `json:"key" doc:"As it stands in the text of a system of units"`
	Kind    Kind     `json:"kind" doc:"The kind whose units are chosen from"`
	Choices []Choice `json:"choices"`
}

// Choice is a unit to choose, and the unit that each kind of the family is then
// shown in.
type Choice struct {
	Unit  string          `json:"unit"`
	Shows map[Kind]string `json:"shows"`
}

// Preferences returns what a reader may choose units for, in the order of the
// table: every kind that has a unit, and pressure for gauge, absolute and
// differences at once. Temperature takes its difference along, length the wall,
// and pressure the vacuum
// and the compliance of panels. What takes others along stands before them.
func Preferences() []Preference {
	out := make([]Preference, 0, len(catalogue().list))
	for _, p := range catalogue().list {
		p.Choices = slices.Clone(p.Choices)
		out = append(out, p)
	}
	return out
}

// preferences is the list with its index: the unit of each kind by key and by
// chosen unit.
type preferences struct {
	list  []Preference
	units map[string]map[string]map[Kind]string
}

var catalogue = sync.OnceValue(func() preferences {
	out := preferences{units: map[string]map[string]map[Kind]string{}}
	add := func(key string, k Kind, shows func(symbol string) map[Kind]string) {
		p := Preference{Key: key, Kind: k}
		out.units[key] = map[string]map[Kind]string{}
		for _, symbol := range Accepted(k) {
			if m := shows(symbol); m != nil {
				p.Choices = append(p.Choices, Choice{symbol, m})
				out.units[key][symbol] = m
			}
		}
		if len(p.Choices) > 0 {
			out.list = append(out.list, p)
		}
	}
	for _, k := range ordered() {
		if k == PressureGauge {
			add("pressure", PressureChange, pressureFamily)
		}
		switch k {
		case Length:
			add(string(k), k, func(u string) map[Kind]string { return map[Kind]string{k: u, Wall: wallBeside(u)} })
		case TemperaturePoint:
			add(string(k), k, func(u string) map[Kind]string { return map[Kind]string{k: u, TemperatureChange: changeBeside(u)} })
		default:
			add(strings.ReplaceAll(string(k), " ", "-"), k, func(u string) map[Kind]string { return map[Kind]string{k: u} })
		}
	}
	return out
})

// ordered returns the kinds of the table with each use behind its kind.
func ordered() []Kind {
	var out []Kind
	for _, k := range Kinds() {
		if slices.ContainsFunc(uses, func(u use) bool { return u.kind == k }) {
			continue
		}
		out = append(out, k)
		for _, u := range uses {
			if u.of == k {
				out = append(out, u.kind)
			}
		}
	}
	return out
}

// pressureFamily returns the units of all pressures for one of a difference; nil
// for a unit that says no gauge or absolute pressure.
func pressureFamily(symbol string) map[Kind]string {
	gauge, okG := Find(PressureGauge, symbol+"(g)")
	abs, okA := Find(PressureAbs, symbol+"(a)")
	if !okG || !okA {
		return nil
	}
	vacuum := map[string]string{"bar": "kPa", "psi": "inHg"}[symbol]
	if vacuum == "" {
		vacuum = symbol
	}
	if _, ok := Find(Vacuum, vacuum); !ok {
		vacuum = "kPa"
	}
	return map[Kind]string{PressureGauge: gauge.Symbol, PressureAbs: abs.Symbol, PressureChange: symbol, Vacuum: vacuum, Compliance: complianceBeside(vacuum)}
}

// complianceBeside returns the unit of compliances beside one of vacuums: their
// product is a volume that is read without another conversion.
func complianceBeside(vacuum string) string {
	if customary(vacuum) {
		return "fl oz/psi"
	}
	if u, ok := Find(Compliance, "mL/"+vacuum); ok {
		return u.Symbol
	}
	return "mL/kPa"
}

// wallBeside returns the unit of walls beside one of lengths.
func wallBeside(symbol string) string {
	switch {
	case customary(symbol):
		return "mil"
	case symbol == "µm" || symbol == "nm":
		return "µm"
	}
	return "mm"
}

// changeBeside returns the unit of a difference beside one of temperature points.
func changeBeside(symbol string) string {
	if symbol == "°F" {
		return symbol
	}
	return "K"
}

// customary reports whether a unit is one of the US or imperial trade.
func customary(symbol string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(symbol, func(r rune) bool { return strings.ContainsRune(" /·()²³", r) }), func(atom string) bool {
		switch atom {
		case "in", "mil", "ft", "oz", "lb", "lbf", "gal", "psi", "ksi", "inHg", "inH2O", "°F", "BTU", "hp", "scf", "scfm", "tonf", "lbCO2e":
			return true
		}
		return false
	})
}

// preference finds one by its key as a reader may write it.
func preference(key string) (Preference, bool) {
	key = strings.ToLower(strings.Join(strings.FieldsFunc(key, func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "-"))
	for _, p := range catalogue().list {
		if p.Key == key {
			return p, true
		}
	}
	return Preference{}, false
}

func preferenceKeys() []string {
	var out []string
	for _, p := range catalogue().list {
		out = append(out, p.Key)
	}
	return out
}

// choice finds a choice by its unit as a reader may write it; a pressure may say
// gauge or absolute.
func (p Preference) choice(symbol string) (Choice, bool) {
	symbol = strings.TrimSpace(symbol)
	u, ok := table().byKind[p.Kind].find(symbol)
	if !ok && p.Key == "pressure" {
		for _, k := range []Kind{PressureGauge, PressureAbs} {
			if r, found := Find(k, symbol); found {
				u, ok = Find(p.Kind, strings.TrimSuffix(strings.TrimSuffix(r.Symbol, "(g)"), "(a)"))
			}
		}
	}
	i := slices.IndexFunc(p.Choices, func(c Choice) bool { return ok && c.Unit == u.Symbol })
	if i < 0 {
		return Choice{}, false
	}
	return p.Choices[i], true
}

func (p Preference) symbols() []string {
	var out []string
	for _, c := range p.Choices {
		out = append(out, c.Unit)
	}
	return out
}
