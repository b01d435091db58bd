package profile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"costrel/figure"
	"costrel/project/design"
	"costrel/unit"
)

// Into returns a design document with the profile put in, and what else was
// changed for it, in words. The push-up and the standing diameter follow a
// drawing that shows them, where the base of the design is round; height and
// diameters that the document gives against the profile go back to it. The
// document is not judged: [design.Load] does that.
func (p *Profile) Into(file, text string) (out string, changes []string, err error) {
	doc, err := design.Load(file, text)
	if err != nil {
		return "", nil, err
	}
	rows := p.Rows
	base := doc.Design.Bottle.Base
	say := func(format string, args ...any) { changes = append(changes, fmt.Sprintf(format, args...)) }
	set := func(path, value string) {
		if err == nil {
			text, err = design.Set(text, path, value)
		}
	}
	switch base.Type {
	case "hemisphere":
		if rows, err = p.over(base.Height); err != nil {
			return "", nil, err
		}
		say("The cap of the hemisphere closes the profile below %s.", mm(rows[0].Z))
	case "petaloid":
		say("A petaloid base is computed as its outline averaged round the feet; a section through a foot or a valley is taken as it is drawn.")
	default:
		set("bottle.base.standing_diameter", mm(p.Standing()))
		say("The standing diameter is %s.", mm(p.Standing()))
		if len(p.Inside) > 0 {
			set("bottle.base.push_up", mm(p.PushUp))
			say("The push-up is %s; the base inside the standing ring is an arc, at most %s off the drawn one.", mm(p.PushUp), mm(p.offArc()))
		}
	}
	set("bottle.profile", Table(rows).TSV())
	for _, path := range []string{"bottle.height", "bottle.diameter", "bottle.panel_diameter"} {
		if doc.Marks[path].Kind == figure.Given {
			set(path, "")
			say("The %s follows the profile.", strings.ReplaceAll(strings.TrimPrefix(path, "bottle."), "_", " "))
		}
	}
	if err != nil {
		return "", nil, fmt.Errorf("profile: %w", err)
	}
	return text, changes, nil
}

// Table returns rows of a profile as the document writes them, in mm.
func Table(rows []design.ProfileRow) design.ListedTable {
	t := design.ListedTable{Columns: []string{"z mm", "r mm"}}
	via := false
	for _, w := range rows {
		via = via || w.Via != ""
	}
	if via {
		t.Columns = append(t.Columns, "via")
	}
	for _, w := range rows {
		row := []string{short(w.Z*1e3, 6), short(w.R*1e3, 6)}
		if via {
			row = append(row, w.Via)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// over returns the rows above the cap of a hemisphere.
func (p *Profile) over(height float64) ([]design.ProfileRow, error) {
	for i, w := range p.Rows {
		if w.Z < height-1e-9 {
			continue
		}
		rows := append([]design.ProfileRow(nil), p.Rows[i:]...)
		rows[0].Via = ""
		return rows, nil
	}
	return nil, fmt.Errorf("profile: it ends at %s, below the cap of the hemisphere of %s: correct bottle.base.height", mm(p.Rows[len(p.Rows)-1].Z), mm(height))
}

// offArc returns how far the drawn base lies off the arc of the push-up [m].
func (p *Profile) offArc() float64 {
	r, h := p.Rows[0].R, p.PushUp
	worst := 0.0
	for _, q := range p.Inside {
		z := 0.0
		if h > 1e-9 {
			radius := (r*r + h*h) / (2 * h)
			z = h - radius + math.Sqrt(math.Max(0, radius*radius-q.R*q.R))
		}
		worst = math.Max(worst, math.Abs(q.Z-z))
	}
	return worst
}

func mm(v float64) string { return unit.Format(unit.Length, v, "mm", 4) }

// short writes a number with at most the given significant digits, four
// decimals at most.
func short(v float64, digits int) string {
	decimals := 4
	if v != 0 {
		decimals = min(max(digits-1-int(math.Floor(math.Log10(math.Abs(v)))), 0), 4)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
