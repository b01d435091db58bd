package design

import (
	"embed"
	"fmt"
	"reflect"
	"sort"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"costrel/figure"
)

//go:embed templates/*.yaml
var templateFS embed.FS

// Document is a design as read: the text, the resolved values, where each
// value comes from, and what a reader should be warned about.
type Document struct {
	File     string
	Text     string
	Design   *Design
	Marks    map[string]Mark // by path
	Warnings Faults          // accepted, but worth a look
}

// Classes returns the pack classes that have a template, sorted.
func Classes() []string {
	f, _ := reflect.TypeOf(Design{}).FieldByName("Class")
	out := strings.Split(f.Tag.Get("enum"), ",")
	sort.Strings(out)
	return out
}

// Template returns the text of the template of a pack class.
func Template(class string) (string, error) {
	b, err := templateFS.ReadFile("templates/" + class + ".yaml")
	if err != nil {
		return "", fmt.Errorf("design: no template for class %q: use one of %s", class, strings.Join(Classes(), ", "))
	}
	return string(b), nil
}

// Load reads a design document. file is only used in messages. On error the
// returned error is a [Faults] with every fault of the document; the Document
// is then nil.
func Load(file, text string) (*Document, error) {
	root, faults := parseYAML(file, text)
	if faults != nil {
		return nil, faults
	}
	if _, ok := entries(root); !ok {
		d := &decoder{file: file, text: text}
		d.fault(root, "", "key: value lines", "a design is a mapping, this is %s", describe(root))
		return nil, d.faults
	}
	doc := &Document{File: file, Text: text, Design: &Design{}, Marks: map[string]Mark{}}
	class := classOf(root)
	if indexOf(Classes(), class) < 0 {
		class = "csd-1500" // the fault of the class itself is reported below
	}
	for _, name := range []string{"common", class} {
		if f := doc.template(name); f != nil {
			return nil, f
		}
	}
	d := &decoder{file: file, text: text, kind: figure.Given, marks: doc.Marks}
	limits := doc.Design.Limits
	doc.Design.Limits = nil
	d.mapping(root, reflect.ValueOf(doc.Design).Elem(), "", 0)
	for _, key := range []string{"schema", "name", "class"} {
		if doc.Marks[key].Kind != figure.Given && !d.faulty(key) {
			d.faults = append(d.faults, Fault{File: file, Line: 1, Column: 1, Path: key, Message: "missing", Expected: required[key], Excerpt: excerpt(text, 1, 1)})
		}
	}
	if s := doc.Marks["schema"]; s.Kind == figure.Given && doc.Design.Schema != Schema {
		d.faults = append(d.faults, Fault{File: file, Line: s.Line, Column: s.Column, Path: "schema", Text: s.Text, Message: fmt.Sprintf("schema %s is not one this program reads", s.Text), Expected: fmt.Sprint(Schema), Excerpt: excerpt(text, s.Line, s.Column)})
	}
	doc.mergeLimits(limits)
	if len(d.faults) > 0 {
		return nil, d.faults.sorted()
	}
	doc.resolve()
	if f := doc.check(); len(f) > 0 {
		return nil, f.sorted()
	}
	return doc, nil
}

var required = map[string]string{
	"schema": "schema: 1",
	"name":   "name: what the design is called",
	"class":  "class: the pack class whose template fills the gaps",
}

func classOf(root ast.Node) string {
	pairs, _ := entries(root)
	for _, kv := range pairs {
		if kv == nil || kv.Key == nil {
			continue
		}
		if key, _ := scalar(kv.Key); key == "class" {
			text, _ := scalar(kv.Value)
			return text
		}
	}
	return ""
}

// template decodes an embedded template under the values of the document.
func (doc *Document) template(name string) Faults {
	text, err := Template(name)
	if err != nil {
		return Faults{{File: doc.File, Message: err.Error()}}
	}
	root, faults := parseYAML(name+".yaml", text)
	if faults != nil {
		return faults
	}
	d := &decoder{file: "template " + name, text: text, kind: figure.Default, marks: doc.Marks}
	d.mapping(root, reflect.ValueOf(doc.Design).Elem(), "", 0)
	if len(d.faults) > 0 {
		return d.faults
	}
	return nil
}

// mergeLimits puts the template's limits behind those of the design: a limit
// on the same figure and side is replaced, and "none" takes it away.
func (doc *Document) mergeLimits(template []Limit) {
	given := map[string]bool{}
	var out []Limit
	for _, l := range doc.Design.Limits {
		given[l.Figure+"|"+l.Side] = true
		if l.Value != "none" {
			out = append(out, l)
		}
	}
	for _, l := range template {
		if !given[l.Figure+"|"+l.Side] {
			if l.Source == "" {
				l.Source = "example"
			}
			out = append(out, l)
		}
	}
	doc.Design.Limits = out
}

// MarkOf returns where the value at a path comes from.
func (doc *Document) MarkOf(path string) Mark { return doc.Marks[path] }
