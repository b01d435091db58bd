package api

import (
	"context"
	"fmt"

	"github.com/danielgtaylor/huma/v2"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// Side is one of the two designs of a comparison.
type Side struct {
	Name string `json:"name,omitempty" maxLength:"200" doc:"Design in the folder; used when text is empty"`
	Text string `json:"text,omitempty" doc:"The document as it stands on the page"`
}

type compareIn struct {
	Body struct {
		Baseline Side   `json:"baseline"`
		Variant  Side   `json:"variant"`
		Units    string `json:"units,omitempty" enum:"eu,us"`
		Full     bool   `json:"full,omitempty" doc:"Compute both with every solver"`
	}
}

type compareOut struct{ Body report.Difference }

// compare returns the difference sheet of two designs. A design that cannot be
// computed is an error: there is nothing to compare it with.
func (s *Server) compare(ctx context.Context, in *compareIn) (*compareOut, error) {
	sys := unit.EU
	if in.Body.Units == "us" {
		sys = unit.US
	}
	var docs [2]*design.Document
	for i, side := range []Side{in.Body.Baseline, in.Body.Variant} {
		doc, err := s.document(side)
		if err != nil {
			return nil, err
		}
		docs[i] = doc
	}
	out := &compareOut{}
	var ended error
	err := s.compute(ctx, func() {
		var results [2]*run.Result
		for i, doc := range docs {
			if !in.Body.Full {
				results[i] = run.Check(doc, s.cache)
				continue
			}
			if results[i], ended = run.Full(ctx, doc, s.cache, nil); ended != nil {
				return // withdrawn: nobody listens any more
			}
		}
		out.Body = report.NewDifference(results[0], results[1], sys)
	})
	if err == nil && ended != nil {
		err = huma.Error503ServiceUnavailable("the request was withdrawn")
	}
	return out, err
}

// document reads one side of a comparison.
func (s *Server) document(side Side) (*design.Document, error) {
	text := side.Text
	if text == "" {
		if side.Name == "" {
			return nil, huma.Error422UnprocessableEntity("give the text of a design or the name of one in the folder")
		}
		f, err := s.folder.Read(side.Name)
		if err != nil {
			return nil, folderError(err)
		}
		text = f.Text
	}
	doc, err := design.Load(side.Name, text)
	if err != nil {
		return nil, huma.Error422UnprocessableEntity(fmt.Sprintf("%s cannot be computed: %s", side.Name, faults(err)[0].Message))
	}
	return doc, nil
}
