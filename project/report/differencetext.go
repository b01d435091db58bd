package report

import (
	"fmt"
	"io"
	"strings"
)

// shortMark is the mark of a row that counts no difference, for a column.
func shortMark(mark string) string { return strings.ReplaceAll(mark, wallMark, wallMarkShort) }

// WriteText prints the difference sheet.
func (d Difference) WriteText(w io.Writer) error {
	p := &printer{w: w}
	p.line("%s", d.Baseline.Name)
	p.line("  -> %s", d.Variant.Name)
	p.line("Preform mass %s", typed(d.SavedDisplay))
	p.line("")
	if len(d.Margins) == 0 {
		p.line("No margin differs.")
	} else {
		if d.Saved > 0 {
			p.line("Margins that moved, most lost per gram saved first")
		} else {
			p.line("Margins that moved, lost first, then gained")
		}
		t := p.table()
		fmt.Fprintln(t, "  figure\tverdict\tmargin was\tmargin is\tmoved\tlost per gram")
		for _, m := range d.Margins {
			was, word := beside(m.Old, m.OldSide), beside(m.New, m.NewSide)
			if was != word {
				word = was + " -> " + word
			}
			per, moved := "", typed(m.LostDisplay)
			if m.Unlike != "" {
				moved = shortMark(m.UnlikeMark)
			}
			if m.HasPerGram {
				per = fmt.Sprintf("%+.2f %%/g", m.PerGram)
			}
			fmt.Fprintf(t, "  %s (%s)\t%s\t%s\t%s\t%s\t%s\n", m.Label, m.Side, word, typed(m.OldMargin), typed(m.NewMargin), moved, per)
		}
		p.flush(t)
		for _, m := range d.Margins {
			if m.OldLimit != m.NewLimit {
				p.wrapped("  ! ", fmt.Sprintf("the limit on %s itself differs: %s -> %s", m.Label, m.OldLimit, m.NewLimit))
			}
		}
	}
	p.line("")
	if len(d.Figures) == 0 {
		p.line("No figure differs.")
	} else {
		p.line("Figures that differ")
		t := p.table()
		for _, f := range d.Figures {
			percent, change := "", typed(f.ChangeDisplay)
			if f.Unlike != "" {
				change = shortMark(f.UnlikeMark)
			}
			if f.Percent != 0 {
				percent = fmt.Sprintf("%+.2f %%", f.Percent)
			}
			fmt.Fprintf(t, "  %s\t%s\t%s\t%s\t%s\n", f.Label, f.Old, f.New, change, percent)
		}
		p.flush(t)
	}
	if len(d.Inputs) > 0 {
		p.line("")
		p.line("Values of the design that differ")
		t := p.table()
		for _, c := range d.Inputs {
			fmt.Fprintf(t, "  %s\t%s\t%s\n", c.Path, c.Old, c.New)
		}
		p.flush(t)
	}
	for _, s := range d.Problems {
		p.wrapped("  ! ", s)
	}
	for _, s := range d.Cautions {
		p.wrapped("  * ", s)
	}
	p.line("")
	p.wrapped("", d.Note)
	return p.err
}
