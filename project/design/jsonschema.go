package design

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/unit"
)

// JSONSchema returns the JSON Schema (draft 2020-12) of the design document,
// for editors that complete and check YAML while it is written. Quantities
// are texts with a unit; their range and the limits between values are told
// in words, for a schema cannot read units: costrel checks them.
func JSONSchema() ([]byte, error) {
	root := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"$id", "urn:costrel:design:1"},
		{"title", "Costrel design document"},
		{"description", "Brief, drink, climate lane, resin, finish, closure, bottle, preform, oven, blow recipe, shelf, hot fill, plant and limits of one PET bottle. Only what differs from the template of the pack class needs to be written."},
	}
	root = append(root, structSchema(reflect.TypeOf(Design{}), "", []string{"schema", "name", "class"})...)
	b, err := json.Marshal(root)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b, "", "  "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// object is a JSON object that keeps the order of its members.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		k, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		b.Write(k)
		b.WriteByte(':')
		var v bytes.Buffer
		enc := json.NewEncoder(&v)
		enc.SetEscapeHTML(false)
		if err := enc.Encode(m.value); err != nil {
			return nil, err
		}
		b.Write(bytes.TrimSpace(v.Bytes()))
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// structSchema returns the members of the schema of a section, a row or the
// document.
func structSchema(t reflect.Type, path string, need []string) object {
	var props object
	for _, f := range fieldsOf(t) {
		props = append(props, member{f.Key, fieldSchema(f, join(path, f.Key))})
	}
	out := object{{"type", "object"}, {"additionalProperties", false}}
	if len(need) > 0 {
		out = append(out, member{"required", need})
	}
	return append(out, member{"properties", props})
}

func fieldSchema(f Field, path string) object {
	t := f.typ
	optional := t.Kind() == reflect.Pointer
	if optional {
		t = t.Elem()
	}
	head := object{{"title", f.Label}}
	if text := describe(f); text != "" {
		head = append(head, member{"description", text})
	}
	if text, class := defaultText(path); text != "" {
		head = append(head, member{"default", text}, member{"$comment", "default of " + class})
	}
	var body object
	switch t.Kind() {
	case reflect.Struct:
		body = structSchema(t, path, nil)
		optional = true // an empty section is accepted
	case reflect.Slice:
		body = listSchema(f, t, path)
		optional = true
	default:
		body = valueSchema(f, t, path)
		optional = optional || f.freeText() && f.Key != "name"
	}
	if optional {
		return append(head, member{"anyOf", []object{body, {{"type", "null"}}}})
	}
	return append(head, body...)
}

// describe is the sentence of the field with its range in words.
func describe(f Field) string {
	text := unit.Spell(f.Doc, unit.EU)
	if r := f.rangeText(); r != "" && f.Kind != "" {
		text = strings.TrimSpace(text + " Accepted: " + r + ".")
	}
	return text
}

// defaultText returns the text that a template has for a path, and whose it
// is: of all pack classes, or an example of one.
func defaultText(path string) (text, whose string) {
	all, err := bases()
	if err != nil {
		return "", ""
	}
	same := true
	for _, class := range Classes() {
		m, ok := all[class].marks[path]
		if !ok || m.Text == "" || m.Text == "~" {
			same = false
			continue
		}
		if text == "" {
			text, whose = m.Text, class
		}
		same = same && m.Text == text
	}
	if same {
		whose = "every pack class"
	}
	if path == "schema" {
		return "", ""
	}
	return text, whose
}

// Patterns of a number, and of a number with something behind it.
const (
	number   = `[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?`
	withUnit = `^\s*([A-Z]{3}|[€$£])?\s*[-+−]?[0-9.].*[^-0-9.eE+\s].*$`
)

// valueSchema returns the schema of a single value.
func valueSchema(f Field, t reflect.Type, path string) object {
	switch {
	case path == "schema":
		return object{{"const", Schema}}
	case f.Kind == unit.Count || f.Kind == unit.Ratio:
		o := object{{"type", []string{"number", "string"}}, {"pattern", "^" + number + "$"}}
		return append(o, f.bounds()...)
	case f.Kind != "":
		o := object{{"type", "string"}, {"pattern", withUnit}, {"examples", f.examples()}}
		return append(o, member{"x-quantity", f.Kind}, member{"x-units", unit.Accepted(f.Kind)})
	case t.Kind() == reflect.Int:
		return append(object{{"type", []string{"integer", "string"}}, {"pattern", `^[-+]?[0-9]+$`}}, f.bounds()...)
	case t.Kind() == reflect.Bool:
		return object{{"enum", []any{true, false, "yes", "no", "true", "false"}}}
	case f.Enum != nil:
		return object{{"enum", f.Enum}}
	case path == "finish.type":
		return object{{"enum", finish.Names()}}
	case path == "closure.type":
		return object{{"enum", closure.Names()}}
	case f.Key == "name":
		return object{{"type", []string{"string", "number"}}, {"minLength", 1}, {"maxLength", 200}}
	}
	return object{{"type", []string{"string", "number", "boolean"}}, {"maxLength", maxText}}
}

func (f Field) bounds() object {
	var o object
	if f.lo.ok {
		o = append(o, member{"minimum", f.lo.si})
	}
	if f.hi.ok {
		o = append(o, member{"maximum", f.hi.si})
	}
	return o
}

// examples shows the ends of the range in the units of both systems.
func (f Field) examples() []string {
	var out []string
	add := func(s string) {
		if s != "" && indexOf(out, s) < 0 {
			out = append(out, s)
		}
	}
	add(f.Max)
	add(f.Min)
	if f.hi.ok {
		add(unit.Show(f.Kind, f.hi.si, unit.US))
	}
	return out
}

// listSchema returns the schema of a list; a list of rows may be written as a
// table with columns.
func listSchema(f Field, t reflect.Type, path string) object {
	elem := t.Elem()
	if elem.Kind() != reflect.Struct {
		return object{{"type", "array"}, {"maxItems", maxRows}, {"items", valueSchema(f, elem, path)}}
	}
	var need, heads []string
	for _, c := range fieldsOf(elem) {
		if !c.Optional {
			need = append(need, c.Key)
		}
		heads = append(heads, c.Key)
	}
	list := object{{"type", "array"}, {"maxItems", maxRows}, {"items", structSchema(elem, path, need)}}
	table := object{
		{"type", "object"},
		{"additionalProperties", false},
		{"required", []string{"columns", "rows"}},
		{"properties", object{
			{"columns", object{
				{"type", "array"},
				{"description", "Headers: the key and, for a quantity, its unit, such as " + header(fieldsOf(elem)[0]) + "."},
				{"uniqueItems", true},
				{"items", object{{"type", "string"}, {"pattern", "^(" + strings.Join(heads, "|") + ")( .+)?$"}}},
			}},
			{"rows", object{
				{"type", "array"},
				{"description", "One list of cells a row, in the order of the columns. A bare number is in the unit of its column."},
				{"maxItems", maxRows},
				{"items", object{{"type", "array"}, {"maxItems", len(heads)}, {"items", object{{"type", []string{"string", "number", "null"}}}}}},
			}},
		}},
	}
	return object{{"anyOf", []object{list, table}}}
}
