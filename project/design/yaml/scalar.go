package yaml

import "strings"

// inline reads the value that begins at off behind a key, a dash or on its
// own line: text, or a collection in brackets.
func (p *parser) inline(off, parent, depth int) *Node {
	l := p.lines[p.ln]
	c := p.text[off]
	refuse := func(expected, format string, args ...any) *Node {
		p.fault(off, p.valid(off, l.end), expected, format, args...)
		p.skipDeeper(parent)
		return p.node(Bad, off, l.end)
	}
	switch {
	case c == '|' || c == '>':
		return p.literal(off, parent)
	case c == '"' || c == '\'':
		n, end := p.quoted(off, parent)
		if n.Kind == Scalar {
			p.tail(end, "the closing quote", parent)
		}
		return n
	case c == '[' || c == '{':
		return p.brackets(off, parent, depth)
	case c == '&' || c == '!' || c == '*':
		end := off
		for end < l.end && p.text[end] != ' ' && p.text[end] != '\t' {
			end++
		}
		p.fault(off, p.valid(off, end), "the value itself", "anchors, aliases and tags are not used in a design")
		p.skipDeeper(parent)
		return p.node(Bad, off, l.end)
	case c == '@' || c == '`' || c == '%':
		return refuse("the text in quotes", "a plain text does not begin with %c", c)
	case c == ',' || c == ']' || c == '}':
		return refuse("a value", "%c without an opening bracket", c)
	case p.isEntry('-', off):
		return refuse("the list on its own lines, or in brackets", "a list begins behind the colon")
	case p.isEntry('?', off):
		return refuse("key: value", "long keys are not used in a design")
	}
	return p.plain(off, parent)
}

// plain reads a text without quotes. It may go on over lines that are
// indented deeper than what holds it.
func (p *parser) plain(off, parent int) *Node {
	l := p.lines[p.ln]
	first := p.place(off).Line
	end, colon, comment := p.plainEnd(off, l.end)
	n := p.node(Scalar, off, end)
	n.Text = p.valid(off, end)
	if colon >= 0 {
		p.fault(colon, n.Text, "one key a line, or the text in quotes", "a second colon on this line")
		n.Kind = Bad
		p.skipDeeper(parent)
		return n
	}
	p.ln++
	var more strings.Builder
	blank := 0
	for !comment && p.ln < len(p.lines) {
		l := &p.lines[p.ln]
		if l.off == l.end {
			blank++
			p.ln++
			continue
		}
		if l.marker || l.empty || l.indent <= parent {
			break
		}
		if !p.next() { // reports a tab
			break
		}
		_, colon, hash := p.plainEnd(l.off, l.end)
		if colon >= 0 {
			p.fault(l.off, p.valid(l.off, l.end), spaces(max(parent, 0)), "this line is indented under line %d, which has a value already", first)
			n.Kind = Bad
			p.skipDeeper(parent)
			return n
		}
		end, _, _ := p.plainEnd(l.off, l.end)
		if blank == 0 {
			more.WriteByte(' ')
		}
		more.WriteString(strings.Repeat("\n", blank))
		more.WriteString(p.valid(l.off, end))
		n.End, blank, comment = end, 0, hash
		p.ln++
	}
	if more.Len() > 0 {
		n.Text += more.String()
	} else if isNull(n.Text) {
		n.Kind = Null
	}
	return n
}

// plainEnd returns the end of a plain text on one line, the colon in it that
// makes it a key, and whether a comment follows.
func (p *parser) plainEnd(off, end int) (stop, colon int, comment bool) {
	stop, colon = end, -1
	for i := off; i < end; i++ {
		c := p.text[i]
		if c == '#' && i > off && (p.text[i-1] == ' ' || p.text[i-1] == '\t') {
			stop, comment = i, true
			break
		}
		if c == ':' && colon < 0 && p.colonAt(i, end) {
			colon = i
		}
	}
	for stop > off && (p.text[stop-1] == ' ' || p.text[stop-1] == '\t') {
		stop--
	}
	return stop, colon, comment
}

func isNull(s string) bool {
	switch s {
	case "", "~", "null", "Null", "NULL":
		return true
	}
	return false
}

// tail checks that nothing but a comment follows on the line and moves on.
func (p *parser) tail(off int, what string, parent int) {
	for p.ln+1 < len(p.lines) && p.lines[p.ln+1].start <= off {
		p.ln++
	}
	l := p.lines[p.ln]
	at := p.blanks(off, l.end)
	switch {
	case at == l.end || p.text[at] == '#' && at > off:
		p.ln++
	default:
		p.fault(at, p.valid(at, l.end), "the end of the line, or a comment", "text behind %s", what)
		p.skipDeeper(parent)
	}
}
