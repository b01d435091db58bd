package design

import (
	"errors"
	"fmt"
	"reflect"
	"strings"

	"costrel/project/design/yaml"
)

// mapping makes the change inside a mapping. held are the mappings above it,
// innermost last.
func (e *editor) mapping(n *yaml.Node, st []step, held []*yaml.Node) error {
	s := st[0]
	e.target = join(e.target, s.key)
	var found *yaml.Pair
	for i := range n.Pairs {
		if n.Pairs[i].Key.Text == s.key {
			if found != nil {
				return fmt.Errorf("%s stands twice; take one out in the text", e.target)
			}
			found = &n.Pairs[i]
		}
	}
	held = append(held, n)
	switch {
	case found == nil && e.value == "":
		e.target += rest(st[1:])
		return nil
	case found == nil:
		return e.add(n, st)
	case len(st) == 1 && e.value == "":
		return e.remove(found, held)
	case len(st) == 1 && e.given != nil:
		return e.replaceTable(found, n)
	case len(st) == 1:
		return e.replace(found.Value, n.Flow)
	case found.Value.Kind == yaml.Null:
		return e.fill(found, n, st)
	case st[1].index >= 0:
		return e.list(found.Value, st[1:])
	case found.Value.Kind != yaml.Mapping:
		return fmt.Errorf("%s is %s; edit it in the text", e.target, found.Value.What())
	}
	return e.mapping(found.Value, st[1:], held)
}

func rest(st []step) string {
	var b strings.Builder
	for _, s := range st {
		if s.index >= 0 {
			b.WriteString(index(s.index))
		} else {
			b.WriteString("." + s.key)
		}
	}
	return b.String()
}

// replace writes the value over a node.
func (e *editor) replace(n *yaml.Node, flow bool) error {
	text := e.value
	if e.cell != "" {
		text = e.cell
	}
	switch {
	case n.Kind == yaml.Mapping || n.Kind == yaml.List:
		return fmt.Errorf("%s is %s; edit it in the text", e.target, n.What())
	case n.Kind == yaml.Scalar && strings.TrimSpace(n.Text) == text:
		return nil
	}
	e.splices = append(e.splices, scalarOver(n, text, flow))
	return nil
}

// scalarOver writes a text over a value, in quotes where that has them.
func scalarOver(n *yaml.Node, text string, flow bool) splice {
	switch {
	case n.Kind == yaml.Scalar && (n.Style == yaml.Single || n.Style == yaml.Double):
		return splice{n.Start, n.End, doubleQuote(text)}
	case n.Start == n.End: // nothing stands behind the colon or dash
		return splice{n.Start, n.End, " " + quote(text, flow)}
	}
	return splice{n.Start, n.End, quote(text, flow)}
}

// add writes a key that the mapping does not have, behind the last one that
// stands before it in the schema.
func (e *editor) add(n *yaml.Node, st []step) error {
	lines, err := e.nest(st, n.Indent)
	if err != nil {
		return err
	}
	if n.Flow {
		if len(lines) > 1 && !single(st) {
			return fmt.Errorf("%s is written in braces; write the table in the text", orDesign(strings.TrimSuffix(e.target, st[0].key)))
		}
		return e.addFlow(n, st)
	}
	if len(n.Pairs) == 0 {
		return errors.New("there is no key to stand behind; edit it in the text")
	}
	s := schemaOf(e.typeAt(len(st)))
	after := n.Pairs[len(n.Pairs)-1]
	for i := len(n.Pairs) - 1; i >= 0; i-- {
		if j, ok := s.byKey[n.Pairs[i].Key.Text]; ok && j < s.byKey[st[0].key] {
			after = n.Pairs[i]
			break
		}
	}
	at := e.lineEnd(after.Value.End)
	text := strings.Join(lines, e.eol) + e.eol
	if at > 0 && e.text[at-1] != '\n' { // the last line has no end
		text = e.eol + strings.TrimSuffix(text, e.eol)
	} else if n.Indent == 0 && len(st) > 1 && e.blankAt(at) {
		text = e.eol + text
	}
	e.splice(at, at, text)
	return nil
}

// typeAt returns the struct that holds the step that has left steps to go,
// itself included.
func (e *editor) typeAt(left int) reflect.Type {
	st, _ := steps(e.path)
	t := reflect.TypeOf(Design{})
	for _, s := range st[:len(st)-left] {
		if s.index >= 0 {
			t = t.Elem()
			continue
		}
		sc := schemaOf(t)
		if t = sc.fields[sc.byKey[s.key]].typ; t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
	}
	return t
}

// single tells whether a path holds keys only.
func single(st []step) bool {
	for _, s := range st {
		if s.index >= 0 {
			return false
		}
	}
	return true
}

// nest returns the lines of the value under the keys that are left to go.
func (e *editor) nest(st []step, indent int) ([]string, error) {
	var out []string
	for i, s := range st {
		line := strings.Repeat(" ", indent+2*i) + s.key + ":"
		if i > 0 {
			e.target = join(e.target, s.key)
		}
		switch {
		case i+1 < len(st) && st[i+1].index >= 0:
			table, err := e.table(st[i+1:], indent+2*i)
			if err != nil {
				return nil, err
			}
			e.whole = true
			table[0] = line + table[0]
			return append(out, table...), nil
		case i == len(st)-1 && e.given != nil:
			table := e.given.lines(e.path, strings.Repeat(" ", indent+2*i+2))
			table[0] = line + table[0]
			return append(out, table...), nil
		case i == len(st)-1:
			line += " " + quote(e.value, false)
		}
		out = append(out, line)
	}
	return out, nil
}

func (e *editor) addFlow(n *yaml.Node, st []step) error {
	var b strings.Builder
	for i, s := range st {
		if i > 0 {
			b.WriteString("{")
		}
		b.WriteString(s.key + ": ")
	}
	value := quote(e.value, true)
	if e.given != nil {
		value = e.given.flow(e.path)
	}
	b.WriteString(value + strings.Repeat("}", len(st)-1))
	if len(n.Pairs) == 0 {
		e.splice(n.Start+1, n.Start+1, b.String())
		return nil
	}
	last := n.Pairs[len(n.Pairs)-1].Value.End
	e.splice(last, last, ", "+b.String())
	return nil
}

// fill writes the value into a section that holds nothing yet.
func (e *editor) fill(kv *yaml.Pair, n *yaml.Node, st []step) error {
	if e.value == "" {
		e.target += rest(st[1:])
		return nil
	}
	if n.Flow || kv.Value.Start < kv.Value.End {
		return fmt.Errorf("%s is written as nothing; edit it in the text", e.target)
	}
	if st[1].index >= 0 {
		table, err := e.table(st[1:], n.Indent)
		if err != nil {
			return err
		}
		e.whole = true
		if table[0] != "" {
			e.splice(kv.Value.Start, kv.Value.End, table[0])
		}
		e.insertBelow(kv.Value.End, table[1:])
		return nil
	}
	lines, err := e.nest(st, n.Indent)
	if err != nil {
		return err
	}
	e.insertBelow(kv.Value.End, lines[1:])
	return nil
}

// insertBelow writes lines under the line that holds a byte.
func (e *editor) insertBelow(off int, lines []string) {
	if len(lines) == 0 {
		return
	}
	at := e.lineEnd(off)
	text := strings.Join(lines, e.eol) + e.eol
	if at > 0 && e.text[at-1] != '\n' {
		text = e.eol + strings.TrimSuffix(text, e.eol)
	}
	e.splice(at, at, text)
}

// remove takes a key out. A section that holds nothing else goes with it.
func (e *editor) remove(kv *yaml.Pair, held []*yaml.Node) error {
	n := held[len(held)-1]
	if n.Flow {
		return e.removeFlow(kv, n)
	}
	if len(n.Pairs) == 1 && len(held) > 1 {
		above := held[len(held)-2]
		for i := range above.Pairs {
			up := &above.Pairs[i]
			if up.Value == n && !above.Flow && !strings.Contains(e.text[up.Key.End:kv.Key.Start], "#") {
				return e.remove(up, held[:len(held)-1])
			}
		}
	}
	start := e.lineStart(kv.Key.Start)
	if strings.TrimLeft(e.text[start:kv.Key.Start], " ") != "" {
		return errors.New("the value stands on the line of its dash; edit it in the text")
	}
	end := e.remarkEnd(kv.Value.End)
	if len(n.Pairs) == 1 && len(held) == 1 {
		return errors.New("it is all that the document holds")
	}
	if len(held) == 1 && start > 0 && e.blankAt(end) && e.blankAt(e.lineStart(start-1)) {
		start = e.lineStart(start - 1) // one of two blank lines
	}
	if end == len(e.text) && start > 0 && e.text[len(e.text)-1] != '\n' {
		start -= len(e.eol) // the file ends without an end of line, as before
	}
	left := ""
	if kv.Value.Kind == yaml.Scalar && end == e.lineEnd(kv.Value.End) {
		left = e.shared(e.lineStart(kv.Key.Start), kv.Value.End)
	}
	e.splice(start, end, left)
	return nil
}

// removeFlow takes a key out of a mapping in braces.
func (e *editor) removeFlow(kv *yaml.Pair, n *yaml.Node) error {
	start, end := kv.Key.Start, kv.Value.End
	for i := range n.Pairs {
		if &n.Pairs[i] != kv {
			continue
		}
		switch {
		case i+1 < len(n.Pairs):
			end = n.Pairs[i+1].Key.Start
		case i > 0:
			start = n.Pairs[i-1].Value.End
		}
	}
	if strings.ContainsAny(e.text[start:end], "#\n") {
		return errors.New("its mapping in braces goes over several lines; edit it in the text")
	}
	e.splice(start, end, "")
	return nil
}

func (e *editor) lineStart(off int) int { return strings.LastIndexByte(e.text[:off], '\n') + 1 }

// lineEnd returns the byte behind the line that holds off.
func (e *editor) lineEnd(off int) int {
	i := strings.IndexByte(e.text[off:], '\n')
	if i < 0 {
		return len(e.text)
	}
	return off + i + 1
}

// blankAt tells whether an empty line begins at off.
func (e *editor) blankAt(off int) bool {
	return off < len(e.text) && strings.TrimSpace(e.text[off:e.lineEnd(off)]) == ""
}
