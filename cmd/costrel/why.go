package main

import (
	"fmt"
	"strings"

	"costrel/figure"
	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
)

// notShown says why the figure asked for is not on the board: left out with a
// reason, made by another stage or a full check only, or misspelt.
func (c *checkCmd) notShown(e *env, r *run.Result, b report.Board, key string) {
	said := false
	for _, p := range b.Problems {
		if p.Key == key {
			fmt.Fprintf(e.err, "  left out: %s\n", p.Reason)
			said = true
		}
	}
	if said {
		return
	}
	stage := r.StageOf(key)
	switch _, ok := figure.Find(key); {
	case stage != "" && !c.Full && needsFull(stage):
		fmt.Fprintf(e.err, "  it is computed in a full check: add --full\n")
		return
	case stage != "" && c.Stage != "" && stage != c.Stage:
		fmt.Fprintf(e.err, "  it belongs to the stage %s, not to %s\n", stage, c.Stage)
		return
	case ok:
		fmt.Fprintf(e.err, "  this design has no such figure\n")
		return
	}
	var keys []string
	for _, f := range figure.Entries() {
		keys = append(keys, f.Key)
	}
	if near := design.Nearest(key, keys, 3); len(near) > 0 {
		fmt.Fprintf(e.err, "  nearest: %s\n", strings.Join(near, ", "))
	} else {
		fmt.Fprintf(e.err, "  run check without --why to see the keys\n")
	}
}
