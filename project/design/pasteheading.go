package design

import (
	"slices"
	"strings"

	"costrel/quality/lab"
	"costrel/unit"
)

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
			p.out.Table.Columns = append(p.out.Table.Columns, "")
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
		p.cols = append(p.cols, pastedColumn{f, symbol, ok, false})
		shown := strings.TrimSpace(f.Key + " " + symbol)
		if f.Key == "" {
			shown = short(c.Text)
		}
		p.out.Table.Columns = append(p.out.Table.Columns, shown)
	}
	p.missing(row)
}

// unnamed takes out columns without a heading, such as the empty one that a
// selection in a spreadsheet ends with; a cell in one of them is a fault.
func (p *paster) unnamed(rows [][]lab.Cell) {
	for j := len(p.cols) - 1; j >= 0; j-- {
		if p.out.Table.Columns[j] != "" {
			continue
		}
		empty := true
		for i, row := range rows {
			if j < len(row) && row[j].Text != "" {
				p.fault(i, row[j], "a heading over it, or no cell", "the column of this cell has no heading")
				empty = false
			}
		}
		if !empty {
			continue
		}
		p.cols = slices.Delete(p.cols, j, j+1)
		p.out.Table.Columns = slices.Delete(p.out.Table.Columns, j, j+1)
		for i, r := range p.out.Table.Rows {
			p.out.Table.Rows[i] = slices.Delete(r, j, j+1)
		}
		for i, f := range p.out.Faults {
			if f.Column > j {
				p.out.Faults[i].Column-- // of the table that is shown
			}
		}
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

// assume gives a text without heading the columns of the present table, in the
// units that it is shown in.
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
	heads = slices.Clone(heads)
	var shown []string // keys of columns whose unit is that of the table
	for j, h := range heads {
		name, symbol, _ := strings.Cut(h, " ")
		f, ok := p.find(name)
		col := pastedColumn{f, symbol, ok, ok && p.ask(f)}
		if said := p.chosen[f.Key]; ok && said != "" {
			col.unit, col.ask = said, false
			if _, known := unit.Find(f.Kind, said); !known {
				p.fault(-1, lab.Cell{Text: said, Line: 1, Column: j + 1}, strings.Join(unit.Accepted(f.Kind), ", "), "%q is no unit of %s", clip(said), f.Kind)
				col.ok = false
			}
		}
		if col.ask {
			col.unit = ""
		}
		if col.unit != "" && col.unit == symbol {
			shown = append(shown, f.Key)
		}
		if ok {
			heads[j] = strings.TrimSpace(f.Key + " " + col.unit)
		}
		p.cols = append(p.cols, col)
	}
	p.missing(rows[0])
	p.out.Table.Columns = append(p.out.Table.Columns, heads...)
	p.note("No heading: read as %s.", strings.Join(heads, ", "))
	if len(shown) > 0 {
		p.note("Numbers without a unit have the one that the table is shown in: %s.", strings.Join(shown, ", "))
	}
}

// choicesOf returns the units of a column to choose from: that of the trade
// first, the others as the table of units has them.
func choicesOf(f Field) []string {
	first := tradeUnit(f)
	out := []string{first}
	for _, symbol := range unit.Accepted(f.Kind) {
		if symbol != first {
			out = append(out, symbol)
		}
	}
	return out
}
