package lab

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// Cell is one field of a grid. Line and Column count from 1; the column is the
// number of the field.
type Cell struct {
	Text         string
	Line, Column int
}

// Grid is a table as it was cut into cells, before anybody knows what its
// columns mean.
type Grid struct {
	Rows   [][]Cell // blank rows are left out
	Comma  bool     // decimals are written with a comma
	Taken  string   // what the bytes were taken for where they are not UTF-8
	Faults Faults   // of the quotes
	comma  comma
}

// Cells cuts a file, or what was copied from a spreadsheet, into cells: any
// usual separator, quoted fields, decimal comma or point as the whole writes
// them. It has no columns of its own: see the sheets for those of a lab.
func Cells(file string, data []byte) Grid {
	var g Grid
	text, taken := decode(data)
	g.Taken = taken
	sep, named := separator(text)
	rows := split(text, sep, func(line, col int, text, reason string) {
		g.Faults = append(g.Faults, Fault{File: file, Line: line, Col: col, Text: text, Reason: reason})
	})
	if named && len(rows) > 0 {
		rows = rows[1:]
	}
	g.comma = habit(rows)
	if g.comma == doubtful && sep != ',' {
		// A lone 1,234 in a table whose fields are not parted by commas is a
		// decimal: nobody writes a thousands mark into a column of lengths.
		g.comma = decimal
	}
	g.Comma = g.comma == decimal
	for _, r := range rows {
		if blankRow(r) {
			continue
		}
		row := make([]Cell, len(r))
		for i, c := range r {
			row[i] = Cell{c.text, c.line, c.col}
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// Number reads the number of a cell and what follows it, its unit. ok is false
// where the cell begins with no number; the error says what is doubtful.
func (g Grid) Number(text string) (value float64, unit string, ok bool, err error) {
	p, ok := cut(text)
	if !ok {
		return 0, "", false, nil
	}
	if p.censor != Exact {
		return 0, "", true, errors.New("a bound is no value: write the number alone")
	}
	v, err := p.value(g.comma)
	return v, strings.TrimSpace(p.mark + p.unit), true, err
}

// Plain returns a cell with a decimal point where the grid writes a comma, and
// without marks between thousands. What is no number comes back as it is.
func (g Grid) Plain(text string) string {
	v, rest, ok, err := g.Number(text)
	if !ok || err != nil || math.IsInf(v, 0) {
		return text
	}
	out := strconv.FormatFloat(v, 'f', -1, 64)
	if rest != "" {
		out += " " + rest
	}
	return out
}

// Heading takes the unit off a heading: "z [mm]", "power (%)", "r, mm" and
// "z mm" give name and unit; without a unit the name is the whole.
func Heading(text string) (name, unit string) {
	known := unitWords{}
	if name, unit = known.take(text); unit != "" {
		return name, unit
	}
	for _, sep := range []string{" ", "/", "_"} {
		if i := strings.LastIndex(text, sep); i > 0 && known.is(trim(text[i+len(sep):])) {
			return strings.TrimSuffix(trim(text[:i]), " in"), trim(text[i+len(sep):])
		}
	}
	return trim(text), ""
}
