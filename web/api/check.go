package api

import (
	"context"
	"strings"

	"github.com/danielgtaylor/huma/v2"

	"costrel/project/design"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// Edit is one change of a value: the new text with unit, or empty to go back
// to the template's value. A whole table is written with tabs, see
// [design.Paste].
type Edit struct {
	Path string `json:"path" maxLength:"200"`
	Text string `json:"text" maxLength:"100000"`
}

type checkIn struct {
	Body struct {
		Side
		Edits []Edit `json:"edits,omitempty" maxItems:"200"`
		InUnits
		Brief bool   `json:"brief,omitempty" doc:"Leave out how each figure came about, which is most of the answer"`
		Why   string `json:"why,omitempty" maxLength:"100" doc:"In a brief answer the figure that keeps it"`
	}
}

// Checked is the answer to a check. Board and geometry are missing when the
// document has faults.
type Checked struct {
	Text     string            `json:"text"`
	Resolved []design.Listed   `json:"resolved"`
	Board    *report.Board     `json:"board,omitempty"`
	Geometry *run.Geometry     `json:"geometry,omitempty"`
	Plots    []run.Plot        `json:"plots"`
	Maps     []run.Map         `json:"maps"`
	Absent   []run.Absent      `json:"absent" doc:"Fields along the wall that are not among the plots, and why"`
	Playback *run.Playback     `json:"playback,omitempty"`
	Stages   map[string]string `json:"stages" doc:"The stage of each figure that has a limit"`
	Full     bool              `json:"full" doc:"every solver ran; otherwise the wall is a preview"`
	Blown    bool              `json:"blown" doc:"The wall is that of the blow; otherwise it is a preview, also after a full run"`
	BlowKept bool              `json:"blow_kept,omitempty" doc:"a full run of this text takes a blow that was computed before"`
	Problems []design.Fault    `json:"problems"`
	Cautions []run.Caution     `json:"cautions"`
}

// checked returns the answer for a computed design.
func checked(text string, r *run.Result, sys unit.System) Checked {
	return answer(text, r, sys, report.NewBoard(r, sys))
}

func answer(text string, r *run.Result, sys unit.System, b report.Board) Checked {
	c := Checked{
		Text: text, Resolved: r.Doc.Listing(sys), Board: &b, Geometry: r.Geometry, Plots: []run.Plot{}, Playback: r.Playback, Full: r.Full, Blown: r.Blown(), Stages: map[string]string{},
		Problems: spelled(r.Doc.Warnings, sys), Cautions: b.Cautions, Maps: []run.Map{}, Absent: []run.Absent{},
	}
	for _, a := range r.Absent {
		a.Why = unit.Spell(a.Why, sys)
		c.Absent = append(c.Absent, a)
	}
	for _, m := range r.Maps {
		c.Maps = append(c.Maps, m.In(sys))
	}
	for _, v := range b.Verdicts {
		c.Stages[v.Figure] = r.StageOf(v.Figure)
	}
	for _, p := range r.Plots {
		c.Plots = append(c.Plots, p.In(sys))
	}
	return c
}

type checkOut struct{ Body Checked }

// edited returns a document with the edits that can be made, and a fault for
// each that cannot.
func edited(text string, edits []Edit, sys unit.System) (after string, refused []design.Fault) {
	refused = []design.Fault{}
	for _, e := range edits {
		set := design.Set
		if e.Path == "bottle.planes" || strings.HasPrefix(e.Path, "bottle.planes[") {
			set = design.MovePlanes
		}
		t, err := set(text, e.Path, e.Text)
		if err != nil {
			refused = append(refused, design.Fault{Path: e.Path, Text: e.Text, Message: unit.Spell(err.Error(), sys)})
			continue
		}
		text = t
	}
	return text, refused
}

// check computes a document with edits. Faults of the document are an answer,
// not an error: the page shows them in place.
func (s *Server) check(ctx context.Context, in *checkIn) (*checkOut, error) {
	text, err := s.text(in.Body.Side)
	if err != nil {
		return nil, err
	}
	sys, err := system("body.units", in.Body.Units)
	if err != nil {
		return nil, err
	}
	out := &checkOut{Body: Checked{Problems: []design.Fault{}, Cautions: []run.Caution{}, Resolved: []design.Listed{}, Plots: []run.Plot{}, Maps: []run.Map{}, Absent: []run.Absent{}, Stages: map[string]string{}}}
	text, out.Body.Problems = edited(text, in.Body.Edits, sys)
	out.Body.Text = text
	err = s.compute(ctx, func() {
		doc, err := design.Load(in.Body.Name, text)
		if err != nil {
			out.Body.Problems = append(out.Body.Problems, spelled(faults(err), sys)...)
			return
		}
		edits := out.Body.Problems
		r := run.Check(doc, s.cache)
		if in.Body.Brief {
			out.Body = answer(text, r, sys, report.NewBrief(r, sys, in.Body.Why))
		} else {
			out.Body = checked(text, r, sys)
		}
		out.Body.Problems = append(edits, out.Body.Problems...)
		out.Body.BlowKept = run.BlowKept(doc.Design, s.cache)
	})
	return out, err
}

type whyIn struct {
	Body struct {
		Side
		Key string `json:"key" maxLength:"100" doc:"Key of the figure"`
		InUnits
	}
}

type whyOut struct{ Body report.Figure }

// why returns one figure of a check with how it came about.
func (s *Server) why(ctx context.Context, in *whyIn) (*whyOut, error) {
	doc, err := s.document(in.Body.Side)
	if err != nil {
		return nil, err
	}
	sys, err := system("body.units", in.Body.Units)
	if err != nil {
		return nil, err
	}
	out := &whyOut{}
	found := false
	if err := s.compute(ctx, func() { out.Body, found = report.One(run.Check(doc, s.cache), sys, in.Body.Key) }); err != nil {
		return nil, err
	}
	if !found {
		return nil, huma.Error404NotFound("a check of this design gives no figure " + in.Body.Key + "; it may need the full run, or does not apply to the pack")
	}
	return out, nil
}
