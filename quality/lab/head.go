package lab

import (
	"strings"

	"costrel/unit"
)

// searched is how many rows from the top the heading may begin.
const searched = 20

// other reports whether the column has a heading that no rule knows: its
// cells are kept as labels.
func (c column) other() bool { return c.rule == nil && c.name != "" && c.col > 0 }

// found is a heading that a sheet can read.
type found struct {
	sheet    Sheet
	from, to int // rows
	cols     []column
	reasons  map[int]string // column index: what is wrong with its heading
	score    int
}

// head finds the heading, of one to three rows, and reads what is below it.
func (r *reader) head(rows [][]cell, sheets []Sheet) {
	var best *found
	ready := make([]*index, len(sheets))
	for i, s := range sheets {
		ready[i] = newIndex(s)
	}
	known := unitWords{}
	for i := 0; i < len(rows) && i < searched; i++ {
		if blankRow(rows[i]) {
			continue
		}
		for span := 1; span <= 3 && i+span <= len(rows); span++ {
			if span > 1 && (blankRow(rows[i+span-1]) || hasNumber(rows[i+span-1])) {
				break
			}
			plain, merged := known.headings(rows[i : i+span])
			for _, s := range ready {
				f := s.read(plain, merged)
				f.score -= span // the shorter of two that fit alike
				f.from, f.to = i, i+span
				if f.score > 0 && (best == nil || f.score > best.score) {
					best = &f
				}
			}
		}
	}
	if best == nil {
		line, text := 1, ""
		for _, row := range rows {
			if !blankRow(row) {
				line, text = row[0].line, strings.Join(texts(row), ", ")
				break
			}
		}
		if text == "" {
			r.fault(line, 1, "", "the file is empty: want a row of headings and rows of readings")
			r.drop(rows)
			return
		}
		if len(sheets) == 1 {
			r.fault(line, 1, text, "no heading of the sheet "+sheets[0].Name+" found; want columns of it, as "+sheets[0].headings())
			r.drop(rows)
			return
		}
		names := make([]string, len(sheets))
		for i, s := range sheets {
			names[i] = s.Name
		}
		r.fault(line, 1, text, "no heading found that the sheets know: "+strings.Join(names, ", "))
		r.drop(rows)
		return
	}
	for _, row := range rows[:best.from] {
		r.asNote(row, "above the heading")
	}
	r.sheet, r.cols, r.t.Sheet = best.sheet, best.cols, best.sheet.Name
	for _, row := range rows[best.from:best.to] {
		for _, c := range row {
			if !c.blank() {
				r.t.Tally.Heading++
			}
		}
	}
	for i := range r.cols {
		r.column(i, best.reasons[i], rows[best.from])
	}
	r.body(rows[best.to:], rows[best.from:best.to])
	if r.sheet.Name == "sections" {
		r.sums()
	}
}

// column enters one column into the table and reports what is wrong with it.
func (r *reader) column(i int, reason string, row []cell) {
	c := &r.cols[i]
	line := c.line
	if line == 0 {
		line = row[0].line
	}
	out := Column{Col: c.col, Heading: c.name, Replicate: c.replicate, Role: Label}
	switch {
	case c.rule != nil:
		out.Key, out.Label, out.Kind, out.Role = c.rule.Key, c.rule.Label, c.rule.Kind, c.rule.Role
		out.Variant, out.Condition, out.Unit = c.rule.Variant, c.rule.Condition, c.unit.Symbol
		id := strings.Join([]string{c.rule.Key, c.rule.Variant, c.rule.Condition, c.replicate}, "|")
		if c.rule.Role != Label && r.keyed[id] {
			r.fault(line, c.col, c.name, "the column stands twice")
			r.idle[i] = true
		}
		r.keyed[id] = true
	case reason != "":
		r.faultAcross(line, c.col, c.name, reason)
		r.idle[i] = true
		c.name = ""
	case c.name != "":
		out.Key, out.Label = c.name, c.name
		r.note(line, c.col, c.name, "no rule of the sheet knows the column; its cells are kept as labels")
	}
	r.t.Columns = append(r.t.Columns, out)
}

// hasNumber reports whether a row has a cell that is a bare number, which a
// heading has not.
func hasNumber(row []cell) bool {
	for _, c := range row {
		if p, ok := cut(c.text); ok && p.unit == "" {
			return true
		}
	}
	return false
}

// headings returns the headings of a block of rows as they stand, and with
// the blanks that merged cells leave filled from the left.
func (m unitWords) headings(block [][]cell) (plain, merged []heading) {
	width := 0
	for _, row := range block {
		width = max(width, len(row))
	}
	for i := range width {
		plain = append(plain, m.heading(block, i, false))
		merged = append(merged, m.heading(block, i, true))
	}
	return plain, merged
}

// read matches headings with a sheet. The score counts matched columns,
// measured ones double, and units found; it is 0 without a measured one.
func (x *index) read(plain, merged []heading) found {
	out := found{sheet: x.Sheet, reasons: map[int]string{}}
	measured := false
	for i := range plain {
		c, ok, reason := x.match(plain[i])
		if !ok && merged[i] != plain[i] {
			if m, hit, why := x.match(merged[i]); hit || why != "" && reason == "" {
				c, ok, reason = m, hit, why
				c.heading = merged[i]
			}
		}
		if c.heading == (heading{}) {
			c.heading = plain[i]
		}
		c.col = i + 1
		switch {
		case ok:
			out.score += 2
			switch c.rule.Role {
			case Measure, Result:
				measured = true
				out.score += 2
			case Code, UnitOf:
				out.score++
			}
			if c.hasUnit {
				out.score++
			}
		case reason != "":
			out.reasons[i] = reason
			out.score++ // the name fits, the unit does not
			measured = true
		}
		out.cols = append(out.cols, c)
	}
	out.score *= 4
	if !measured {
		out.score = 0
	}
	return out
}

// heading joins the cells of a column of the block. With inherit a blank cell
// above a filled one takes the text of its left neighbour, as merged cells
// leave it.
func (m unitWords) heading(block [][]cell, i int, inherit bool) heading {
	var h heading
	var parts []string
	for k, row := range block {
		text, line := "", 0
		if i < len(row) {
			text, line = row[i].text, row[i].line
		}
		if text == "" && inherit && k+1 < len(block) {
			for j := min(i, len(row)) - 1; j >= 0; j-- {
				if row[j].text != "" {
					text, line = row[j].text, row[j].line
					break
				}
			}
		}
		if text == "" {
			continue
		}
		if h.line == 0 {
			h.line = line
		}
		if k > 0 && m.is(unbracket(text)) && len(parts) > 0 {
			if h.unit == "" {
				h.unit = unbracket(text)
				continue
			}
		}
		name, u := m.take(text)
		if u != "" && h.unit == "" {
			h.unit = u
			text = name
		}
		if text != "" {
			parts = append(parts, text)
		}
	}
	h.name = strings.Join(parts, " ")
	return h
}

func unbracket(text string) string {
	text = trim(text)
	if n := len(text); n > 2 && (text[0] == '[' && text[n-1] == ']' || text[0] == '(' && text[n-1] == ')') {
		return trim(text[1 : n-1])
	}
	return text
}

// texts returns what stands in the cells of a row, no more than a few.
func texts(row []cell) []string {
	var out []string
	for _, c := range row {
		if !c.blank() && len(out) < 8 {
			out = append(out, c.text)
		}
	}
	return out
}

// headings lists the headings of settings and readings that a sheet knows.
func (s Sheet) headings() string {
	var out []string
	for _, r := range s.Rules {
		if r.Role == Label || r.Role == Derived {
			continue
		}
		name := strings.ReplaceAll(r.Name, "#", "1")
		if r.Unit == "" && r.Kind != "" && r.Kind != unit.Count {
			if a := unit.Accepted(r.Kind); len(a) > 0 {
				name += " (" + a[0] + ")"
			}
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}
