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
// may, by their bands: at the vacuum and at the collapse. A hot-filled pack has
// panels for it, of which the round wall knows little: there it is a remark.
func collapseOf(figures []figure.Figure, panels bool) {
	at := map[string]*figure.Figure{}
	for i := range figures {
		at[figures[i].Key] = &figures[i]
	}
	c := at["vacuum.collapse"]
	if c == nil {
		return
	}
	var met []*figure.Figure
	var deepest *figure.Figure
	for _, key := range vacuums {
		f := at[key]
		if f == nil || !(f.Value > 0) || f.Value < c.Value && f.Hi < c.Lo {
			continue
		}
		met = append(met, f)
		if deepest == nil || f.Value > deepest.Value {
			deepest = f
		}
	}
	if deepest == nil {
		return
	}
	shown := func(v float64) string { return unit.Quote(unit.PressureChange, v, 3, "kPa", "inHg") }
	w := fmt.Sprintf("a vacuum of %s (%s) in the pack, and the empty round bottle collapses at %s (vacuum.collapse)", shown(deepest.Value), deepest.Key, shown(c.Value))
	if deepest.Value < c.Value {
		w += ", which the bands of both let it reach"
	}
	if panels {
		w += ": the panels and ribs of the real bottle must carry what is beyond; the virtual test has them averaged round the axis"
	} else {
		w = quality.EstimatePrefix + ": " + w + ": the wall goes in until what it gives has taken the vacuum away; look for a stiffer wall, ribs, less headspace or a dose of nitrogen"
	}
	for _, f := range append(met, c) {
		note(f, w)
	}
}
