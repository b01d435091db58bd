package yaml

import (
	"fmt"
	"sort"
	"unicode/utf8"
)

// line is one line of the text.
type line struct {
	start, end int // bytes, without the end of line
	off        int // first byte that is no blank
	indent     int // width of the blanks before it; a tab counts two
	tab        bool
	empty      bool // nothing or a comment
	marker     bool // --- or ... in the first column
	told       bool // the tab has been reported
}

// splitLines cuts the text into lines. Ends are LF and CR LF.
func splitLines(text string, from int) []line {
	var out []line
	for i := from; i < len(text); {
		end := i
		for end < len(text) && text[end] != '\n' {
			end++
		}
		l := line{start: i, end: end}
		if l.end > i && end < len(text) && text[l.end-1] == '\r' {
			l.end--
		}
		l.off = i
		for l.off < l.end && (text[l.off] == ' ' || text[l.off] == '\t') {
			if text[l.off] == '\t' {
				l.tab = true
				l.indent++
			}
			l.indent++
			l.off++
		}
		l.empty = l.off == l.end || text[l.off] == '#'
		if rest := text[i:l.end]; len(rest) >= 3 && (rest[:3] == "---" || rest[:3] == "...") {
			l.marker = len(rest) == 3 || rest[3] == ' ' || rest[3] == '\t'
		}
		out = append(out, l)
		i = end + 1
	}
	return out
}

// place returns the place of a byte. Places on one line are asked for mostly
// from left to right, so the count goes on from the last one.
func (p *parser) place(off int) Place {
	i := p.placeLine
	if i >= len(p.lines) || off < p.lines[i].start || i+1 < len(p.lines) && off >= p.lines[i+1].start {
		i = sort.Search(len(p.lines), func(j int) bool { return p.lines[j].start > off }) - 1
		i = max(i, 0)
		p.placeLine, p.placeOff, p.placeCol = i, p.lines[i].start, 1
	}
	if off < p.placeOff {
		p.placeOff, p.placeCol = p.lines[i].start, 1
	}
	p.placeCol += utf8.RuneCountInString(p.text[min(p.placeOff, len(p.text)):min(off, len(p.text))])
	p.placeOff = off
	return Place{Line: i + 1, Column: p.placeCol}
}

// characters reports bytes that no YAML text holds.
func (p *parser) characters() {
	seen := 0
	for i := p.from; i < len(p.text) && seen < 20; {
		c := p.text[i]
		if c >= 0x20 && c < 0x7f || c == '\t' || c == '\n' {
			i++
			continue
		}
		if c == '\r' && i+1 < len(p.text) && p.text[i+1] == '\n' {
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(p.text[i:])
		switch {
		case r == utf8.RuneError && size <= 1:
			p.fault(i, fmt.Sprintf("\\x%02X", c), "the file saved as UTF-8", "byte 0x%02X is not UTF-8", c)
			seen++
		case c == '\r':
			p.fault(i, `\r`, "LF or CR LF", "a carriage return that ends no line")
			seen++
		case c < 0x20 || c == 0x7f || r >= 0x80 && r < 0xa0 && r != 0x85 || r == 0xfeff:
			p.fault(i, fmt.Sprintf("U+%04X", r), "printable characters", "control character U+%04X", r)
			seen++
		}
		i += max(size, 1)
	}
}

// binary tells whether the text is no text at all.
func binary(text string) bool {
	head := text[:min(len(text), 8192)]
	odd := 0
	for i := 0; i < len(head); i++ {
		c := head[i]
		if c == 0 {
			return true
		}
		if c < 0x20 && c != '\t' && c != '\n' && c != '\r' || c == 0x7f {
			odd++
		}
	}
	return odd*10 > len(head)
}
