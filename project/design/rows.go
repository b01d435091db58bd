package design

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"costrel/project/design/yaml"
	"costrel/unit"
)

// rowEdit puts the rows of a given table over those of the document. A row
// that stays keeps its text and its comments, one that changes its comments.
type rowEdit struct {
	*editor
	fields   []Field
	old, new [][]string // cells by field, comparable
	heads    bool       // the document's columns are those of the given table
}

// replaceRows edits a table row by row. It returns false where the document
// writes the table in a way that has to be replaced as a whole.
func (e *editor) replaceRows(n *yaml.Node) (bool, error) {
	it, _ := Lookup(e.path)
	t := &rowEdit{editor: e, fields: tableFields(it), heads: true}
	t.new = canonical(t.fields, e.given.Columns, e.given.Rows)
	list, columns := rowsOf(n)
	if list == nil || len(list.Items) == 0 || e.given.plain(e.path) != (n.Kind == yaml.List && list.Items[0].Kind == yaml.Scalar) {
		return false, nil
	}
	t.old = nodeRows(t.fields, n)
	if list.Flow && len(t.old) != len(t.new) {
		return false, nil
	}
	if columns != nil {
		if t.heads = t.sameHeads(columns); !t.heads {
			heads := make([]string, len(e.given.Columns))
			for i, c := range e.given.Columns {
				heads[i] = quote(c, true)
			}
			e.splice(columns.Start, columns.End, "["+strings.Join(heads, ", ")+"]")
		}
	}
	if list.Flow {
		for k, item := range list.Items {
			part, err := t.rewrite(item, k, k)
			if err != nil {
				return true, err
			}
			e.splices = append(e.splices, part...)
		}
		return true, nil
	}
	return true, t.block(list)
}

// rowsOf returns the list of rows of a table and its columns, where it has
// them.
func rowsOf(n *yaml.Node) (list, columns *yaml.Node) {
	if n.Kind == yaml.List {
		return n, nil
	}
	list, _ = n.Get("rows")
	columns, _ = n.Get("columns")
	if list == nil || columns == nil || list.Kind != yaml.List || columns.Kind != yaml.List {
		return nil, nil
	}
	return list, columns
}

// sameHeads tells whether the document has the columns of the given table.
func (t *rowEdit) sameHeads(columns *yaml.Node) bool {
	return slices.EqualFunc(columns.Items, t.given.Columns, func(c *yaml.Node, head string) bool {
		key, symbol := columnHead(c.Text)
		want, wantSymbol := columnHead(head)
		if key != want || symbol == wantSymbol {
			return key == want
		}
		at := slices.IndexFunc(t.fields, func(f Field) bool { return f.Key == key })
		if at < 0 {
			return false
		}
		u, ok := unit.Find(t.fields[at].Kind, symbol)
		v, too := unit.Find(t.fields[at].Kind, wantSymbol)
		return ok && too && u.Symbol == v.Symbol
	})
}

// block writes the rows of a list that stands on lines.
func (t *rowEdit) block(list *yaml.Node) error {
	pad := strings.Repeat(" ", list.Indent)
	start := t.leadStart(t.lineStart(list.Start))
	var out strings.Builder
	at, gone := start, 0
	drop := func(to int) {
		for ; gone < to; gone++ {
			own, end := t.skipComments(at), t.lineEnd(list.Items[gone].End)
			out.WriteString(t.free(at, own))
			out.WriteString(t.shared(own, list.Items[gone].End))
			at = end
		}
	}
	match := t.align()
	for k, i := range match {
		next := i
		for j := k; next < 0 && j < len(match); j++ {
			next = match[j]
		}
		if next < 0 {
			next = len(list.Items)
		}
		drop(next)
		if i < 0 {
			out.WriteString(pad + "- " + t.fresh(k, list) + t.eol)
			continue
		}
		part, err := t.rewrite(list.Items[i], i, k)
		if err != nil {
			return err
		}
		end := t.lineEnd(list.Items[i].End)
		text := applied(t.text, at, end, part)
		out.WriteString(text)
		if !strings.HasSuffix(text, "\n") {
			out.WriteString(t.eol)
		}
		at, gone = end, i+1
	}
	drop(len(list.Items))
	text := out.String()
	if at > 0 && t.text[at-1] != '\n' { // the file ends without an end of line, as before
		text = strings.TrimSuffix(text, t.eol)
	}
	t.splice(start, at, text)
	return nil
}

// fresh returns a new row in the way the list is written.
func (t *rowEdit) fresh(k int, list *yaml.Node) string {
	switch {
	case t.given.plain(t.path):
		return t.given.cells()[k]
	case slices.ContainsFunc(list.Items, func(n *yaml.Node) bool { return n.Kind == yaml.Mapping }):
		return t.given.entry(t.given.Rows[k])
	}
	return flowRow(t.given.Rows[k])
}

// rewrite returns the changes that make an old row the new one.
func (t *rowEdit) rewrite(item *yaml.Node, i, k int) ([]splice, error) {
	same := slices.Equal(t.old[i], t.new[k])
	row := t.given.Rows[k]
	switch {
	case same && (t.heads || item.Kind == yaml.Mapping):
		return nil, nil
	case item.Kind == yaml.Scalar:
		return []splice{scalarOver(item, unquoted(t.given, row, 0), true)}, nil
	case item.Kind == yaml.Mapping:
		if part, ok := t.rewriteEntry(item, i, k); ok {
			return part, nil
		}
		return t.over(item, t.given.entry(row))
	case item.Kind == yaml.List && t.heads:
		wide := len(row)
		for wide > 1 && row[wide-1] == "" {
			wide--
		}
		if len(item.Items) != wide {
			break
		}
		var part []splice
		for j, c := range item.Items {
			at := t.fieldOf(j)
			if at >= 0 && t.old[i][at] != t.new[k][at] {
				part = append(part, cellOver(c, row[j]))
			}
		}
		return part, nil
	}
	return t.over(item, flowRow(row))
}

// rewriteEntry changes the values of an entry whose keys stay; on lines of its
// own it adds keys, too.
func (t *rowEdit) rewriteEntry(item *yaml.Node, i, k int) ([]splice, bool) {
	var part []splice
	seen := make([]bool, len(t.fields))
	for _, kv := range item.Pairs {
		at := slices.IndexFunc(t.fields, func(f Field) bool { return f.Key == kv.Key.Text })
		if at < 0 || seen[at] || t.new[k][at] == "" || kv.Value.Kind != yaml.Scalar {
			return nil, false
		}
		seen[at] = true
		if t.old[i][at] != t.new[k][at] {
			part = append(part, scalarOver(kv.Value, unquoted(t.given, t.given.Rows[k], t.columnOf(at)), item.Flow))
		}
	}
	for at, f := range t.fields {
		if seen[at] || t.new[k][at] == "" {
			continue
		}
		end := item.Pairs[len(item.Pairs)-1].Value.End
		text := f.Key + ": " + quote(unquoted(t.given, t.given.Rows[k], t.columnOf(at)), item.Flow)
		if item.Flow {
			part = append(part, splice{end, end, ", " + text})
		} else {
			line := t.lineEnd(end)
			part = append(part, splice{line, line, strings.Repeat(" ", item.Indent) + text + t.eol})
		}
	}
	return part, true
}

// fieldOf returns the field of a column of the given table, columnOf the
// reverse; -1 for none.
func (t *rowEdit) fieldOf(column int) int {
	key, _ := columnHead(t.given.Columns[column])
	return slices.IndexFunc(t.fields, func(f Field) bool { return f.Key == key })
}

func (t *rowEdit) columnOf(field int) int {
	return slices.IndexFunc(t.given.Columns, func(c string) bool {
		key, _ := columnHead(c)
		return key == t.fields[field].Key
	})
}

// unquoted returns a cell with the unit of its column.
func unquoted(t *ListedTable, row []string, column int) string {
	_, symbol := columnHead(t.Columns[column])
	if symbol != "" && isNumber(row[column]) {
		return row[column] + " " + symbol
	}
	return row[column]
}

var comment = regexp.MustCompile(`(^|\s)#`)

// over replaces a whole row; comments inside it would be lost.
func (t *rowEdit) over(item *yaml.Node, text string) ([]splice, error) {
	if comment.MatchString(t.text[item.Start:item.End]) {
		return nil, fmt.Errorf("line %d: the row has comments inside; edit it in the text", item.Line)
	}
	if item.Start == item.End {
		text = " " + text
	}
	return []splice{{item.Start, item.End, text}}, nil
}

func cellOver(c *yaml.Node, text string) splice {
	if text == "" {
		return splice{c.Start, c.End, "~"}
	}
	return scalarOver(c, text, true)
}
