package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"costrel/physics/permeation"
	"costrel/project/calibrate"
	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/quality/lab"
	"costrel/unit"
)

// leftOut says how many cells of a table gave no reading, and where.
func leftOut(e *env, t *lab.Table) {
	if n := len(t.Missing); n > 0 {
		cells := "cells hold no value and were left out:"
		if n == 1 {
			cells = "cell holds no value and was left out:"
		}
		fmt.Fprintf(e.out, "%s: %d %s", t.File, n, cells)
		for i, m := range t.Missing {
			if i == 8 {
				fmt.Fprintf(e.out, " and %d more", n-i)
				break
			}
			if m.Text == "" {
				m.Text = "empty"
			}
			fmt.Fprintf(e.out, " line %d (%s)", m.Line, m.Text)
		}
		fmt.Fprintln(e.out)
	}
	for _, m := range t.Notes {
		fmt.Fprintf(e.out, "%s: line %d not read as a reading: %s\n", t.File, m.Line, m.Why)
	}
}

// pulls fits the shelf life to carbonation pulls, of a table or of the design.
func (c *calibrateCmd) pulls(e *env, doc *design.Document) ([][2]string, error) {
	pulls, edits, err := c.readPulls(e, doc)
	if err != nil {
		return nil, err
	}
	// The laboratory keeps its bottles at one temperature throughout.
	steady := doc.Design.Clone()
	steady.Climate.Lane, steady.Climate.Named, steady.Climate.HotTime, steady.Climate.Store = nil, "store", 0, doc.Design.Lab.Temperature
	// The limit belongs to the lane of the design.
	cache := run.NewCache(16)
	cases, err := stoppable(e, c.File, func(ctx context.Context) ([2]permeation.Case, error) {
		kept, err := run.ShelfCase(ctx, steady, c.Blown, cache)
		if err != nil {
			return [2]permeation.Case{}, err
		}
		along, err := run.ShelfCase(ctx, doc.Design, c.Blown, cache)
		return [2]permeation.Case{kept, along}, err
	})
	if err != nil {
		return nil, err
	}
	pc, along := cases[0], cases[1]
	pc.Lane = calibrate.Held(pc.Lane, pulls[len(pulls)-1].Time+furtherPulls*furtherEvery)
	free := calibrate.Free{Closure: slices.Contains(c.Also, "closure"), Growth: slices.Contains(c.Also, "growth")}
	fit, err := calibrate.FitPulls(calibrate.Setup{Case: pc, Pulls: pulls, Free: free})
	if err != nil {
		return nil, err
	}
	sys := c.Units
	d := doc.Design
	wall, on := "the preview of the wall; a full check has another wall, fit with --blown for it", "preview"
	if c.Blown {
		wall, on = "the wall of the blow, as a full check takes it", "blown"
	}
	fmt.Fprintf(e.out, "Shelf life of %s fitted to the pulls, at %s, on %s\n", d.Name, report.Show(unit.TemperaturePoint, float64(d.Lab.Temperature), sys, ""), wall)
	edits = append(edits, fitted(e, d, fit)...)
	scattered(e, fit)
	for _, w := range fit.Warnings {
		fmt.Fprintln(e.out, "  !", w)
	}
	if fit.Refused != "" {
		fmt.Fprintf(e.out, "  now: %s\n  ! no interval and nothing to write: %s\n", calibrate.NotShown, fit.Refused)
		return nil, nil
	}
	if why := unwritable(d, fit); why != "" {
		fmt.Fprintf(e.out, "  now: %s\n  ! nothing to write: %s\n", calibrate.NotShown, why)
		return nil, nil
	}
	ref, _ := run.LossReference(d)
	if err := without(e, d, fit.Along(along), ref); err != nil {
		return nil, err
	}
	spread, err := fit.Along(along).FactorSpread(d.Brief.ShelfLife, ref)
	if err != nil {
		return nil, err
	}
	edits = append(edits,
		[2]string{"shelf.barrier_spread", strconv.FormatFloat(spread, 'g', 3, 64)},
		[2]string{"shelf.fitted_at", unit.Format(unit.TemperaturePoint, float64(d.Lab.Temperature), "°C", 4)},
		[2]string{"shelf.fitted_wall", on})
	fmt.Fprintf(e.out, "  spread of the factor that the pulls leave: %.3g (before: %.3g)\n", spread, d.Shelf.FactorSD)
	return edits, decide(e, d, fit, along, pulls, sys)
}

// scattered prints what the readings scatter by about the curve, and whether
// that tells anything of the curve.
func scattered(e *env, fit *calibrate.PullFit) {
	vol := func(v float64) string { return unit.Format(unit.Carbonation, v, "vol", 2) }
	test := fmt.Sprintf("chance of so bad a curve if the model were right: %.2g", fit.Misfit)
	if fit.Untested != "" {
		test = "no test of the curve is possible: " + fit.Untested
	}
	fmt.Fprintf(e.out, "  scatter of one bottle %s; %s\n", vol(fit.Sigma), test)
	if fit.Assumed > 0 {
		fmt.Fprintf(e.out, "  the intervals count with %s a bottle (common practice): %d readings are too few, or agree too well, to tell less\n", vol(fit.Assumed), len(fit.Residuals))
	}
}

// unwritable says which fitted number no design accepts; empty where all do.
func unwritable(d *design.Design, fit *calibrate.PullFit) string {
	for _, p := range fit.Parameters {
		path, v := "", p.Value
		switch p.Key {
		case "factor":
			path, v = "shelf.barrier_factor", v*d.Shelf.Factor
		case "start":
			path = "drink.carbonation"
		case "growth":
			path, v = "shelf.modulus", d.Shelf.Modulus/v
		case "closure":
			path, v = "closure.co2", v*d.Closure.CO2
		}
		if it, ok := design.Lookup(path); ok && it.Field.Clip(v) != v {
			most, _ := unit.Parse(it.Field.Kind, it.Field.Max) // in the unit of its bounds
			return fmt.Sprintf("%s would be %s, and a design accepts %s to %s: check unit and basis of the readings, and that the table belongs to this design", path, unit.Format(it.Field.Kind, v, most.Symbol, 4), it.Field.Min, it.Field.Max)
		}
	}
	return ""
}

// without prints what the fit says without its outliers, which is not written.
func without(e *env, d *design.Design, fit *calibrate.PullFit, ref permeation.Reference) error {
	if len(fit.Outliers) == 0 {
		return nil
	}
	g, err := fit.Without()
	if err != nil {
		fmt.Fprintf(e.out, "  without the outliers there is no fit: %v\n", err)
		return nil
	}
	p, err := g.Predict(d.Brief.ShelfLife, 0.95, ref)
	if err != nil {
		return err
	}
	f := g.Parameters[0]
	fmt.Fprintf(e.out, "  without the outliers (%d): barrier factor %.3g (%.3g to %.3g), loss along the lane %.1f %% (%.1f to %.1f %%); not written: take them out of the table with a reason\n",
		len(fit.Outliers), d.Shelf.Factor*f.Value, d.Shelf.Factor*f.Lo, d.Shelf.Factor*f.Hi, 100*p.Loss, 100*p.Lo, 100*p.Hi)
	return nil
}

// readPulls reads the pulls from the table or the design; from a table they are
// also to be written to the design, so that its trace shows them.
func (c *calibrateCmd) readPulls(e *env, doc *design.Document) ([]calibrate.Pull, [][2]string, error) {
	if c.Pulls == "" {
		p, err := calibrate.PullsOfRows(doc.Design.Lab.Pulls)
		return p, nil, err
	}
	t, err := table(c.Pulls, "carbonation")
	if err != nil {
		if t != nil { // what it did read has faults of its own
			if series, none := t.Find("drink.carbonation", "", ""); none == nil {
				err = errors.Join(err, calibrate.PullFaults(series, "week"))
			}
		}
		return nil, nil, err
	}
	series, err := t.Find("drink.carbonation", "", "")
	if err != nil {
		return nil, nil, err
	}
	pulls, err := calibrate.PullsOf(series, "week")
	if err != nil {
		return nil, nil, err
	}
	leftOut(e, t)
	kept, told, err := calibrate.KeptAt(series)
	if err != nil {
		return nil, nil, errors.New(unit.Spell(err.Error(), c.Units))
	}
	var edits [][2]string
	if here := doc.Design.Lab.Temperature; told {
		if math.Abs(float64(kept-here)) > 0.05 {
			fmt.Fprintf(e.out, "%s: the packs were kept at %s; the design says %s (lab.temperature)\n", t.File, report.Show(unit.TemperaturePoint, float64(kept), c.Units, ""), report.Show(unit.TemperaturePoint, float64(here), c.Units, ""))
		}
		doc.Design.Lab.Temperature = kept
		edits = append(edits, [2]string{"lab.temperature", unit.Format(unit.TemperaturePoint, float64(kept), "°C", 4)})
	}
	var rows strings.Builder
	rows.WriteString("time d\tcarbonation vol\n")
	for _, p := range pulls {
		for _, v := range p.Values {
			fmt.Fprintf(&rows, "%s\t%s\n", strconv.FormatFloat(p.Time/86400, 'g', 6, 64), strconv.FormatFloat(v/unit.VolumeCO2, 'g', 5, 64))
		}
	}
	return pulls, append(edits, [2]string{"lab.pulls", strings.TrimSuffix(rows.String(), "\n")}), nil
}

// fitted prints the numbers of a fit and returns what they change in the design.
func fitted(e *env, d *design.Design, fit *calibrate.PullFit) (edits [][2]string) {
	write := func(path, value string) {
		if fit.Refused == "" {
			edits = append(edits, [2]string{path, value})
		}
	}
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }
	for _, p := range fit.Parameters {
		switch p.Key {
		case "factor":
			before := d.Shelf.Factor
			if fit.Refused != "" {
				fmt.Fprintf(e.out, "  barrier factor     %.3g stays; the fit went to %.3g\n", before, before*p.Value)
				continue
			}
			fmt.Fprintf(e.out, "  barrier factor     %.3g -> %.3g (95 %%: %.3g to %.3g)\n", before, before*p.Value, before*p.Lo, before*p.Hi)
			write("shelf.barrier_factor", number(before*p.Value))
		case "start":
			start := unit.Format(unit.Carbonation, p.Value, "vol", 4)
			if fit.Refused != "" {
				fmt.Fprintf(e.out, "  carbonation at start  %s in the fit\n", start)
				continue
			}
			fmt.Fprintf(e.out, "  carbonation at start  %s (95 %%: %s to %s)\n", start, unit.Format(unit.Carbonation, p.Lo, "vol", 4), unit.Format(unit.Carbonation, p.Hi, "vol", 4))
			write("drink.carbonation", start)
		default:
			if fit.Refused != "" {
				continue
			}
			fmt.Fprintf(e.out, "  %-18s 1 -> %.3g (95 %%: %.3g to %.3g), held by its own spread too\n", p.Key, p.Value, p.Lo, p.Hi)
			if p.Key == "growth" {
				write("shelf.modulus", unit.Format(unit.Stress, d.Shelf.Modulus/p.Value, "GPa", 4))
				continue
			}
			for path, k := range map[string]float64{"closure.co2": d.Closure.CO2, "closure.o2": d.Closure.O2, "closure.n2": d.Closure.N2} {
				write(path, unit.Format(unit.GasConductance, k*p.Value, "cm³/(d·atm)", 4))
			}
		}
	}
	return edits
}

// The further pulls that the stop rule weighs: how many, and how far apart [s].
const (
	furtherPulls = 3
	furtherEvery = 4 * 7 * 86400.0
)

// decide prints what the fit says about best-before as the pulls were kept and
// along the lane of the design, on which the limit is judged, and which further
// pulls would settle it.
func decide(e *env, d *design.Design, kept *calibrate.PullFit, lane permeation.Case, pulls []calibrate.Pull, sys unit.System) error {
	end := d.Brief.ShelfLife
	fit := kept.Along(lane)
	ref, from := run.LossReference(d)
	p, err := kept.Predict(end, 0.95, permeation.FirstDay)
	if err != nil {
		return err
	}
	board, err := fit.Predict(end, 0.95, ref)
	if err != nil {
		return err
	}
	weeks := func(t float64) string { return unit.Format(unit.Time, t, "weeks", 3) }
	fmt.Fprintf(e.out, "  loss at %s, from the reading after 24 hours: %.1f %% (95 %% of the mean: %.1f to %.1f %%), kept at %s as the pulls were\n", weeks(end), 100*p.Loss, 100*p.Lo, 100*p.Hi, report.Show(unit.TemperaturePoint, float64(d.Lab.Temperature), sys, ""))
	fmt.Fprintf(e.out, "  loss at %s along the lane of the design, from %s: %.1f %% (%.1f to %.1f %%); this is shelf.loss.end, the limit is judged on it\n", weeks(end), from, 100*board.Loss, 100*board.Lo, 100*board.Hi)
	limit := run.LossLimit(d)
	if limit <= 0 {
		fmt.Fprintln(e.out, "  nothing to decide:", run.NoLossLimit(d))
		return nil
	}
	until := 2 * end
	if s := lane.Lane.Segments; len(s) > 0 {
		until = min(until, s[len(s)-1].Start+s[len(s)-1].Duration)
	}
	shown, reached, err := fit.Shown(limit, 0.95, until, ref)
	if err != nil {
		return err
	}
	at := "reaches it at " + weeks(reached)
	if math.IsInf(reached, 1) {
		at = "does not reach it within the " + weeks(until) + " looked at"
	}
	fmt.Fprintf(e.out, "  limit %.3g %%: shown to hold for %s; the curve itself %s\n", 100*limit, weeks(shown), at)
	last := pulls[len(pulls)-1]
	var further []float64
	for k := 1; k <= furtherPulls; k++ {
		further = append(further, last.Time+float64(k)*furtherEvery)
	}
	stop, err := fit.Stop(limit, end, 0.95, ref, further, []int{len(last.Values), 2 * len(last.Values)})
	if err != nil {
		return err
	}
	defer fmt.Fprintln(e.out, "  this interval is of the pulls alone: the board adds what store and filler move (climate.store, drink.carbonation, brief.nominal), so that a limit decided here may still stand as close there")
	if stop.Verdict != calibrate.NotShown {
		fmt.Fprintf(e.out, "  now: %s; decided, further pulls only narrow the interval\n", stop.Verdict)
		return nil
	}
	fmt.Fprintf(e.out, "  now: %s; if the loss stays where it is:\n", stop.Verdict)
	for i, plan := range stop.Plans {
		word := "would not decide"
		if plan.Decides {
			word = "would decide"
		}
		var when []string
		for _, t := range plan.Times {
			when = append(when, strconv.FormatFloat(t/(7*86400), 'f', 0, 64))
		}
		bottles := "bottles"
		if plan.Bottles == 1 {
			bottles = "bottle"
		}
		fmt.Fprintf(e.out, "  %d: pull %d %s in week %s: interval ± %.2f points, %s\n", i+1, plan.Bottles, bottles, strings.Join(when, " and "), 100*plan.Half, word)
	}
	if stop.First >= 0 {
		fmt.Fprintf(e.out, "  stop after plan %d, the first that decides\n", stop.First+1)
	} else {
		fmt.Fprintf(e.out, "  none of these decides: gain %.2f points of margin (wall, closure, fill), or claim fewer weeks\n", 100*stop.Margin)
	}
	return nil
}
