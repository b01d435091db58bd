package design

import (
	"fmt"
	"reflect"
	"strings"

	"costrel/project/design/yaml"
	"costrel/unit"
)

// maxRows is the most rows a table or list may have.
const maxRows = 2000

// maxTable is the longest table that is pasted [bytes].
const maxTable = 100000

// list decodes a sequence, or a table with columns and rows, into a slice. A
// list in the design replaces the template's as a whole.
func (d *decoder) list(n *yaml.Node, v reflect.Value, f Field, path string) {
	d.forget(path)
	d.marks[path] = d.mark(n, "")
	elem := v.Type().Elem()
	table := elem.Kind() == reflect.Struct
	switch {
	case n.Kind == yaml.Null:
		v.SetZero()
		return
	case n.Kind == yaml.Mapping && table:
		d.table(n, v, path)
		return
	case n.Kind != yaml.List:
		want := "a list"
		if table {
			want = "a list, or a table with columns and rows"
		}
		d.fault(n, path, want, "%s is a list, this is %s", f.Key, n.What())
		return
	}
	if len(n.Items) > maxRows {
		d.fault(n, path, fmt.Sprintf("at most %d", maxRows), "%d entries", len(n.Items))
		return
	}
	out := reflect.MakeSlice(v.Type(), len(n.Items), len(n.Items))
	for i, item := range n.Items {
		at := fmt.Sprintf("%s[%d]", path, i)
		switch {
		case !table:
			d.single(item, out.Index(i), f, at)
		case item.Kind == yaml.Mapping:
			d.mapping(item, out.Index(i), at)
			d.require(item, out.Index(i), at)
		case item.Kind == yaml.Bad:
			d.bad(item, at)
		default:
			d.fault(item, at, "an entry with "+strings.Join(schemaOf(elem).keys, ", ")+"; or columns: and rows: above lists of cells", "the entry is %s", item.What())
		}
	}
	v.Set(out)
}

// require reports values that a list entry must have.
func (d *decoder) require(n *yaml.Node, v reflect.Value, path string) {
	if n.Kind != yaml.Mapping || d.broken {
		return
	}
	for _, f := range fieldsOf(v.Type()) {
		if _, has := n.Get(f.Key); !f.Optional && !has {
			if _, ok := d.marks[path+"."+f.Key]; !ok {
				d.fault(n, join(path, f.Key), f.Key+": "+d.such(f, ""), "missing")
			}
		}
	}
}

// table decodes {columns: [...], rows: [[...], ...]} into a slice of structs.
// A column header is the key and, for a quantity, its unit: "z mm".
func (d *decoder) table(n *yaml.Node, v reflect.Value, path string) {
	var columns, rows *yaml.Node
	bad := false
	for _, kv := range n.Pairs {
		key := kv.Key.Text
		at := path + "." + key
		switch {
		case key != "columns" && key != "rows":
			expected := "columns and rows"
			if near := nearest(key, []string{"columns", "rows"}); near != "" {
				expected = near + " (nearest key)"
			}
			d.fault(kv.Key, at, expected, "unknown key %q", clip(key))
			bad = true
		case kv.Value.Kind == yaml.Bad:
			d.bad(kv.Value, at)
			bad = true
		case kv.Value.Kind != yaml.List:
			d.fault(kv.Value, at, "a list", "this is %s", kv.Value.What())
			bad = true
		case key == "columns" && columns != nil, key == "rows" && rows != nil:
			d.fault(kv.Key, at, "one of the two", "stands twice")
			bad = true
		case key == "columns":
			columns = kv.Value
		default:
			rows = kv.Value
		}
	}
	if columns == nil || rows == nil {
		if !bad && !d.broken {
			d.fault(n, path, "columns: [...] and rows: [[...], ...]", "a table needs columns and rows")
		}
		return
	}
	cols, ok := d.columns(columns, schemaOf(v.Type().Elem()), path)
	if len(rows.Items) > maxRows {
		d.fault(rows, path+".rows", fmt.Sprintf("at most %d", maxRows), "%d rows", len(rows.Items))
		return
	}
	out := reflect.MakeSlice(v.Type(), len(rows.Items), len(rows.Items))
	for i, row := range rows.Items {
		d.row(row, cols, ok, out.Index(i), fmt.Sprintf("%s[%d]", path, i))
	}
	v.Set(out)
}

// column is one column of a table; it has no field where the header is wrong.
type column struct {
	Field
	unit string
	ok   bool
}

// columns reads the headers. It returns one column a header; ok is false when
// any is wrong or missing.
func (d *decoder) columns(n *yaml.Node, s *schema, path string) (cols []column, ok bool) {
	before := len(d.faults)
	seen := map[string]bool{}
	for i, c := range n.Items {
		at := fmt.Sprintf("%s.columns[%d]", path, i)
		col := d.column(c, s, seen, at)
		cols = append(cols, col)
	}
	for _, f := range s.fields {
		if !f.Optional && !seen[f.Key] && len(d.faults) == before && !d.broken {
			d.fault(n, path+".columns", header(f), "column %s is missing", f.Key)
		}
	}
	return cols, len(d.faults) == before
}

func header(f Field) string {
	if f.Kind == "" || f.Kind == unit.Count || f.Kind == unit.Ratio {
		return f.Key
	}
	return f.Key + " " + tradeUnit(f)
}

// tradeUnit returns the unit of a column that nobody has written yet.
func tradeUnit(f Field) string {
	if f.Trade != "" {
		return f.Trade
	}
	return unit.Preferred(f.Kind, unit.EU)
}

func (d *decoder) column(c *yaml.Node, s *schema, seen map[string]bool, at string) column {
	if c.Kind != yaml.Scalar {
		if c.Kind == yaml.Bad {
			d.bad(c, at)
		} else {
			d.fault(c, at, "a column name and its unit", "this is %s", c.What())
		}
		return column{}
	}
	key, symbol, _ := strings.Cut(strings.TrimSpace(c.Text), " ")
	symbol = strings.TrimSpace(symbol)
	if inner, ok := strings.CutPrefix(symbol, "("); ok && strings.HasSuffix(inner, ")") {
		symbol = strings.TrimSuffix(inner, ")") // "z (mm)"
	}
	j, ok := s.byKey[key]
	if !ok {
		expected := "one of " + strings.Join(s.keys, ", ")
		if near := nearest(key, s.keys); near != "" {
			expected = near + " (nearest column)"
		}
		d.fault(c, at, expected, "unknown column %q", clip(key))
		return column{}
	}
	if seen[key] {
		d.fault(c, at, "one of the two", "column %q stands twice", key)
		return column{}
	}
	seen[key] = true
	f := s.fields[j]
	if symbol == "" {
		return column{f, "", true}
	}
	if f.Kind == "" {
		d.fault(c, at, key, "column %s has a unit, but its cells have none", key)
		return column{}
	}
	if _, err := unit.Parse(f.Kind, "1 "+symbol); err != nil {
		why := strings.TrimPrefix(err.Error(), fmt.Sprintf("%q ", "1 "+symbol))
		d.fault(c, at, header(f), "the column %s", why)
		return column{}
	}
	return column{f, symbol, true}
}

// row reads the cells of one row. Behind a wrong header (ok false) it does
// not complain of missing cells.
func (d *decoder) row(n *yaml.Node, cols []column, ok bool, v reflect.Value, path string) {
	if n.Kind != yaml.List {
		if n.Kind == yaml.Bad {
			d.bad(n, path)
		} else {
			d.fault(n, path, "a list of cells in brackets", "the row is %s", n.What())
		}
		return
	}
	if len(n.Items) > len(cols) {
		extra := n.Items[len(cols)]
		d.fault(extra, path, fmt.Sprintf("%d cells; a decimal comma makes two of one", len(cols)), "%d cells for %d columns", len(n.Items), len(cols))
		return
	}
	for i, c := range cols {
		at := path + "." + c.Key
		if i >= len(n.Items) || n.Items[i].Kind == yaml.Null {
			if c.ok && !c.Optional && ok {
				d.fault(n, at, d.such(c.Field, at), "the row has no cell for %s", c.Key)
			}
			continue
		}
		if !c.ok {
			continue
		}
		cell := n.Items[i]
		switch cell.Kind {
		case yaml.Scalar:
			text := strings.TrimSpace(cell.Text)
			if c.unit != "" && isNumber(text) {
				text += " " + c.unit
			}
			to := v.Field(c.index)
			if to.Kind() != reflect.Pointer {
				d.scalar(cell, text, to, c.Field, at)
			} else if p := reflect.New(to.Type().Elem()); d.scalar(cell, text, p.Elem(), c.Field, at) {
				to.Set(p)
			}
		case yaml.Bad:
			d.bad(cell, at)
		default:
			d.fault(cell, at, d.such(c.Field, at), "the cell is %s", cell.What())
		}
	}
}

// isNumber tells whether a cell is a number without a unit.
func isNumber(s string) bool {
	_, err := unit.Parse(unit.Ratio, s)
	return err == nil
}
