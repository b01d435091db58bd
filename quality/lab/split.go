package lab

import (
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// cell is one field of the file. Line and column count from 1; the column is
// the number of the field.
type cell struct {
	text      string
	line, col int
}

func (c cell) blank() bool { return c.text == "" }

// upper128 holds the signs of Windows-1252 for the bytes 0x80 to 0x9f.
var upper128 = []rune("€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ")

// decode returns the text of a file and, where it is not plain UTF-8, what it
// was taken for.
func decode(data []byte) (text, taken string) {
	switch {
	case len(data) >= 3 && string(data[:3]) == "\xef\xbb\xbf":
		data = data[3:]
	case len(data) >= 2 && data[0] == 0xff && data[1] == 0xfe, len(data) >= 2 && data[0] == 0xfe && data[1] == 0xff:
		big := data[0] == 0xfe
		var u []uint16
		for i := 2; i+1 < len(data); i += 2 {
			lo, hi := data[i], data[i+1]
			if big {
				lo, hi = hi, lo
			}
			u = append(u, uint16(lo)|uint16(hi)<<8)
		}
		return string(utf16.Decode(u)), "UTF-16"
	}
	if utf8.Valid(data) {
		return string(data), ""
	}
	var b strings.Builder
	for _, c := range data {
		if c >= 0x80 && c < 0xa0 {
			b.WriteRune(upper128[c-0x80])
		} else {
			b.WriteRune(rune(c))
		}
	}
	return b.String(), "Windows-1252"
}

// trim takes spaces of every kind from both ends.
func trim(s string) string { return strings.Trim(s, " \t\r\n\u00a0\u2007\u2009\u202f\ufeff\v\f") }

// separator returns the field separator of a text: the one that a first line
// "sep=;" names, or the first of semicolon, tab, comma and bar that stands in
// most of the first lines. named is true for the former.
func separator(text string) (sep byte, named bool) {
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	if first := trim(lines[0]); len(first) == 5 && strings.EqualFold(first[:4], "sep=") {
		return first[4], true
	}
	for _, s := range []byte(";\t,|") {
		with, all := 0, 0
		for _, l := range lines {
			if trim(l) == "" {
				continue
			}
			quoted := false
			for i := range len(l) {
				if l[i] == '"' {
					quoted = !quoted
				} else if l[i] == s && !quoted {
					with++
					break
				}
			}
			if all++; all == 25 {
				break
			}
		}
		if 2*with > all {
			return s, false
		}
	}
	return ',', false
}

// split cuts a text into rows of cells. A field may be quoted with double
// quotes; a quoted field may hold the separator, line ends and doubled quotes.
// A quote inside an unquoted field is a sign like any other (5" bottle).
func split(text string, sep byte, fault func(line, col int, text, reason string)) [][]cell {
	var rows [][]cell
	var row []cell
	line, i := 1, 0
	newline := func() bool { // at i: consumes one line end
		if i < len(text) && text[i] == '\r' {
			i++
			if i < len(text) && text[i] == '\n' {
				i++
			}
			return true
		}
		if i < len(text) && text[i] == '\n' {
			i++
			return true
		}
		return false
	}
	for i < len(text) {
		start := line
		var field string
		j := i
		for j < len(text) && (text[j] == ' ' || text[j] == '\t' && sep != '\t') {
			j++
		}
		if j < len(text) && text[j] == '"' {
			i = j + 1
			var b strings.Builder
			closed := false
			for i < len(text) {
				if text[i] == '"' {
					if i+1 < len(text) && text[i+1] == '"' {
						b.WriteByte('"')
						i += 2
						continue
					}
					i++
					closed = true
					break
				}
				if text[i] == '\n' || text[i] == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
					line++
				}
				b.WriteByte(text[i])
				i++
			}
			if !closed {
				fault(start, len(row)+1, clip(b.String()), "the quote is never closed")
			}
			k := i
			for k < len(text) && text[k] != sep && text[k] != '\n' && text[k] != '\r' {
				k++
			}
			if rest := trim(text[i:k]); rest != "" {
				fault(start, len(row)+1, clip(b.String()+rest), "text behind the closing quote")
				b.WriteString(" " + rest)
			}
			i = k
			field = b.String()
		} else {
			k := i
			for k < len(text) && text[k] != sep && text[k] != '\n' && text[k] != '\r' {
				k++
			}
			field, i = text[i:k], k
		}
		row = append(row, cell{text: trim(field), line: start, col: len(row) + 1})
		if i < len(text) && text[i] == sep {
			i++
			if i == len(text) {
				row = append(row, cell{line: line, col: len(row) + 1})
			} else if text[i] == '\n' || text[i] == '\r' {
				row = append(row, cell{line: line, col: len(row) + 1})
			} else {
				continue
			}
		}
		if newline() || i >= len(text) {
			rows = append(rows, row)
			row = nil
			line++
		}
	}
	return rows
}

// clip shortens a text for a message.
func clip(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "..."
}
