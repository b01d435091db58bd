package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"text/tabwriter"

	"costrel/figure"
	"costrel/project/calibrate"
	"costrel/project/design"
	"costrel/project/report"
	"costrel/quality/lab"
	"costrel/unit"
)

type calibrateCmd struct {
	File      string      `arg:"" help:"Design file."`
	Pulls     string      `placeholder:"CSV" help:"Carbonation pulls: fit the barrier of the wall, predict best-before, say when to stop pulling. Without any table those of the design (lab.pulls) are taken."`
	Also      []string    `enum:"closure,growth" placeholder:"closure,growth" help:"Fit these to the pulls too, each held near its default by its own spread."`
	Blown     bool        `help:"Fit the pulls on the wall of the blow, by place, as a full check takes it; otherwise on the preview."`
	Sections  string      `placeholder:"CSV" help:"Section weights: fit the blow."`
	Thickness string      `placeholder:"CSV" help:"Wall readings by height: fit the blow."`
	Tests     string      `placeholder:"CSV" help:"Growth, burst and top load: fit stiffness, creep and strength of the wall."`
	Drops     string      `placeholder:"CSV" help:"Up-and-down drops of filled packs in their order: the height at which half fail."`
	Variant   string      `help:"Design in a table of several, such as old or new."`
	Write     string      `placeholder:"FILE" help:"Write the design with the fitted values to a new file."`
	Units     unit.System `default:"eu" placeholder:"SYSTEM" help:"Units of the printed texts: eu or us, and behind it what is wanted in another unit, as in us,pressure=bar,length=mm; a unit that is none lists those that are."`
}

// Run fits what the tables allow and prints before, after, what the data leave
// open, and the spread.
func (c *calibrateCmd) Run(e *env) error {
	doc, err := load(c.File)
	if err != nil {
		return inputError{err}
	}
	none := c.Pulls == "" && c.Sections == "" && c.Thickness == "" && c.Tests == "" && c.Drops == ""
	if none && len(doc.Design.Lab.Pulls) == 0 {
		return inputError{errors.New("give a table: --pulls, --sections, --thickness, --tests or --drops; or pulls in the design, under lab.pulls")}
	}
	if c.Write != "" {
		if _, err := os.Stat(c.Write); err == nil {
			return inputError{fmt.Errorf("%s exists; name a file that does not", c.Write)}
		}
		if s, err := os.Stat(filepath.Dir(c.Write)); err != nil || !s.IsDir() {
			return inputError{fmt.Errorf("%s: there is no folder %s; make it first", c.Write, filepath.Dir(c.Write))}
		}
	}
	var edits [][2]string
	if c.Sections != "" || c.Thickness != "" {
		more, err := c.forming(e, doc)
		if err != nil {
			return asInput(err)
		}
		edits = append(edits, more...)
	}
	if c.Pulls != "" || none {
		more, err := c.pulls(e, doc)
		if err != nil {
			return asInput(err)
		}
		edits = append(edits, more...)
	}
	if c.Tests != "" {
		more, err := c.strength(e, doc)
		if err != nil {
			return asInput(err)
		}
		edits = append(edits, more...)
	}
	if c.Drops != "" {
		more, err := c.drops(e, doc)
		if err != nil {
			return inputError{err}
		}
		edits = append(edits, more...)
	}
	if c.Write == "" {
		return nil
	}
	if len(edits) == 0 {
		return inputError{fmt.Errorf("%s not written: no fit gives a value to write", c.Write)}
	}
	text := doc.Text
	for _, x := range edits {
		if text, err = design.Set(text, x[0], x[1]); err != nil {
			return inputError{err}
		}
	}
	f, err := os.OpenFile(c.Write, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return inputError{fmt.Errorf("%w; name a file that does not exist", err)}
	}
	if _, err := f.WriteString(text); err != nil {
		return errors.Join(err, f.Close(), os.Remove(c.Write))
	}
	if err := f.Close(); err != nil {
		return err
	}
	fmt.Fprintf(e.out, "\n%s written with the fitted values.\n", c.Write)
	return nil
}

// asInput makes an error one of the input, but for an exit that was told.
func asInput(err error) error {
	var x exit
	if errors.As(err, &x) {
		return err
	}
	return inputError{err}
}

func table(file, sheet string) (*lab.Table, error) {
	b, err := readFile(file)
	if err != nil {
		return nil, err
	}
	return lab.Read(filepath.Base(file), b, sheet)
}

// forming fits the blow to section weights, wall readings or both.
func (c *calibrateCmd) forming(e *env, doc *design.Document) ([][2]string, error) {
	var data calibrate.WallData
	if c.Sections != "" {
		t, err := table(c.Sections, "")
		if err != nil {
			return nil, err
		}
		if err := calibrate.SectionsOf(t, &data); err != nil {
			return nil, err
		}
	}
	if c.Thickness != "" {
		t, err := table(c.Thickness, "thickness")
		if t == nil || err != nil && len(t.Readings) == 0 {
			return nil, err
		}
		if err := errors.Join(err, calibrate.LevelsOf(t, &data)); err != nil {
			return nil, err
		}
	}
	fmt.Fprintln(e.err, "fitting the blow; this runs some dozens of blows")
	f, err := stoppable(e, c.File, func(ctx context.Context) (*calibrate.Forming, error) {
		return calibrate.FitForming(ctx, doc.Design, data, calibrate.FormingKnobs(), nil)
	})
	if err != nil {
		return nil, err
	}
	sys := c.Units
	fmt.Fprintf(e.out, "Blow of %s fitted to what was measured (%d blows; residuals over their scatter %.2f before, %.2f after)\n", doc.Design.Name, f.Runs, f.RMSFirst, f.RMSAfter)
	for _, note := range f.Notes {
		fmt.Fprintf(e.out, "  ! %s\n", note)
	}
	w := tabwriter.NewWriter(e.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "  number\tbefore\tafter\t± s\t")
	var edits [][2]string
	for _, k := range f.Knobs {
		it, _ := design.Lookup(k.Path)
		note, sd := k.Why, ""
		if k.SD > 0 {
			sd = report.Show(report.ChangeKind(it.Field.Kind), k.SD, sys, "")
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\t%s\n", k.Label, report.Show(it.Field.Kind, k.Before, sys, ""), report.Show(it.Field.Kind, k.After, sys, ""), sd, note)
		if k.After != k.Before { // one that is not identified too: the others go with it
			edits = append(edits, [2]string{k.Path, unit.Format(it.Field.Kind, k.After, unit.Preferred(it.Field.Kind, unit.EU), 5)})
			if k.Path == "oven.mean_temperature" {
				// The faces of the card move with the mean.
				for path, t := range map[string]unit.Temperature{"oven.inside_temperature": doc.Design.Oven.Inside, "oven.outside_temperature": doc.Design.Oven.Outside} {
					edits = append(edits, [2]string{path, unit.Format(it.Field.Kind, float64(t)+k.After-k.Before, "°C", 5)})
				}
			}
		}
	}
	fitted := doc.Design.Clone()
	f.Apply(fitted)
	edits = append(edits,
		[2]string{"blow.fit_at", fitted.Blow.FitAt},
		[2]string{"blow.fit_residual", strconv.FormatFloat(100*f.Panel, 'g', 3, 64) + " %"},
		[2]string{"blow.fit_weight", unit.Format(unit.Mass, f.Weight, "g", 3)},
		[2]string{"blow.fit_mass", unit.Format(unit.Mass, f.Mass, "g", 5)})
	if err := w.Flush(); err != nil {
		return nil, err
	}
	w = tabwriter.NewWriter(e.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "\n  measured\t\tbefore\tafter\toff by")
	for _, d := range f.Data {
		k := unit.Length
		if d.Section {
			k = unit.Mass
		}
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\t%+.1f %%\n", d.Label, report.Show(k, d.Measured, sys, ""), report.Show(k, d.Before, sys, ""), report.Show(k, d.After, sys, ""), 100*(d.After/d.Measured-1))
	}
	if err := w.Flush(); err != nil {
		return nil, err
	}
	left, none := "", ""
	if f.Panel > 0 {
		left = fmt.Sprintf("%.2g %% of the wall readings in the panel", 100*f.Panel)
	} else {
		none = " Fewer than three heights were read in the panel: walls keep the band of an unfitted blow."
	}
	if f.Weight > 0 {
		if left != "" {
			left += ", "
		}
		left += unit.Format(unit.Mass, f.Weight, unit.Preferred(unit.Mass, sys), 2) + " of a section"
	} else {
		none += " Not all three sections were weighed: their weights keep the band of an unfitted blow."
	}
	if left != "" {
		fmt.Fprintf(e.out, "\n  Left, root mean square: %s. Written with the numbers, it makes the bands near this process and preform.%s\n", left, none)
	} else {
		fmt.Fprintf(e.out, "\n %s\n", none)
	}
	return edits, nil
}

// strength fits stiffness, creep and strength of the wall to tests.
func (c *calibrateCmd) strength(e *env, doc *design.Document) ([][2]string, error) {
	t, err := table(c.Tests, "")
	if t == nil || err != nil && len(t.Readings) == 0 {
		return nil, err
	}
	tests, more := calibrate.TestedOf(t, c.Variant)
	if err := errors.Join(err, more); err != nil { // the faults of cells and of readings together
		return nil, err
	}
	leftOut(e, t)
	fmt.Fprintln(e.err, "fitting stiffness, creep and strength; this runs the virtual tests some dozens of times")
	f, err := stoppable(e, c.File, func(ctx context.Context) (*calibrate.StrengthFit, error) {
		return calibrate.FitStrength(ctx, doc.Design, tests, nil)
	})
	if err != nil {
		return nil, err
	}
	sys := c.Units
	fmt.Fprintf(e.out, "Strength of %s fitted to the tests (%d runs; residuals over their scatter %.2f before, %.2f after)\n", doc.Design.Name, f.Runs, f.RMSFirst, f.RMSAfter)
	w := tabwriter.NewWriter(e.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "  number\tbefore\tafter\t± s\t")
	var edits [][2]string
	for i, k := range f.Knobs {
		fmt.Fprintf(w, "  %s\t%.3g\t%.3g\t%.2g\t%s\n", k.Label, k.Before, k.After, k.SD, k.Why)
		if k.Identified { // else set by its bound, or left alone
			edits = append(edits,
				[2]string{k.Path, strconv.FormatFloat(k.After, 'g', 4, 64)},
				[2]string{strings.TrimSuffix(k.Path, "_factor") + "_spread", strconv.FormatFloat(f.Spread[i], 'g', 3, 64)})
		}
	}
	hardening := f.Hardening
	if hardening != nil {
		fmt.Fprintf(w, "  %s\t%.3g\t%.3g\t%.2g\t%s\n", hardening.Label, hardening.Before, hardening.After, hardening.SD, hardening.Why)
	}
	if edits != nil {
		edits = append(edits, [2]string{"handling.fit_residual", strconv.FormatFloat(100*f.Residual, 'g', 3, 64) + " %"})
	}
	if hardening != nil && hardening.Identified {
		edits = append(edits,
			[2]string{hardening.Path, strconv.FormatFloat(100*hardening.After, 'g', 3, 64) + " %"},
			[2]string{"handling.hardening_spread", strconv.FormatFloat(hardening.SD/hardening.After, 'g', 3, 64)})
	}
	if err := w.Flush(); err != nil {
		return nil, err
	}
	fmt.Fprintf(e.out, "  Written with the factors: their spreads, and the residual of %.1f %%; both make the bands of a fitted design.\n", 100*f.Residual)
	fmt.Fprintln(e.out, "  A modulus or strength factor far from 1 tells that the computed wall is off there: calibrate the wall first.")
	w = tabwriter.NewWriter(e.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "\n  test\tmeasured\tbefore\tafter\toff by")
	for _, d := range f.Data {
		q, _ := figure.Find(d.Key)
		fmt.Fprintf(w, "  %s\t%s\t%s\t%s\t%+.1f %%\n", q.Label, report.Show(q.Kind, d.Measured, sys, ""), report.Show(q.Kind, d.Before, sys, ""), report.Show(q.Kind, d.After, sys, ""), 100*(d.After/d.Measured-1))
	}
	return edits, w.Flush()
}
