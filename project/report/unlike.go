package report

import (
	"fmt"
	"slices"

	"costrel/project/run"
	"costrel/unit"
)

// unlikeMark stands in the place of a difference between a value of a preview
// wall and one of a blown wall.
const unlikeMark = "preview/blown"

// unlike takes the difference out of every row that holds a value of a preview
// wall against one of a blown wall, and says so in the row; such rows stand
// behind the others. Nothing counts as gained or lost for a gram then, also not in
// the rows that do not rest on the wall: the walls are not compared.
func unlike(d *Difference, baseline, variant *run.Result, sys unit.System) {
	if baseline.Blown() == variant.Blown() {
		return
	}
	preview, which, both := variant, "the design as it stands", "the baseline blown, the design as it stands a preview"
	if variant.Blown() {
		preview, which, both = baseline, "the baseline", "the baseline a preview, the design as it stands blown"
	}
	todo, why := "run both in full", ""
	if s := preview.Broken("blow"); s != "" {
		todo, why = "mend the blow of "+which+" and run both in full", " ("+unit.Spell(s, sys)+")"
	}
	d.Problems = append([]string{fmt.Sprintf("the wall of %s is the draw-down preview, the other is blown: what differs by the wall is no gain or loss%s; %s", which, why, todo)}, d.Problems...)
	row := fmt.Sprintf("no difference counted: one wall is a preview, the other blown (%s); %s", both, todo)
	onWall := func(key string) bool { return baseline.RestsOnWall(key) || variant.RestsOnWall(key) }
	for i := range d.Margins {
		m := &d.Margins[i]
		m.PerGram, m.HasPerGram = 0, false
		if m.LostDisplay != "" && onWall(m.Figure) {
			m.Unlike, m.Lost, m.LostPercent, m.LostDisplay = row, 0, 0, ""
		}
	}
	for i := range d.Figures {
		f := &d.Figures[i]
		if f.ChangeDisplay != "" && onWall(f.Key) {
			f.Unlike, f.Change, f.Percent, f.ChangeDisplay = row, 0, 0, ""
		}
	}
	slices.SortStableFunc(d.Margins, func(a, b MarginChange) int { return len(a.Unlike) - len(b.Unlike) })
}
