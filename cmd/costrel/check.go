package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"slices"

	"costrel/figure"
	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

type checkCmd struct {
	Files    []string    `arg:"" name:"file" help:"Design files (YAML)."`
	JSON     bool        `name:"json" help:"Print one JSON object a design."`
	Full     bool        `help:"Run the slow solvers too: oven and blow make the wall instead of the draw-down preview."`
	Resolved bool        `help:"Print every value of the design and its origin after the board; with --json as resolved."`
	Units    unit.System `default:"eu" placeholder:"SYSTEM" help:"Units of the printed texts: eu or us, and behind it what is wanted in another unit, as in us,pressure=bar,length=mm; a unit that is none lists those that are."`
	Stage    string      `placeholder:"NAME" help:"Only the figures and limits of one stage, such as wall, pressure or shelf."`
	SVG      string      `name:"svg" placeholder:"FILE" help:"Write the plots of the stage as a picture."`
	Why      []string    `placeholder:"KEY" help:"Print the chain behind a figure: equation, numbers put in, sources. May stand several times."`
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
		return exitInput, c.unusable(e, file, err)
	}
	r := run.Check(doc, cache)
	if c.Full || needsFull(c.Stage) {
		r, err = stoppable(e, file, func(ctx context.Context) (*run.Result, error) {
			if c.Full || len(c.Why) > 0 {
				return run.Full(ctx, doc, cache, nil)
			}
			return run.FullTo(ctx, doc, cache, c.Stage, nil)
		})
		if err != nil {
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
		if err := picture(c.SVG, r.Plots, c.Units); err != nil {
			fmt.Fprintln(e.err, err)
			return exitInput, nil
		}
	}
	b := report.NewBoard(r, c.Units)
	code := exitPass
	if broke := c.broke(e, file, r); broke || r.Fails() {
		code = exitFail
	}
	switch {
	case len(c.Why) > 0:
		code = exitPass
		for i, key := range c.Why {
			if i > 0 {
				fmt.Fprintln(e.out)
			}
			if err := b.WriteWhy(e.out, key); err != nil {
				fmt.Fprintf(e.err, "%s: %v\n", file, err)
				c.notShown(e, r, b, key)
				code = exitInput
			}
		}
		return code, nil
	case c.JSON:
		out := struct {
			report.Board
			Resolved []design.Listed `json:"resolved,omitempty"`
			Sheet    []run.Sheet     `json:"sheet,omitempty"`
		}{Board: b}
		out.Sheet = spelled(r.ProcessSheet(c.Stage), c.Units)
		if c.Resolved {
			out.Resolved = doc.Listing(c.Units)
		}
		return code, writeJSON(e.out, out)
	}
	if err := b.WriteText(e.out); err != nil {
		return code, err
	}
	if err := writeSheet(e.out, r.ProcessSheet(c.Stage), c.Units, doc.Design.Plant.Currency); err != nil {
		return code, err
	}
	if !c.Resolved {
		return code, nil
	}
	fmt.Fprintln(e.out)
	return code, report.Resolved(doc.Listing(c.Units)).WriteText(e.out)
}

// broke reports, on the error output, a stage that was asked for and gave no
// result, or not all: without limits nothing else would tell.
func (c *checkCmd) broke(e *env, file string, r *run.Result) bool {
	stage := c.Stage
	if stage == "" {
		stage = "blow"
	}
	why := r.Broken(stage)
	if why == "" {
		return false
	}
	gave := "no result"
	if slices.ContainsFunc(r.Figures, func(f figure.Figure) bool { return r.StageOf(f.Key) == stage }) {
		gave = "a part of its results only"
	}
	fmt.Fprintf(e.err, "%s: %s gave %s: %s\n", file+placeIn(r.Doc, why), stage, gave, unit.Spell(why, c.Units))
	return true
}

// designWord is a word that may be a place in a design.
var designWord = regexp.MustCompile(`[a-z_]+(\.[a-z_0-9]+)+`)

// placeIn returns ":line" of the first place that a reason names and the file
// holds; empty where it names none.
func placeIn(doc *design.Document, reason string) string {
	for _, path := range designWord.FindAllString(reason, -1) {
		if m := doc.MarkOf(path); m.Line > 0 {
			return fmt.Sprintf(":%d", m.Line)
		}
	}
	return ""
}

func (c *checkCmd) unusable(e *env, file string, err error) error {
	fmt.Fprintln(e.err, err)
	if !c.JSON {
		return nil
	}
	return writeJSON(e.out, newUnusable(file, err))
}

func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
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
	text, err := readFile(file)
	if err != nil {
		return nil, err
	}
	return design.Load(file, string(text))
}
