package main

import (
	"errors"

	"costrel/project/design"
	"costrel/project/design/yaml"
	"costrel/project/report"
)

// unusable is what --json prints in the place of the board of a design that
// cannot be read: the keys of a board without figures and verdicts. Its problems
// have the place in the file, too.
type unusable struct {
	Design   head             `json:"design"`
	Figures  []report.Figure  `json:"figures"`
	Verdicts []report.Verdict `json:"verdicts"`
	File     string           `json:"file"`
	Problems []fault          `json:"problems"`
}

// head names the design, as far as its text can be read.
type head struct {
	Name  string `json:"name"`
	Class string `json:"class"`
	File  string `json:"file"`
}

type fault struct {
	report.Problem
	Line     int    `json:"line,omitempty"`
	Column   int    `json:"column,omitempty"`
	Text     string `json:"text,omitempty"`
	Expected string `json:"expected,omitempty"`
	Excerpt  string `json:"excerpt,omitempty"`
}

func newUnusable(file string, err error) unusable {
	out := unusable{Design: headOf(file), Figures: []report.Figure{}, Verdicts: []report.Verdict{}, File: file, Problems: []fault{}}
	var faults design.Faults
	if !errors.As(err, &faults) {
		out.Problems = append(out.Problems, fault{Problem: report.Problem{Stage: "design", Reason: err.Error()}})
	}
	for _, f := range faults {
		out.Problems = append(out.Problems, fault{
			Problem: report.Problem{Key: f.Path, Stage: "design", Reason: f.Message, Path: f.Path},
			Line:    f.Line, Column: f.Column, Text: f.Text, Expected: f.Expected, Excerpt: f.Excerpt,
		})
	}
	return out
}

// headOf returns name and pack class that a file gives; empty where it is no
// design.
func headOf(file string) head {
	out := head{File: file}
	text, err := readFile(file)
	if err != nil {
		return out
	}
	root, _ := yaml.Parse(string(text))
	for key, to := range map[string]*string{"name": &out.Name, "class": &out.Class} {
		if n, ok := root.Get(key); ok && n.Kind == yaml.Scalar {
			*to = n.Text
		}
	}
	return out
}
