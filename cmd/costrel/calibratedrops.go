package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/quality/lab"
	"costrel/unit"
)

// drops reads an up-and-down drop test, prints what it says of the height and
// returns the rows to write to the design, whose board shows them.
func (c *calibrateCmd) drops(e *env, doc *design.Document) ([][2]string, error) {
	t, err := table(c.Drops, "drops")
	if t == nil {
		return nil, err
	}
	rows, more := dropsOf(t, err)
	if err := errors.Join(err, more); err != nil {
		return nil, err
	}
	s, err := run.Staircase(rows)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Drops, err)
	}
	leftOut(e, t)
	m := func(x float64) string { return unit.Spell(unit.Quote(unit.Length, x, 3, "m", "ft"), c.Units) }
	fmt.Fprintf(e.out, "Drops of %s, up and down: %d packs, %d failures, step %s\n", doc.Design.Name, s.Drops, s.Failures, m(s.Step))
	fmt.Fprintf(e.out, "  half of the packs fail from %s ± %s (standard error), between packs %s\n", m(s.H50), m(s.SE50), m(s.S))
	if h, warn, err := s.LowerHeightFor(0.1, 0.95); err == nil {
		fmt.Fprintf(e.out, "  at most a tenth of them fail from %s, with 95 %% confidence%s\n", m(h), after("; ", warn))
	} else {
		fmt.Fprintf(e.out, "  no height that at most a tenth fail from: %v\n", err)
	}
	for _, w := range s.Warnings {
		fmt.Fprintf(e.out, "  ! %s\n", w)
	}
	var text strings.Builder
	text.WriteString("height m\tfailed\n")
	for _, r := range rows {
		fmt.Fprintf(&text, "%s\t%d\n", strconv.FormatFloat(r.Height, 'g', 6, 64), r.Failed)
	}
	return [][2]string{{"lab.drops", strings.TrimSuffix(text.String(), "\n")}}, nil
}

// after puts a mark before a text that is not empty.
func after(mark, text string) string {
	if text == "" {
		return ""
	}
	return mark + text
}

// dropsOf returns the drops of a table, in its order, and what is wrong with
// them beyond the faults that reading the table has found.
func dropsOf(t *lab.Table, read error) ([]design.DropRow, error) {
	var told lab.Faults
	errors.As(read, &told)
	faulty := func(line int) bool {
		return slices.ContainsFunc(told, func(f lab.Fault) bool { return f.Line == line })
	}
	s, err := t.Find("drop.failed", "", "")
	if err != nil && told != nil { // they say why
		err = nil
	}
	if err != nil || len(s.Readings) == 0 {
		return nil, err
	}
	if !slices.ContainsFunc(t.Rows, func(r lab.Row) bool { _, ok := r.Settings["drop.height"]; return ok }) {
		if told == nil {
			err = fmt.Errorf("%s: no column of drop heights; want one as drop_height_m", t.File)
		}
		return nil, err
	}
	var rows []design.DropRow
	var faults []error
	for _, r := range s.Readings {
		h, ok := 0.0, false
		if r.Row >= 0 && r.Row < len(s.Rows) {
			h, ok = s.Rows[r.Row].Settings["drop.height"]
		}
		switch {
		case !ok && faulty(r.Line):
		case !ok:
			faults = append(faults, fmt.Errorf("%s:%d: no drop height", t.File, r.Line))
		case !(h > 0) || math.IsInf(h, 0):
			faults = append(faults, fmt.Errorf("%s:%d: the drop height is %.4g m; write how far the pack fell, above 0", t.File, r.Line, h))
		case r.Censor != lab.Exact || (r.Value != 0 && r.Value != 1):
			faults = append(faults, fmt.Errorf("%s:%d:%d: failed is %q; write 1 for a pack that broke or leaked and 0 for one that stood", t.File, r.Line, r.Col, r.Text))
		default:
			rows = append(rows, design.DropRow{Height: h, Failed: int(r.Value)})
		}
	}
	return rows, errors.Join(faults...)
}
