package design

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"costrel/project/design/yaml"
	"costrel/unit"
)

// list makes the change in an entry of a list or a row of a table; st begins
// with the index.
func (e *editor) list(n *yaml.Node, st []step) error {
	i := st[0].index
	if n.Kind == yaml.Mapping {
		return e.inTable(n, st)
	}
	if n.Kind != yaml.List {
		return fmt.Errorf("%s is %s; edit it in the text", e.target, n.What())
	}
	if i >= len(n.Items) {
		return fmt.Errorf("%s has %d entries in the text; add one there", e.target, len(n.Items))
	}
	item := n.Items[i]
	e.target += index(i)
	switch {
	case len(st) > 1 && item.Kind == yaml.Mapping:
		return e.mapping(item, st[1:], nil)
	case len(st) > 1:
		return fmt.Errorf("%s is %s; edit it in the text", e.target, item.What())
	case e.value == "":
		return errors.New("an entry is taken out in the text")
	}
	return e.replace(item, n.Flow)
}

// inTable makes the change in a cell of a table with columns and rows.
func (e *editor) inTable(n *yaml.Node, st []step) error {
	columns, _ := n.Get("columns")
	rows, _ := n.Get("rows")
	if columns == nil || rows == nil || columns.Kind != yaml.List || rows.Kind != yaml.List {
		return fmt.Errorf("%s is no table with columns and rows; edit it in the text", e.target)
	}
	i := st[0].index
	if i >= len(rows.Items) {
		return fmt.Errorf("%s has %d rows; add one in the text", e.target, len(rows.Items))
	}
	row := rows.Items[i]
	col, symbol := -1, ""
	for j, c := range columns.Items {
		key, u, _ := strings.Cut(strings.TrimSpace(c.Text), " ")
		if key == st[1].key {
			col, symbol = j, strings.Trim(strings.TrimSpace(u), "()")
		}
	}
	if col < 0 {
		return fmt.Errorf("%s has no column %s; add it in the text", e.target, st[1].key)
	}
	if row.Kind != yaml.List {
		return fmt.Errorf("row %d of %s is %s; edit it in the text", i, e.target, row.What())
	}
	e.target += ".rows" + index(i) + index(col)
	e.cell = inColumn(e.field, symbol, e.value)
	if e.value == "" && !e.field.Optional {
		return errors.New("a row is taken out in the text")
	}
	if col < len(row.Items) {
		if e.value == "" {
			if c := row.Items[col]; c.Kind != yaml.Null {
				e.splice(c.Start, c.End, "~")
			}
			return nil
		}
		return e.replace(row.Items[col], row.Flow)
	}
	if e.value == "" {
		return nil
	}
	if !row.Flow || len(row.Items) == 0 {
		return fmt.Errorf("row %d of %s ends before this cell; add it in the text", i, e.target)
	}
	last := row.Items[len(row.Items)-1].End
	e.splice(last, last, strings.Repeat(", ~", col-len(row.Items))+", "+quote(e.cell, true))
	return nil
}

// inColumn returns a cell as it is written under a column with a unit: the
// bare number when the value is in that unit.
func inColumn(f Field, symbol, value string) string {
	if symbol == "" || value == "" {
		return value
	}
	u, ok := unit.Find(f.Kind, symbol)
	q, err := unit.Parse(f.Kind, value)
	if !ok || err != nil || q.Symbol != u.Symbol {
		return value
	}
	for i := len(value); i > 0; i-- {
		if bare := strings.TrimSpace(value[:i]); isNumber(bare) {
			if again, err := unit.Parse(f.Kind, bare+" "+symbol); err == nil && again.SI == q.SI {
				return bare
			}
			break
		}
	}
	return value
}

// table returns the lines of a list or table that the document does not have:
// the one that holds for it now, with the value put in. The first line goes
// behind the key.
func (e *editor) table(st []step, indent int) ([]string, error) {
	table := e.path[:strings.IndexByte(e.path, '[')]
	if table == "limits" {
		return nil, errors.New("the document has no limits of its own; add one in the text")
	}
	doc, err := Load("", e.text)
	if err != nil {
		return nil, fmt.Errorf("the table stands in the template, and the document is not usable: %w", err)
	}
	rows, _, ok := doc.Design.at(table)
	if !ok || st[0].index >= rows.Len() {
		return nil, fmt.Errorf("%s has %d rows", table, max(0, sliceLen(rows)))
	}
	pad := strings.Repeat(" ", indent+2)
	if len(st) == 1 {
		cells := make([]string, rows.Len())
		for i := range cells {
			text := doc.Marks[table+index(i)].Text
			if text == "" {
				symbol := unit.Preferred(e.field.Kind, unit.EU)
				text = strings.TrimSpace(cellText(e.field, rows.Index(i), symbol) + " " + symbol)
			}
			if i == st[0].index {
				text = e.value
			}
			cells[i] = quote(text, true)
		}
		return []string{" [" + strings.Join(cells, ", ") + "]"}, nil
	}
	heads, body := doc.written(table)
	for j, f := range fieldsOf(rows.Type().Elem()) {
		if f.Key == st[1].key {
			_, symbol, _ := strings.Cut(heads[j], " ")
			body[st[0].index][j] = inColumn(f, symbol, e.value)
		}
	}
	return tableLines(heads, body, pad), nil
}

func sliceLen(v reflect.Value) int {
	if v.IsValid() && v.Kind() == reflect.Slice {
		return v.Len()
	}
	return 0
}

// written returns a table of the design as it would be written: headers with
// the unit of the column, and cells. A column has the unit of its first cell.
func (doc *Document) written(path string) (columns []string, rows [][]string) {
	return doc.rows(path, func(f Field) string {
		if m := doc.Marks[path+"[0]."+f.Key]; m.Symbol != "" {
			return m.Symbol
		}
		return tradeUnit(f)
	}, asWritten)
}

// rows returns headers and cells of a table with the given unit of a column;
// body says how a cell is written.
func (doc *Document) rows(path string, symbol func(Field) string, body func(f Field, m Mark, v reflect.Value, symbol string) string) (columns []string, rows [][]string) {
	v, it, ok := doc.Design.at(path)
	if !ok || !it.Table || v.Type().Elem().Kind() != reflect.Struct {
		return nil, nil
	}
	fields := fieldsOf(v.Type().Elem())
	symbols := make([]string, len(fields))
	for j, f := range fields {
		columns = append(columns, f.Key)
		if f.Kind != "" {
			if symbols[j] = symbol(f); symbols[j] != "" {
				columns[j] += " " + symbols[j]
			}
		}
	}
	rows = make([][]string, v.Len())
	for i := range rows {
		rows[i] = make([]string, len(fields))
		for j, f := range fields {
			rows[i][j] = body(f, doc.Marks[path+index(i)+"."+f.Key], v.Index(i).Field(f.index), symbols[j])
		}
	}
	return columns, rows
}

// asWritten returns a cell as the document or the template writes it, where one
// of them does.
func asWritten(f Field, m Mark, v reflect.Value, symbol string) string {
	if m.Text != "" && m.Text != "~" {
		return inColumn(f, symbol, m.Text)
	}
	return cellText(f, v, symbol)
}

// cellText returns one cell as it is written under a column with a unit; ""
// stands for an optional cell without effect.
func cellText(f Field, v reflect.Value, symbol string) string {
	written := v.Kind() == reflect.Pointer
	if written {
		if v.IsNil() {
			return ""
		}
		v = v.Elem()
	}
	switch {
	case f.Kind != "":
		u, ok := unit.Find(f.Kind, symbol)
		if f.Optional && !written && v.Float() == 0 || !ok {
			return ""
		}
		return digits((v.Float()-u.Offset)/u.Scale, 5)
	case v.Kind() == reflect.Int:
		return strconv.FormatInt(v.Int(), 10)
	}
	return v.String()
}

// digits writes a number with the given significant digits, but no fewer than
// its whole part needs, and without trailing zeros.
func digits(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	decimals := n - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	s := strconv.FormatFloat(x, 'f', min(max(decimals, 0), 12), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}
