package design

import (
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"costrel/figure"
	"costrel/project/design/yaml"
	"costrel/unit"
)

// Draft returns the text of a new design of a pack class from a few answers by
// path, such as "name", "brief.nominal": "1.25 L", "drink.carbonation",
// "drink.fill_temperature", "brief.shelf_life", "bottle.height" or
// "bottle.diameter". Any single value of the document may be answered.
//
// The text holds the answers and, where the nominal volume, the height or the
// diameter is another than the template's, the main dimensions that follow:
// the bottle keeps the proportions of the template, and its brimful capacity
// the template's share of headspace; the preform keeps its stretch ratios.
// Dimensions are whole millimetres (a diameter sought for a given height:
// tenths). Height and diameter together leave nothing to fit; they are
// accepted when the headspace then is 0.3 to 3 times the template's share.
//
// An answer that is no value of its field, and one with which no design can be
// drafted, is an [*AnswerFault], all of them joined; the latter names the
// nearest that works.
func Draft(class string, answers map[string]string) (string, error) {
	if _, err := Template(class); err != nil {
		return "", err
	}
	w, text, err := newDraft(class, answers)
	switch {
	case err != nil && (w == nil || w.unread):
		return "", fmt.Errorf("design: draft: %w", err)
	case err != nil:
		return "", fmt.Errorf("design: draft: %w", blame(class, answers, err))
	}
	return text, nil
}

// newDraft makes one draft and its text.
func newDraft(class string, answers map[string]string) (*draft, string, error) {
	name := strings.TrimSpace(answers["name"])
	if name == "" {
		name = "New " + class
	}
	from, err := Load("", "schema: 1\nname: x\nclass: "+class+"\n")
	if err != nil {
		return nil, "", fmt.Errorf("template %s: %w", class, err)
	}
	w := &draft{class: class, name: name, from: from, to: from.Design.Clone(), text: map[string]string{}}
	if err := w.read(answers); err != nil {
		w.unread = true
		return w, "", err
	}
	if w.resized() {
		if err := w.fit(); err != nil {
			return w, "", err
		}
	}
	text := w.write()
	_, err = Load("draft", text)
	return w, text, err
}

// draft is a design in the making.
type draft struct {
	class, name string
	from        *Document         // the template
	to          *Design           // the template with the answers
	text        map[string]string // what is written, by path
	limits      []Limit           // limits that follow the size
	share       float64           // headspace over nominal volume
	unread      bool              // an answer is no value of its field
}

// read takes the answers over; every fault is told.
func (w *draft) read(answers map[string]string) error {
	var faults []error
	for _, path := range slices.Sorted(maps.Keys(answers)) {
		answer := strings.TrimSpace(answers[path])
		if answer == "" || path == "name" {
			continue
		}
		it, ok := Lookup(path)
		switch {
		case !ok:
			faults = append(faults, fmt.Errorf("%s: %w", clip(path), unknownPath(path)))
			continue
		case it.Table || path == "schema" || path == "class":
			faults = append(faults, errors.New(path+": not a value that is asked for"))
			continue
		}
		d := &decoder{kind: figure.Given, marks: maps.Clone(w.from.Marks)}
		v := reflect.New(it.Field.typ)
		d.value(&yaml.Node{Kind: yaml.Scalar, Text: answer}, v.Elem(), it.Field, path)
		if len(d.faults) > 0 {
			f := d.faults[0]
			faults = append(faults, &AnswerFault{Path: path, Text: answer, Message: f.Message, Expected: f.Expected})
			continue
		}
		w.text[path] = answer
		w.to.place(path, v.Elem())
	}
	return errors.Join(faults...)
}

// place puts a value at a path of the design.
func (d *Design) place(path string, v reflect.Value) {
	at := reflect.ValueOf(d).Elem()
	for _, key := range splitPath(path) {
		if at.Kind() == reflect.Pointer {
			if at.IsNil() {
				at.Set(reflect.New(at.Type().Elem()))
			}
			at = at.Elem()
		}
		at = at.Field(schemaOf(at.Type()).byKey[key])
	}
	at.Set(v)
}

func (w *draft) resized() bool {
	a, b := w.from.Design, w.to
	return a.Brief.Nominal != b.Brief.Nominal || a.Bottle.Height != b.Bottle.Height || a.Bottle.Diameter != b.Bottle.Diameter
}

// write returns the document: the answers and what follows from them, in the
// order of the schema.
func (w *draft) write() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Drafted from the pack class %s. Only what differs from its template is\n# written; costrel check FILE --resolved prints every value. Starting values of the trade.\n", w.class)
	fmt.Fprintf(&b, "schema: %d\nname: %s\nclass: %s\n", Schema, quote(w.name, false), w.class)
	if note := DraftWarning(w.class, w.to.Brief.Nominal); note != "" {
		fmt.Fprintf(&b, "# Beware: %s.\n", note)
	}
	section, group := "", ""
	for _, it := range Walk() {
		value, ok := w.text[it.Path]
		if !ok {
			continue
		}
		parts := splitPath(it.Path)
		if len(parts) == 1 {
			fmt.Fprintf(&b, "%s: %s\n", parts[0], quote(value, false))
			continue
		}
		if parts[0] != section {
			section = parts[0]
			group = section
			fmt.Fprintf(&b, "\n%s:%s\n", section, w.remark(section))
		}
		if it.Group != group {
			group = it.Group
			if len(parts) == 3 {
				fmt.Fprintf(&b, "  %s:\n", parts[1])
			}
		}
		pad := strings.Repeat("  ", len(parts)-1)
		if it.Table {
			fmt.Fprintf(&b, "%s%s: %s\n", pad, parts[len(parts)-1], value)
		} else {
			fmt.Fprintf(&b, "%s%s: %s\n", pad, parts[len(parts)-1], quote(value, false))
		}
	}
	if len(w.limits) > 0 {
		b.WriteString("\nlimits: # volumes of the template in proportion; the others hold as they are\n")
		for _, l := range w.limits {
			fmt.Fprintf(&b, "  - {figure: %s, side: %s, value: %s, owner: %s, source: %s, note: %s}\n", l.Figure, l.Side, doubleQuote(l.Value), quote(l.Owner, true), quote(l.Source, true), doubleQuote(l.Note))
		}
	}
	return b.String()
}

// remark says behind a section why its values are what they are.
func (w *draft) remark(section string) string {
	switch {
	case !w.resized():
	case section == "bottle":
		return fmt.Sprintf(" # in the proportions of the template; %s headspace", unit.Format(unit.Fraction, w.share, "%", 2))
	case section == "preform":
		return " # with the stretch ratios of the template"
	}
	return ""
}
