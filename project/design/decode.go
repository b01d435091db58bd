package design

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"unicode"

	"costrel/figure"
	"costrel/project/design/yaml"
	"costrel/unit"
)

// MaxBytes is the largest design document that is read [bytes].
const MaxBytes = 1 << 20

// maxText is the longest free text [bytes].
const maxText = 20000

// Mark tells where the value at a path comes from.
type Mark struct {
	Kind   figure.OriginKind
	Text   string // as written, with unit
	Symbol string // unit it was written in
	Source string
	Line   int // in the document; 0 for what the document does not hold
	Column int
}

// decoder fills a Design from a document and collects every fault.
type decoder struct {
	file, text string
	kind       figure.OriginKind
	marks      map[string]Mark
	template   map[string]Mark // of the pack class, for examples; nil in a template
	faults     Faults
	broken     bool // the text is not all YAML: what is missing may stand in a bad line
	warnings   Faults
}

func (d *decoder) fault(n *yaml.Node, path, expected, format string, args ...any) {
	d.faults = append(d.faults, d.at(n, path, expected, fmt.Sprintf(format, args...)))
}

// at returns a fault with its place. The excerpt is drawn when all are known.
func (d *decoder) at(n *yaml.Node, path, expected, message string) Fault {
	f := Fault{File: d.file, Path: path, Message: message, Expected: expected}
	if n != nil {
		f.Line, f.Column, f.Text = n.Line, n.Column, n.Text
	}
	return f
}

// placed sorts the faults and draws their excerpts.
func placed(fs Faults, text string) Faults {
	fs = fs.sorted()
	for i := range fs {
		if fs[i].Excerpt == "" {
			fs[i].Excerpt = excerpt(text, fs[i].Line, fs[i].Column)
		}
	}
	return fs
}

// parse reads the text of a document. The root is nil when there is nothing
// to decode; faults of the text stand in the decoder.
func (d *decoder) parse() *yaml.Node {
	if len(d.text) > MaxBytes {
		d.fault(nil, "", "a smaller design document", "the document has %d bytes, more than %d", len(d.text), MaxBytes)
		return nil
	}
	root, faults := yaml.Parse(d.text)
	for _, f := range faults {
		d.faults = append(d.faults, Fault{File: d.file, Line: f.Line, Column: f.Column, Text: f.Text, Message: f.Message, Expected: f.Expected})
	}
	d.broken = len(faults) > 0
	if root == nil && !d.broken {
		d.faults = append(d.faults, Fault{File: d.file, Line: 1, Column: 1, Message: "the document is empty", Expected: "at least: schema, name, class"})
	}
	return root
}

// bad gives the path to the faults of a node that could not be read.
func (d *decoder) bad(n *yaml.Node, path string) {
	for i, f := range d.faults {
		if f.Path == "" && f.Line == n.Line && f.Column >= n.Column {
			d.faults[i].Path = path
		}
	}
}

// mapping decodes a mapping into a struct.
func (d *decoder) mapping(n *yaml.Node, v reflect.Value, path string) {
	switch n.Kind {
	case yaml.Bad:
		d.bad(n, path)
		return
	case yaml.Null:
		if d.kind == figure.Given {
			d.warnings = append(d.warnings, d.at(n, path, "", "the section is empty; the values of the template hold"))
		}
		return
	case yaml.Mapping:
	case yaml.Scalar:
		if n.Style == yaml.Plain && path != "" && n.Line > d.sectionLine(path) {
			for _, f := range yaml.NotMapping(d.text, n) {
				d.faults = append(d.faults, Fault{File: d.file, Line: f.Line, Column: f.Column, Path: path, Text: f.Text, Message: f.Message, Expected: f.Expected})
			}
			return
		}
		fallthrough
	default:
		d.fault(n, path, "key: value lines", "%s is a section with keys of its own, this is %s", orDesign(path), n.What())
		return
	}
	s := schemaOf(v.Type())
	seen := make(map[string]int, len(n.Pairs))
	for _, kv := range n.Pairs {
		key := kv.Key.Text
		at := join(path, key)
		if line, dup := seen[key]; dup {
			d.fault(kv.Key, at, "one of the two", "key %q stands twice; the first is on line %d", clip(key), line)
			continue
		}
		seen[key] = kv.Key.Line
		i, ok := s.byKey[key]
		if !ok {
			d.fault(kv.Key, at, d.expectedKey(key, path, s), "unknown key %q", clip(key))
			continue
		}
		f := s.fields[i]
		if d.kind == figure.Given && f.typ.Kind() == reflect.Struct {
			d.marks[at] = d.mark(kv.Key, "") // where the section stands
		}
		d.value(kv.Value, v.Field(f.index), f, at)
	}
}

// sectionLine returns the line on which the key of a section stands.
func (d *decoder) sectionLine(path string) int {
	if m, ok := d.marks[path]; ok && m.Line > 0 {
		return m.Line
	}
	return 1 << 30 // an entry of a list
}

func orDesign(path string) string {
	if path == "" {
		return "a design"
	}
	return path
}

func clip(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:57]) + "..."
	}
	return s
}

func indexOf(list []string, s string) int {
	for i, x := range list {
		if x == s {
			return i
		}
	}
	return -1
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// value decodes any node into a field.
func (d *decoder) value(n *yaml.Node, v reflect.Value, f Field, path string) {
	if n.Kind == yaml.Bad {
		d.bad(n, path)
		d.marks[path] = d.mark(n, "")
		return
	}
	switch {
	case v.Kind() == reflect.Pointer && n.Kind == yaml.Null:
		v.SetZero()
		d.forget(path)
		d.marks[path] = d.mark(n, "~")
	case v.Kind() == reflect.Pointer && v.Type().Elem().Kind() == reflect.Struct:
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		d.mapping(n, v.Elem(), path)
		d.require(n, v.Elem(), path)
	case v.Kind() == reflect.Pointer:
		p := reflect.New(v.Type().Elem())
		if d.single(n, p.Elem(), f, path) {
			v.Set(p)
		}
	case v.Kind() == reflect.Struct:
		d.mapping(n, v, path)
	case v.Kind() == reflect.Slice:
		d.list(n, v, f, path)
	default:
		d.single(n, v, f, path)
	}
}

// forget drops the marks under a path.
func (d *decoder) forget(path string) {
	for p := range d.marks {
		if strings.HasPrefix(p, path) && (len(p) == len(path) || p[len(path)] == '.' || p[len(path)] == '[') {
			delete(d.marks, p)
		}
	}
}

func (d *decoder) mark(n *yaml.Node, text string) Mark {
	m := Mark{Kind: d.kind, Text: text}
	if d.kind == figure.Given {
		m.Line, m.Column = n.Line, n.Column
	}
	return m
}

// single decodes one scalar and checks it against the schema.
func (d *decoder) single(n *yaml.Node, v reflect.Value, f Field, path string) bool {
	switch n.Kind {
	case yaml.Scalar:
		if r, bad := unprintable(n.Text); bad {
			d.fault(n, path, "text that can be printed", "the text holds the control character %U", r)
			d.marks[path] = d.mark(n, "")
			return false
		}
		return d.scalar(n, strings.TrimSpace(n.Text), v, f, path)
	case yaml.Bad:
		d.bad(n, path)
		d.marks[path] = d.mark(n, "")
	case yaml.Null:
		if f.freeText() && f.Key != "name" {
			v.SetString("")
			d.marks[path] = d.mark(n, "")
			return true
		}
		d.fault(n, path, d.such(f, path)+", or no such line", "no value")
	default:
		d.fault(n, path, d.such(f, path), "%s is a single value, this is %s", f.Key, n.What())
	}
	return false
}

// unprintable returns a character that would command a terminal or turn the
// direction of a line instead of being read.
func unprintable(text string) (rune, bool) {
	for _, r := range text {
		if unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Bidi_Control, r) {
			return r, true
		}
	}
	return 0, false
}

// freeText tells whether any text will do.
func (f Field) freeText() bool {
	return f.Kind == "" && f.Enum == nil && f.typ.Kind() == reflect.String
}

// scalar decodes the text of a scalar.
func (d *decoder) scalar(n *yaml.Node, text string, v reflect.Value, f Field, path string) bool {
	m := d.mark(n, text)
	ok := false
	switch {
	case f.Kind != "":
		ok = d.quantity(n, text, v, f, path, &m)
	case v.Kind() == reflect.Int:
		ok = d.whole(n, text, v, f, path)
	case v.Kind() == reflect.Bool:
		ok = true
		switch text {
		case "true", "yes":
			v.SetBool(true)
		case "false", "no":
			v.SetBool(false)
		default:
			ok = false
			d.fault(n, path, "true or false", "%q is not a switch", clip(text))
		}
	default:
		ok = d.word(n, text, v, f, path)
	}
	if ok {
		d.marks[path] = m
	}
	return ok
}

func (d *decoder) quantity(n *yaml.Node, text string, v reflect.Value, f Field, path string, m *Mark) bool {
	q, err := unit.Parse(f.Kind, text)
	if err != nil {
		if w, ok := brix(text); ok && path == "drink.sugar" {
			d.fault(n, path, w, "%q is a share of the mass: write the sugar in a litre", clip(text))
			return false
		}
		d.fault(n, path, d.such(f, path), "%s", err.Error())
		return false
	}
	if f.Kind == unit.Count && q.SI != math.Trunc(q.SI) {
		d.fault(n, path, f.rangeText(), "%q is not a whole number", clip(text))
		return false
	}
	lo, hi, hasLo, hasHi := f.Limits()
	if hasLo && q.SI < lo-1e-12*abs(lo) || hasHi && q.SI > hi+1e-12*abs(hi) {
		d.fault(n, path, f.rangeIn(q.Symbol), "%s is outside the accepted range", clip(text))
		return false
	}
	v.SetFloat(q.SI)
	m.Symbol = q.Symbol
	return true
}

func (d *decoder) whole(n *yaml.Node, text string, v reflect.Value, f Field, path string) bool {
	i, err := strconv.Atoi(text)
	if err != nil {
		if whole, err := strconv.ParseFloat(text, 64); err == nil && whole == math.Trunc(whole) && abs(whole) < 1e15 {
			d.fault(n, path, d.such(f, path), "%q is a whole number in another spelling: write %.0f", clip(text), whole)
			return false
		}
		d.fault(n, path, d.such(f, path), "%q is not a whole number", clip(text))
		return false
	}
	lo, hi, hasLo, hasHi := f.Limits()
	if hasLo && float64(i) < lo || hasHi && float64(i) > hi {
		d.fault(n, path, f.rangeText(), "%d is outside the accepted range", i)
		return false
	}
	v.SetInt(int64(i))
	return true
}

func (d *decoder) word(n *yaml.Node, text string, v reflect.Value, f Field, path string) bool {
	switch {
	case f.Enum != nil && indexOf(f.Enum, text) < 0:
		expected := "one of " + strings.Join(f.Enum, ", ")
		if near := nearest(text, f.Enum); near != "" {
			expected = near + " (nearest word), or " + expected
		}
		d.fault(n, path, expected, "unknown word %q", clip(text))
		return false
	case len(text) > maxText:
		d.fault(n, path, fmt.Sprintf("at most %d bytes", maxText), "the text has %d bytes", len(text))
		return false
	case f.Key == "name" && (text == "" || strings.Contains(text, "\n") || len(text) > 200):
		d.fault(n, path, "one line of at most 200 bytes", "this is no name")
		return false
	}
	v.SetString(text)
	return true
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
