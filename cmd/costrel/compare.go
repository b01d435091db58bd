package main

import (
	"encoding/json"
	"fmt"

	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

type compareCmd struct {
	A     string `arg:"" help:"Design file of the baseline."`
	B     string `arg:"" help:"Design file of the variant."`
	JSON  bool   `name:"json" help:"Print JSON."`
	Units string `enum:"eu,us" default:"eu" help:"Units of the printed texts: eu or us."`
}

// Run prints the difference sheet.
func (c *compareCmd) Run(e *env) error {
	cache := run.NewCache(256)
	var boards [2]*run.Result
	bad := false
	for i, file := range []string{c.A, c.B} {
		doc, err := load(file)
		if err != nil {
			fmt.Fprintln(e.err, err)
			bad = true
			continue
		}
		boards[i] = run.Check(doc, cache)
	}
	if bad {
		return exit(exitInput)
	}
	d := report.NewDifference(boards[0], boards[1], unit.System(c.Units))
	if c.JSON {
		enc := json.NewEncoder(e.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return enc.Encode(d)
	}
	return d.WriteText(e.out)
}
