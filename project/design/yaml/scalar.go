package yaml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

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

// quoteEnd returns the byte behind the closing quote q, looking from i no
// further than end; without one, the byte to look on from.
func (p *parser) quoteEnd(q byte, i, end int) (int, bool) {
	for ; i < end; i++ {
		switch {
		case p.text[i] == '\\' && q == '"':
			i++
		case p.text[i] == q && q == '\'' && i+1 < end && p.text[i+1] == q:
			i++
		case p.text[i] == q:
			return i + 1, true
		}
	}
	return i, false
}

// quoted reads a text in quotes, which may go on over lines indented deeper
// than parent, and returns it with the byte behind it. It leaves the line
// alone unless the text is not closed.
func (p *parser) quoted(off, parent int) (*Node, int) {
	l := p.lineOf(off)
	limit := p.lines[l].end
	from := off + 1
	for i := l; ; {
		end, closed := p.quoteEnd(p.text[off], from, limit)
		from = end
		if closed {
			n := p.node(Scalar, off, end)
			n.Text, n.Style = p.unquote(off, end)
			return n, end
		}
		for i++; i < len(p.lines) && p.lines[i].off == p.lines[i].end; i++ {
		}
		if i >= len(p.lines) || p.lines[i].marker || p.lines[i].indent <= parent || p.lines[i].end-off > longest {
			break
		}
		limit = p.lines[i].end
	}
	p.fault(off, p.valid(off, p.lines[l].end), "the closing quote", "the quote is not closed")
	p.ln = l
	p.skipDeeper(parent)
	return p.node(Bad, off, p.lines[l].end), p.lines[l].end
}

// longest is the length of the longest quoted text [bytes]; it bounds the
// search for a closing quote.
const longest = 64 << 10

func (p *parser) lineOf(off int) int { return p.place(off).Line - 1 }

// unquote returns the text between the quotes that open at off and end
// before end.
func (p *parser) unquote(off, end int) (string, Style) {
	in := p.valid(off+1, max(end-1, off+1))
	if p.text[off] == '\'' {
		return strings.ReplaceAll(fold(in, false), "''", "'"), Single
	}
	if strings.IndexByte(in, '\\') < 0 {
		return fold(in, true), Double
	}
	return p.escapes(fold(in, true), off, end), Double
}

// fold joins the lines of a quoted text: one end of line is a space, more are
// one fewer ends of line. In double quotes a backslash before the end of line
// joins without a space.
func fold(s string, double bool) string {
	if strings.IndexByte(s, '\n') < 0 {
		return s
	}
	lines := strings.Split(s, "\n")
	var b strings.Builder
	blank := 0
	joined := false
	for i, l := range lines {
		l = strings.TrimSuffix(l, "\r")
		if i > 0 {
			l = strings.TrimLeft(l, " \t")
		}
		open := double && i < len(lines)-1 && strings.HasSuffix(l, `\`) && (len(l)-len(strings.TrimRight(l, `\`)))%2 == 1
		switch {
		case open:
			l = l[:len(l)-1]
		case i < len(lines)-1:
			full := l
			l = strings.TrimRight(l, " \t")
			if double && len(l) < len(full) && (len(l)-len(strings.TrimRight(l, `\`)))%2 == 1 {
				l = full[:len(l)+1] // an escaped blank stays
			}
		}
		if i > 0 && l == "" && i < len(lines)-1 && !open {
			blank++
			continue
		}
		if i > 0 && !joined {
			if blank == 0 {
				b.WriteByte(' ')
			}
		}
		b.WriteString(strings.Repeat("\n", blank))
		b.WriteString(l)
		blank, joined = 0, open
	}
	return b.String()
}

var escaped = map[byte]string{
	'0': "\x00", 'a': "\a", 'b': "\b", 't': "\t", '\t': "\t", 'n': "\n", 'v': "\v", 'f': "\f", 'r': "\r", 'e': "\x1b",
	' ': " ", '"': `"`, '/': "/", '\\': `\`, 'N': "\u0085", '_': "\u00a0", 'L': "\u2028", 'P': "\u2029",
}

// escapes replaces the backslash forms of a text in double quotes, which
// stands between off and end.
func (p *parser) escapes(s string, off, end int) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != '\\' || i+1 == len(s) {
			b.WriteByte(s[i])
			continue
		}
		i++
		if t, ok := escaped[s[i]]; ok {
			b.WriteString(t)
			continue
		}
		width := map[byte]int{'x': 2, 'u': 4, 'U': 8}[s[i]]
		if width > 0 && i+width < len(s) {
			if v, err := strconv.ParseUint(s[i+1:i+1+width], 16, 32); err == nil && v <= utf8.MaxRune {
				b.WriteRune(rune(v))
				i += width
				continue
			}
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		at := off + max(strings.Index(p.text[off:end], `\`+string(r)), 0)
		p.fault(at, `\`+string(r), `\\ for a backslash, or single quotes`, `unknown escape \%c in double quotes`, r)
		b.WriteString(s[i : i+size])
		i += size - 1
	}
	return b.String()
}

// literal reads a text that keeps its lines (|) or folds them (>).
func (p *parser) literal(off, parent int) *Node {
	l := p.lines[p.ln]
	n := p.node(Scalar, off, off+1)
	n.Style = Literal
	if p.text[off] == '>' {
		n.Style = Folded
	}
	chomp, width := byte(0), 0
	i := off + 1
	for ; i < l.end; i++ {
		if c := p.text[i]; (c == '+' || c == '-') && chomp == 0 {
			chomp = c
		} else if c >= '1' && c <= '9' && width == 0 {
			width = int(c - '0')
		} else {
			break
		}
	}
	n.End = i
	if at := p.blanks(i, l.end); at < l.end && (p.text[at] != '#' || at == i) {
		p.fault(at, p.valid(at, l.end), "the text on the next lines", "text behind %c", p.text[off])
		n.Kind = Bad
	}
	p.ln++
	indent := -1
	if width > 0 {
		indent = max(parent, 0) + width
	}
	var rows []string
	last, deepest := 0, 0 // rows up to the last that is not blank; spaces of leading blank rows
	for ; p.ln < len(p.lines); p.ln++ {
		l := p.lines[p.ln]
		text := p.text[l.start:l.end]
		spaces := len(text) - len(strings.TrimLeft(text, " "))
		if l.marker && parent < 0 {
			break
		}
		if l.off == l.end && (indent < 0 || spaces < indent || l.end == len(p.text) && spaces == indent) {
			if l.end < len(p.text) {
				rows = append(rows, "")
			}
			if indent < 0 {
				deepest = max(deepest, spaces)
			}
			continue
		}
		if indent < 0 {
			if spaces <= parent {
				break
			}
			indent = spaces
			if deepest > indent {
				p.fault(l.off, "", "blank lines without spaces", "a blank line above this one is indented deeper")
			}
		}
		if spaces < indent {
			break
		}
		rows = append(rows, strings.ToValidUTF8(text[indent:], "\ufffd"))
		if strings.TrimLeft(text[indent:], " \t") != "" || len(text) > indent {
			last = len(rows)
			n.End = l.end
		}
	}
	n.Text = foldRows(rows[:last], n.Style == Folded)
	switch {
	case chomp == '+':
		if last > 0 || len(rows) > 0 {
			n.Text += strings.Repeat("\n", max(len(rows)-last, 0))
			if last > 0 && n.End < len(p.text) {
				n.Text += "\n"
			}
		}
	case chomp == 0 && last > 0 && n.End < len(p.text):
		n.Text += "\n"
	}
	return n
}

// foldRows joins rows with ends of line or, folded, with spaces: rows that
// begin with a blank keep their ends of line.
func foldRows(rows []string, folded bool) string {
	if !folded {
		return strings.Join(rows, "\n")
	}
	var b strings.Builder
	more := func(s string) bool { return s != "" && (s[0] == ' ' || s[0] == '\t') }
	blank, prev := 0, ""
	for i, r := range rows {
		if r == "" {
			blank++
			continue
		}
		switch {
		case i == blank: // leading blank rows
			b.WriteString(strings.Repeat("\n", blank))
		case more(r) || more(prev):
			b.WriteString(strings.Repeat("\n", blank+1))
		case blank > 0:
			b.WriteString(strings.Repeat("\n", blank))
		default:
			b.WriteByte(' ')
		}
		b.WriteString(r)
		blank, prev = 0, r
	}
	b.WriteString(strings.Repeat("\n", blank))
	return b.String()
}
