package api

import (
	"cmp"
	"context"
	"fmt"
	"net/http"

	"github.com/danielgtaylor/huma/v2"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// Side names the design that a request is about. An empty text is a text: it
// is refused like any other that cannot be computed, and never stands for the
// file.
type Side struct {
	Name string  `json:"name,omitempty" maxLength:"200" doc:"Design in the folder; read when no text is sent"`
	Text *string `json:"text,omitempty" doc:"The document as it stands on the page, also when it is empty; leave it out to take the file"`
}

type compareIn struct {
	Body struct {
		Baseline Side `json:"baseline"`
		Variant  Side `json:"variant"`
		InUnits
		Full bool `json:"full,omitempty" doc:"Compute both with every solver"`
	}
}

type compareOut struct{ Body report.Difference }

// compare returns the difference sheet of two designs. A design that cannot be
// computed is an error: there is nothing to compare it with.
func (s *Server) compare(ctx context.Context, in *compareIn) (*compareOut, error) {
	sys, err := system("body.units", in.Body.Units)
	if err != nil {
		return nil, err
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
	if !in.Body.Full {
		err := s.compute(ctx, func() {
			out.Body = report.NewDifference(run.Check(docs[0], s.cache), run.Check(docs[1], s.cache), sys)
		})
		return out, err
	}
	ctx, cancel := context.WithTimeout(ctx, s.limits.compare)
	defer cancel()
	var ended error
	err = s.runner.gate.run(ctx, s.limits.turn, func() {
		var results [2]*run.Result
		for i, doc := range docs {
			if results[i], ended = s.runner.full(ctx, doc, s.cache, func(string, float64) {}); ended != nil {
				return
			}
		}
		out.Body = report.NewDifference(results[0], results[1], sys)
	})
	if err == nil && ended != nil {
		err = again(http.StatusServiceUnavailable, s.limits.retry, fmt.Sprintf("two full runs took more than %.0f s; run each design by itself first, its stages are kept", s.limits.compare.Seconds()))
	}
	return out, err
}

// document reads one side of a comparison.
func (s *Server) document(side Side) (*design.Document, error) {
	text, err := s.text(side)
	if err != nil {
		return nil, err
	}
	doc, err := design.Load(side.Name, text)
	if err != nil {
		return nil, huma.Error422UnprocessableEntity(fmt.Sprintf("%s cannot be computed: %s", cmp.Or(side.Name, "the text"), faults(err)[0].In(unit.EU).Message))
	}
	return doc, nil
}

// text returns the document of a side as it stands on the page or on disk.
func (s *Server) text(side Side) (string, error) {
	if side.Text != nil {
		return *side.Text, nil
	}
	if side.Name == "" {
		return "", huma.Error422UnprocessableEntity("give the text of a design or the name of one in the folder")
	}
	f, err := s.folder.Read(side.Name)
	if err != nil {
		return "", folderError(err)
	}
	return f.Text, nil
}
