package api

import (
	"context"
	"fmt"

	"github.com/danielgtaylor/huma/v2"

	"costrel/cite"
)

// SourceTitle is a source as a reader knows it.
type SourceTitle struct {
	Key   string `json:"key"`
	Title string `json:"title" doc:"With its year; without one where nothing is published"`
}

type sourcesOut struct {
	Body struct {
		Sources []SourceTitle `json:"sources"`
	}
}

// sources returns the titles of all sources: a key alone tells a reader little.
func (s *Server) sources(context.Context, *struct{}) (*sourcesOut, error) {
	all, err := cite.All()
	if err != nil {
		return nil, huma.Error500InternalServerError(err.Error())
	}
	out := &sourcesOut{}
	for _, src := range all {
		t := SourceTitle{Key: src.Key, Title: src.Title}
		if src.Where != "-" {
			t.Title = fmt.Sprintf("%s (%s)", src.Title, src.Year)
		}
		out.Body.Sources = append(out.Body.Sources, t)
	}
	return out, nil
}
