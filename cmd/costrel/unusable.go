package main

import (
	"errors"

	"costrel/project/design"
	"costrel/project/report"
)

// unusable is what --json prints instead of a board of a design that cannot be
// read. The problems have the keys of a board's, and the place in the file.
type unusable struct {
	File     string  `json:"file"`
	Problems []fault `json:"problems"`
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
	out := unusable{File: file, Problems: []fault{}}
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
