package api

import (
	"context"
	"errors"
	"net/http"
	"time"

	"github.com/danielgtaylor/huma/v2"

	"costrel/project/design"
	"costrel/store"
	"costrel/unit"
)

// Listing is one design of the folder.
type Listing struct {
	Name     string    `json:"name"`
	Title    string    `json:"title"`
	Modified time.Time `json:"modified"`
	Version  string    `json:"version"`
	Fault    string    `json:"fault,omitempty" doc:"why the file is not usable"`
}

type listOut struct {
	Body struct {
		Designs []Listing `json:"designs"`
	}
}

func (s *Server) list(context.Context, *struct{}) (*listOut, error) {
	files, err := s.folder.List()
	if err != nil {
		return nil, folderError(err)
	}
	out := &listOut{}
	out.Body.Designs = []Listing{}
	for _, f := range files {
		l := Listing{Name: f.Name, Title: f.Name, Modified: f.Modified, Version: f.Version}
		if file, err := s.folder.Read(f.Name); err != nil {
			l.Fault = unit.Spell(err.Error(), unit.EU)
		} else if doc, err := design.Load(f.Name, file.Text); err != nil {
			l.Fault = faults(err)[0].Message
		} else {
			l.Title = doc.Design.Name
		}
		out.Body.Designs = append(out.Body.Designs, l)
	}
	return out, nil
}

// Opened is one design with its resolved values.
type Opened struct {
	Name     string          `json:"name"`
	Version  string          `json:"version"`
	Text     string          `json:"text"`
	Resolved []design.Listed `json:"resolved"`
	Problems []design.Fault  `json:"problems"`
}

type openOut struct{ Body Opened }

func (s *Server) get(_ context.Context, in *struct {
	Name  string `path:"name" maxLength:"200"`
	Units string `query:"units" default:"eu" pattern:"^(eu|us)(,[^,=]+=[^,=]+)*$" patternDescription:"eu or us, then the reader's own choices" maxLength:"2000" doc:"The reader's units, eu or us, and behind it what is wanted in another unit: us,pressure=bar,length=mm. Quantities and units are those of /api/units"`
},
) (*openOut, error) {
	sys, err := system("query.units", in.Units)
	if err != nil {
		return nil, err
	}
	f, err := s.folder.Read(in.Name)
	if err != nil {
		return nil, folderError(err)
	}
	out := &openOut{Opened{Name: in.Name, Version: f.Version, Text: f.Text, Problems: []design.Fault{}, Resolved: []design.Listed{}}}
	doc, err := design.Load(in.Name, f.Text)
	if err != nil {
		out.Body.Problems = spelled(faults(err), sys)
		return out, nil
	}
	out.Body.Resolved = doc.Listing(sys)
	out.Body.Problems = spelled(doc.Warnings, sys)
	return out, nil
}

// Saved is the answer to a save: the new version, or what stands on disk now
// when somebody else has changed it.
type Saved struct {
	Version string `json:"version"`
	Message string `json:"message,omitempty"`
	Text    string `json:"text,omitempty"`
}

type putOut struct {
	Status int
	Body   Saved
}

func (s *Server) put(_ context.Context, in *struct {
	Name string `path:"name" maxLength:"200"`
	Body struct {
		Text    string `json:"text"`
		Version string `json:"version" doc:"Version the text was based on; empty for a new file"`
	}
},
) (*putOut, error) {
	version, err := s.folder.Write(in.Name, in.Body.Text, in.Body.Version)
	var conflict *store.Conflict
	switch {
	case errors.As(err, &conflict):
		return &putOut{Status: http.StatusConflict, Body: Saved{Version: conflict.Version, Text: conflict.Text, Message: conflict.Error()}}, nil
	case err != nil:
		return nil, folderError(err)
	}
	return &putOut{Status: http.StatusOK, Body: Saved{Version: version}}, nil
}

// folderError turns an error of the folder into an answer.
func folderError(err error) error {
	switch {
	case errors.Is(err, store.ErrNotFound):
		return huma.Error404NotFound(err.Error())
	case errors.Is(err, store.ErrName):
		return huma.Error422UnprocessableEntity(err.Error())
	}
	return huma.Error500InternalServerError(err.Error())
}
