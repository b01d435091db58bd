package main

import (
	"context"
	"fmt"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

type compareCmd struct {
	A     string      `arg:"" help:"Design file of the baseline."`
	B     string      `arg:"" help:"Design file of the variant."`
	JSON  bool        `name:"json" help:"Print JSON."`
	Full  bool        `help:"Run the slow solvers of both too: oven and blow make the walls instead of the draw-down preview."`
	Units unit.System `default:"eu" placeholder:"SYSTEM" help:"Units of the printed texts: eu or us, and behind it what is wanted in another unit, as in us,pressure=bar,length=mm; a unit that is none lists those that are."`
}

func (c *compareCmd) compute(e *env, file string, doc *design.Document, cache *run.Cache) (*run.Result, error) {
	if !c.Full {
		return run.Check(doc, cache), nil
	}
	return stoppable(e, file, func(ctx context.Context) (*run.Result, error) { return run.Full(ctx, doc, cache, nil) })
}

// Run prints the difference sheet. The exit code is that of a failed limit when
// the variant fails one that the baseline does not.
func (c *compareCmd) Run(e *env) error {
	cache := run.NewCache(256)
	var boards [2]*run.Result
	var bad []unusable
	for i, file := range []string{c.A, c.B} {
		doc, err := load(file)
		if err != nil {
			fmt.Fprintln(e.err, err)
			bad = append(bad, newUnusable(file, err))
			continue
		}
		if boards[i], err = c.compute(e, file, doc, cache); err != nil {
			return err
		}
	}
	if bad != nil {
		if c.JSON {
			out := []fault{}
			for _, u := range bad {
				out = append(out, u.Problems...)
			}
			if err := writeJSON(e.out, map[string]any{"problems": out}); err != nil {
				return err
			}
		}
		return exit(exitInput)
	}
	d := report.NewDifference(boards[0], boards[1], c.Units)
	var err error
	if c.JSON {
		err = writeJSON(e.out, d)
	} else {
		err = d.WriteText(e.out)
	}
	if err == nil && boards[1].FailsMore(boards[0]) {
		return exit(exitFail)
	}
	return err
}
