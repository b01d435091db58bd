package citetest

import (
	"fmt"
	"strings"
	"testing"

	"costrel/cite"
)

// heard is a test that keeps what it is told.
type heard struct {
	testing.TB
	faults []string
}

func (h *heard) Helper()             {}
func (h *heard) Logf(string, ...any) {}
func (h *heard) Errorf(format string, args ...any) {
	h.faults = append(h.faults, fmt.Sprintf(format, args...))
}

func row(change func(*cite.Check)) []cite.Check {
	c := cite.Check{
		ID: "oven.a", Case: "a", Source: "SI2019", Unit: "mm", Ours: func() float64 { return 10.1 },
		Published: 10, Allowed: 0.15, Mark: cite.Independent,
	}
	change(&c)
	return []cite.Check{c}
}

func TestRows(t *testing.T) {
	good := row(func(*cite.Check) {})
	for _, c := range []struct {
		what  string
		rows  []cite.Check
		fault string // "" = none
	}{
		{"good", good, ""},
		{"known failure", row(func(c *cite.Check) { c.Published, c.Known = 20, "misprint" }), ""},
		{"exact count", row(func(c *cite.Check) {
			c.Unit, c.Allowed, c.Ours = "1", 0, func() float64 { return 10 }
		}), ""},
		{"none", nil, "no checks"},
		{"off", row(func(c *cite.Check) { c.Published = 20 }), "off by -9.9"},
		{"known, but passes", row(func(c *cite.Check) { c.Known = "misprint" }), "misprint"},
		{"known, but does not run", row(func(c *cite.Check) { c.Known, c.Ours = "misprint", nil }), "nothing to run"},
		{"source", row(func(c *cite.Check) { c.Source = "Nobody1900" }), `source "Nobody1900"`},
		{"prefix", row(func(c *cite.Check) { c.ID = "shell.a" }), `want an id that begins with "oven."`},
		{"prefix only", row(func(c *cite.Check) { c.ID = "oven." }), `want an id`},
		{"twice", append(good, good...), "stands twice"},
		{"case", row(func(c *cite.Check) { c.Case = "" }), `case ""`},
		{"unit", row(func(c *cite.Check) { c.Unit = "" }), `unit ""`},
		{"mark", row(func(c *cite.Check) { c.Mark = "sure" }), `mark "sure"`},
		{"exact", row(func(c *cite.Check) { c.Allowed, c.Ours = 0, func() float64 { return 10 } }), "allows 0 mm"},
		{"exact ratio", row(func(c *cite.Check) {
			c.Unit, c.Allowed, c.Published, c.Ours = "1", 0, 0.5, func() float64 { return 0.5 }
		}), "allows 0 1"},
	} {
		h := &heard{}
		Rows(h, "oven.", c.rows)
		switch all := strings.Join(h.faults, "\n"); {
		case c.fault == "" && all != "":
			t.Errorf("%s: %s", c.what, all)
		case c.fault != "" && (len(h.faults) != 1 || !strings.Contains(all, c.fault)):
			t.Errorf("%s: have %q, want one fault with %q", c.what, h.faults, c.fault)
		}
	}
}

func TestSharp(t *testing.T) {
	rows := row(func(c *cite.Check) { c.Ours = func() float64 { return 10 } }) // 0.15 of 10 allowed
	for off, faults := range map[float64]int{0.01: 1, -0.01: 1, 0.02: 0, -0.02: 0} {
		h := &heard{}
		Sharp(h, off, rows)
		if len(h.faults) != faults {
			t.Errorf("%g off: %q", off, h.faults)
		}
	}
}

func TestSources(t *testing.T) {
	h := &heard{}
	Sources(h, "SI2019", "Nobody1900", "CommonPractice", "Nobody1901")
	if len(h.faults) != 2 {
		t.Errorf("%q", h.faults)
	}
}
