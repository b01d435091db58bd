package design

import (
	"fmt"
	"sort"
	"strings"
)

// Fault is one thing wrong with a design document.
type Fault struct {
	File     string `json:"file,omitempty"`
	Line     int    `json:"line"`   // from 1; 0 when the fault has no place
	Column   int    `json:"column"` // from 1
	Path     string `json:"path"`   // dotted: "preform.wall"
	Text     string `json:"text"`   // the offending text
	Message  string `json:"message"`
	Expected string `json:"expected,omitempty"` // what would be accepted
	Excerpt  string `json:"excerpt,omitempty"`  // the line and a caret
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

func (fs Faults) sorted() Faults {
	sort.SliceStable(fs, func(i, j int) bool {
		if fs[i].Line != fs[j].Line {
			return fs[i].Line < fs[j].Line
		}
		return fs[i].Column < fs[j].Column
	})
	return fs
}

// excerpt returns the line of text with a caret under the column.
func excerpt(text string, line, column int) string {
	lines := strings.Split(text, "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	src := strings.TrimRight(strings.ReplaceAll(lines[line-1], "\t", " "), "\r")
	if r := []rune(src); len(r) > 120 {
		src = string(r[:117]) + "..."
	}
	column = max(1, min(column, len([]rune(src))+1))
	return fmt.Sprintf("%5d | %s\n      | %s^", line, src, strings.Repeat(" ", column-1))
}
