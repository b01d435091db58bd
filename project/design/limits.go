package design

import (
	"fmt"
	"strings"
)

// None is the value of a limit that takes the template's limit on the same
// figure and side away.
const None = "none"

func (l Limit) key() string { return l.Figure + "|" + l.Side }

// mergeLimits puts the template's limits behind those of the design: a limit
// on the same figure and side is replaced, and "none" takes it away. The
// marks follow: limits[i] is the i-th limit that holds.
func (doc *Document) mergeLimits(template []Limit, marks map[string]Mark, given bool) {
	old := map[string]Mark{}
	for p, m := range doc.Marks {
		if strings.HasPrefix(p, "limits[") {
			old[p] = m
			delete(doc.Marks, p)
		}
	}
	move := func(from map[string]Mark, i, k int) {
		for _, f := range limitKeys {
			if m, ok := from[fmt.Sprintf("limits[%d].%s", i, f)]; ok {
				doc.Marks[fmt.Sprintf("limits[%d].%s", k, f)] = m
			}
		}
	}
	taken := map[string]bool{}
	var out []Limit
	if given {
		for i, l := range doc.Design.Limits {
			taken[l.key()] = true
			if l.Value != None {
				move(old, i, len(out))
				out = append(out, l)
			}
		}
	}
	for _, l := range doc.Design.Limits {
		if given && l.Value == None && !holds(template, l) {
			doc.Warnings = append(doc.Warnings, Fault{File: doc.File, Path: "limits", Text: l.Figure, Message: fmt.Sprintf("%s %s: none takes nothing away: the template has no such limit", l.Figure, l.Side), Expected: "figure and side of a limit of the template"})
		}
	}
	for i, l := range template {
		if !taken[l.key()] {
			if l.Source == "" {
				l.Source = "example"
			}
			move(marks, i, len(out))
			out = append(out, l)
		}
	}
	doc.Design.Limits = out
}

func holds(limits []Limit, l Limit) bool {
	for _, t := range limits {
		if t.key() == l.key() {
			return true
		}
	}
	return false
}

var limitKeys = []string{"figure", "side", "value", "owner", "source", "note"}

// doubles reports limits of the document on the same figure and side.
func (d *decoder) doubles(limits []Limit) {
	first := map[string]int{}
	for i, l := range limits {
		if l.Figure == "" || l.Side == "" {
			continue
		}
		at := fmt.Sprintf("limits[%d].figure", i)
		m := d.marks[at]
		// Limits differ by customer: each owner may hold one.
		if line, ok := first[l.key()+"|"+l.Owner]; ok {
			d.faults = append(d.faults, Fault{File: d.file, Line: m.Line, Column: m.Column, Path: at, Text: l.Figure, Message: fmt.Sprintf("a second %s limit on %s; the first is on line %d", l.Side, l.Figure, line), Expected: "one of the two"})
			continue
		}
		first[l.key()+"|"+l.Owner] = m.Line
	}
}
