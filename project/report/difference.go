package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"costrel/figure"
	"costrel/project/design"
	"costrel/project/run"
	"costrel/quality"
	"costrel/unit"
)

// Difference is what differs between a baseline and a variant: margins first,
// the largest loss on top, then figures, then values of the design.
type Difference struct {
	Baseline     Head           `json:"baseline"`
	Variant      Head           `json:"variant"`
	Saved        float64        `json:"saved"` // preform mass saved [kg]; negative when the variant is heavier
	SavedDisplay string         `json:"saved_display"`
	Mass         Numbers        `json:"mass" doc:"Of the preform"`
	Margins      []MarginChange `json:"margins"`
	Figures      []FigureChange `json:"figures"`
	Inputs       []InputChange  `json:"inputs"`
	Problems     []string       `json:"problems"`
	Cautions     []string       `json:"cautions"`
	Note         string         `json:"note"`
}

// MarginChange is one limit on which the two boards differ.
type MarginChange struct {
	Figure      string   `json:"figure"`
	Label       string   `json:"label"`
	Side        string   `json:"side"`
	Owner       string   `json:"owner"`
	What        []string `json:"what"`
	Old         string   `json:"old"` // verdict
	New         string   `json:"new"`
	OldSide     string   `json:"old_side,omitempty" doc:"over or under: the side on which a close value is outside the limit"`
	NewSide     string   `json:"new_side,omitempty"`
	OldLimit    string   `json:"old_limit,omitempty" doc:"Only where the limit itself differs: the margin moved with it"`
	NewLimit    string   `json:"new_limit,omitempty"`
	OldMargin   string   `json:"old_margin"`
	NewMargin   string   `json:"new_margin"`
	Lost        float64  `json:"lost"` // SI
	LostDisplay string   `json:"lost_display"`
	LostPercent float64  `json:"lost_percent"`
	PerGram     float64  `json:"per_gram"` // per cent of the limit lost for each gram saved
	HasPerGram  bool     `json:"has_per_gram"`
	Unlike      string   `json:"unlike,omitempty" doc:"Why no difference is counted, and what to do: one value rests on a preview of the wall, the other on a blown one, or they count from different references"`
	UnlikeMark  string   `json:"unlike_mark,omitempty" doc:"The same in a few words, in place of the difference"`
	Margin      Numbers  `json:"margin" doc:"The margins in full"`
	Limit       Numbers  `json:"limit" doc:"The limits in full"`
}

// FigureChange is one figure that differs.
type FigureChange struct {
	Key           string  `json:"key"`
	Label         string  `json:"label"`
	Old           string  `json:"old"`
	New           string  `json:"new"`
	Change        float64 `json:"change"` // SI
	ChangeDisplay string  `json:"change_display"`
	Percent       float64 `json:"percent"`
	Unlike        string  `json:"unlike,omitempty" doc:"Why no difference is counted, and what to do"`
	UnlikeMark    string  `json:"unlike_mark,omitempty" doc:"The same in a few words, in place of the difference"`
	Numbers       Numbers `json:"numbers" doc:"The values in full"`
}

// InputChange is one value of the design that differs.
type InputChange struct {
	Path  string `json:"path"`
	Label string `json:"label"`
	Old   string `json:"old"`
	New   string `json:"new"`

	Numbers *Numbers `json:"numbers,omitempty" doc:"The values in full, where they are numbers"`
}

// NewDifference compares two results in the reader's units.
func NewDifference(a, b *run.Result, sys unit.System) Difference {
	money := b.Doc.Design.Plant.Currency
	head := func(r *run.Result) Head {
		return Head{Name: r.Doc.Design.Name, Class: r.Doc.Design.Class, File: r.Doc.File, Units: string(sys), Program: "costrel"}
	}
	d := Difference{Baseline: head(a), Variant: head(b), Margins: []MarginChange{}, Figures: []FigureChange{}, Inputs: []InputChange{}, Problems: []string{}, Cautions: []string{}, Note: run.Note}
	figA, figB := byKey(a.Figures), byKey(b.Figures)
	ma, mb := figA["preform.mass"].Value, figB["preform.mass"].Value
	d.Saved, d.SavedDisplay = ma-mb, signed(unit.Mass, mb-ma, sys, money)
	d.Mass = numbersOf(unit.Mass, "", ma, mb, false, sys, money)
	diff, err := quality.Diff(a.Verdicts, b.Verdicts, ma, mb)
	if err != nil {
		d.Problems = append(d.Problems, "margins are not compared: "+unit.Spell(err.Error(), sys))
	}
	for _, c := range diff.Changes {
		e, _ := figure.Find(c.Figure)
		if e.Kind == unit.PricePerThousand && a.Doc.Design.Plant.Currency != b.Doc.Design.Plant.Currency {
			continue
		}
		m := MarginChange{Figure: c.Figure, Label: e.Label, Side: string(c.Side), Owner: c.Owner, What: c.What, PerGram: c.PerGram, HasPerGram: c.HasPerGram, Lost: c.Lost, LostPercent: c.LostPercent}
		m.Old, m.OldMargin = wordAndMargin(c.Old, sys, money)
		m.New, m.NewMargin = wordAndMargin(c.New, sys, money)
		m.OldSide, m.NewSide = crossed(c.Old), crossed(c.New)
		margin, limit := func(v *quality.Verdict) float64 { return v.Margin }, func(v *quality.Verdict) float64 { return v.Limit.Value }
		m.Margin = numbersOf(e.Kind, e.In(sys), has(c.Old, true, margin), has(c.New, true, margin), true, sys, money)
		m.Limit = numbersOf(e.Kind, e.In(sys), has(c.Old, false, limit), has(c.New, false, limit), false, sys, money)
		if slices.Contains(c.What, "limit") {
			m.OldLimit, m.NewLimit = limitText(c.Old, sys, money), limitText(c.New, sys, money)
		}
		if c.HasLost {
			m.LostDisplay = signedIn(e.Kind, e.In(sys), -c.Lost, sys, money)
		}
		d.Margins = append(d.Margins, m)
	}
	mixed := a.Doc.Design.Plant.Currency != b.Doc.Design.Plant.Currency
	if mixed {
		d.Problems = append(d.Problems, fmt.Sprintf("money is not compared: one design counts in %s, the other in %s", a.Doc.Design.Plant.Currency, b.Doc.Design.Plant.Currency))
	}
	for _, e := range figure.Entries() {
		if mixed && (e.Kind == unit.PricePerThousand || e.Kind == unit.Money) {
			continue
		}
		fa, inA := figA[e.Key]
		fb, inB := figB[e.Key]
		if !inA && !inB {
			continue
		}
		c := FigureChange{Key: e.Key, Label: e.Label, Old: "-", New: "-"}
		was, is := math.NaN(), math.NaN()
		if inA {
			was = fa.Value
			c.Old = showIn(e.Kind, e.In(sys), fa.Value, sys, money)
		}
		if inB {
			is = fb.Value
			c.New = showIn(e.Kind, e.In(sys), fb.Value, sys, money)
		}
		c.Numbers = numbersOf(e.Kind, e.In(sys), was, is, false, sys, money)
		if inA && inB {
			if math.Abs(fb.Value-fa.Value) <= 1e-9*math.Max(math.Abs(fa.Value), math.Abs(fb.Value)) {
				continue
			}
			c.Change, c.ChangeDisplay = fb.Value-fa.Value, signedIn(e.Kind, e.In(sys), fb.Value-fa.Value, sys, money)
			if fa.Value != 0 && e.Kind != unit.TemperaturePoint {
				c.Percent = 100 * (fb.Value - fa.Value) / math.Abs(fa.Value)
			}
		}
		d.Figures = append(d.Figures, c)
	}
	otherwise(&d, a, b)
	unlike(&d, a, b, sys)
	d.Inputs = inputChanges(a, b, sys)
	d.Cautions = changeCautions(d.Inputs)
	return d
}

// changeCautions returns what to mind when neck, base or resin change.
func changeCautions(inputs []InputChange) []string {
	out := []string{}
	touched := func(prefixes ...string) bool {
		for _, c := range inputs {
			for _, p := range prefixes {
				if strings.HasPrefix(c.Path, p) {
					return true
				}
			}
		}
		return false
	}
	if touched("finish.", "closure.", "bottle.base.") {
		out = append(out, "Neck, closure or base change: check patents and registered designs and agree the neck with the closure supplier.")
	}
	if touched("resin.") {
		out = append(out, "The resin changes: food-contact compliance is a legal duty; ask for the supplier's declaration, migration tests and traceability.")
	}
	if touched("blow.pre_blow", "blow.high_blow") {
		out = append(out, "The blow pressure changes: compressed air stores lethal energy; keep to guarded machines and the local rules for pressure equipment.")
	}
	return out
}

func wordAndMargin(v *quality.Verdict, sys unit.System, money string) (word, margin string) {
	if v == nil {
		return "no limit", "-"
	}
	if !v.Computed() {
		return string(v.Word), "-"
	}
	return string(v.Word), signedIn(v.Limit.Kind, inUnit(v.Limit.Figure, sys), v.Margin, sys, money)
}

// has returns a value of a verdict; NaN where there is none.
func has(v *quality.Verdict, computed bool, value func(*quality.Verdict) float64) float64 {
	if v == nil || computed && !v.Computed() {
		return math.NaN()
	}
	return value(v)
}

// crossed returns the side on which a close value is outside its limit.
func crossed(v *quality.Verdict) string {
	if v == nil || v.Word != quality.Close {
		return ""
	}
	return outside(string(v.Limit.Side), v.Margin)
}

// beside puts a side behind a verdict.
func beside(word, side string) string {
	if side == "" {
		return word
	}
	return word + ", " + side
}

// limitText prints a limit with its owner.
func limitText(v *quality.Verdict, sys unit.System, money string) string {
	if v == nil {
		return "none"
	}
	side := "≤ "
	if v.Limit.Side == quality.Min {
		side = "≥ "
	}
	return side + showIn(v.Limit.Kind, inUnit(v.Limit.Figure, sys), v.Limit.Value, sys, money) + " (" + v.Limit.Owner + ")"
}

// inputChanges lists the values of the design that differ, tables row by row.
// The same value in two spellings is no difference.
func inputChanges(a, b *run.Result, sys unit.System) []InputChange {
	out := []InputChange{}
	old := map[string]design.Listed{}
	for _, l := range a.Doc.ListingBeside(b.Doc, sys) {
		old[l.Path] = l
	}
	for _, l := range b.Doc.Listing(sys) {
		was := old[l.Path]
		label := l.Section + ": " + l.Label
		if l.Table != nil || was.Table != nil {
			out = append(out, rowChanges(l.Path, label, rowsOf(was), rowsOf(l))...)
			continue
		}
		if l.Display == was.Display || sameNumber(was.Value, l.Value) {
			continue
		}
		out = append(out, InputChange{Path: l.Path, Label: label, Old: was.Display, New: l.Display, Numbers: inputNumbers(was, l)})
	}
	return out
}

func sameNumber(a, b any) bool {
	x, okX := a.(float64)
	y, okY := b.(float64)
	return okX && okY && math.Abs(x-y) <= 1e-12*math.Max(math.Abs(x), math.Abs(y))
}

func rowsOf(l design.Listed) []string {
	var out []string
	if l.Table != nil {
		for _, row := range l.Table.Rows {
			out = append(out, cells(l.Table.Columns, row))
		}
	}
	return out
}

func rowChanges(path, label string, old, now []string) []InputChange {
	var out []InputChange
	at := func(rows []string, i int) string {
		if i < len(rows) {
			return rows[i]
		}
		return "-"
	}
	for i := range max(len(old), len(now)) {
		if o, n := at(old, i), at(now, i); o != n {
			out = append(out, InputChange{Path: fmt.Sprintf("%s[%d]", path, i), Label: fmt.Sprintf("%s, row %d", label, i+1), Old: o, New: n})
		}
	}
	return out
}

func byKey(fs []figure.Figure) map[string]figure.Figure {
	out := make(map[string]figure.Figure, len(fs))
	for _, f := range fs {
		out[f.Key] = f
	}
	return out
}
