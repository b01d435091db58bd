package api

import (
	"context"
	"errors"

	"github.com/danielgtaylor/huma/v2"

	"costrel/num/curve"
	"costrel/project/design"
	"costrel/project/profile"
	"costrel/unit"
)

// maxImport is the largest body of a request that carries a file, whose bytes
// are written four characters for three [bytes].
const maxImport = profile.MaxBytes*4/3 + maxBody

// imports registers what changes a design as a whole: an imported outline, a
// pasted table, a new main dimension. None of them writes the file.
func (s *Server) imports(a huma.API) {
	op := s.operation
	big := op("POST", "/api/profile", "profile", "A design with an outline from a table of points or a drawing put in")
	big.MaxBodyBytes = maxImport
	huma.Register(a, big, s.profile)
	huma.Register(a, op("POST", "/api/table", "table", "Rows from a spreadsheet, held against the columns of a table"), s.table)
	huma.Register(a, op("POST", "/api/reshape", "reshape", "A design with a main dimension changed, its profile along with it"), s.reshape)
}

type profileIn struct {
	Body struct {
		Side
		File      string `json:"file" maxLength:"300" doc:"Name of the file; .dxf is a drawing, anything else a table"`
		Content   []byte `json:"content"`
		Unit      string `json:"unit,omitempty" maxLength:"20" doc:"Unit of lengths; empty: as the file says"`
		Layer     string `json:"layer,omitempty" maxLength:"300"`
		Axis      string `json:"axis,omitempty" enum:"vertical,horizontal"`
		Top       string `json:"top,omitempty" maxLength:"50" doc:"Height of the support ledge, with unit; empty: at the end of the outline"`
		Tolerance string `json:"tolerance,omitempty" maxLength:"50" doc:"With unit"`
	}
}

// OutlineFault is one thing that keeps a file from being read.
type OutlineFault profile.Fault

// OutlinePoint is a place of the half-section [m].
type OutlinePoint struct {
	Z float64 `json:"z"`
	R float64 `json:"r"`
}

// Imported is an outline and the design with it put in. Nothing is saved.
type Imported struct {
	Text     string             `json:"text" doc:"The document with the outline put in; empty when the file cannot be read"`
	Table    design.ListedTable `json:"table"`
	Outline  []OutlinePoint     `json:"outline" doc:"Points along the outside, from the standing ring up [m]"`
	Layers   []string           `json:"layers"`
	Notes    []string           `json:"notes" doc:"what was assumed or left out"`
	Changes  []string           `json:"changes" doc:"what else changes in the design"`
	Faults   []OutlineFault     `json:"faults" doc:"why the file cannot be read"`
	Problems []design.Fault     `json:"problems" doc:"what is wrong with the design that would result"`
}

type profileOut struct{ Body Imported }

// profile reads an outline. Faults of the file are an answer, not an error.
func (s *Server) profile(ctx context.Context, in *profileIn) (*profileOut, error) {
	doc, err := s.document(in.Body.Side)
	if err != nil {
		return nil, err
	}
	out := &profileOut{Imported{Table: design.ListedTable{Columns: []string{}, Rows: [][]string{}}, Outline: []OutlinePoint{}, Layers: []string{}, Notes: []string{}, Changes: []string{}, Faults: []OutlineFault{}, Problems: []design.Fault{}}}
	o := profile.Options{Unit: in.Body.Unit, Layer: in.Body.Layer, Axis: in.Body.Axis}
	for _, l := range []struct {
		name, text string
		to         *float64
	}{{"the height of the ledge", in.Body.Top, &o.Top}, {"the tolerance", in.Body.Tolerance, &o.Tolerance}} {
		if l.text == "" {
			continue
		}
		q, err := unit.Parse(unit.Length, l.text)
		if err != nil {
			out.Body.Faults = append(out.Body.Faults, OutlineFault{File: in.Body.File, Text: l.text, Message: l.name + ": " + err.Error(), Expected: "a length such as 0.02 mm"})
			continue
		}
		*l.to = q.SI
	}
	if len(out.Body.Faults) > 0 {
		return out, nil
	}
	err = s.compute(ctx, func() { imported(&out.Body, doc, in.Body.File, in.Body.Content, o) })
	return out, err
}

// imported fills the answer for one file.
func imported(out *Imported, doc *design.Document, file string, content []byte, o profile.Options) {
	p, err := profile.Read(file, content, o)
	out.Layers = append(out.Layers, p.Layers...)
	out.Notes = append(out.Notes, p.Notes...)
	if err != nil {
		var f profile.Faults
		if !errors.As(err, &f) {
			f = profile.Faults{{File: file, Message: err.Error()}}
		}
		for _, x := range f {
			out.Faults = append(out.Faults, OutlineFault(x))
		}
		return
	}
	out.Table, out.Outline = profile.Table(p.Rows), outline(p.Rows)
	text, changes, err := p.Into(doc.File, doc.Text)
	if err != nil {
		out.Faults = append(out.Faults, OutlineFault{File: file, Message: unit.Spell(err.Error(), unit.EU), Expected: "correct the design first"})
		return
	}
	out.Text, out.Changes = text, append(out.Changes, changes...)
	after, err := design.Load(doc.File, text)
	if err != nil {
		out.Problems = faults(err)
		return
	}
	out.Problems = append(out.Problems, after.Warnings...)
}

// outline returns points along the rows of a profile, arcs and curves included
// where the rows make a line; else the rows themselves.
func outline(rows []design.ProfileRow) []OutlinePoint {
	var out []OutlinePoint
	along := make([]curve.Row, len(rows))
	for i, w := range rows {
		out = append(out, OutlinePoint{Z: w.Z, R: w.R})
		word, radius, _ := design.Via(w.Via)
		along[i] = curve.Row{Z: w.Z, R: w.R, Via: curve.Via(word), Radius: radius}
	}
	m, err := curve.New(along, "")
	if err != nil {
		return out
	}
	points, err := m.Sample(m.Length() / 300)
	if err != nil {
		return out
	}
	out = out[:0]
	for _, p := range points {
		out = append(out, OutlinePoint{Z: p.Z, R: p.R})
	}
	return out
}

type tableIn struct {
	Body struct {
		Side
		Path    string             `json:"path" maxLength:"200"`
		Pasted  string             `json:"pasted" maxLength:"200000"`
		Present design.ListedTable `json:"present,omitempty" doc:"The table as the reader sees it; its columns hold for a text without heading; those of the design where it is left out"`
		Units   map[string]string  `json:"units,omitempty" doc:"Answers to asks: the unit by key of the column"`
	}
}

// TableRead is a pasted table with the design it would give. Nothing is saved.
type TableRead struct {
	design.Pasted
	Value    string         `json:"value" doc:"The table as an edit takes it; empty when a cell is wrong or a unit is asked for"`
	Problems []design.Fault `json:"problems" doc:"what is wrong with the design that would result"`
}

type tableOut struct{ Body TableRead }

// table reads a pasted table. Faults of its cells are an answer, not an error.
func (s *Server) table(_ context.Context, in *tableIn) (*tableOut, error) {
	text, err := s.text(in.Body.Side)
	if err != nil {
		return nil, err
	}
	p, err := design.PasteInto(text, in.Body.Path, in.Body.Pasted, in.Body.Present, in.Body.Units)
	if err != nil {
		return nil, huma.Error422UnprocessableEntity(err.Error())
	}
	out := &tableOut{TableRead{Pasted: p, Problems: []design.Fault{}}}
	if len(p.Faults) > 0 || len(p.Asks) > 0 {
		return out, nil
	}
	out.Body.Value = p.Table.TSV()
	after, err := design.Set(text, in.Body.Path, out.Body.Value)
	if err == nil {
		_, err = design.Load(in.Body.Name, after)
	}
	if err != nil {
		out.Body.Problems = faults(err)
	}
	return out, nil
}

type reshapeIn struct {
	Body struct {
		Side
		Path  string `json:"path" maxLength:"200"`
		Value string `json:"value" maxLength:"200"`
	}
}

// Reshaped is a design with a dimension changed. Nothing is saved.
type Reshaped struct {
	Text     string         `json:"text"`
	Problems []design.Fault `json:"problems" doc:"why the dimension is not taken"`
}

type reshapeOut struct{ Body Reshaped }

// reshape changes a dimension, and a given profile along with it.
func (s *Server) reshape(_ context.Context, in *reshapeIn) (*reshapeOut, error) {
	text, err := s.text(in.Body.Side)
	if err != nil {
		return nil, err
	}
	out := &reshapeOut{Reshaped{Problems: []design.Fault{}}}
	after, err := design.Reshape(text, in.Body.Path, in.Body.Value)
	if err == nil {
		_, err = design.Load(in.Body.Name, after)
	}
	if err != nil {
		out.Body.Problems = faults(err)
		return out, nil
	}
	out.Body.Text = after
	return out, nil
}
