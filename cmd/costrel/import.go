package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"costrel/project/design"
	"costrel/project/profile"
	"costrel/unit"
)

type importCmd struct {
	File      string `arg:"" type:"existingfile" help:"Outline: a CSV table of points, or an ASCII DXF drawing of the half-section."`
	Into      string `placeholder:"DESIGN" type:"existingfile" help:"Design that gets the outline; without it the rows are printed."`
	Write     string `placeholder:"FILE" help:"Write the changed design here instead of over DESIGN; the file must not exist."`
	Unit      string `placeholder:"U" help:"Unit of lengths where the file names none, such as mm."`
	Layer     string `help:"Layer of the drawing that holds the outline."`
	Axis      string `enum:",vertical,horizontal" default:"" help:"Axis of the bottle in the drawing: vertical (x = 0) or horizontal (y = 0); by its shape when left out."`
	Top       string `placeholder:"H" help:"Height of the support ledge, where the outline ends, with unit."`
	Tolerance string `placeholder:"T" help:"How far ends may lie apart, with unit; 0.02 mm when left out."`
}

// Run reads the outline and puts it into the design, whole or not at all.
func (c *importCmd) Run(e *env) error {
	if c.Write != "" && c.Into == "" {
		return inputError{errors.New("--write needs --into: name the design that gets the outline")}
	}
	o := profile.Options{Unit: c.Unit, Layer: c.Layer, Axis: c.Axis}
	for _, l := range []struct {
		flag, text string
		to         *float64
	}{{"--top", c.Top, &o.Top}, {"--tolerance", c.Tolerance, &o.Tolerance}} {
		if l.text == "" {
			continue
		}
		q, err := unit.Parse(unit.Length, l.text)
		if err != nil {
			return inputError{fmt.Errorf("%s: %w", l.flag, err)}
		}
		*l.to = q.SI
	}
	data, err := readFile(c.File)
	if err != nil {
		return inputError{err}
	}
	p, err := profile.Read(filepath.Base(c.File), data, o)
	if err != nil {
		return inputError{err}
	}
	for _, n := range p.Notes {
		fmt.Fprintln(e.err, n)
	}
	if c.Into == "" {
		fmt.Fprintln(e.out, profile.Table(p.Rows).TSV())
		return nil
	}
	return c.put(e, p)
}

func (c *importCmd) put(e *env, p *profile.Profile) error {
	old, err := readFile(c.Into)
	if err != nil {
		return inputError{err}
	}
	text, changes, err := p.Into(c.Into, string(old))
	if err != nil {
		return inputError{err}
	}
	if _, err := design.Load(c.Into, text); err != nil {
		return inputError{fmt.Errorf("%s stays as it is: with the outline the design cannot be computed:\n%w", c.Into, err)}
	}
	to := c.Into
	if c.Write != "" {
		to = c.Write
		if _, err := os.Lstat(to); !errors.Is(err, os.ErrNotExist) {
			return inputError{fmt.Errorf("%s exists; name another file", to)}
		}
	}
	if err := replace(to, []byte(text)); err != nil {
		return err
	}
	fmt.Fprintf(e.out, "%s has an outline of %d rows from %s.\n", to, len(p.Rows), c.File)
	if len(changes) > 0 {
		fmt.Fprintln(e.out, strings.Join(changes, "\n"))
	}
	return nil
}
