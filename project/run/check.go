package run

import (
	"context"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
)

// Result is a design computed: figures with bands, verdicts on its limits, and
// what is missing.
type Result struct {
	Doc      *design.Document
	Full     bool // every solver ran; otherwise the wall is a preview
	Figures  []figure.Figure
	Problems []Problem
	Verdicts []quality.Verdict
	Cautions []Caution
	Geometry *Geometry // nil when the bottle could not be drawn
}

// Check computes a design as far as it answers at once: the wall is a
// draw-down preview. Stages that the cache holds are not run again; a nil cache
// keeps nothing. It never fails: what could not be computed is in Problems.
func Check(doc *design.Document, cache *Cache) *Result {
	return check(doc, preview, cache)
}

// Full computes a design with every solver. progress, which may be nil, is told
// the stage at work and how much of it is done, 0 to 1. When ctx ends the
// result holds what was ready, and the error is that of ctx.
func Full(ctx context.Context, doc *design.Document, cache *Cache, progress func(stage string, fraction float64)) (*Result, error) {
	r := check(doc, work{ctx: ctx, full: true, progress: progress}, cache)
	return r, ctx.Err()
}

func check(doc *design.Document, w work, cache *Cache) *Result {
	if cache == nil {
		cache = NewCache(256)
	}
	d := doc.Design
	done := evaluate(d, w, cache)
	r := &Result{Doc: doc, Full: w.full, Figures: collect(done), Cautions: Cautions(d)}
	for _, s := range stages {
		if e := done[s.name]; e != nil {
			r.Problems = append(r.Problems, e.problems...)
		}
	}
	for i := range r.Figures {
		mark(doc, &r.Figures[i])
	}
	if w.full {
		bandFull(d, r.Figures, cache)
	} else {
		band(d, r.Figures, cache)
	}
	limits, faults := Limits(d)
	for _, f := range faults {
		r.Problems = append(r.Problems, Problem{Key: f.Path, Stage: "limits", Reason: f.Message, Path: f.Path})
	}
	missing := map[string]string{}
	for _, p := range r.Problems {
		missing[p.Key] = p.Reason
	}
	r.Verdicts = quality.Judge(limits, r.Figures, missing)
	r.Geometry = geometry(done)
	return r
}

// Fails reports whether a limit fails.
func (r *Result) Fails() bool {
	for _, v := range r.Verdicts {
		if v.Word == quality.Fail {
			return true
		}
	}
	return false
}

// collect returns the figures of all stages in the order of the catalogue.
func collect(done map[string]*entry) []figure.Figure {
	byKey := map[string]figure.Figure{}
	for _, s := range stages {
		if e := done[s.name]; e != nil {
			for _, f := range e.figures {
				byKey[f.Key] = f
			}
		}
	}
	out := make([]figure.Figure, 0, len(byKey))
	for _, e := range figure.Entries() {
		if f, ok := byKey[e.Key]; ok {
			f.Origin.Inputs = append([]figure.Input(nil), f.Origin.Inputs...)
			f.Origin.Warnings = append([]string(nil), f.Origin.Warnings...)
			out = append(out, f)
		}
	}
	return out
}

// mark tells each input read from the design where it comes from.
func mark(doc *design.Document, f *figure.Figure) {
	for i := range f.Origin.Inputs {
		in := &f.Origin.Inputs[i]
		path, ok := designPath(in.Key)
		if !ok || in.Origin != figure.Given {
			continue // a number worked out from the design keeps its own origin
		}
		m := doc.MarkOf(path)
		if m.Kind == "" {
			m.Kind = figure.Assumed
		}
		in.Origin, in.Source = m.Kind, m.Source
	}
}

func designPath(key string) (string, bool) {
	const prefix = "design:"
	if len(key) > len(prefix) && key[:len(prefix)] == prefix {
		return key[len(prefix):], true
	}
	return "", false
}
