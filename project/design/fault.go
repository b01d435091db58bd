package design

import (
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"

	"costrel/unit"
)

// Fault is one thing wrong with a design document.
type Fault struct {
	File     string `json:"file,omitempty"`
	Line     int    `json:"line"`   // from 1; 0 when the fault has no place
	Column   int    `json:"column"` // from 1, in characters
	Path     string `json:"path"`   // dotted: "preform.wall"
	Text     string `json:"text"`   // the offending text
	Message  string `json:"message"`
	Expected string `json:"expected,omitempty"` // what would be accepted
	Excerpt  string `json:"excerpt,omitempty"`  // the line and a caret
}

// In returns the fault with its words in the units of a system.
func (f Fault) In(s unit.System) Fault {
	f.Message, f.Expected = unit.Spell(f.Message, s), unit.Spell(f.Expected, s)
	return f
}

// Error returns the fault with file, line, column, excerpt and expectation.
func (f Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File + ":")
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", f.Line, f.Column)
	}
	if b.Len() > 0 {
		b.WriteString(" ")
	}
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	b.WriteString(f.Message)
	if f.Expected != "" {
		b.WriteString("; expected " + f.Expected)
	}
	if f.Excerpt != "" {
		b.WriteString("\n" + f.Excerpt)
	}
	return b.String()
}

// Faults is every fault of one document, in the order of the document.
type Faults []Fault

// Error returns all faults, one after the other.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// most is the largest number of faults that are told of one document.
const most = 100

// sorted returns the faults in the order of the document, no more than the
// reader can use.
func (fs Faults) sorted() Faults {
	sort.SliceStable(fs, func(i, j int) bool {
		if fs[i].Line != fs[j].Line {
			return fs[i].Line < fs[j].Line
		}
		return fs[i].Column < fs[j].Column
	})
	for i := range fs {
		f := &fs[i]
		f.Path, f.Text, f.Message, f.Expected = short(f.Path), short(f.Text), short(f.Message), short(f.Expected)
	}
	if n := len(fs); n > most {
		last := fs[most-1]
		fs = append(fs[:most:most], Fault{File: last.File, Line: last.Line, Column: last.Column, Message: fmt.Sprintf("and %d more faults", n-most)})
	}
	return fs
}

// longest word of a fault [characters].
const longest = 100

// short cuts the words of a text that are too long to read: what the document
// has in one piece may be of any length.
func short(text string) string {
	if len(text) <= longest {
		return text
	}
	words := strings.Split(text, " ")
	for i, w := range words {
		if utf8.RuneCountInString(w) <= longest {
			continue
		}
		end := ""
		if strings.HasSuffix(w, `"`) {
			end = `"` // closes what was opened
		}
		words[i] = string([]rune(w)[:longest]) + "..." + end
	}
	return strings.Join(words, " ")
}

// Widths of an excerpt [characters].
const (
	excerptWidth = 120
	excerptLead  = 60 // kept before the caret of a long line
)

// excerpt returns the line of text with a caret under the column. Of a long
// line it shows the part round the column.
func excerpt(text string, line, column int) string {
	if line < 1 || column < 1 {
		return ""
	}
	src := strings.TrimPrefix(text, "\ufeff")
	for range line - 1 {
		i := strings.IndexByte(src, '\n')
		if i < 0 {
			return ""
		}
		src = src[i+1:]
	}
	if i := strings.IndexByte(src, '\n'); i >= 0 {
		src = src[:i]
	}
	src = strings.TrimSuffix(src, "\r")
	src, at, behind := window(src, column)
	src = strings.Map(printable, strings.ToValidUTF8(src, "\ufffd")) + behind
	return fmt.Sprintf("%5d | %s\n      | %s^", line, src, strings.Repeat(" ", at-1))
}

// window cuts a long line to the part round a column and returns the column
// in that part.
func window(src string, column int) (part string, at int, behind string) {
	skip := 0
	if column > excerptWidth-20 {
		skip = column - excerptLead
	}
	i, n := 0, 0
	for n < skip && i < len(src) {
		_, size := utf8.DecodeRuneInString(src[i:])
		i += size
		n++
	}
	j, m := i, 0
	for m < excerptWidth && j < len(src) {
		_, size := utf8.DecodeRuneInString(src[j:])
		j += size
		m++
	}
	part, at = src[i:j], min(column-n, m+1)
	if j < len(src) {
		behind = "..."
	}
	if i > 0 {
		part, at = "..."+part, at+3
	}
	return part, max(at, 1), behind
}

// printable shows what has no width or moves the cursor as one character.
func printable(r rune) rune {
	switch {
	case r == '\t':
		return ' '
	case r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0xfeff || r >= 0x200b && r <= 0x200f || r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069:
		return '\ufffd'
	}
	return r
}
