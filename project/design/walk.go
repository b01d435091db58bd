package design

import (
	"reflect"
	"sync"

	"costrel/unit"
)

// Item is one value of the schema, for lists and forms.
type Item struct {
	Path    string
	Section string // label of the section
	Field   Field
	Table   bool // a list or table
	Group   string
}

// Walk returns every value of the schema in document order.
func Walk() []Item { return walkOnce() }

var walkOnce = sync.OnceValue(func() []Item {
	var out []Item
	var walk func(t reflect.Type, path, section string)
	walk = func(t reflect.Type, path, section string) {
		for _, f := range fieldsOf(t) {
			at, ft := join(path, f.Key), f.typ
			if ft.Kind() == reflect.Pointer {
				ft = ft.Elem()
			}
			name := section
			if path == "" {
				name = f.Label
			}
			switch {
			case ft.Kind() == reflect.Struct:
				walk(ft, at, name)
			case ft.Kind() == reflect.Slice:
				out = append(out, Item{Path: at, Section: name, Field: f, Table: true, Group: path})
			default:
				if path == "" {
					name = "Design" // name, class and note stand together
				}
				out = append(out, Item{Path: at, Section: name, Field: f, Group: path})
			}
		}
	}
	walk(reflect.TypeOf(Design{}), "", "")
	return out
})

var itemsByPath = sync.OnceValue(func() map[string]Item {
	out := map[string]Item{}
	for _, it := range Walk() {
		out[it.Path] = it
	}
	return out
})

// Lookup returns the schema entry of a path.
func Lookup(path string) (Item, bool) {
	it, ok := itemsByPath()[path]
	return it, ok
}

// Number returns the SI value at a path of the design; ok is false for words,
// switches, tables and absent values.
func (d *Design) Number(path string) (v float64, kind unit.Kind, ok bool) {
	rv, it, found := d.at(path)
	if !found || it.Table {
		return 0, "", false
	}
	switch rv.Kind() {
	case reflect.Float64:
		return rv.Float(), it.Field.Kind, true
	case reflect.Int:
		return float64(rv.Int()), unit.Count, true
	}
	return 0, "", false
}

// Word returns the word or switch at a path of the design.
func (d *Design) Word(path string) (string, bool) {
	rv, it, found := d.at(path)
	if !found || it.Table {
		return "", false
	}
	switch rv.Kind() {
	case reflect.String:
		return rv.String(), true
	case reflect.Bool:
		if rv.Bool() {
			return "true", true
		}
		return "false", true
	}
	return "", false
}

// SetNumber sets the SI value at a path of the design. It does nothing for a
// path that holds no number.
func (d *Design) SetNumber(path string, v float64) {
	rv, _, found := d.at(path)
	if found && rv.Kind() == reflect.Float64 {
		rv.SetFloat(v)
	}
}

// at returns the value at a path; pointers are followed, an absent one is not
// found.
func (d *Design) at(path string) (reflect.Value, Item, bool) {
	it, ok := Lookup(path)
	if !ok {
		return reflect.Value{}, it, false
	}
	v := reflect.ValueOf(d).Elem()
	for _, part := range splitPath(path) {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return reflect.Value{}, it, false
			}
			v = v.Elem()
		}
		found := false
		for _, f := range fieldsOf(v.Type()) {
			if f.Key == part {
				v, found = v.Field(f.index), true
				break
			}
		}
		if !found {
			return reflect.Value{}, it, false
		}
	}
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return reflect.Value{}, it, false
		}
		v = v.Elem()
	}
	return v, it, true
}

// Clone returns a deep copy of the design.
func (d *Design) Clone() *Design {
	c := *d
	c.Drink.Carbonation = copied(d.Drink.Carbonation)
	if c.Preform.Targets = copied(d.Preform.Targets); c.Preform.Targets != nil {
		c.Preform.Targets.Planes = append([]float64(nil), d.Preform.Targets.Planes...)
	}
	c.Bottle.Parts = append([]float64(nil), d.Bottle.Parts...)
	c.Shelf.FittedAt, c.Shelf.ImproveAir = copied(d.Shelf.FittedAt), copied(d.Shelf.ImproveAir)
	c.Climate.Lane = append([]LaneRow(nil), d.Climate.Lane...)
	for i, r := range c.Climate.Lane {
		c.Climate.Lane[i].Humidity, c.Climate.Lane[i].Altitude = copied(r.Humidity), copied(r.Altitude)
	}
	c.Bottle.Planes = append([]float64(nil), d.Bottle.Planes...)
	c.Bottle.Profile = append([]ProfileRow(nil), d.Bottle.Profile...)
	c.Oven.Zones = append([]ZoneRow(nil), d.Oven.Zones...)
	c.HotFill.Record = append([]RecordRow(nil), d.HotFill.Record...)
	c.Lab.Pulls = append([]PullRow(nil), d.Lab.Pulls...)
	c.Lab.Drops = append([]DropRow(nil), d.Lab.Drops...)
	c.Limits = append([]Limit(nil), d.Limits...)
	return &c
}

// copied returns a pointer to a copy; nil stays nil.
func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

func splitPath(path string) []string {
	var out []string
	for start, i := 0, 0; i <= len(path); i++ {
		if i == len(path) || path[i] == '.' {
			out = append(out, path[start:i])
			start = i + 1
		}
	}
	return out
}
