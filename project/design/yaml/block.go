package yaml

import (
	"fmt"
	"strings"
)

// MaxDepth is the deepest nesting that is read.
const MaxDepth = 32

// maxFaults is the largest number of faults that are named.
const maxFaults = 100

type parser struct {
	text   string
	from   int // behind the byte order mark
	lines  []line
	ln     int // line that is read next
	faults []Fault
	more   int // faults beyond maxFaults

	placeLine, placeOff, placeCol int
}

// Parse reads one document. The node is nil when the text holds none. With
// faults the node holds what could be read.
func Parse(text string) (*Node, []Fault) {
	p := &parser{text: text, placeCol: 1}
	if strings.HasPrefix(text, "\ufeff") {
		p.from = len("\ufeff")
		p.placeOff = p.from
	}
	if binary(text) {
		return nil, []Fault{{Place: Place{1, 1}, Message: "this is not a text file", Expected: "a YAML text in UTF-8"}}
	}
	p.lines = splitLines(text, p.from)
	p.characters()
	root := p.document()
	if p.more > 0 {
		last := p.faults[len(p.faults)-1].Place
		p.faults = append(p.faults, Fault{Place: last, Message: fmt.Sprintf("and %d more faults of this sort", p.more)})
	}
	return root, p.faults
}

func (p *parser) fault(off int, text, expected, format string, args ...any) {
	if len(p.faults) >= maxFaults {
		p.more++
		return
	}
	p.faults = append(p.faults, Fault{Place: p.place(off), Text: text, Message: fmt.Sprintf(format, args...), Expected: expected})
}

func (p *parser) node(k Kind, start, end int) *Node {
	return &Node{Kind: k, Place: p.place(start), Start: start, End: end}
}

// document reads the only document of the text.
func (p *parser) document() *Node {
	for p.ln < len(p.lines) {
		l := p.lines[p.ln]
		switch {
		case l.empty:
		case l.start == l.off && p.text[l.off] == '%':
			if !strings.HasPrefix(p.text[l.off:l.end], "%YAML 1.") {
				p.fault(l.off, p.text[l.off:l.end], "", "directives are not used in a design")
			}
		default:
			goto body
		}
		p.ln++
	}
body:
	if p.ln < len(p.lines) && p.lines[p.ln].marker && p.text[p.lines[p.ln].start] == '-' {
		l := p.lines[p.ln]
		if v := p.blanks(l.start+3, l.end); v < l.end && p.text[v] != '#' {
			p.fault(v, p.text[v:l.end], "the next line", "text behind ---")
		}
		p.ln++
	}
	if !p.next() {
		p.rest()
		return nil
	}
	l := p.lines[p.ln]
	root := p.block(l.off, l.indent, -1, 1)
	p.rest()
	return root
}

// rest reports what stands behind the document.
func (p *parser) rest() {
	second := false
	for ; p.ln < len(p.lines); p.ln++ {
		l := p.lines[p.ln]
		switch {
		case l.empty:
		case l.marker:
			second = true
			if v := p.blanks(l.start+3, l.end); v < l.end && p.text[v] != '#' {
				p.fault(l.off, "", "one design a file", "the file holds more than one document")
				return
			}
		case second:
			p.fault(l.off, "", "one design a file", "the file holds more than one document")
			return
		default:
			p.fault(l.off, p.text[l.off:l.end], "the same indentation as the first line", "this line is indented less than the first one")
			return
		}
	}
}

// next moves to the next line with content of this document.
func (p *parser) next() bool {
	for ; p.ln < len(p.lines); p.ln++ {
		l := &p.lines[p.ln]
		if l.marker {
			return false
		}
		if l.empty {
			continue
		}
		if l.tab && !l.told {
			l.told = true
			at := l.start + strings.IndexByte(p.text[l.start:l.off], '\t')
			p.fault(at, `\t`, "spaces", "a tab in the indentation")
		}
		return true
	}
	return false
}

// skipDeeper moves behind this line and all that are indented deeper than
// the given width.
func (p *parser) skipDeeper(indent int) {
	for p.ln++; p.ln < len(p.lines); p.ln++ {
		if l := p.lines[p.ln]; l.marker || !l.empty && l.indent <= indent {
			return
		}
	}
}

func (p *parser) blanks(off, end int) int {
	for off < end && (p.text[off] == ' ' || p.text[off] == '\t') {
		off++
	}
	return off
}

// isEntry tells whether a character that opens a list entry or a long key
// stands at off.
func (p *parser) isEntry(c byte, off int) bool {
	end := p.lines[p.ln].end
	return off < end && p.text[off] == c && (off+1 == end || p.text[off+1] == ' ' || p.text[off+1] == '\t')
}

// keyEnd returns the colon of the key that begins at off on the given line.
func (p *parser) keyEnd(off int, l line) (colon int, ok bool) {
	if off < l.end && (p.text[off] == '"' || p.text[off] == '\'') {
		end, closed := p.quoteEnd(p.text[off], off+1, l.end)
		if !closed {
			return 0, false
		}
		colon = p.blanks(end, l.end)
		return colon, colon < l.end && p.text[colon] == ':' && p.colonAt(colon, l.end)
	}
	if off < l.end && (p.text[off] == '[' || p.text[off] == '{') {
		return 0, false
	}
	for i := off; i < l.end; i++ {
		switch {
		case p.text[i] == ':' && p.colonAt(i, l.end):
			return i, true
		case p.text[i] == '#' && i > off && (p.text[i-1] == ' ' || p.text[i-1] == '\t'):
			return 0, false
		}
	}
	return 0, false
}

func (p *parser) colonAt(i, end int) bool {
	return i+1 >= end || p.text[i+1] == ' ' || p.text[i+1] == '\t'
}

// block reads the value that begins at off on this line. parent is the
// indentation of what holds it: -1 at the top.
func (p *parser) block(off, indent, parent, depth int) *Node {
	if depth > MaxDepth {
		p.fault(off, "", "", "nested deeper than %d levels", MaxDepth)
		p.skipDeeper(parent)
		return p.node(Bad, off, off)
	}
	l := p.lines[p.ln]
	if p.isEntry('-', off) {
		return p.list(off, indent, depth)
	}
	if _, ok := p.keyEnd(off, l); ok || p.isEntry('?', off) || p.keyBelow(off, indent) {
		return p.mapping(off, indent, depth)
	}
	return p.inline(off, parent, depth)
}

// keyBelow tells whether this line, which is no key: value, stands above one
// of the same indentation: it was meant to be one.
func (p *parser) keyBelow(off, indent int) bool {
	if strings.IndexByte("\"'[{|>", p.text[off]) >= 0 {
		return false
	}
	for i := p.ln + 1; i < len(p.lines); i++ {
		l := p.lines[i]
		if l.empty {
			continue
		}
		_, ok := p.keyEnd(l.off, l)
		return ok && l.indent == indent && !l.marker
	}
	return false
}

func (p *parser) list(off, indent, depth int) *Node {
	n := p.node(List, off, off)
	n.Indent = indent
	for {
		l := p.lines[p.ln]
		at := p.blanks(off+1, l.end)
		var item *Node
		if at == l.end || p.text[at] == '#' && at > off+1 {
			item = p.below(off+1, indent, false, depth)
		} else {
			item = p.block(at, indent+at-off, indent, depth+1)
		}
		n.Items = append(n.Items, item)
		n.End = item.End
		var ok bool
		if off, ok = p.sibling(indent, '-'); !ok {
			return n
		}
	}
}

func (p *parser) mapping(off, indent, depth int) *Node {
	n := p.node(Mapping, off, off)
	n.Indent = indent
	for {
		if kv, ok := p.pair(off, indent, depth); ok {
			n.Pairs = append(n.Pairs, kv)
			n.End = kv.Value.End
		}
		var ok bool
		if off, ok = p.sibling(indent, ':'); !ok {
			return n
		}
	}
}

// sibling moves to the next entry of a list ('-') or mapping (':') with the
// given indentation and reports lines that fit neither it nor what holds it.
func (p *parser) sibling(indent int, sort byte) (off int, ok bool) {
	for p.next() {
		l := p.lines[p.ln]
		dash := p.isEntry('-', l.off)
		switch {
		case l.indent < indent:
			return 0, false
		case l.indent > indent:
			p.fault(l.off, p.valid(l.off, l.end), spaces(indent), "this line is indented by %s, its neighbours above by %d", spaces(l.indent), indent)
			p.skipDeeper(indent)
		case sort == '-' && !dash:
			return 0, false // a key behind a list of the same indentation
		case sort == ':' && dash:
			p.fault(l.off, "-", "key: value", "a list entry among key: value lines")
			p.skipDeeper(indent)
		default:
			return l.off, true
		}
	}
	return 0, false
}

func spaces(n int) string {
	switch n {
	case 0:
		return "no spaces"
	case 1:
		return "1 space"
	}
	return fmt.Sprintf("%d spaces", n)
}

// pair reads key: value. Behind a fault it moves on to the next line.
func (p *parser) pair(off, indent, depth int) (Pair, bool) {
	l := p.lines[p.ln]
	if p.isEntry('?', off) {
		p.fault(off, "?", "key: value", "long keys are not used in a design")
		p.skipDeeper(indent)
		return Pair{}, false
	}
	colon, ok := p.keyEnd(off, l)
	if !ok {
		p.noColon(off, l)
		p.skipDeeper(indent)
		return Pair{}, false
	}
	key := p.key(off, colon)
	v := p.blanks(colon+1, l.end)
	if v == l.end || p.text[v] == '#' {
		return Pair{key, p.below(colon+1, indent, true, depth)}, key.Kind == Scalar
	}
	return Pair{key, p.inline(v, indent, depth)}, key.Kind == Scalar
}

// key returns the node of the key between off and its colon.
func (p *parser) key(off, colon int) *Node {
	end := colon
	for end > off && (p.text[end-1] == ' ' || p.text[end-1] == '\t') {
		end--
	}
	n := p.node(Scalar, off, end)
	n.Text = p.valid(off, end)
	switch {
	case end == off:
		p.fault(off, ":", "key: value", "no key before the colon")
		n.Kind = Bad
	case p.text[off] == '"' || p.text[off] == '\'':
		n.Text, n.Style = p.unquote(off, end)
	case n.Text == "<<":
		p.fault(off, n.Text, "", "merge keys are not used in a design")
		n.Kind = Bad
	case strings.IndexByte("&*!", p.text[off]) >= 0:
		p.fault(off, n.Text, "", "anchors, aliases and tags are not used in a design")
		n.Kind = Bad
	case strings.HasPrefix(n.Text, "\u00a0"):
		p.fault(off, n.Text, "plain spaces", "a no-break space stands where a plain space belongs")
		n.Kind = Bad
	case strings.IndexByte("@`%|>,]}", p.text[off]) >= 0:
		p.fault(off, n.Text, "a key that begins with a letter", "a key does not begin with %c", p.text[off])
		n.Kind = Bad
	}
	return n
}

// below reads the value of a key or entry that has nothing behind it: it
// stands on the next lines, or there is none.
func (p *parser) below(at, indent int, key bool, depth int) *Node {
	null := func() *Node { return p.node(Null, at, at) }
	p.ln++
	if !p.next() {
		return null()
	}
	l := p.lines[p.ln]
	if l.indent > indent || key && l.indent == indent && p.isEntry('-', l.off) {
		return p.block(l.off, l.indent, indent, depth+1)
	}
	return null()
}

// valid returns a piece of the text as valid UTF-8.
func (p *parser) valid(from, to int) string {
	return strings.ToValidUTF8(p.text[from:to], "\ufffd")
}
