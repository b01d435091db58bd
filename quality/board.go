package quality

import (
	"cmp"
	"slices"

	"costrel/figure"
)

// Board is a list of verdicts.
type Board []Verdict

// Judge returns the verdicts of the figures on the limits, worst first.
// missing tells for the key of a figure why it was not computed.
func Judge(limits []Limit, figures []figure.Figure, missing map[string]string) Board {
	byKey := make(map[string]figure.Figure, len(figures))
	for _, f := range figures {
		byKey[f.Key] = f
	}
	out := make(Board, 0, len(limits))
	for _, l := range limits {
		if f, ok := byKey[l.Figure]; ok {
			out = append(out, Of(l, f))
		} else {
			out = append(out, NotComputedBecause(l, missing[l.Figure]))
		}
	}
	return out.Sorted()
}

// Sorted returns the board worst first: fail, close, not shown, not computed,
// pass; within a word by the margin in per cent of the limit, smallest first,
// lines without a per cent behind the others. The order of equals is kept.
func (b Board) Sorted() Board {
	out := slices.Clone(b)
	slices.SortStableFunc(out, func(x, y Verdict) int {
		if c := cmp.Compare(x.Word.rank(), y.Word.rank()); c != 0 {
			return c
		}
		if x.HasPercent != y.HasPercent {
			if x.HasPercent {
				return -1
			}
			return 1
		}
		return cmp.Compare(x.Percent, y.Percent)
	})
	return out
}

// Count returns how many lines of the board have the word.
func (b Board) Count(w Word) int {
	n := 0
	for _, v := range b {
		if v.Word == w {
			n++
		}
	}
	return n
}
