package design

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"costrel/figure"
	"costrel/unit"
)

// Reshape returns the document with a main dimension changed, and a profile
// that the document gives changed along with it: without that the two would
// contradict each other. A new height lengthens the straight wall in the middle
// of the panel and moves what stands above; a new body diameter widens the base
// in proportion and the shoulder towards the neck; a new panel diameter moves
// the wall of the panel. Any other path, and a profile that is drawn from the
// main dimensions, is left to [Set].
//
// It fails where the change would bend an arc of the profile, and where the
// wall that a new height is to lengthen is not straight.
func Reshape(text, path, value string) (string, error) {
	doc, err := Load("", text)
	main := path == "bottle.height" || path == "bottle.diameter" || path == "bottle.panel_diameter"
	if err != nil || !main || doc.Marks["bottle.profile"].Kind != figure.Given || value == "" {
		return Set(text, path, value)
	}
	q, err := unit.Parse(unit.Length, value)
	if err != nil {
		return "", fmt.Errorf("design: reshape %s: %w", path, err)
	}
	r := &reshaping{doc: doc, text: text, rows: append([]ProfileRow(nil), doc.Design.Bottle.Profile...)}
	switch path {
	case "bottle.height":
		err = r.height(q.SI)
	case "bottle.diameter":
		err = r.diameter(q.SI)
	default:
		err = r.panel(q.SI)
	}
	if err == nil {
		err = r.write(path, value)
	}
	if err != nil {
		return "", fmt.Errorf("design: reshape %s: %w", path, err)
	}
	return r.text, nil
}

// reshaping is one change of a given profile.
type reshaping struct {
	doc  *Document
	text string
	rows []ProfileRow
	more [][2]string // paths and values that move along
}

// middle returns the height at which the panel is lengthened [m].
func (r *reshaping) middle() float64 {
	b := r.doc.Design.Bottle
	return (b.PanelFrom + b.PanelTo) / 2
}

func (r *reshaping) height(to float64) error {
	b := r.doc.Design.Bottle
	by, at := to-b.Height, r.middle()
	straight := false
	for i := 1; i < len(r.rows); i++ {
		if p, q := r.rows[i-1], r.rows[i]; p.Z <= at && at < q.Z {
			straight = math.Abs(p.R-q.R) < 1e-7 && (q.Via == "" || q.Via == "line") && q.Z+by > p.Z
		}
	}
	if !straight {
		return fmt.Errorf("the wall at %s, in the middle of the panel, is not a straight one that can take %s: change the rows of bottle.profile", mmText(at), mmText(by))
	}
	for i := range r.rows {
		if r.rows[i].Z > at {
			r.rows[i].Z += by
		}
	}
	move := func(path string, z float64) {
		if z > at && r.given(path) {
			r.more = append(r.more, [2]string{path, mmText(z + by)})
		}
	}
	move("bottle.panel_to", b.PanelTo)
	for i, z := range b.Planes {
		move("bottle.planes["+strconv.Itoa(i)+"]", z)
	}
	for i, z := range b.Parts {
		move("bottle.parts["+strconv.Itoa(i)+"]", z)
	}
	if t := r.doc.Design.Preform.Targets; t != nil {
		for i, z := range t.Planes {
			move("preform.section_targets.planes["+strconv.Itoa(i)+"]", z)
		}
	}
	return nil
}

func (r *reshaping) diameter(to float64) error {
	b := r.doc.Design.Bottle
	from, at := b.Diameter/2, r.middle()
	neck := r.rows[len(r.rows)-1].R
	if from-neck < 1e-6 || to/2 <= neck {
		return fmt.Errorf("the neck of the profile has a diameter of %s: take more", mmText(2*neck))
	}
	for i := range r.rows {
		w := &r.rows[i]
		if strings.HasPrefix(w.Via, "arc") {
			return errArc
		}
		if w.Z <= at {
			w.R *= to / 2 / from
		} else if w.R > neck {
			w.R = neck + (w.R-neck)*(to/2-neck)/(from-neck)
		}
	}
	if r.given("bottle.panel_diameter") {
		r.more = append(r.more, [2]string{"bottle.panel_diameter", ""})
	}
	if r.given("bottle.base.standing_diameter") {
		r.more = append(r.more, [2]string{"bottle.base.standing_diameter", mmText(b.Base.Standing * to / 2 / from)})
	}
	return nil
}

func (r *reshaping) panel(to float64) error {
	b := r.doc.Design.Bottle
	moved := false
	for i := range r.rows {
		if w := &r.rows[i]; math.Abs(w.R-b.PanelDiameter/2) < 1e-6 && w.Z >= b.PanelFrom-1e-6 && w.Z <= b.PanelTo+1e-6 {
			if strings.HasPrefix(w.Via, "arc") {
				return errArc
			}
			w.R, moved = to/2, true
		}
	}
	if !moved {
		return fmt.Errorf("no row of the profile between %s and %s has the panel diameter: change the rows of bottle.profile", mmText(b.PanelFrom), mmText(b.PanelTo))
	}
	return nil
}

var errArc = errors.New("the profile has arcs, which the change would bend: change the rows of bottle.profile, or import a new outline")

func (r *reshaping) given(path string) bool {
	if strings.HasSuffix(path, "]") {
		path = path[:strings.IndexByte(path, '[')]
	}
	return r.doc.Marks[path].Kind == figure.Given
}

// write puts rows and dimensions into the document.
func (r *reshaping) write(path, value string) error {
	columns, cells := r.doc.written("bottle.profile")
	for j, f := range fieldsOf(reflect.TypeOf(ProfileRow{})) {
		_, symbol, _ := strings.Cut(columns[j], " ")
		u, ok := unit.Find(f.Kind, symbol)
		if !ok {
			continue
		}
		for i := range cells {
			now, was := r.rows[i].R, r.doc.Design.Bottle.Profile[i].R
			if f.Key == "z" {
				now, was = r.rows[i].Z, r.doc.Design.Bottle.Profile[i].Z
			}
			if now != was {
				cells[i][j] = digits(now/u.Scale, 6)
			}
		}
	}
	all := append([][2]string{{"bottle.profile", ListedTable{columns, cells}.TSV()}}, r.more...)
	if r.given(path) {
		all = append(all, [2]string{path, value})
	}
	for _, x := range all {
		var err error
		if r.text, err = Set(r.text, x[0], x[1]); err != nil {
			return err
		}
	}
	return nil
}
