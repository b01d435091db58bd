package design

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// remarkAt returns the byte of a line at which its comment begins, or -1.
func remarkAt(line string) int {
	var in rune
	before := ' '
	for i, c := range line {
		switch {
		case in != 0:
			if c == in {
				in = 0
			}
		case c == '#' && (before == ' ' || before == '\t'):
			return i
		case (c == '"' || c == '\'') && strings.ContainsRune(" [{,:", before):
			in = c
		}
		before = c
	}
	return -1
}

// line returns the line that begins at a byte, without its end.
func (e *editor) line(start int) string {
	return strings.TrimRight(e.text[start:e.lineEnd(start)], "\r\n")
}

// isRemark tells whether a line is empty or holds a comment alone.
func isRemark(line string) bool {
	line = strings.TrimSpace(line)
	return line == "" || line[0] == '#'
}

// leadStart returns where the comments and empty lines above a line begin.
func (e *editor) leadStart(start int) int {
	for start > 0 {
		above := e.lineStart(start - 1)
		if !isRemark(e.line(above)) {
			break
		}
		start = above
	}
	return start
}

// skipComments returns the first line from start that holds a value.
func (e *editor) skipComments(start int) int {
	for start < len(e.text) && isRemark(e.line(start)) {
		start = e.lineEnd(start)
	}
	return start
}

// free returns the comments from start to end that an empty line parts from
// what stands at end: they are not its own.
func (e *editor) free(start, end int) string {
	keep := start
	for at := start; at < end; at = e.lineEnd(at) {
		if e.blankAt(at) {
			keep = e.lineEnd(at)
		}
	}
	if text := e.text[start:keep]; strings.Contains(text, "#") {
		return text
	}
	return ""
}

// shared returns what has to stay of the comment behind a value when the line
// that begins at start and holds the value up to end goes: a comment that runs
// over the lines of several values stays whole, on a line of its own.
func (e *editor) shared(start, end int) string {
	last := e.lineStart(end)
	line := e.line(last)
	at := remarkAt(line)
	if at < end-last || isRemark(line) {
		return ""
	}
	runs := false
	if start > 0 {
		runs = runsOn(e.line(e.lineStart(start-1)), line)
	}
	if next := e.lineEnd(last); next < len(e.text) {
		runs = runs || runsOn(line, e.line(next))
	}
	if !runs {
		return ""
	}
	return strings.Repeat(" ", runes(line, at)) + line[at:] + e.eol
}

// remarkEnd returns the byte behind the comment lines that go on with the
// comment behind a value: they begin in its column.
func (e *editor) remarkEnd(end int) int {
	last := e.lineStart(end)
	line, next := e.line(last), e.lineEnd(end)
	at := remarkAt(line)
	if at < end-last {
		return next
	}
	for next < len(e.text) {
		more := e.line(next)
		if strings.TrimSpace(more) == "" || !isRemark(more) || runes(more, remarkAt(more)) != runes(line, at) {
			break
		}
		next = e.lineEnd(next)
	}
	return next
}

// full is the length from which a line is taken to be broken for its length.
const full = 60

// runsOn tells whether the comments behind two values are one text: they begin
// in one column, and the first ends inside a sentence, by its last sign or
// because its line is full and the second begins in lower case.
func runsOn(first, second string) bool {
	a, b := remarkAt(first), remarkAt(second)
	if a < 0 || b < 0 || isRemark(first) || isRemark(second) || runes(first, a) != runes(second, b) {
		return false
	}
	head, tail := strings.TrimSpace(first[a+1:]), strings.TrimSpace(second[b+1:])
	if head == "" || tail == "" || strings.ContainsAny(head[len(head)-1:], ".!?") {
		return false
	}
	if strings.ContainsAny(head[len(head)-1:], ",:;(-") || strings.HasSuffix(head, "–") {
		return true
	}
	start, _ := utf8.DecodeRuneInString(tail)
	return runes(first, len(first)) >= full && unicode.IsLower(start)
}

// runes counts the characters of a line in front of a byte.
func runes(line string, at int) int { return utf8.RuneCountInString(line[:at]) }
