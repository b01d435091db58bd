package lab

import (
	"fmt"
	"math"

	"costrel/unit"
)

// codes returns the measured rules that a long table may name, without
// replicates.
func codes() Sheet {
	var s Sheet
	for _, sh := range Sheets() {
		if sh.Name == "stresscrack" { // "old" and "new" are no names of tests
			continue
		}
		for _, r := range sh.Rules {
			if r.Role == Measure && !containsHash(r.Name) {
				s.Rules = append(s.Rules, r)
			}
		}
	}
	return s
}

func containsHash(s string) bool {
	for _, r := range s {
		if r == '#' {
			return true
		}
	}
	return false
}

// longRow reads a row of a table with one result a row.
func (r *reader) longRow(row []cell, out Row, at int) {
	var code, value, name cell
	for i, c := range row {
		if i >= len(r.cols) {
			if !c.blank() {
				r.t.Tally.Faulty++
				r.fault(c.line, c.col, c.text, "a value in a column without a heading that could be read")
			}
			continue
		}
		role := Label
		if r.cols[i].rule != nil {
			role = r.cols[i].rule.Role
		}
		switch {
		case r.cols[i].rule == nil && !r.cols[i].other():
			if !c.blank() {
				r.t.Tally.Faulty++
				r.fault(c.line, c.col, c.text, "a value in a column without a heading that could be read")
			}
		case role == Code:
			code = c
		case role == Result:
			value = c
		case role == UnitOf:
			name = c
		default:
			r.place(r.cols[i], c, &out, at)
		}
	}
	defer func() { r.t.Rows = append(r.t.Rows, out) }()
	rest := func(faulty ...cell) {
		for _, c := range faulty {
			if !c.blank() {
				r.t.Tally.Faulty++
			}
		}
	}
	if value.blank() || isMissing(value.text) {
		if !value.blank() {
			r.t.Tally.Missing++
		}
		r.t.Missing = append(r.t.Missing, Note{Line: out.Line, Text: value.text, Why: fmt.Sprintf("%s: no value", code.text)})
		for _, c := range []cell{code, name} {
			if !c.blank() {
				r.t.Tally.Label++
			}
		}
		return
	}
	if code.blank() {
		r.fault(out.Line, value.col, value.text, "the row names no test")
		rest(value, name)
		return
	}
	if r.codes == nil {
		r.codes = newIndex(codes())
	}
	m, ok, reason := r.codes.match(heading{name: code.text, unit: name.text})
	if !ok {
		if reason == "" {
			reason = "no rule knows the test"
		}
		r.fault(code.line, code.col, code.text, reason)
		rest(code, value, name)
		return
	}
	var u unit.Unit
	if m.hasUnit {
		u = m.unit
	}
	v, u, censor, ok := r.number(value, m.rule.Kind, u, m.hasUnit, 0)
	if !ok || math.IsNaN(v) {
		if !m.hasUnit {
			r.fault(value.line, value.col, value.text, "neither the test, the unit column nor the cell names a unit"+remedy(m.rule.Kind))
		}
		rest(code, value, name)
		return
	}
	r.t.Tally.Reading++
	for _, c := range []cell{code, name} {
		if !c.blank() {
			r.t.Tally.Label++
		}
	}
	r.t.Readings = append(r.t.Readings, Reading{
		Key: m.rule.Key, Variant: m.rule.Variant, Condition: m.rule.Condition, Kind: m.rule.Kind,
		Value: v, Unit: u.Symbol, Censor: censor, Text: value.text, Row: at, Line: value.line, Col: value.col,
	})
}

// sumTolerance is how far the sections of a bottle may miss its mass before
// the reader says so [kg]: three readings of a scale with 0.1 g.
const sumTolerance = 0.3e-3

// sums notes the bottles whose sections do not add up to their mass.
func (r *reader) sums() {
	type bottle struct{ total, sections, n float64 }
	byRow := make([]bottle, len(r.t.Rows))
	for _, rd := range r.t.Readings {
		b := &byRow[rd.Row]
		switch rd.Key {
		case "bottle.mass":
			b.total = rd.Value
		case "section.shoulder.mass", "section.panel.mass", "section.base.mass":
			b.sections += rd.Value
			b.n++
		}
	}
	for i, b := range byRow {
		if b.n == 3 && b.total > 0 && math.Abs(b.total-b.sections) > sumTolerance {
			r.note(r.t.Rows[i].Line, 0, fmt.Sprintf("sections %.2f g, bottle %.2f g", b.sections*1e3, b.total*1e3), "the sections do not add up to the bottle")
		}
	}
}
