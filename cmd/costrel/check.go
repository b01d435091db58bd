package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

type checkCmd struct {
	Files []string `arg:"" name:"file" help:"Design files (YAML)."`
	JSON  bool     `name:"json" help:"Print one JSON object a design."`
	Full  bool     `help:"Run the slow solvers too: oven and blow make the wall instead of the draw-down preview."`
	Units string   `enum:"eu,us" default:"eu" help:"Units of the printed texts: eu or us."`
	Stage string   `placeholder:"NAME" help:"Only the figures and limits of one stage, such as wall, pressure or shelf."`
	SVG   string   `name:"svg" placeholder:"FILE" help:"Write the plots of the stage as a picture."`
	Why   string   `placeholder:"KEY" help:"Print the chain behind one figure: equation, numbers put in, sources."`
}

// Run computes each design. One that is not usable does not stop the others.
func (c *checkCmd) Run(e *env) error {
	worst := exitPass
	cache := run.NewCache(256)
	for i, file := range c.Files {
		if i > 0 && !c.JSON {
			fmt.Fprintln(e.out)
		}
		code, err := c.one(e, file, cache)
		if err != nil {
			return err
		}
		worst = max(worst, code)
	}
	if worst != exitPass {
		return exit(worst)
	}
	return nil
}

func (c *checkCmd) one(e *env, file string, cache *run.Cache) (int, error) {
	doc, err := load(file)
	if err != nil {
		fmt.Fprintln(e.err, err)
		return exitInput, nil
	}
	r := run.Check(doc, cache)
	if c.Full || needsFull(c.Stage) {
		if r, err = run.Full(context.Background(), doc, cache, nil); err != nil {
			return exitFault, err
		}
	}
	if c.Stage != "" {
		if r, err = r.Only(c.Stage); err != nil {
			fmt.Fprintln(e.err, err)
			return exitInput, nil
		}
	}
	if c.SVG != "" {
		if err := picture(c.SVG, r.Plots, unit.System(c.Units)); err != nil {
			fmt.Fprintln(e.err, err)
			return exitInput, nil
		}
	}
	b := report.NewBoard(r, unit.System(c.Units))
	code := exitPass
	if r.Fails() {
		code = exitFail
	}
	switch {
	case c.Why != "":
		if err := b.WriteWhy(e.out, c.Why); err != nil {
			fmt.Fprintf(e.err, "%s: %v\n", file, err)
			c.notShown(e, r, b)
			return exitInput, nil
		}
		return exitPass, nil
	case c.JSON:
		enc := json.NewEncoder(e.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		return code, enc.Encode(b)
	}
	return code, b.WriteText(e.out)
}

// needsFull reports whether a stage runs in a full check only.
func needsFull(stage string) bool {
	for _, s := range run.FullStages() {
		if s == stage {
			return true
		}
	}
	return false
}

// load reads a design file.
func load(file string) (*design.Document, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	return design.Load(file, string(text))
}
