package design

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"costrel/project/design/yaml"
	"costrel/quality/lab"
	"costrel/unit"
)

// Pasted is a table as it was read from a spreadsheet or a file.
type Pasted struct {
	Table  ListedTable `json:"table"`
	Headed bool        `json:"headed" doc:"the first row is a heading"`
	Faults []CellFault `json:"faults"`
	Notes  []string    `json:"notes" doc:"what was assumed"`
}

// CellFault is one cell that cannot be taken. Row and Column count the cells
// of the table from 0; a row of -1 is the heading.
type CellFault struct {
	Row      int    `json:"row"`
	Column   int    `json:"column"`
	Line     int    `json:"line" doc:"of the text that was pasted, from 1"`
	Text     string `json:"text"`
	Message  string `json:"message"`
	Expected string `json:"expected,omitempty"`
}

// Error returns the fault with its place.
func (f CellFault) Error() string {
	text := f.Message
	if f.Line > 0 {
		text = fmt.Sprintf("line %d, field %d: %s", f.Line, f.Column+1, f.Message)
	}
	if f.Expected != "" {
		text += "; expected " + f.Expected
	}
	return text
}

// TSV returns a table as [Paste] and [Set] read it: the heading and the rows,
// cells parted by tabs.
func (t ListedTable) TSV() string {
	lines := []string{strings.Join(t.Columns, "\t")}
	for _, r := range t.Rows {
		lines = append(lines, strings.Join(r, "\t"))
	}
	return strings.Join(lines, "\n")
}

// Paste reads rows for the list or table at a path of the design, as they are
// copied from a spreadsheet or stand in a CSV file: tabs, semicolons or
// commas, decimal comma or point, units in the heading or in the cells. A text
// without heading has the columns of present, the table as the reader sees it.
// Every cell is held against unit and range of its column; all faults come
// back at once. It fails on a path that is no list or table.
func Paste(path, text string, present ListedTable) (Pasted, error) {
	it, ok := Lookup(path)
	if !ok {
		return Pasted{}, fmt.Errorf("design: paste: %w", unknownPath(path))
	}
	if !it.Table {
		return Pasted{}, fmt.Errorf("design: paste: %s is no list or table", path)
	}
	grid := lab.Cells("", []byte(text))
	p := &paster{path: path, grid: grid, fields: tableFields(it)}
	p.out = Pasted{Table: ListedTable{Columns: []string{}, Rows: [][]string{}}, Faults: []CellFault{}, Notes: []string{}}
	for _, f := range grid.Faults {
		p.out.Faults = append(p.out.Faults, CellFault{Row: f.Line - 1, Column: f.Col - 1, Line: f.Line, Text: f.Text, Message: f.Reason})
	}
	p.read(present)
	return p.out, nil
}

// tableFields returns the columns of a table; a plain list has one.
func tableFields(it Item) []Field {
	t := it.Field.typ
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	e := t.Elem()
	if e.Kind() == reflect.Struct {
		return fieldsOf(e)
	}
	f := it.Field
	f.typ = e
	return []Field{f}
}

// paster reads one pasted text.
type paster struct {
	path   string
	grid   lab.Grid
	fields []Field
	cols   []pastedColumn
	out    Pasted
}

// pastedColumn is one column of the text; it has no field where the heading is
// wrong.
type pastedColumn struct {
	Field
	unit string
	ok   bool
}

func (p *paster) fault(row int, c lab.Cell, expected, format string, args ...any) {
	p.out.Faults = append(p.out.Faults, CellFault{Row: row, Column: c.Column - 1, Line: c.Line, Text: short(c.Text), Message: short(fmt.Sprintf(format, args...)), Expected: short(expected)})
}

func (p *paster) note(format string, args ...any) {
	p.out.Notes = append(p.out.Notes, fmt.Sprintf(format, args...))
}

func (p *paster) read(present ListedTable) {
	rows := p.grid.Rows
	if len(rows) == 0 {
		p.fault(-1, lab.Cell{Line: 1, Column: 1}, "rows of cells, parted by tabs, semicolons or commas", "there is nothing to read")
		return
	}
	if p.grid.Comma {
		p.note("Decimal commas are read as decimals.")
	}
	if p.grid.Taken != "" {
		p.note("The text is taken for %s.", p.grid.Taken)
	}
	if p.out.Headed = p.headed(rows[0]); p.out.Headed {
		p.heading(rows[0])
		rows = rows[1:]
	} else {
		if len(p.fields) == 1 && len(rows) == 1 {
			rows = upright(rows[0])
		}
		p.assume(rows, present)
	}
	if len(rows) > maxRows {
		p.fault(maxRows, rows[maxRows][0], fmt.Sprintf("at most %d", maxRows), "%d rows", len(rows))
		return
	}
	for i, r := range rows {
		p.row(i, r)
	}
	if len(rows) == 0 {
		p.fault(0, lab.Cell{Line: p.grid.Rows[0][0].Line, Column: 1}, "rows under the heading", "there is a heading only")
	}
	p.units()
}

// upright turns the cells of one row into rows of one cell: a list may be
// copied across.
func upright(row []lab.Cell) [][]lab.Cell {
	out := make([][]lab.Cell, len(row))
	for i, c := range row {
		out[i] = []lab.Cell{c}
	}
	return out
}

// headed tells whether the first row is a heading: one of its cells names a
// column, or no cell is a number where every column holds numbers.
func (p *paster) headed(row []lab.Cell) bool {
	numbers := false
	for _, c := range row {
		name, _ := lab.Heading(c.Text)
		if _, ok := p.find(name); ok {
			return true
		}
		if _, _, ok, _ := p.grid.Number(c.Text); ok {
			numbers = true
		}
	}
	return !numbers && slices.ContainsFunc(p.fields, func(f Field) bool { return f.Kind != "" })
}

func (p *paster) find(name string) (Field, bool) {
	name = strings.ToLower(strings.TrimSpace(name))
	for _, f := range p.fields {
		if name != "" && (name == f.Key || name == strings.ToLower(f.Label)) {
			return f, true
		}
	}
	return Field{}, false
}

// heading reads the headings with their units.
func (p *paster) heading(row []lab.Cell) {
	var keys []string
	for _, f := range p.fields {
		keys = append(keys, f.Key)
	}
	seen := map[string]bool{}
	for _, c := range row {
		name, symbol := lab.Heading(c.Text)
		f, ok := p.find(name)
		switch {
		case c.Text == "":
			p.cols = append(p.cols, pastedColumn{})
			continue
		case !ok:
			expected := "one of " + strings.Join(keys, ", ")
			if near := nearest(strings.ToLower(name), keys); near != "" {
				expected = near + " (nearest column)"
			}
			p.fault(-1, c, expected, "%q is no column of this table", clip(name))
		case seen[f.Key]:
			p.fault(-1, c, "one of the two", "column %q stands twice", f.Key)
			ok = false
		case symbol != "" && f.Kind == "":
			p.fault(-1, c, f.Key, "column %s has a unit, but its cells have none", f.Key)
		case symbol != "":
			if _, known := unit.Find(f.Kind, symbol); !known {
				p.fault(-1, c, strings.Join(unit.Accepted(f.Kind), ", "), "%q is no unit of %s", clip(symbol), f.Kind)
				ok = false
			}
		}
		seen[f.Key] = true
		p.cols = append(p.cols, pastedColumn{f, symbol, ok})
	}
	p.missing(row)
	for _, c := range p.cols {
		p.out.Table.Columns = append(p.out.Table.Columns, strings.TrimSpace(c.Key+" "+c.unit))
	}
}

// missing reports the columns that a row must have and does not.
func (p *paster) missing(row []lab.Cell) {
	for _, f := range p.fields {
		if !f.Optional && !slices.ContainsFunc(p.cols, func(c pastedColumn) bool { return c.Key == f.Key }) {
			p.fault(-1, lab.Cell{Text: row[0].Text, Line: row[0].Line, Column: len(row) + 1}, header(f), "column %s is missing", f.Key)
		}
	}
}

// assume gives a text without heading the columns of the present table.
func (p *paster) assume(rows [][]lab.Cell, present ListedTable) {
	wide := 0
	for _, r := range rows {
		wide = max(wide, len(r))
	}
	heads := present.Columns
	if len(heads) == 0 {
		for _, f := range p.fields {
			heads = append(heads, header(f))
		}
	}
	heads = heads[:min(wide, len(heads))]
	for _, h := range heads {
		name, symbol, _ := strings.Cut(h, " ")
		f, ok := p.find(name)
		p.cols = append(p.cols, pastedColumn{f, symbol, ok})
	}
	p.missing(rows[0])
	p.out.Table.Columns = append(p.out.Table.Columns, heads...)
	p.note("No heading: read as %s.", strings.Join(heads, ", "))
}

// row reads the cells of one row.
func (p *paster) row(i int, row []lab.Cell) {
	out := make([]string, len(p.cols))
	for j, c := range row {
		if j >= len(p.cols) {
			if c.Text != "" {
				p.fault(i, c, fmt.Sprintf("%d cells", len(p.cols)), "there is no column for this cell")
			}
			continue
		}
		if out[j] = p.grid.Plain(c.Text); p.cols[j].typ != nil && p.cols[j].typ.Kind() == reflect.String && p.cols[j].Key != "value" {
			out[j] = c.Text
		}
	}
	for j, col := range p.cols {
		c := lab.Cell{Line: row[0].Line, Column: j + 1}
		if j < len(row) {
			c = row[j]
		}
		if col.ok {
			p.cell(i, c, out[j], col)
		}
	}
	p.out.Table.Rows = append(p.out.Table.Rows, out)
}

// cell holds one cell against its column, as the reader of the document does.
func (p *paster) cell(i int, c lab.Cell, text string, col pastedColumn) {
	d := &decoder{marks: map[string]Mark{}}
	if text == "" {
		if !col.Optional {
			p.fault(i, c, d.such(col.Field, ""), "the cell of %s is empty", col.Key)
		}
		return
	}
	if _, _, ok, err := p.grid.Number(c.Text); ok && err != nil && col.Kind != "" {
		p.fault(i, c, d.such(col.Field, ""), "%q: %v", clip(c.Text), err)
		return
	}
	if col.Kind != "" && isNumber(text) {
		if col.unit == "" && !bareKind(col.Kind) {
			return // told once by units
		}
		text = strings.TrimSpace(text + " " + col.unit)
	}
	t := col.typ
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	d.scalar(&yaml.Node{Kind: yaml.Scalar, Text: text}, text, reflect.New(t).Elem(), col.Field, "")
	for _, f := range d.faults {
		p.fault(i, c, f.Expected, "%s", f.Message)
	}
}

func bareKind(k unit.Kind) bool { return k == unit.Count || k == unit.Ratio }

// units reports columns of bare numbers without a unit in the heading.
func (p *paster) units() {
	for j, col := range p.cols {
		if !col.ok || col.unit != "" || col.Kind == "" || bareKind(col.Kind) {
			continue
		}
		for _, r := range p.out.Table.Rows {
			if isNumber(r[j]) {
				first := p.grid.Rows[0]
				p.fault(-1, lab.Cell{Text: col.Key, Line: first[0].Line, Column: j + 1}, "a heading with unit, such as "+col.Key+" ["+unit.Preferred(col.Kind, unit.EU)+"]", "the numbers of %s have no unit", col.Key)
				break
			}
		}
	}
}
