package yaml

import "strings"

// flow reads collections in brackets, character by character over the lines.
type flow struct {
	*parser
	pos    int
	parent int // indentation of what holds the outermost bracket
	open   int // the outermost bracket
	failed bool
}

// brackets reads the collection that opens at off and moves behind its line.
func (p *parser) brackets(off, parent, depth int) *Node {
	f := &flow{parser: p, pos: off, parent: parent, open: off}
	n := f.value(depth)
	if f.failed {
		end := p.lines[p.ln].end
		p.skipDeeper(parent)
		return p.node(Bad, off, max(off, end))
	}
	p.tail(n.End, "the closing bracket", parent)
	return n
}

// fail reports one fault; behind it the collection is not read further.
func (f *flow) fail(off int, text, expected, format string, args ...any) {
	if f.failed {
		return
	}
	f.failed = true
	f.fault(off, text, expected, format, args...)
	f.pos = len(f.text)
}

// blank moves over spaces, ends of line and comments. It fails when the text
// ends, or a line begins that belongs to what holds the collection.
func (f *flow) blank() {
	for f.pos < len(f.text) {
		switch c := f.text[f.pos]; {
		case c == ' ' || c == '\t' || c == '\r':
			f.pos++
		case c == '#' && f.pos > 0 && strings.IndexByte(" \t\n", f.text[f.pos-1]) >= 0:
			for f.pos < len(f.text) && f.text[f.pos] != '\n' {
				f.pos++
			}
		case c == '\n':
			f.pos++
			i := f.lineOf(f.pos)
			l := f.lines[i]
			closing := l.off < l.end && (f.text[l.off] == ']' || f.text[l.off] == '}')
			if l.marker || !l.empty && l.indent <= f.parent && !closing {
				f.unclosed()
				return
			}
		default:
			return
		}
	}
	if !f.failed {
		f.unclosed()
	}
}

func (f *flow) unclosed() {
	c := f.text[f.open]
	f.fail(f.open, string(c), map[byte]string{'[': "]", '{': "}"}[c], "the bracket is not closed")
}

func (f *flow) peek() byte {
	if f.failed || f.pos >= len(f.text) {
		return 0
	}
	return f.text[f.pos]
}

// value reads one value inside brackets, or the outermost collection.
func (f *flow) value(depth int) *Node {
	at := f.pos
	if depth > MaxDepth {
		f.fail(at, "", "", "nested deeper than %d levels", MaxDepth)
		return f.node(Bad, at, at)
	}
	switch f.peek() {
	case '[':
		return f.list(depth)
	case '{':
		return f.mapping(depth)
	case '"', '\'':
		return f.quote()
	}
	return f.plain(false)
}

func (f *flow) quote() *Node {
	before := len(f.faults) + f.more
	ln := f.ln
	n, end := f.quoted(f.pos, f.parent)
	f.ln = ln
	if n.Kind == Bad && len(f.faults)+f.more > before {
		f.failed = true
		return n
	}
	f.pos = end
	return n
}

func (f *flow) list(depth int) *Node {
	n := f.node(List, f.pos, f.pos)
	n.Flow = true
	f.pos++
	for f.blank(); !f.failed; f.blank() {
		if f.peek() == ']' {
			f.pos++
			n.End = f.pos
			return n
		}
		if c := f.peek(); c == ',' || c == '}' {
			f.fail(f.pos, string(c), "a value", "no value before %c", c)
			break
		}
		n.Items = append(n.Items, f.value(depth+1))
		if !f.separator(']') {
			break
		}
	}
	n.End = min(f.pos, len(f.text))
	return n
}

// separator reads the comma behind a value; a closing bracket stays.
func (f *flow) separator(closing byte) bool {
	f.blank()
	switch c := f.peek(); {
	case f.failed:
		return false
	case c == ',':
		f.pos++
		return true
	case c == closing:
		return true
	case c == ':' && closing == '}':
		f.fail(f.pos, ":", "a comma before the next key", "a second colon in one entry")
	case c == ':':
		f.fail(f.pos, ":", "a comma, or braces { } round key: value", "a colon inside square brackets")
	default:
		f.fail(f.pos, string(c), "a comma or "+string(closing), "no comma before this value")
	}
	return false
}

func (f *flow) mapping(depth int) *Node {
	n := f.node(Mapping, f.pos, f.pos)
	n.Flow = true
	f.pos++
	for f.blank(); !f.failed; f.blank() {
		if f.peek() == '}' {
			f.pos++
			n.End = f.pos
			return n
		}
		kv, ok := f.pair(depth)
		if !ok {
			break
		}
		n.Pairs = append(n.Pairs, kv)
		if !f.separator('}') {
			break
		}
	}
	n.End = min(f.pos, len(f.text))
	return n
}

func (f *flow) pair(depth int) (Pair, bool) {
	var key *Node
	c := f.peek()
	switch {
	case c == '"' || c == '\'':
		key = f.quote()
	case c == ',' || c == ']' || c == '[' || c == '{':
		f.fail(f.pos, string(c), "key: value", "no key before %c", c)
	default:
		key = f.plain(true)
	}
	if f.failed {
		return Pair{}, false
	}
	if key.Text == "<<" && key.Style == Plain {
		f.fail(key.Start, key.Text, "", "merge keys are not used in a design")
		return Pair{}, false
	}
	key.Kind = Scalar
	f.blank()
	if f.failed {
		return Pair{}, false
	}
	if f.peek() != ':' {
		if k, v, ok := strings.Cut(key.Text, ":"); ok && key.Style == Plain {
			f.fail(key.Start, key.Text, k+": "+v, "no space behind the colon")
		}
		return Pair{key, f.node(Null, key.End, key.End)}, true
	}
	f.pos++
	at := f.pos
	f.blank()
	if c := f.peek(); f.failed || c == ',' || c == '}' {
		return Pair{key, f.node(Null, at, at)}, !f.failed
	}
	v := f.value(depth + 1)
	return Pair{key, v}, !f.failed
}

// plain reads a text without quotes inside brackets: it ends at a comma, a
// bracket, a colon that makes it a key, a comment or the end of the line.
func (f *flow) plain(key bool) *Node {
	at := f.pos
	c := f.peek()
	next := byte(' ')
	if at+1 < len(f.text) {
		next = f.text[at+1]
	}
	switch {
	case c == '&' || c == '*' || c == '!':
		f.fail(at, string(c), "the value itself", "anchors, aliases and tags are not used in a design")
	case c == '@' || c == '`' || c == '%' || c == '|' || c == '>':
		f.fail(at, string(c), "the text in quotes", "a plain text does not begin with %c", c)
	case (c == '-' || c == '?') && strings.IndexByte(" \t\r\n,[]{}", next) >= 0:
		f.fail(at, string(c), "a value", "%c is no value inside brackets", c)
	case c == ':' || c == '#':
		f.fail(at, string(c), "the text in quotes, or a space before it", "a plain text does not begin with %c", c)
	case strings.IndexByte(",]}", c) >= 0:
		f.fail(at, string(c), "a value", "no value before %c", c)
	}
	if f.failed {
		return f.node(Bad, at, at)
	}
	end := at
	i := at
scan:
	for i < len(f.text) {
		switch c := f.text[i]; {
		case strings.IndexByte(",[]{}\n", c) >= 0, c == '\r' && i+1 < len(f.text) && f.text[i+1] == '\n':
			break scan
		case c == ':' && (i+1 >= len(f.text) || strings.IndexByte(" \t\r\n,[]{}", f.text[i+1]) >= 0):
			break scan
		case c == '#' && i > at && (f.text[i-1] == ' ' || f.text[i-1] == '\t'):
			break scan
		case c != ' ' && c != '\t':
			end = i + 1
		}
		i++
	}
	f.pos = i
	n := f.node(Scalar, at, end)
	n.Text = f.valid(at, end)
	if !key && isNull(n.Text) {
		n.Kind = Null
	}
	if key && end == at {
		f.fail(at, string(c), "key: value", "no key before %c", c)
	}
	return n
}
