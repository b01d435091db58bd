// Package verify gathers the published checks of every package into one
// table, and holds whole-chain cases.
package verify

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"costrel/cite"
)

// Row is one check as run by this program, with its numbers as text.
type Row struct {
	ID            string  `json:"id"`
	Case          string  `json:"case"`
	Source        string  `json:"source"`
	Reference     string  `json:"reference"`
	Unit          string  `json:"unit"` // empty for a pure number
	Ours          float64 `json:"ours"`
	Published     float64 `json:"published"`
	Allowed       float64 `json:"allowed"`
	Relative      bool    `json:"relative"`
	Deviation     float64 `json:"deviation"`
	OursText      string  `json:"ours_text"`
	PublishedText string  `json:"published_text"`
	AllowedText   string  `json:"allowed_text"`
	OK            bool    `json:"ok"`
	Mark          string  `json:"mark"`
	Note          string  `json:"note,omitempty"`
	Known         string  `json:"known,omitempty"`
	Barrier       int     `json:"barrier,omitempty"` // number in the list of the barrier chapter, see [Barrier]
	Anchor        int     `json:"anchor,omitempty"`  // number in the list of the anchors, see [Anchors]
}

// Run runs every check whose id begins with prefix, or that stands under it in a
// list: B21 in that of the barrier chapter, J5 among the anchors, B and J for all
// of a list. Sorted by id; of a list by number.
func Run(prefix string) []Row {
	var out []Row
	number, anchor := numbers(Barrier()), numbers(Anchors())
	under := func(id string) bool {
		for list, n := range map[string]int{"B": number[id], "J": anchor[id]} {
			if n > 0 && (prefix == list || prefix == list+strconv.Itoa(n)) {
				return true
			}
		}
		return false
	}
	for _, c := range Checks() {
		if !strings.HasPrefix(c.ID, prefix) && !under(c.ID) {
			continue
		}
		r := c.Run()
		row := Row{
			ID: c.ID, Case: c.Case, Source: c.Source, Unit: c.Unit, Ours: r.Value, Published: c.Published, Allowed: c.Allowed,
			Relative: c.Relative, Deviation: r.Deviation, OK: r.OK, Mark: string(c.Mark), Note: c.Note, Known: c.Known,
			Barrier: number[c.ID], Anchor: anchor[c.ID],
			OursText: ours(r), PublishedText: text(c.Published, 6), AllowedText: "± " + text(c.Allowed, 3),
		}
		if row.Unit == "1" {
			row.Unit = "" // read "1.7", not "1.7 1"
		}
		if c.Relative {
			row.AllowedText = "± " + text(100*c.Allowed, 3) + " %"
		}
		if s, ok := cite.Lookup(c.Source); ok {
			row.Reference = s.String()
		}
		out = append(out, row)
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		switch {
		case prefix == "B" && a.Barrier != b.Barrier:
			return a.Barrier < b.Barrier
		case prefix == "J" && a.Anchor != b.Anchor:
			return a.Anchor < b.Anchor
		}
		return a.ID < b.ID
	})
	return out
}

// ours writes our value with the digits that its check asks for: the last is at
// most a tenth of the allowed deviation, three at least and six at most, and what
// is read agrees or deviates as the value itself does.
func ours(r cite.Result) string {
	allowed := r.Allowed
	if r.Relative {
		allowed *= math.Abs(r.Published)
	}
	const least, most = 3, 6
	if r.Value == 0 {
		return "0"
	}
	for digits := least; digits < most; digits++ {
		s := text(r.Value, digits)
		v, _ := strconv.ParseFloat(s, 64)
		last := math.Pow10(int(math.Floor(math.Log10(math.Abs(r.Value)))) + 1 - digits)
		if (last <= allowed/10 || v == r.Value) && (math.Abs(v-r.Published) <= allowed*(1+1e-9)) == r.OK {
			return s
		}
	}
	return text(r.Value, most)
}

func text(x float64, digits int) string { return strconv.FormatFloat(x, 'g', digits, 64) }
