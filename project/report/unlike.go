package report

import (
	"fmt"
	"slices"

	"costrel/project/run"
	"costrel/unit"
)

// wallMark stands in the place of a difference between a value of a preview
// wall and one of a blown wall; wallMarkShort where a table has little room.
const (
	wallMark      = "preview beside blown wall"
	wallMarkShort = "preview/blown"
)

// otherwise takes the difference out of the rows whose figure the two designs
// count from different references: the numbers are two quantities.
func otherwise(d *Difference, baseline, variant *run.Result) {
	told := ""
	from := func(key string) (mark, why string) {
		a, longA := run.CountsFrom(baseline.Doc.Design, key)
		b, longB := run.CountsFrom(variant.Doc.Design, key)
		if a == b {
			return "", ""
		}
		told = fmt.Sprintf("the baseline counts the loss of carbonation from %s, the design as it stands from %s", longA, longB)
		return a + " beside " + b, "no difference counted: " + told + "; set shelf.loss_reference alike in both"
	}
	d.exclude(from)
	if told != "" {
		d.Problems = append(d.Problems, told+": no difference of it is counted; set shelf.loss_reference alike in both")
	}
}

// exclude takes the difference out of every row whose figure has a reason, and
// writes its mark and the reason there; such rows stand behind the others.
func (d *Difference) exclude(reason func(key string) (mark, why string)) {
	for i := range d.Margins {
		m := &d.Margins[i]
		if m.LostDisplay == "" {
			continue
		}
		if mark, why := reason(m.Figure); mark != "" {
			m.UnlikeMark, m.Unlike = mark, why
			m.Lost, m.LostPercent, m.LostDisplay, m.PerGram, m.HasPerGram, m.Margin.Change = 0, 0, "", 0, false, nil
		}
	}
	for i := range d.Figures {
		f := &d.Figures[i]
		if f.ChangeDisplay == "" {
			continue
		}
		if mark, why := reason(f.Key); mark != "" {
			f.UnlikeMark, f.Unlike = mark, why
			f.Change, f.Percent, f.ChangeDisplay, f.Numbers.Change = 0, 0, "", nil
		}
	}
	last(d)
}

// last puts the margins that count no difference behind the others.
func last(d *Difference) {
	counts := func(m MarginChange) int {
		if m.Unlike != "" {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(d.Margins, func(a, b MarginChange) int { return counts(a) - counts(b) })
}

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
	for i := range d.Margins {
		d.Margins[i].PerGram, d.Margins[i].HasPerGram = 0, false
	}
	d.exclude(func(key string) (string, string) {
		if baseline.RestsOnWall(key) || variant.RestsOnWall(key) {
			return wallMark, row
		}
		return "", ""
	})
}
