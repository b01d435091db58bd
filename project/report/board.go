// Package report turns results into what a reader sees: the board as JSON and
// text, the chain behind a figure, the difference of two designs. Display
// units live here.
package report

import (
	"costrel/cite"
	"costrel/figure"
	"costrel/project/run"
	"costrel/quality"
	"costrel/unit"
)

// Board is the object that `costrel check --json` prints and the page reads.
// Values are SI; display texts are in the reader's units.
type Board struct {
	Design   Head          `json:"design"`
	Figures  []Figure      `json:"figures"`
	Verdicts []Verdict     `json:"verdicts"`
	Problems []Problem     `json:"problems"`
	Cautions []run.Caution `json:"cautions"`
	Note     string        `json:"note"`

	elsewhere int // limits of the design, also those on figures that are not shown
}

// Head names the design.
type Head struct {
	Name    string `json:"name"`
	Class   string `json:"class"`
	File    string `json:"file,omitempty"`
	Units   string `json:"units"`
	Program string `json:"program"`
}

// Figure is a figure as shown.
type Figure struct {
	Key        string  `json:"key"`
	Stage      string  `json:"stage"`
	Label      string  `json:"label"`
	Definition string  `json:"definition"`
	Quantity   string  `json:"quantity"`
	Value      float64 `json:"value"`
	UnitSI     string  `json:"unit_si"`
	Display    string  `json:"display"`
	Lo         float64 `json:"lo"`
	Hi         float64 `json:"hi"`
	LoDisplay  string  `json:"lo_display"`
	HiDisplay  string  `json:"hi_display"`
	Origin     Origin  `json:"origin"`
}

// Origin is the origin of a figure as shown.
type Origin struct {
	Kind        string   `json:"kind"`
	Method      string   `json:"method"`
	Equation    string   `json:"equation"`
	Substituted string   `json:"substituted"` // the numbers put in
	Sources     []string `json:"sources"`     // keys
	References  []string `json:"references"`  // in full
	Inputs      []Input  `json:"inputs"`
	Warnings    []string `json:"warnings"`
	Valid       string   `json:"valid" doc:"Where the method holds; empty for what no method computes"`
	Theory      string   `json:"theory"`
	Narrow      []Effect `json:"narrow"` // what makes the band, largest first
	Banding     string   `json:"banding,omitempty" doc:"How the band was made"`
	LeftOut     bool     `json:"left_out,omitempty" doc:"How the number came about is not part of this answer: ask for it"`
}

// Input is one number that went into a figure.
type Input struct {
	Key     string  `json:"key"`
	Symbol  string  `json:"symbol"`
	Label   string  `json:"label"`
	Value   float64 `json:"value"`
	Display string  `json:"display"`
	Kind    string  `json:"kind"` // origin
	Source  string  `json:"source"`
}

// Effect is one contribution to a band.
type Effect struct {
	Path    string  `json:"path"`
	Label   string  `json:"label"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Display string  `json:"display"`
	Basis   string  `json:"basis"`
}

// Verdict is a limit and what the figure makes of it.
type Verdict struct {
	Figure        string   `json:"figure"`
	Label         string   `json:"label"`
	Limit         float64  `json:"limit"`
	LimitDisplay  string   `json:"limit_display"`
	Side          string   `json:"side"`
	Verdict       string   `json:"verdict"`
	Value         *float64 `json:"value" nullable:"true"` // null where the figure was not computed
	Display       string   `json:"display"`
	Margin        *float64 `json:"margin" nullable:"true"` // null likewise
	MarginDisplay string   `json:"margin_display"`
	MarginPercent *float64 `json:"margin_percent" nullable:"true"` // null also where per cent says nothing
	HasPercent    bool     `json:"has_percent"`                    // false where per cent says nothing
	Owner         string   `json:"owner"`
	Source        string   `json:"source"`
	Reason        string   `json:"reason,omitempty"`
}

// Problem says why something is missing, or what to beware of.
type Problem struct {
	Key    string `json:"key"`
	Label  string `json:"label,omitempty" doc:"of the figure"`
	Stage  string `json:"stage"`
	Reason string `json:"reason"`
	Path   string `json:"path,omitempty"`
}

// NewBoard returns the board of a result in the reader's units.
func NewBoard(r *run.Result, sys unit.System) Board {
	return newBoard(r, sys, func(string) bool { return true })
}

// NewBrief returns the board without what says how each figure came about,
// which is most of it; the figure with the key why, which may be empty, keeps
// its own.
func NewBrief(r *run.Result, sys unit.System, why string) Board {
	return newBoard(r, sys, func(key string) bool { return key == why })
}

// One returns a single figure of a result with how it came about.
func One(r *run.Result, sys unit.System, key string) (Figure, bool) {
	for _, f := range r.Figures {
		if f.Key == key {
			g := shown(f, sys, r.Doc.Design.Plant.Currency, true)
			g.Stage = r.StageOf(f.Key)
			return g, true
		}
	}
	return Figure{}, false
}

func newBoard(r *run.Result, sys unit.System, chain func(key string) bool) Board {
	b := Board{
		Design:   Head{Name: r.Doc.Design.Name, Class: r.Doc.Design.Class, File: r.Doc.File, Units: string(sys), Program: "costrel"},
		Figures:  []Figure{},
		Verdicts: []Verdict{}, elsewhere: len(r.Doc.Design.Limits),
		Problems: []Problem{},
		Note:     run.Note,
	}
	for _, c := range r.Cautions {
		b.Cautions = append(b.Cautions, c.In(sys))
	}
	money := r.Doc.Design.Plant.Currency
	for _, f := range r.Figures {
		g := shown(f, sys, money, chain(f.Key))
		g.Stage = r.StageOf(f.Key)
		b.Figures = append(b.Figures, g)
	}
	sides := map[string]map[string]bool{}
	for _, v := range r.Verdicts {
		b.Verdicts = append(b.Verdicts, verdict(v, sys, money))
		if sides[v.Limit.Figure] == nil {
			sides[v.Limit.Figure] = map[string]bool{}
		}
		sides[v.Limit.Figure][string(v.Limit.Side)] = true
	}
	for i := range b.Verdicts { // a figure held on both sides: which row is which
		if v := &b.Verdicts[i]; len(sides[v.Figure]) > 1 {
			v.Label += map[string]string{"min": ", at least", "max": ", at most"}[v.Side]
		}
	}
	for _, p := range r.Problems {
		e, _ := figure.Find(p.Key)
		b.Problems = append(b.Problems, Problem{Key: p.Key, Label: e.Label, Stage: p.Stage, Reason: unit.Spell(p.Reason, sys), Path: p.Path})
	}
	return b
}

func shown(f figure.Figure, sys unit.System, money string, chain bool) Figure {
	e, _ := figure.Find(f.Key)
	symbol := e.In(sys)
	out := Figure{
		Key: f.Key, Label: f.Label, Definition: unit.Spell(e.Definition, sys), Quantity: string(f.Kind),
		Value: f.Value, UnitSI: siSymbol(f.Kind, money), Display: showIn(f.Kind, symbol, f.Value, sys, money),
		Lo: f.Lo, Hi: f.Hi, LoDisplay: showIn(f.Kind, symbol, f.Lo, sys, money), HiDisplay: showIn(f.Kind, symbol, f.Hi, sys, money),
		Origin: Origin{
			Kind: string(f.Origin.Kind), Sources: []string{}, References: []string{}, Inputs: []Input{}, Warnings: []string{}, Narrow: []Effect{}, LeftOut: !chain,
		},
	}
	if chain {
		out.Origin.explain(f, sys, money)
	}
	return out
}

// explain fills in how the figure came about.
func (o *Origin) explain(f figure.Figure, sys unit.System, money string) {
	o.Method, o.Equation, o.Substituted, o.Theory = unit.Spell(f.Origin.Method, sys), unit.Spell(f.Origin.Equation, sys), unit.Spell(substitute(f, sys, money), sys), f.Origin.Theory
	o.Valid = unit.Spell(valid(f), sys)
	o.Sources, o.Warnings = nonNil(f.Origin.Sources), []string{}
	for _, w := range f.Origin.Warnings {
		o.Warnings = append(o.Warnings, unit.Spell(w, sys))
	}
	for _, s := range f.Origin.Sources {
		if src, ok := cite.Lookup(s); ok {
			o.References = append(o.References, src.String())
		}
	}
	for _, in := range f.Origin.Inputs {
		o.Inputs = append(o.Inputs, Input{
			Key: in.Key, Symbol: in.Symbol, Label: unit.Spell(in.Label, sys), Value: in.Value,
			Display: showIn(in.Kind, unitBeside(f, in, sys), in.Value, sys, money), Kind: string(in.Origin), Source: in.Source,
		})
	}
	symbol := inUnit(f.Key, sys)
	o.Banding = unit.Spell(f.Banding, sys)
	for _, n := range f.Effects {
		o.Narrow = append(o.Narrow, Effect{
			Path: n.Path, Label: unit.Spell(n.Label, sys), Low: n.Low, High: n.High, Basis: unit.Spell(n.Basis, sys),
			Display: signedIn(f.Kind, symbol, n.Low, sys, money) + " … " + signedIn(f.Kind, symbol, n.High, sys, money),
		})
	}
}

func verdict(v quality.Verdict, sys unit.System, money string) Verdict {
	e, _ := figure.Find(v.Limit.Figure)
	out := Verdict{
		Figure: v.Limit.Figure, Label: e.Label, Limit: v.Limit.Value, LimitDisplay: showIn(v.Limit.Kind, e.In(sys), v.Limit.Value, sys, money),
		Side: string(v.Limit.Side), Verdict: string(v.Word), Owner: v.Limit.Owner, Source: v.Limit.Source, Reason: unit.Spell(v.Reason, sys),
	}
	if v.Computed() {
		out.Label = v.Figure.Label
		out.Value, out.Display = &v.Figure.Value, showIn(v.Figure.Kind, e.In(sys), v.Figure.Value, sys, money)
		out.Margin, out.HasPercent = &v.Margin, v.HasPercent
		if v.HasPercent {
			out.MarginPercent = &v.Percent
		}
		out.MarginDisplay = signedIn(v.Limit.Kind, e.In(sys), v.Margin, sys, money)
	}
	return out
}

func nonNil(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
