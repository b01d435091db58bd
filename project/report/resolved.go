package report

import (
	"fmt"
	"io"
	"strings"

	"costrel/project/design"
)

// Resolved is every value of a design in the units of the reader, by origin:
// what the document writes, what the template of the class or a data card
// gives, and what was worked out from the rest.
type Resolved []design.Listed

// WriteText prints the values in the order of the document: path, value,
// origin and where a value that the document does not write comes from. The
// rows of a table follow it.
func (r Resolved) WriteText(w io.Writer) error {
	p := &printer{w: w}
	p.line("Values of the design")
	t := p.table()
	for _, l := range r {
		display, origin := l.Display, string(l.Origin)
		if display == "" {
			display = "not set"
		}
		if l.Source != "" {
			origin += ", " + l.Source
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\n", l.Path, display, origin)
		if l.Table == nil {
			continue
		}
		for i, row := range l.Table.Rows {
			fmt.Fprintf(t, "  %s[%d]\t%s\n", l.Path, i, cells(l.Table.Columns, row))
		}
	}
	p.flush(t)
	return p.err
}

// cells writes a row of a table; a cell follows the head of its column.
func cells(columns, row []string) string {
	var out []string
	for i, c := range row {
		if c == "" || i >= len(columns) {
			continue
		}
		key, symbol, _ := strings.Cut(columns[i], " ")
		out = append(out, strings.TrimSpace(key+" "+c+" "+symbol))
	}
	return strings.Join(out, ", ")
}
