package design

import (
	"fmt"
	"reflect"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"costrel/unit"
)

// maxRows is the most rows a table or list may have.
const maxRows = 2000

// list decodes a sequence, or a table with columns and rows, into a slice. A
// list in the design replaces the template's as a whole.
func (d *decoder) list(n ast.Node, v reflect.Value, f Field, path string, depth int) {
	if isNull(n) {
		v.SetZero()
		d.forget(path)
		return
	}
	d.forget(path)
	elem := v.Type().Elem()
	if pairs, ok := entries(n); ok && elem.Kind() == reflect.Struct {
		d.table(n, pairs, v, path)
		return
	}
	seq, ok := n.(*ast.SequenceNode)
	if !ok {
		want := "a list"
		if elem.Kind() == reflect.Struct {
			want = "a list, or a table with columns and rows"
		}
		d.fault(n, path, want, "this is %s", describe(n))
		return
	}
	if len(seq.Values) > maxRows {
		d.fault(n, path, fmt.Sprintf("at most %d", maxRows), "%d entries", len(seq.Values))
		return
	}
	out := reflect.MakeSlice(v.Type(), len(seq.Values), len(seq.Values))
	for i, item := range seq.Values {
		at := fmt.Sprintf("%s[%d]", path, i)
		if elem.Kind() == reflect.Struct {
			d.mapping(item, out.Index(i), at, depth+1)
			d.require(item, out.Index(i), at)
		} else {
			d.single(item, out.Index(i), f, at)
		}
	}
	v.Set(out)
	d.listMark(n, path)
}

// listMark records that a list or table was written.
func (d *decoder) listMark(n ast.Node, path string) {
	m := Mark{Kind: d.kind}
	if p := n.GetToken().Position; p != nil {
		m.Line, m.Column = p.Line, p.Column
	}
	d.marks[path] = m
}

// require reports values that a list entry must have.
func (d *decoder) require(n ast.Node, v reflect.Value, path string) {
	for _, f := range fieldsOf(v.Type()) {
		if f.Optional {
			continue
		}
		if _, ok := d.marks[path+"."+f.Key]; ok || d.faulty(path+"."+f.Key) {
			continue
		}
		d.fault(n, path, f.Key, "%s is missing", f.Key)
	}
}

func (d *decoder) faulty(path string) bool {
	for _, f := range d.faults {
		if f.Path == path {
			return true
		}
	}
	return false
}

// table decodes {columns: [...], rows: [[...], ...]} into a slice of structs.
// A column header is the key and, for a quantity, its unit: "z mm".
func (d *decoder) table(n ast.Node, pairs []*ast.MappingValueNode, v reflect.Value, path string) {
	fields := fieldsOf(v.Type().Elem())
	var columns, rows *ast.SequenceNode
	for _, kv := range pairs {
		key, _ := scalar(kv.Key)
		seq, isSeq := kv.Value.(*ast.SequenceNode)
		switch {
		case key == "columns" && isSeq:
			columns = seq
		case key == "rows" && isSeq:
			rows = seq
		case key == "columns" || key == "rows":
			d.fault(kv.Value, path+"."+key, "a list", "this is %s", describe(kv.Value))
			return
		default:
			d.fault(kv.Key, path+"."+key, "columns and rows", "unknown key %q", key)
			return
		}
	}
	if columns == nil || rows == nil {
		d.fault(n, path, "columns: [...] and rows: [[...], ...]", "a table needs columns and rows")
		return
	}
	cols, ok := d.columns(columns, fields, path)
	if !ok {
		return
	}
	if len(rows.Values) > maxRows {
		d.fault(rows, path+".rows", fmt.Sprintf("at most %d", maxRows), "%d rows", len(rows.Values))
		return
	}
	out := reflect.MakeSlice(v.Type(), len(rows.Values), len(rows.Values))
	for i, row := range rows.Values {
		d.row(row, cols, out.Index(i), fmt.Sprintf("%s[%d]", path, i))
	}
	v.Set(out)
	d.listMark(n, path)
}

type column struct {
	Field
	unit string
}

func (d *decoder) columns(n *ast.SequenceNode, fields []Field, path string) ([]column, bool) {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	before := len(d.faults)
	var cols []column
	seen := map[string]bool{}
	for i, c := range n.Values {
		at := fmt.Sprintf("%s.columns[%d]", path, i)
		header, ok := scalar(c)
		if !ok {
			d.fault(c, at, "a column name and its unit", "this is %s", describe(c))
			continue
		}
		key, symbol, _ := strings.Cut(strings.TrimSpace(header), " ")
		symbol = strings.TrimSpace(symbol)
		j := indexOf(keys, key)
		if j < 0 {
			expected := "one of " + strings.Join(keys, ", ")
			if near := nearest(key, keys); near != "" {
				expected = near + " (nearest column)"
			}
			d.fault(c, at, expected, "unknown column %q", key)
			continue
		}
		if seen[key] {
			d.fault(c, at, "", "column %q stands twice", key)
			continue
		}
		seen[key] = true
		f := fields[j]
		if f.Kind != "" {
			if _, ok := unit.Find(f.Kind, symbol); symbol != "" && !ok {
				d.fault(c, at, strings.Join(unit.Accepted(f.Kind), ", "), "%q is no unit of %s", symbol, f.Kind)
				continue
			}
		}
		cols = append(cols, column{f, symbol})
	}
	for _, f := range fields {
		if !f.Optional && !seen[f.Key] && len(d.faults) == before {
			d.fault(n, path+".columns", f.Key, "column %s is missing", f.Key)
		}
	}
	return cols, len(d.faults) == before
}

func (d *decoder) row(n ast.Node, cols []column, v reflect.Value, path string) {
	seq, ok := n.(*ast.SequenceNode)
	if !ok {
		d.fault(n, path, "a list of cells", "this is %s", describe(n))
		return
	}
	if len(seq.Values) > len(cols) {
		d.fault(n, path, fmt.Sprintf("%d", len(cols)), "%d cells for %d columns", len(seq.Values), len(cols))
		return
	}
	for i, c := range cols {
		at := path + "." + c.Key
		if i >= len(seq.Values) || isNull(seq.Values[i]) {
			if !c.Optional {
				d.fault(n, at, c.Label, "the row has no value for %s", c.Key)
			}
			continue
		}
		cell := seq.Values[i]
		text, ok := scalar(cell)
		if !ok {
			d.fault(cell, at, "a value", "this is %s", describe(cell))
			continue
		}
		if c.Kind != "" && c.unit != "" && isNumber(text) {
			text += " " + c.unit
		}
		d.scalarText(cell, text, v.Field(c.index), c.Field, at)
	}
}

func isNumber(s string) bool {
	for _, r := range s {
		if (r < '0' || r > '9') && !strings.ContainsRune("+-.eE", r) {
			return false
		}
	}
	return s != ""
}
