package quality

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Change is one line on which two boards differ.
type Change struct {
	Figure string   `json:"figure"`
	Side   Side     `json:"side"`
	Owner  string   `json:"owner"`
	Old    *Verdict `json:"old"`  // nil where only the new board has the limit
	New    *Verdict `json:"new"`  // nil where only the old board has it
	What   []string `json:"what"` // of: limit, verdict, margin, band
	// Lost is the margin lost from old to new, SI, and LostPercent the same in
	// per cent of the limit. Both are zero where HasLost or HasPercent is false.
	Lost        float64 `json:"lost"`
	HasLost     bool    `json:"has_lost"`
	LostPercent float64 `json:"lost_percent"`
	HasPercent  bool    `json:"has_percent"`
	// PerGram is LostPercent for each gram saved: the price in margin of the
	// saving. Known only where mass was saved.
	PerGram    float64 `json:"per_gram"`
	HasPerGram bool    `json:"has_per_gram"`
}

// Difference is what differs between two boards.
type Difference struct {
	Saved   float64  `json:"saved"` // mass saved from old to new [kg]; negative when the new one is heavier
	Changes []Change `json:"changes"`
}

// Diff returns what differs between two boards: only the limits whose value,
// verdict or margin changed by more than rounding. Lines that lose margin stand
// before those that gain, the one that loses most of its limit first, which is
// the most per gram saved, too. Where mass was saved, losses without a price (the
// limit moved) stand behind those with one. Lines that became worse without a
// margin to compare stand before all others, lines that became no worse without
// one behind, and lines on which one board computes nothing last.
// Masses are of the pack or preform that was lightened [kg], > 0.
func Diff(older, newer Board, massOld, massNew float64) (Difference, error) {
	if !(massOld > 0) || !(massNew > 0) || math.IsInf(massOld, 0) || math.IsInf(massNew, 0) {
		return Difference{}, fmt.Errorf("quality: difference: masses %g kg and %g kg must be above 0", massOld, massNew)
	}
	out := Difference{Saved: massOld - massNew}
	used := make([]bool, len(newer))
	pairs := make([]*Verdict, len(older))
	// The same limit first; what is left is the same figure under a new owner.
	for _, same := range []func(a, b Limit) bool{sameLimit, sameFigure} {
		for i := range older {
			for j := range newer {
				if pairs[i] == nil && !used[j] && same(older[i].Limit, newer[j].Limit) {
					used[j] = true
					v := newer[j]
					pairs[i] = &v
				}
			}
		}
	}
	for i := range older {
		o, n := older[i], pairs[i]
		if c, changed := change(&o, n, out.Saved); changed {
			out.Changes = append(out.Changes, c)
		}
	}
	for j := range newer {
		if !used[j] {
			v := newer[j]
			c, _ := change(nil, &v, out.Saved)
			out.Changes = append(out.Changes, c)
		}
	}
	slices.SortStableFunc(out.Changes, func(a, b Change) int {
		if c := cmp.Compare(a.class(), b.class()); c != 0 {
			return c
		}
		return cmp.Compare(b.relative(), a.relative())
	})
	return out, nil
}

func sameLimit(a, b Limit) bool { return sameFigure(a, b) && a.Owner == b.Owner }

func sameFigure(a, b Limit) bool { return a.Figure == b.Figure && a.Side == b.Side }

// relative returns the margin lost in per cent of the limit, each margin of its
// own where the limit moved.
func (c Change) relative() float64 {
	switch {
	case c.HasPercent:
		return c.LostPercent
	case c.HasLost && c.Old.HasPercent && c.New.HasPercent:
		return c.Old.Percent - c.New.Percent
	}
	return 0
}

// class orders the lines: worse without a margin, lost with a price, lost without
// one, gained, the rest, not computed.
func (c Change) class() int {
	missing := func(v *Verdict) bool { return v != nil && !v.Computed() }
	switch {
	case c.HasLost && c.Lost > 0 && c.HasPerGram:
		return 1
	case c.HasLost && c.Lost > 0:
		return 2
	case c.HasLost:
		return 3
	case missing(c.Old) || missing(c.New):
		return 5
	case c.Old != nil && c.New != nil && c.New.Word.rank() < c.Old.Word.rank(),
		c.Old == nil && (c.New.Word == Fail || c.New.Word == Close):
		return 0
	}
	return 4
}

func change(o, n *Verdict, saved float64) (Change, bool) {
	c := Change{Old: o, New: n}
	if o == nil || n == nil {
		one := o
		if one == nil {
			one = n
		}
		c.Figure, c.Side, c.Owner = one.Limit.Figure, one.Limit.Side, one.Limit.Owner
		c.What = []string{"limit"}
		return c, true
	}
	c.Figure, c.Side, c.Owner = n.Limit.Figure, n.Limit.Side, n.Limit.Owner
	scale := math.Max(math.Abs(o.Limit.Value), math.Max(math.Abs(o.Margin), math.Abs(n.Margin)))
	differ := func(a, b float64) bool { return math.Abs(a-b) > 1e-9*scale }
	moved := differ(o.Limit.Value, n.Limit.Value) || o.Limit.Kind != n.Limit.Kind
	if moved || o.Limit.Owner != n.Limit.Owner {
		c.What = append(c.What, "limit")
	}
	if o.Word != n.Word {
		c.What = append(c.What, "verdict")
	}
	if o.Computed() && n.Computed() && o.Limit.Kind == n.Limit.Kind {
		if differ(o.Margin, n.Margin) {
			c.What = append(c.What, "margin")
		}
		if differ(o.BandMargin, n.BandMargin) {
			c.What = append(c.What, "band")
		}
		c.Lost, c.HasLost = o.Margin-n.Margin, true
		// A limit that moved takes the margin with it: no price of the saving.
		if o.HasPercent && n.HasPercent && !moved {
			c.LostPercent, c.HasPercent = o.Percent-n.Percent, true
			if grams := saved * 1e3; grams > 1e-6 {
				c.PerGram, c.HasPerGram = c.LostPercent/grams, true
			}
		}
	}
	return c, c.What != nil
}
