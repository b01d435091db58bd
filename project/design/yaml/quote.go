package yaml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

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
