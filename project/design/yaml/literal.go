package yaml

import "strings"

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
