package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"costrel/project/design"
)

type newCmd struct {
	File        string `arg:"" help:"File to write; it must not exist."`
	Class       string `required:"" help:"Pack class, such as csd-1500; costrel new --help lists them."`
	Name        string `help:"Name of the design."`
	Volume      string `placeholder:"V" help:"Nominal volume with unit, such as '1.25 L'."`
	Carbonation string `placeholder:"C" help:"Carbonation with unit, such as '4.0 vol' or '7.9 g/L'."`
	Fill        string `placeholder:"T" help:"Fill temperature with unit, such as '85 °C'."`
	Life        string `placeholder:"T" help:"Shelf life with unit, such as '20 weeks'."`
	Diameter    string `placeholder:"D" help:"Body diameter with unit."`
	Height      string `placeholder:"H" help:"Height with unit."`
}

// Help names the pack classes.
func (c *newCmd) Help() string { return "Pack classes: " + strings.Join(design.Classes(), ", ") }

// Run writes the design file.
func (c *newCmd) Run(e *env) error {
	answers, options := map[string]string{}, map[string]string{}
	for _, a := range []struct{ option, path, text string }{
		{"--name", "name", c.Name},
		{"--volume", "brief.nominal", c.Volume},
		{"--carbonation", "drink.carbonation", c.Carbonation},
		{"--fill", "drink.fill_temperature", c.Fill},
		{"--life", "brief.shelf_life", c.Life},
		{"--diameter", "bottle.diameter", c.Diameter},
		{"--height", "bottle.height", c.Height},
	} {
		if a.text != "" {
			answers[a.path], options[a.path] = a.text, a.option
		}
	}
	text, err := design.Draft(c.Class, answers)
	if err != nil {
		return inputError{byOption(err, options)}
	}
	f, err := os.OpenFile(c.File, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return inputError{fmt.Errorf("%s exists; name another file", c.File)}
	}
	if err != nil {
		return inputError{err}
	}
	if _, err := f.WriteString(text); err != nil {
		return errors.Join(err, f.Close(), os.Remove(c.File))
	}
	if err := f.Close(); err != nil {
		return err
	}
	if doc, err := design.Load(c.File, text); err == nil {
		if note := design.DraftWarning(c.Class, doc.Design.Brief.Nominal); note != "" {
			fmt.Fprintf(e.err, "beware: %s\n", note)
		}
	}
	fmt.Fprintf(e.out, "%s written. Next: costrel check %s\n", c.File, c.File)
	return nil
}

// byOption calls the answers of a refused draft by the options that gave them.
func byOption(err error, options map[string]string) error {
	var lines []error
	for _, e := range leaves(err) {
		var f *design.AnswerFault
		if errors.As(e, &f) {
			text := f.Named(options[f.Path])
			for path, option := range options {
				text = strings.ReplaceAll(text, path, option)
			}
			e = errors.New(text)
		}
		lines = append(lines, e)
	}
	return errors.Join(lines...)
}

// leaves returns the errors that were joined into one.
func leaves(err error) []error {
	for e := err; e != nil; e = errors.Unwrap(e) {
		if joined, ok := e.(interface{ Unwrap() []error }); ok {
			return joined.Unwrap()
		}
	}
	return []error{err}
}
