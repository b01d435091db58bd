package design

import (
	"fmt"
	"reflect"
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
	Asks   []UnitAsk   `json:"asks" doc:"units that the reader has to say"`
}

// UnitAsk is a question for the unit of a column: the text names none, and
// neither does the design.
type UnitAsk struct {
	Column int      `json:"column" doc:"from 0"`
	Key    string   `json:"key"`
	Label  string   `json:"label"`
	Units  []string `json:"units" doc:"to choose from, the likeliest first"`
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
	return pasteInto(path, text, present, func(Field) bool { return false }, nil)
}

// PasteInto is [Paste] for a table of a given document. Under a text without
// heading it asks for the unit of bare times that the document has no unit for,
// s and weeks being as likely; chosen has the answers by the key of the column.
// Without present the columns are those of the document.
func PasteInto(document, path, text string, present ListedTable, chosen map[string]string) (Pasted, error) {
	doc, err := Load("", document)
	if it, ok := Lookup(path); err == nil && ok && it.Table && len(present.Columns) == 0 {
		if v, _, ok := doc.Design.at(path); ok {
			present = *doc.listedTable(it, v, doc, unit.EU)
		}
	}
	ask := func(f Field) bool {
		if f.Kind != unit.Time {
			return false
		}
		if err != nil { // a document with faults says nothing
			return true
		}
		_, one := doc.writtenUnit(path, f)
		return !one
	}
	return pasteInto(path, text, present, ask, chosen)
}

func pasteInto(path, text string, present ListedTable, ask func(Field) bool, chosen map[string]string) (Pasted, error) {
	it, ok := Lookup(path)
	if !ok {
		return Pasted{}, fmt.Errorf("design: paste: %w", unknownPath(path))
	}
	if !it.Table {
		return Pasted{}, fmt.Errorf("design: paste: %s is no list or table", path)
	}
	grid := lab.Cells("", []byte(text))
	p := &paster{path: path, grid: grid, fields: tableFields(it), ask: ask, chosen: chosen}
	p.out = Pasted{Table: ListedTable{Columns: []string{}, Rows: [][]string{}}, Faults: []CellFault{}, Notes: []string{}, Asks: []UnitAsk{}}
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
	ask    func(Field) bool  // the unit of a column without heading has to be said
	chosen map[string]string // by key
	out    Pasted
}

// pastedColumn is one column of the text; it has no field where the heading is
// wrong.
type pastedColumn struct {
	Field
	unit string
	ok   bool
	ask  bool
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
	p.unnamed(rows)
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
				if col.ask {
					p.out.Asks = append(p.out.Asks, UnitAsk{j, col.Key, col.Label, choicesOf(col.Field)})
					break
				}
				first := p.grid.Rows[0]
				p.fault(-1, lab.Cell{Text: col.Key, Line: first[0].Line, Column: j + 1}, "a heading with unit, such as "+col.Key+" ["+tradeUnit(col.Field)+"]", "the numbers of %s have no unit", col.Key)
				break
			}
		}
	}
}
