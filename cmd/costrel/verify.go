package main

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"text/tabwriter"

	"costrel/verify"
)

type verifyCmd struct {
	JSON bool   `name:"json" help:"Print JSON."`
	Only string `placeholder:"PREFIX" help:"Only rows whose id begins with PREFIX, or of the lists: B for the 32 rows of the barrier chapter, B21 for one of them, J5 for an anchor."`
}

// Run prints the table. A row outside its tolerance that is not a known
// failure makes the command fail.
func (c *verifyCmd) Run(e *env) error {
	rows := verify.Run(c.Only)
	if len(rows) == 0 {
		return inputError{fmt.Errorf("no check begins with %q, and no list has it; costrel verify prints them all", c.Only)}
	}
	failed := false
	for _, r := range rows {
		if !r.OK && r.Known == "" {
			failed = true
		}
	}
	if c.JSON {
		enc := json.NewEncoder(e.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(rows); err != nil {
			return err
		}
	} else {
		w := tabwriter.NewWriter(e.out, 0, 0, 2, ' ', 0)
		fmt.Fprintln(w, "ok\trow\tid\tcase\tours\tpublished\tallowed\tunit\tsource\tmark")
		ok, marks := 0, map[string]int{}
		for _, r := range rows {
			word := "+"
			if r.OK {
				ok++
			} else {
				word = "x FAIL"
				if r.Known != "" {
					word = "x known"
				}
			}
			marks[r.Mark]++
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", word, listed(r), r.ID, r.Case, r.OursText, r.PublishedText, r.AllowedText, r.Unit, r.Source, r.Mark)
		}
		if err := w.Flush(); err != nil {
			return err
		}
		fmt.Fprintf(e.out, "\n%d of %d rows within tolerance; %d independent, %d own arithmetic, %d from memory, %d common practice\n", ok, len(rows),
			marks["independent"], marks["regression"], marks["from memory"], marks["common practice"])
		for _, r := range rows {
			if !r.OK && r.Known != "" {
				fmt.Fprintf(e.out, "known failure %s: %s\n", r.ID, r.Known)
			}
		}
	}
	if failed {
		return exit(exitFail)
	}
	return nil
}

// listed is where a row stands in the lists of checks: B7 in that of the barrier
// chapter, J20 among the anchors.
func listed(r verify.Row) string {
	var out []string
	for _, at := range []struct {
		list   string
		number int
	}{{"B", r.Barrier}, {"J", r.Anchor}} {
		if at.number > 0 {
			out = append(out, at.list+strconv.Itoa(at.number))
		}
	}
	return strings.Join(out, " ")
}
