package lab

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"

	"costrel/unit"
)

// The largest file and the widest table that are read.
const (
	MaxBytes   = 16 << 20
	MaxColumns = 500
)

// Read reads a lab table. sheet names its kind; with "" the sheet whose rules
// fit most headings is taken. The table is returned also where there are
// faults; the error is then [Faults] with every one of them.
func Read(file string, data []byte, sheet string) (*Table, error) {
	sum := sha256.Sum256(data)
	r := &reader{t: &Table{File: file, Hash: hex.EncodeToString(sum[:])}, idle: map[int]bool{}, keyed: map[string]bool{}}
	if len(data) > MaxBytes {
		r.fault(1, 1, "", fmt.Sprintf("the file has %d bytes, the limit is %d", len(data), MaxBytes))
		return r.t, r.faults
	}
	text, taken := decode(data)
	if taken != "" {
		r.note(1, 0, "", "the file was read as "+taken)
	}
	sep, named := separator(text)
	rows := split(text, sep, r.fault)
	for _, row := range rows {
		for _, c := range row {
			if !c.blank() {
				r.t.Tally.Cells++
			}
		}
	}
	for _, row := range rows {
		if len(row) > MaxColumns {
			r.fault(row[0].line, MaxColumns+1, row[MaxColumns].text, fmt.Sprintf("the row has %d fields, the limit is %d", len(row), MaxColumns))
			r.drop(rows)
			return r.t, r.faults
		}
	}
	if named && len(rows) > 0 {
		r.asNote(rows[0], "names the separator")
		rows = rows[1:]
	}
	r.t.Separator = string(sep)
	r.comma = habit(rows)
	r.t.Comma = r.comma == decimal
	if s, ok := FindSheet(sheet); ok {
		r.head(rows, []Sheet{s})
	} else if sheet == "" {
		r.head(rows, Sheets())
	} else {
		r.fault(1, 1, sheet, "no sheet has this name")
		r.drop(rows)
	}
	r.tellAcross()
	if r.faults != nil {
		return r.t, r.faults
	}
	return r.t, nil
}

type reader struct {
	t      *Table
	sheet  Sheet
	comma  comma
	cols   []column
	idle   map[int]bool // columns that were reported once and are not read
	keyed  map[string]bool
	codes  *index
	faults Faults
	across []across
}

// across is a fault that several columns of one line share.
type across struct {
	at   int   // of the first in faults
	more []int // columns of the others
}

// faultAcross reports a fault once for all columns of a line that have it.
func (r *reader) faultAcross(line, col int, text, reason string) {
	for i, a := range r.across {
		if f := r.faults[a.at]; f.Line == line && f.Reason == reason {
			r.across[i].more = append(a.more, col)
			return
		}
	}
	r.across = append(r.across, across{at: len(r.faults)})
	r.fault(line, col, text, reason)
}

// tellAcross names the columns that share a fault.
func (r *reader) tellAcross() {
	for _, a := range r.across {
		if n := len(a.more); n == 1 {
			r.faults[a.at].Reason += fmt.Sprintf("; the same in column %d", a.more[0])
		} else if n > 1 {
			r.faults[a.at].Reason += fmt.Sprintf("; the same in %d more columns, up to %d", n, a.more[n-1])
		}
	}
}

func (r *reader) fault(line, col int, text, reason string) {
	r.faults = append(r.faults, Fault{File: r.t.File, Line: line, Col: col, Text: clip(text), Reason: reason})
}

func (r *reader) note(line, col int, text, why string) {
	r.t.Notes = append(r.t.Notes, Note{Line: line, Col: col, Text: text, Why: why})
}

// asNote keeps a row as a note.
func (r *reader) asNote(row []cell, why string) {
	var parts []string
	for _, c := range row {
		if !c.blank() {
			parts = append(parts, c.text)
			r.t.Tally.Note++
		}
	}
	if parts != nil {
		r.note(row[0].line, 0, strings.Join(parts, " "), why)
	}
}

// drop counts the cells of rows that nothing could be made of; the fault that
// says why has been given.
func (r *reader) drop(rows [][]cell) {
	for _, row := range rows {
		for _, c := range row {
			if !c.blank() {
				r.t.Tally.Faulty++
			}
		}
	}
}

func blankRow(row []cell) bool {
	for _, c := range row {
		if !c.blank() {
			return false
		}
	}
	return true
}

// body reads the rows below the heading.
func (r *reader) body(rows [][]cell, head [][]cell) {
	for _, row := range rows {
		switch {
		case blankRow(row):
		case sameText(row, head):
			r.asNote(row, "the heading again")
		case summaryWord(row) != "":
			r.asNote(row, "a row of "+summaryWord(row)+", not a piece")
		case r.isNote(row):
			r.asNote(row, "a note")
		default:
			r.data(row)
		}
	}
	if len(r.t.Readings) == 0 && len(r.faults) == 0 {
		r.fault(1, 1, "", "no readings below the heading")
	}
}

func sameText(row []cell, head [][]cell) bool {
	for _, h := range head {
		if len(h) != len(row) {
			continue
		}
		same := true
		for i := range h {
			same = same && h[i].text == row[i].text
		}
		if same {
			return true
		}
	}
	return false
}

// summaryWord returns the word of a row that sums up the rows above it.
func summaryWord(row []cell) string {
	for _, c := range row {
		if c.blank() {
			continue
		}
		w := strings.ToLower(strings.Trim(c.text, ":.= "))
		switch w {
		case "mean", "average", "avg", "mittelwert", "mittel", "moyenne", "s", "sd", "std", "stdev", "std dev", "standard deviation", "stabw", "sigma",
			"min", "max", "minimum", "maximum", "range", "median", "cpk", "ppk", "cp", "pp", "n", "count", "sum", "limit", "lsl", "usl", "target", "spec":
			return w
		}
		return ""
	}
	return ""
}

// isNote reports whether a row is text and no piece: a sign of a remark in
// front, or no cell under a measured column and more than labels.
func (r *reader) isNote(row []cell) bool {
	first := ""
	measured := false
	for i, c := range row {
		if c.blank() {
			continue
		}
		if first == "" {
			first = strings.ToLower(c.text)
		}
		if i < len(r.cols) && r.cols[i].rule != nil && r.cols[i].rule.Role != Label {
			if _, number := cut(c.text); number || isMissing(c.text) {
				measured = true
			}
		}
	}
	for _, p := range []string{"#", "*", "//", "note", "remark", "comment", "bemerkung", "hinweis"} {
		if strings.HasPrefix(first, p) && !isMissing(first) {
			return true
		}
	}
	if measured {
		return false
	}
	// No number where numbers belong: a sentence or a lone text is a note.
	cells := 0
	for _, c := range row {
		if !c.blank() {
			cells++
		}
	}
	return cells == 1 && !allDigits(first) || len(strings.Fields(first)) >= 3 || strings.HasSuffix(first, ":")
}

func allDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// data reads a row of a piece.
func (r *reader) data(row []cell) {
	at := len(r.t.Rows)
	out := Row{Line: row[0].line, Labels: map[string]string{}, Settings: map[string]float64{}}
	if r.sheet.Name == "long" {
		r.longRow(row, out, at)
		return
	}
	for i, c := range row {
		if i >= len(r.cols) || r.cols[i].rule == nil && !r.cols[i].other() {
			if c.blank() {
				continue
			}
			r.t.Tally.Faulty++
			if !r.idle[i] {
				r.idle[i] = true
				r.fault(c.line, c.col, c.text, "a value in a column without a heading that could be read")
			}
			continue
		}
		r.place(r.cols[i], c, &out, at)
	}
	for i := len(row); i < len(r.cols); i++ {
		r.place(r.cols[i], cell{line: out.Line, col: i + 1}, &out, at)
	}
	r.t.Rows = append(r.t.Rows, out)
}

// place puts one cell where its column says.
func (r *reader) place(col column, c cell, out *Row, at int) {
	rule := col.rule
	if rule == nil || rule.Role == Label {
		if c.blank() {
			return
		}
		key := col.name
		if rule != nil {
			key = rule.Key
		}
		r.t.Tally.Label++
		for n := 2; out.Labels[key] != ""; n++ {
			key = fmt.Sprintf("%s (%d)", strings.TrimRight(key, " (0123456789)"), n)
		}
		out.Labels[key] = c.text
		return
	}
	if c.blank() || isMissing(c.text) {
		if !c.blank() {
			r.t.Tally.Missing++
		}
		r.t.Missing = append(r.t.Missing, Note{Line: c.line, Col: col.col, Text: c.text, Why: rule.Label + ": no value"})
		return
	}
	if r.idle[col.col-1] {
		r.t.Tally.Faulty++
		return
	}
	v, u, censor, ok := r.number(c, rule.Kind, col.unit, col.hasUnit, col.col)
	if !ok {
		r.t.Tally.Faulty++
		return
	}
	r.t.Tally.Reading++
	if rule.Role == Setting {
		if censor != Exact {
			r.t.Tally.Reading--
			r.t.Tally.Faulty++
			r.fault(c.line, c.col, c.text, "a condition cannot be censored")
			return
		}
		out.Settings[rule.Key] = v
		return
	}
	rd := Reading{
		Key: rule.Key, Variant: rule.Variant, Condition: rule.Condition, Replicate: col.replicate, Kind: rule.Kind,
		Value: v, Unit: u.Symbol, Censor: censor, Text: c.text, Row: at, Line: c.line, Col: c.col,
	}
	if rule.Role == Derived {
		r.t.Derived = append(r.t.Derived, rd)
	} else {
		r.t.Readings = append(r.t.Readings, rd)
	}
}

// number reads a number with its unit, SI.
func (r *reader) number(c cell, kind unit.Kind, u unit.Unit, hasUnit bool, col int) (float64, unit.Unit, Censor, bool) {
	bad := func(format string, args ...any) (float64, unit.Unit, Censor, bool) {
		r.fault(c.line, c.col, c.text, fmt.Sprintf(format, args...))
		return 0, u, Exact, false
	}
	p, ok := cut(c.text)
	if !ok {
		return bad("want a number")
	}
	v, err := p.value(r.comma)
	if err != nil {
		return bad("%v", err)
	}
	name := p.unit
	switch {
	case p.mark == "%":
		name = "%" + name
	case p.mark == "°" && (kind != unit.TemperaturePoint || name != ""):
		name = "°" + name
	}
	if name == "°" && kind == unit.TemperaturePoint && hasUnit {
		name = "" // the heading says which degrees
	}
	if name != "" {
		own, found := findUnit(kind, name)
		if !found {
			return bad("%q is no unit of a %s%s", name, kind, remedy(kind))
		}
		if hasUnit && own.Symbol != u.Symbol {
			r.note(c.line, c.col, c.text, "the cell names another unit than the heading; the cell is believed")
		}
		u, hasUnit = own, true
	}
	if !hasUnit {
		if col > 0 && !r.idle[col-1] {
			r.idle[col-1] = true
			r.faultAcross(c.line, c.col, c.text, "neither heading nor cell names a unit"+remedy(kind))
		}
		return 0, u, Exact, false
	}
	si := v*u.Scale + u.Offset
	if math.IsInf(si, 0) || math.IsNaN(si) {
		return bad("the value is too large")
	}
	if (kind == unit.TemperaturePoint || kind == unit.PressureAbs) && si < 0 {
		return bad("below absolute zero")
	}
	return si, u, p.censor, true
}
