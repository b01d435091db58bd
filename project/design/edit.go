package design

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"costrel/project/design/yaml"
)

// Set returns the document text with the value at path replaced by value, or
// added where the document did not have it. Comments, order and spelling of
// everything else stay, and so do the ends of line. An empty value takes the
// line away, so that the value of the template holds again; a section that is
// empty then goes with it.
//
// A path may name an entry of a list (bottle.planes[1], limits[2].value) and
// a cell of a table (bottle.profile[3].r, oven.zones[2].power), counted from 0
// in the order of the text. A cell keeps to the unit of its column when the
// value is in that unit, else it gets its own. A table that stands in the
// template only is written out in full with the cell changed. The path of a
// whole list or table takes one that is written with tabs, see [Paste] and
// [ListedTable.TSV]: rows that stay and rows with the same first cell keep
// their comments, those of a row that goes go with it.
//
// Set does not judge the value: [Load] does. It fails when the path is not in
// the schema, when the text is not YAML, or when the change cannot be made
// without touching something else.
func Set(text, path, value string) (string, error) {
	out, err := set(text, path, strings.TrimSpace(value))
	if err != nil {
		return "", fmt.Errorf("design: set %s: %w", clip(path), err)
	}
	return out, nil
}

func set(text, path, value string) (string, error) {
	if !utf8.ValidString(value) || strings.ContainsRune(value, 0) {
		return "", errors.New("the value is not text")
	}
	it, ok := Lookup(path)
	if most := map[bool]int{false: maxText, true: maxTable}[ok && it.Table]; len(value) > most {
		return "", fmt.Errorf("the value has %d bytes, more than %d", len(value), most)
	}
	if ok && it.Table {
		return setTable(text, it, value)
	}
	f, st, err := fieldAt(path)
	if err != nil {
		return "", err
	}
	return (&editor{text: text, field: f, value: value, path: path}).run(st)
}

// run makes the change at the steps of the path and returns the document.
func (e *editor) run(st []step) (string, error) {
	text := e.text
	d := &decoder{text: text}
	root := d.parse()
	if len(d.faults) > 0 {
		return "", placed(d.faults, text)
	}
	if root.Kind != yaml.Mapping {
		return "", errors.New("the document is no mapping")
	}
	e.eol = "\n"
	if strings.Contains(text, "\r\n") {
		e.eol = "\r\n"
	}
	if err := e.mapping(root, st, nil); err != nil {
		return "", err
	}
	out := e.apply()
	if err := e.verify(text, out); err != nil {
		return "", err
	}
	return out, nil
}

// editor collects the changes of one edit.
type editor struct {
	text, eol string
	field     Field
	path      string
	value     string // to be written; "" to take out
	splices   []splice
	target    string       // path of the written value in the text
	whole     bool         // target names a table that is written in full
	cell      string       // what the target holds afterwards, where it is not value
	given     *ListedTable // written in the place of a table
}

// splice replaces text[start:end].
type splice struct {
	start, end int
	text       string
}

func (e *editor) splice(start, end int, text string) {
	e.splices = append(e.splices, splice{start, end, text})
}

// apply returns the text with the changes made.
func (e *editor) apply() string {
	return applied(e.text, 0, len(e.text), e.splices)
}

// applied returns text[from:to] with the changes made.
func applied(text string, from, to int, splices []splice) string {
	slices.SortStableFunc(splices, func(a, b splice) int { return a.start - b.start })
	var b strings.Builder
	for _, s := range splices {
		b.WriteString(text[from:s.start])
		b.WriteString(s.text)
		from = s.end
	}
	b.WriteString(text[from:to])
	return b.String()
}

// verify checks that two documents hold the same but for the target.
func (e *editor) verify(before, after string) error {
	a, _ := flat(before)
	b, faults := flat(after)
	if len(faults) > 0 {
		return fmt.Errorf("the rewritten document would not be readable: %s", faults[0].Message)
	}
	want := e.value
	if e.cell != "" {
		want = e.cell
	}
	mine := func(path string) bool {
		if path == e.target {
			return true
		}
		rest, under := strings.CutPrefix(path, e.target)
		return e.whole && under && (rest[0] == '.' || rest[0] == '[')
	}
	if got, ok := b[e.target]; !e.whole && (ok != (want != "") || got != want) {
		return fmt.Errorf("the rewritten document would hold %q", got)
	}
	for k, v := range a {
		if w, ok := b[k]; !mine(k) && (!ok || w != v) {
			return fmt.Errorf("the rewritten document would differ at %s", k)
		}
	}
	for k := range b {
		if _, ok := a[k]; !ok && !mine(k) {
			return fmt.Errorf("the rewritten document would have %s", k)
		}
	}
	return nil
}

// flat returns every single value of a document by its path in the text.
func flat(text string) (map[string]string, []yaml.Fault) {
	root, faults := yaml.Parse(text)
	out := map[string]string{}
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		for i, kv := range n.Pairs {
			at := join(path, kv.Key.Text)
			if _, dup := out[at]; dup {
				at += fmt.Sprintf("(%d)", i)
			}
			walk(kv.Value, at)
		}
		for i, v := range n.Items {
			walk(v, path+index(i))
		}
		if n.Kind == yaml.Scalar {
			out[path] = strings.TrimSpace(n.Text)
		}
	}
	if root != nil {
		walk(root, "")
	}
	return out, faults
}

func index(i int) string { return "[" + strconv.Itoa(i) + "]" }

// quote writes a value so that YAML reads it back as the same text: plain
// where that will do, else in double quotes.
func quote(s string, flow bool) string {
	probe := "k: " + s
	if flow {
		probe = "k: [" + s + "]"
	}
	if root, faults := yaml.Parse(probe); len(faults) == 0 && root.Kind == yaml.Mapping && len(root.Pairs) == 1 {
		n := root.Pairs[0].Value
		if flow && n.Kind == yaml.List && len(n.Items) == 1 {
			n = n.Items[0]
		}
		if n.Kind == yaml.Scalar && n.Style == yaml.Plain && n.Text == s {
			return s
		}
	}
	return doubleQuote(s)
}

// doubleQuote writes a text in double quotes with the escapes of YAML.
func doubleQuote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < 0x20 || r >= 0x7f && r < 0xa0:
			fmt.Fprintf(&b, `\x%02X`, r)
		case r == 0xfeff || r == 0x2028 || r == 0x2029:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
