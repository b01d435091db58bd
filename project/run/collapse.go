package run

import (
	"fmt"

	"costrel/figure"
	"costrel/quality"
	"costrel/unit"
)

// rigidWall marks the vacuum of a pack that was filled cold: nothing says what
// its wall gives inward.
const rigidWall = quality.EstimatePrefix + ": an upper bound: the wall is taken as rigid inward, so that it gives no volume; a thin wall moves in, and the vacuum stays below this"

// vacuums are the figures of a vacuum in the pack.
var vacuums = []string{"hotfill.vacuum", "hotfill.vacuum.settled", "shelf.vacuum.max"}

// collapseOf warns of a vacuum in the pack at which its round wall collapses, or
// may, by their bands: at the vacuum and at the collapse.
func collapseOf(figures []figure.Figure) {
	at := map[string]*figure.Figure{}
	for i := range figures {
		at[figures[i].Key] = &figures[i]
	}
	c := at["vacuum.collapse"]
	if c == nil {
		return
	}
	shown := func(v float64) string { return unit.Quote(unit.PressureChange, v, 3, "kPa", "inHg") }
	for _, key := range vacuums {
		f := at[key]
		if f == nil || !(f.Value > 0) {
			continue
		}
		word := ""
		switch {
		case f.Value >= c.Value:
			word = "the empty bottle collapses at"
		case f.Hi >= c.Lo:
			word = "by the bands it may collapse: the empty bottle does at"
		default:
			continue
		}
		w := fmt.Sprintf("%s: a vacuum of %s (%s) in the pack, and %s %s (vacuum.collapse): the wall goes in until what it gives has taken the vacuum away; look for panels, a stiffer wall, less headspace or a dose of nitrogen", quality.EstimatePrefix, shown(f.Value), key, word, shown(c.Value))
		note(f, w)
		note(c, w)
	}
}
