package design

import (
	"fmt"
	"reflect"

	"costrel/figure"
	"costrel/project/design/yaml"
)

// Document is a design as read: the text, the resolved values, where each
// value comes from, and what a reader should be warned about.
type Document struct {
	File     string
	Text     string
	Design   *Design
	Marks    map[string]Mark // by path
	Warnings Faults          // accepted, but worth a look
}

// Load reads a design document. file is only used in messages. On error the
// returned error is a [Faults] with every fault of the document; the Document
// is then nil.
func Load(file, text string) (*Document, error) {
	d := &decoder{file: file, text: text, kind: figure.Given}
	root := d.parse()
	if root != nil && root.Kind != yaml.Mapping && root.Kind != yaml.Bad {
		d.fault(root, "", "key: value lines", "a design is a mapping, this is %s", root.What())
	}
	if root == nil || root.Kind != yaml.Mapping {
		return nil, placed(d.faults, text)
	}
	class, _ := root.Get("class")
	from := "csd-1500" // the fault of the class itself is reported below
	if class != nil && indexOf(Classes(), class.Text) >= 0 {
		from = class.Text
	}
	b, err := baseOf(from)
	if err != nil {
		return nil, Faults{{File: file, Message: err.Error()}}
	}
	doc := &Document{File: file, Text: text, Design: b.design, Marks: b.marks}
	limits, limitMarks := doc.Design.Limits, map[string]Mark{}
	for i := range limits {
		for _, k := range limitKeys {
			at := fmt.Sprintf("limits[%d].%s", i, k)
			if m, ok := b.marks[at]; ok {
				limitMarks[at] = m
			}
		}
	}
	d.marks, d.template = doc.Marks, templateMarks(from)
	d.mapping(root, reflect.ValueOf(doc.Design).Elem(), "")
	d.head(root, doc)
	given, _ := root.Get("limits")
	if given != nil {
		d.doubles(doc.Design.Limits)
	}
	doc.mergeLimits(limits, limitMarks, given != nil)
	if len(d.faults) > 0 {
		return nil, placed(append(d.faults, doc.alone(d)...), text)
	}
	doc.Warnings = append(doc.Warnings, d.warnings...)
	doc.resolve()
	if f := doc.check(); len(f) > 0 {
		return nil, placed(f, text)
	}
	doc.complete()
	doc.Warnings = placed(doc.Warnings, text)
	return doc, nil
}

// alone returns the faults of single values that only [Document.check] knows,
// for a document that has others: names of cards and figures, and the kinds of
// limits. Values that contradict each other wait until each is readable.
func (doc *Document) alone(d *decoder) Faults {
	var out Faults
	told := map[string]bool{}
	for _, f := range d.faults {
		told[f.Path] = true
	}
	add := func(path, expected, format string, args ...any) {
		if doc.Marks[path].Kind == figure.Given && !told[path] {
			out = append(out, doc.place(path, expected, format, args...))
		}
	}
	doc.checkCards(add)
	doc.checkLimits(add, func(string, string, string, ...any) {})
	return out
}

// head checks the keys that every design has.
func (d *decoder) head(root *yaml.Node, doc *Document) {
	for _, key := range []string{"schema", "name", "class"} {
		if _, has := root.Get(key); !has && !d.broken {
			d.faults = append(d.faults, Fault{File: d.file, Line: 1, Column: 1, Path: key, Message: "missing", Expected: required[key]})
		}
	}
	if s := doc.Marks["schema"]; s.Kind == figure.Given && doc.Design.Schema != Schema {
		d.faults = append(d.faults, Fault{File: d.file, Line: s.Line, Column: s.Column, Path: "schema", Text: s.Text, Message: fmt.Sprintf("schema %s is not one this program reads", s.Text), Expected: fmt.Sprint(Schema)})
	}
}

var required = map[string]string{
	"schema": "schema: 1",
	"name":   "name: what the design is called",
	"class":  "class: the pack class whose template fills the gaps",
}

// complete marks the values that neither the design nor its template nor a
// data card sets: they are absent by default.
func (doc *Document) complete() {
	for _, it := range Walk() {
		if _, ok := doc.Marks[it.Path]; !ok {
			doc.Marks[it.Path] = Mark{Kind: figure.Default}
		}
	}
}

// MarkOf returns where the value at a path comes from.
func (doc *Document) MarkOf(path string) Mark { return doc.Marks[path] }
