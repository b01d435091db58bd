package profile

import (
	"strings"

	"costrel/quality/lab"
	"costrel/unit"
)

// csv reads a table of points into the pieces between them.
func (r *reader) csv(data []byte) []piece {
	grid := lab.Cells(r.file, data)
	for _, f := range grid.Faults {
		r.fault(f.Line, f.Text, "close the quote", "%s", f.Reason)
	}
	if grid.Comma {
		r.note("Decimal commas are read as decimals.")
	}
	if len(grid.Rows) == 0 {
		r.fault(0, "", "give a heading such as z [mm];r [mm] and a row for each point", "the table is empty")
		return nil
	}
	cols, ok := r.columns(grid)
	if !ok {
		return nil
	}
	var points []pt
	var lines []int
	for _, row := range grid.Rows[1:] {
		radius, ok1 := r.cell(grid, row, cols.radius, cols.radiusUnit)
		height, ok2 := r.cell(grid, row, cols.height, cols.heightUnit)
		if ok1 && ok2 {
			if cols.wide {
				radius /= 2
			}
			points, lines = append(points, pt{radius, height}), append(lines, row[0].Line)
		}
	}
	var out []piece
	for i := 1; i < len(points); i++ {
		if points[i-1].to(points[i]) < 1e-9 {
			r.note("Line %d repeats the point before it and is left out.", lines[i])
			points[i] = points[i-1]
			continue
		}
		out = append(out, piece{a: points[i-1], b: points[i], line: lines[i], what: "row"})
	}
	if len(out) == 0 && len(r.faults) == 0 {
		r.fault(0, "", "give a row for each point", "%d points make no profile", len(points))
	}
	return out
}

// columns of a table of points.
type columns struct {
	radius, height         int
	radiusUnit, heightUnit string
	wide                   bool // a diameter stands for the radius
}

var headings = map[string]string{
	"r": "r", "radius": "r", "x": "r", "outer radius": "r", "d": "d", "diameter": "d", "outer diameter": "d", "⌀": "d", "ø": "d",
	"z": "z", "height": "z", "h": "z", "y": "z",
}

// meaning returns what a heading means: by all its words, or by one of them
// ("height z").
func meaning(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	if m := headings[name]; m != "" {
		return m
	}
	for _, word := range strings.Fields(name) {
		if m := headings[word]; m != "" {
			return m
		}
	}
	return ""
}

func (r *reader) columns(grid lab.Grid) (columns, bool) {
	out := columns{radius: -1, height: -1}
	const want = "name one column z or height and one r, radius, d or diameter, each with its unit, such as z [mm]"
	head := grid.Rows[0]
	before := len(r.faults)
	unitOf := func(c lab.Cell, symbol string) string {
		switch {
		case r.o.Unit != "":
			return r.o.Unit
		case symbol != "":
			if _, ok := unit.Find(unit.Length, symbol); !ok {
				r.fault(c.Line, c.Text, "one of "+strings.Join(unit.Accepted(unit.Length), ", "), "%q is no unit of length", symbol)
			}
		}
		return symbol
	}
	for i, c := range head {
		name, symbol := lab.Heading(c.Text)
		switch meaning(name) {
		case "z":
			if out.height >= 0 {
				r.fault(c.Line, c.Text, "take one out", "two columns of heights")
			}
			out.height, out.heightUnit = i, unitOf(c, symbol)
		case "r", "d":
			if out.radius >= 0 {
				r.fault(c.Line, c.Text, "take one out", "two columns of radii or diameters")
			}
			out.wide = meaning(name) == "d"
			out.radius, out.radiusUnit = i, unitOf(c, symbol)
		default:
			if c.Text != "" && (out.radius >= 0 || out.height >= 0) {
				r.note("Column %q is left out.", clip(c.Text))
			}
		}
	}
	if out.radius < 0 || out.height < 0 {
		r.fault(head[0].Line, head[0].Text, want, "the first row is no heading with a height and a radius or diameter")
	}
	return out, len(r.faults) == before
}

// cell reads one length in m.
func (r *reader) cell(grid lab.Grid, row []lab.Cell, col int, symbol string) (float64, bool) {
	if col >= len(row) || row[col].Text == "" {
		r.fault(row[0].Line, "", "give both, or take the row out", "the row has no cell %d", col+1)
		return 0, false
	}
	c := row[col]
	v, own, ok, err := grid.Number(c.Text)
	switch {
	case !ok:
		r.fault(c.Line, c.Text, "write a number", "field %d: %q is no number", c.Column, clip(c.Text))
		return 0, false
	case err != nil:
		r.fault(c.Line, c.Text, "write the number without doubt", "field %d: %q: %v", c.Column, clip(c.Text), err)
		return 0, false
	}
	if own == "" {
		own = symbol
	}
	if own == "" {
		r.fault(c.Line, c.Text, "write the unit into the heading, such as z [mm], or name the unit of the file", "field %d: %q has no unit", c.Column, clip(c.Text))
		return 0, false
	}
	u, ok := unit.Find(unit.Length, own)
	if !ok {
		r.fault(c.Line, c.Text, "one of "+strings.Join(unit.Accepted(unit.Length), ", "), "field %d: %q is no unit of length", c.Column, clip(own))
		return 0, false
	}
	return v * u.Scale, true
}
