package design

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"costrel/project/design/yaml"
)

// setTable replaces the list or table at a path by one that is written with
// tabs, see [Paste]; an empty value takes it out.
func setTable(text string, it Item, value string) (string, error) {
	e := &editor{text: text, field: it.Field, path: it.Path, value: value, whole: true}
	if value != "" {
		p, err := Paste(it.Path, value, ListedTable{})
		if err != nil {
			return "", err
		}
		if !p.Headed {
			return "", fmt.Errorf("this is a list or table; name an entry, such as %s[0], or give the table with its heading", it.Path)
		}
		if len(p.Faults) > 0 {
			all := make([]error, len(p.Faults))
			for i, f := range p.Faults {
				all[i] = f
			}
			return "", errors.Join(all...)
		}
		e.given = &p.Table
	}
	st, err := steps(it.Path)
	if err != nil {
		return "", err
	}
	out, err := e.run(st)
	if err != nil || value == "" {
		return out, err
	}
	return out, e.holds(out, st)
}

// holds checks that a document has the given table at the path.
func (e *editor) holds(text string, st []step) error {
	n, _ := yaml.Parse(text)
	for _, s := range st {
		n, _ = n.Get(s.key)
	}
	it, _ := Lookup(e.path)
	fields := tableFields(it)
	if n == nil || !slices.EqualFunc(nodeRows(fields, n), canonical(fields, e.given.Columns, e.given.Rows), slices.Equal[[]string]) {
		return errors.New("the rewritten table would differ from the given one; edit it in the text")
	}
	return nil
}

// plain tells whether the table is a list of single values.
func (t *ListedTable) plain(path string) bool {
	key := path[strings.LastIndexByte(path, '.')+1:]
	head, _, _ := strings.Cut(t.Columns[0], " ")
	return len(t.Columns) == 1 && head == key
}

// cells returns the entries of a plain list, with their unit.
func (t *ListedTable) cells() []string {
	_, symbol, _ := strings.Cut(t.Columns[0], " ")
	out := make([]string, len(t.Rows))
	for i, r := range t.Rows {
		out[i] = r[0]
		if symbol != "" && isNumber(r[0]) {
			out[i] += " " + symbol
		}
		out[i] = quote(out[i], true)
	}
	return out
}

// flowRow writes the cells of a row; empty ones at its end are left out.
func flowRow(row []string) string {
	cells := make([]string, len(row))
	for j, c := range row {
		if cells[j] = "~"; c != "" {
			cells[j] = quote(c, true)
		}
	}
	for len(cells) > 1 && cells[len(cells)-1] == "~" {
		cells = cells[:len(cells)-1]
	}
	return "[" + strings.Join(cells, ", ") + "]"
}

// entry writes a row as a mapping in braces.
func (t *ListedTable) entry(row []string) string {
	var out []string
	for j, c := range row {
		if c == "" {
			continue
		}
		key, symbol, _ := strings.Cut(t.Columns[j], " ")
		if symbol != "" && isNumber(c) {
			c += " " + symbol
		}
		out = append(out, key+": "+quote(c, true))
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// tableLines writes a table in rows; the first line goes behind the key.
func tableLines(columns []string, rows [][]string, pad string) []string {
	heads := make([]string, len(columns))
	for i, c := range columns {
		heads[i] = quote(c, true)
	}
	out := []string{"", pad + "columns: [" + strings.Join(heads, ", ") + "]", pad + "rows:"}
	for _, r := range rows {
		out = append(out, pad+"  - "+flowRow(r))
	}
	return out
}

// lines writes the table below its key; the first line goes behind the key.
func (t *ListedTable) lines(path, pad string) []string {
	if t.plain(path) {
		return []string{" [" + strings.Join(t.cells(), ", ") + "]"}
	}
	return tableLines(t.Columns, t.Rows, pad)
}

// flow writes the table in brackets.
func (t *ListedTable) flow(path string) string {
	if t.plain(path) {
		return "[" + strings.Join(t.cells(), ", ") + "]"
	}
	rows := make([]string, len(t.Rows))
	for i, r := range t.Rows {
		rows[i] = flowRow(r)
	}
	heads := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		heads[i] = quote(c, true)
	}
	return "{columns: [" + strings.Join(heads, ", ") + "], rows: [" + strings.Join(rows, ", ") + "]}"
}

// replaceTable writes the given table over the one that the document has, in
// the way that one is written: rows, entries in braces, or all in brackets.
func (e *editor) replaceTable(kv *yaml.Pair, parent *yaml.Node) error {
	n := kv.Value
	pad := strings.Repeat(" ", parent.Indent+2)
	if done, err := e.replaceRows(n); done {
		return err
	}
	if n.Kind != yaml.Null && comment.MatchString(e.text[n.Start:n.End]) {
		return fmt.Errorf("line %d: the table is written in brackets or entries with comments inside, which would be lost; edit it in the text", n.Line)
	}
	switch {
	case parent.Flow || n.Flow:
		e.splice(n.Start, n.End, e.given.flow(e.path))
	case n.Kind == yaml.Null:
		lines := e.given.lines(e.path, pad)
		e.splice(n.Start, n.End, strings.TrimSpace(lines[0]))
		if n.Start == n.End && lines[0] != "" {
			e.splices[len(e.splices)-1].text = lines[0]
		}
		e.insertBelow(n.End, lines[1:])
	case n.Kind == yaml.List && len(n.Items) > 0:
		pad = strings.Repeat(" ", n.Indent)
		var lines []string
		if e.given.plain(e.path) {
			for _, c := range e.given.cells() {
				lines = append(lines, pad+"- "+c)
			}
		} else {
			for _, r := range e.given.Rows {
				lines = append(lines, pad+"- "+e.given.entry(r))
			}
		}
		e.replaceLines(n, lines)
	case n.Kind == yaml.Mapping && len(n.Pairs) > 0:
		e.replaceLines(n, e.given.lines(e.path, strings.Repeat(" ", n.Indent))[1:])
	default:
		return fmt.Errorf("%s is %s; edit it in the text", e.path, n.What())
	}
	return nil
}

// replaceLines writes lines over those of a node that stands below its key.
func (e *editor) replaceLines(n *yaml.Node, lines []string) {
	start, end := e.lineStart(n.Start), e.lineEnd(n.End)
	text := strings.Join(lines, e.eol)
	if end > 0 && e.text[end-1] == '\n' {
		text += e.eol
	}
	e.splice(start, end, text)
}
