package run

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

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
	Plots    []Plot
	Maps     []Map
	Absent   []Absent  // fields along the wall that are not in Plots
	Geometry *Geometry // nil when the bottle could not be drawn
	Playback *Playback // nil without a blow
	stageOf  map[string]string
	sheets   map[string][]Sheet
	broken   map[string]string // stages that gave no result, and why
	blown    bool
	onWall   map[string]bool // stages that read the wall
}

// Check computes a design as far as it answers at once: the wall is a
// draw-down preview. Stages that the cache holds are not run again; a nil cache
// keeps nothing. It never fails: what could not be computed is in Problems.
func Check(doc *design.Document, cache *Cache) *Result {
	return check(doc, preview, cache)
}

// Full computes a design with every solver. progress, which may be nil, is told
// the stage at work and how much of the whole run is done, 0 to 1: it never
// falls and ends at 1. When ctx ends the result holds what was ready, and the
// error is that of ctx.
func Full(ctx context.Context, doc *design.Document, cache *Cache, progress func(stage string, fraction float64)) (*Result, error) {
	m := newMeter(progress)
	r := check(doc, work{ctx: ctx, full: true, drawn: true, progress: m.at}, cache)
	if ctx.Err() == nil {
		m.end()
	}
	return r, ctx.Err()
}

// FullTo is Full as far as one stage needs it: the result holds that stage and
// those before it, to be read with [Result.Only].
func FullTo(ctx context.Context, doc *design.Document, cache *Cache, stage string, progress func(stage string, fraction float64)) (*Result, error) {
	last := stage
	if last == "blow" || last == "wall" {
		last = sectionStage.name // for the process sheet
	}
	m := newMeter(progress)
	r := check(doc, work{ctx: ctx, full: true, drawn: true, until: last, progress: m.at}, cache)
	if ctx.Err() == nil {
		m.end()
	}
	return r, ctx.Err()
}

// needsFull is why a preview leaves out a figure of the slow solvers.
const needsFull = "needs the full run, which blows the bottle and tests it"

func check(doc *design.Document, w work, cache *Cache) *Result {
	if cache == nil {
		cache = NewCache(256)
	}
	d := doc.Design
	var ahead chan []figure.Figure // the bands of a preview, worked out beside it
	if !w.full {
		ahead = make(chan []figure.Figure, 1)
		go func() { ahead <- banded(d, false, cache) }()
	}
	done := evaluate(d, w, cache)
	r := &Result{Doc: doc, Full: w.full, Figures: collect(done), Cautions: Cautions(d), Playback: playback(done), stageOf: map[string]string{}}
	for _, s := range stages {
		for _, k := range s.keys {
			r.stageOf[k] = s.shown()
		}
	}
	for _, w := range doc.Warnings {
		reason := w.Message
		if w.Expected != "" {
			reason += "; expected " + w.Expected
		}
		r.Problems = append(r.Problems, Problem{Key: w.Path, Stage: "design", Reason: reason, Path: w.Path})
	}
	for _, s := range stages {
		if e := done[s.name]; e != nil {
			r.Problems = append(r.Problems, e.problems...)
			r.Plots = append(r.Plots, e.plots...)
			r.Maps = append(r.Maps, e.maps...)
		}
	}
	for i := range r.Figures {
		mark(doc, &r.Figures[i])
	}
	passOn(r.Figures)
	headspaceOf(r.Figures)
	if ahead != nil {
		lend(r.Figures, <-ahead)
	} else {
		bandBlow(d, w, done, r.Figures, cache)
		band(d, r.Figures, isBlown(done), cache)
	}
	collapseOf(r.Figures, hotFilled(d))
	rank(r.Figures)
	for i := range r.Figures {
		o := &r.Figures[i].Origin
		o.Warnings = distinct(o.Warnings)
	}
	r.bandTraces()
	limits, faults := Limits(d)
	for _, f := range faults {
		r.Problems = append(r.Problems, Problem{Key: f.Path, Stage: "limits", Reason: f.Message, Path: f.Path})
	}
	missing := map[string]string{}
	if !w.full {
		for _, st := range stages {
			for _, k := range st.keys {
				if st.full {
					missing[k] = needsFull
				}
			}
		}
	}
	for _, p := range r.Problems {
		missing[p.Key] = p.Reason
	}
	r.Verdicts = quality.Judge(append(limits, implied(limits, r.Figures)...), r.Figures, missing)
	r.Plots = append(r.Plots, marginPlots(r.Plots, r.Verdicts)...)
	r.Absent = absent(d, r, done)
	r.Geometry = geometry(d, done)
	r.sheets = processSheets(d, done)
	r.broken, r.blown, r.onWall = broken(d, done), isBlown(done), onWall(d, w)
	return r
}

// distinct returns every text once, in the order of their first.
func distinct(texts []string) []string {
	var out []string
	for _, s := range texts {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// bandTraces puts the bands on the traces that a stage could not know.
func (r *Result) bandTraces() {
	for i, p := range r.Plots {
		for _, f := range r.Figures {
			if p.Key == "shelf.carbonation" && f.Key == "shelf.loss.end" {
				r.Plots[i] = proportional(p, f)
			}
		}
	}
}

// passOn gives every figure that rests on a pressure what there is to beware of
// in that pressure.
func passOn(figures []figure.Figure) {
	of := map[string][]string{}
	for i := range figures {
		f := &figures[i]
		if strings.HasPrefix(f.Key, "pack.pressure.") {
			of[f.Key] = f.Origin.Warnings
			continue
		}
		own := slices.Clone(f.Origin.Warnings)
		for _, in := range f.Origin.Inputs {
			for _, w := range of[in.Key] {
				if !slices.Contains(own, w) {
					own = append(own, w)
				}
			}
		}
		f.Origin.Warnings = own
	}
}

// headspaceOf warns where the wall as computed takes or leaves more than a
// tenth of the headspace, which is that of the nominal wall.
func headspaceOf(figures []figure.Figure) {
	at := map[string]int{}
	for i, f := range figures {
		at[f.Key] = i
	}
	h, ok := at["bottle.headspace"]
	b, blown := at["bottle.volume.blown"]
	if !ok || !blown {
		return
	}
	f := &figures[h]
	left := figures[b].Value - figures[at["bottle.volume.fill"]].Value
	if math.Abs(left-f.Value) <= 0.1*math.Abs(f.Value) {
		return
	}
	f.Origin.Warnings = append(f.Origin.Warnings, fmt.Sprintf("%s: the nominal wall stands for the wall; with the computed one the bottle holds ‹%.1f mL› to the brim, which leaves a headspace of ‹%.1f mL›: bring bottle.wall or the preform into line",
		quality.EstimatePrefix, figures[b].Value*1e6, left*1e6))
}

// Only returns the part of a result that one stage made.
func (r *Result) Only(stage string) (*Result, error) {
	var names []string
	mine := map[string]bool{}
	for _, s := range stages {
		if s.of == "" {
			names = append(names, s.name)
		}
		if s.shown() == stage {
			for _, k := range s.keys {
				mine[k] = true
			}
		}
	}
	if slices.Contains(names, stage) {
		out := *r
		out.Figures, out.Problems, out.Verdicts, out.Plots, out.Maps = nil, nil, nil, nil, nil
		for _, f := range r.Figures {
			if mine[f.Key] {
				out.Figures = append(out.Figures, f)
			}
		}
		for _, p := range r.Problems {
			if p.Stage == stage {
				out.Problems = append(out.Problems, p)
			}
		}
		for _, v := range r.Verdicts {
			if mine[v.Limit.Figure] {
				out.Verdicts = append(out.Verdicts, v)
			}
		}
		for _, p := range r.Plots {
			// The wall is what a blow is for.
			if p.Stage == stage || stage == "blow" && p.Key == "wall.arc" {
				out.Plots = append(out.Plots, p)
			}
		}
		for _, m := range r.Maps {
			if m.Stage == stage {
				out.Maps = append(out.Maps, m)
			}
		}
		return &out, nil
	}
	return nil, fmt.Errorf("no stage %q: use one of %s", stage, strings.Join(names, ", "))
}

// Broken says why a stage gave no result; empty when it did or does not apply.
func (r *Result) Broken(stage string) string { return r.broken[stage] }

func broken(d *design.Design, done map[string]*entry) map[string]string {
	out := map[string]string{}
	for name, e := range done {
		if e.err != nil && !e.skipped {
			out[name] = e.err.Error()
		}
	}
	if e := done["blow"]; e != nil && e.err == nil && !d.Blow.Free {
		if why := unformed(e.out.(*Blown).Result); why != "" {
			out["blow"] = why
		}
	}
	if why := out["blow"]; why != "" && out["wall"] == "" {
		out["wall"] = "the blow made no bottle, the draw-down preview stands in: " + why
	}
	return out
}

// StageOf returns the stage that makes a figure.
func (r *Result) StageOf(key string) string { return r.stageOf[key] }

// Fails reports whether a limit fails, or could not be held against a figure
// because a stage failed.
func (r *Result) Fails() bool { return slices.ContainsFunc(r.Verdicts, fails) }

// FailsMore reports whether a limit fails (see [Result.Fails]) that does not
// fail in the baseline: there the limit on the same figure, side and owner
// holds or is missing.
func (r *Result) FailsMore(baseline *Result) bool {
	type key struct {
		figure, owner string
		side          quality.Side
	}
	of := func(v quality.Verdict) key { return key{v.Limit.Figure, v.Limit.Owner, v.Limit.Side} }
	old := map[key]bool{}
	for _, v := range baseline.Verdicts {
		if fails(v) {
			old[of(v)] = true
		}
	}
	return slices.ContainsFunc(r.Verdicts, func(v quality.Verdict) bool { return fails(v) && !old[of(v)] })
}

func fails(v quality.Verdict) bool {
	return v.Word == quality.Fail || v.Word == quality.NotComputed && !strings.Contains(v.Reason, errSkip.Error()) && v.Reason != needsFull
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
