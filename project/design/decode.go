package design

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"costrel/figure"
	"costrel/unit"
)

// MaxBytes is the largest design document that is read [bytes].
const MaxBytes = 1 << 20

const maxDepth = 24

// Mark tells where the value at a path comes from.
type Mark struct {
	Kind   figure.OriginKind
	Text   string // as written, with unit
	Symbol string // unit it was written in
	Source string
	Line   int
	Column int
}

// decoder fills a Design from a document and collects every fault.
type decoder struct {
	file, text string
	kind       figure.OriginKind
	marks      map[string]Mark
	faults     Faults
}

func (d *decoder) fault(n ast.Node, path, expected, format string, args ...any) {
	f := Fault{File: d.file, Path: path, Message: fmt.Sprintf(format, args...), Expected: expected}
	if n != nil {
		if tk := n.GetToken(); tk != nil && tk.Position != nil {
			f.Line, f.Column = tk.Position.Line, tk.Position.Column
			f.Text = tk.Value
			f.Excerpt = excerpt(d.text, f.Line, f.Column)
		}
	}
	d.faults = append(d.faults, f)
}

// parseYAML returns the root mapping of a document. A document that is not
// YAML gives one fault with its place.
func parseYAML(file, text string) (root ast.Node, faults Faults) {
	if len(text) > MaxBytes {
		return nil, Faults{{File: file, Message: fmt.Sprintf("the document has %d bytes, more than %d", len(text), MaxBytes), Expected: "a smaller design document"}}
	}
	defer func() {
		if r := recover(); r != nil {
			root, faults = nil, Faults{{File: file, Message: "the document is not readable YAML"}}
		}
	}()
	f, err := parser.ParseBytes([]byte(text), parser.ParseComments)
	if err != nil {
		return nil, Faults{syntaxFault(file, text, err)}
	}
	var bodies []ast.Node
	for _, doc := range f.Docs {
		if doc != nil && doc.Body != nil && doc.Body.Type() != ast.CommentType {
			bodies = append(bodies, doc.Body)
		}
	}
	switch len(bodies) {
	case 0:
		return nil, Faults{{File: file, Line: 1, Column: 1, Message: "the document is empty", Expected: "at least: schema, name, class"}}
	case 1:
		return bodies[0], nil
	}
	p := bodies[1].GetToken().Position
	return nil, Faults{{File: file, Line: p.Line, Column: p.Column, Message: "the file holds more than one document", Expected: "one design a file", Excerpt: excerpt(text, p.Line, p.Column)}}
}

func syntaxFault(file, text string, err error) Fault {
	f := Fault{File: file, Message: "not YAML: " + err.Error()}
	type tokened interface{ GetToken() *token.Token }
	type messaged interface{ GetMessage() string }
	if m, ok := err.(messaged); ok {
		f.Message = "not YAML: " + m.GetMessage()
	}
	if t, ok := err.(tokened); ok && t.GetToken() != nil && t.GetToken().Position != nil {
		f.Line, f.Column = t.GetToken().Position.Line, t.GetToken().Position.Column
		f.Text = t.GetToken().Value
		f.Excerpt = excerpt(text, f.Line, f.Column)
	}
	return f
}

// entries returns the key-value pairs of a mapping node.
func entries(n ast.Node) ([]*ast.MappingValueNode, bool) {
	switch m := n.(type) {
	case *ast.MappingNode:
		return m.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{m}, true
	}
	return nil, false
}

// scalar returns the text of a plain value.
func scalar(n ast.Node) (string, bool) {
	switch s := n.(type) {
	case *ast.StringNode:
		return s.Value, true
	case *ast.LiteralNode:
		return strings.TrimSpace(s.Value.Value), true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, true
	}
	return "", false
}

func isNull(n ast.Node) bool {
	if n == nil {
		return true
	}
	_, ok := n.(*ast.NullNode)
	return ok
}

func describe(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a mapping"
	case *ast.SequenceNode:
		return "a list"
	case *ast.AliasNode, *ast.AnchorNode:
		return "an anchor or alias"
	case *ast.TagNode:
		return "a tag"
	case *ast.NullNode, nil:
		return "nothing"
	}
	return "a single value"
}

// mapping decodes a mapping into a struct.
func (d *decoder) mapping(n ast.Node, v reflect.Value, path string, depth int) {
	if isNull(n) {
		return
	}
	if depth > maxDepth {
		d.fault(n, path, "", "nested deeper than %d levels", maxDepth)
		return
	}
	pairs, ok := entries(n)
	if !ok {
		d.fault(n, path, "a mapping (key: value lines)", "this is %s", describe(n))
		return
	}
	fields := fieldsOf(v.Type())
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	seen := map[string]int{}
	for _, kv := range pairs {
		if kv == nil || kv.Key == nil {
			continue
		}
		key, ok := scalar(kv.Key)
		if !ok {
			d.fault(kv.Key, path, strings.Join(keys, ", "), "the key is %s", describe(kv.Key))
			continue
		}
		at := join(path, key)
		if line, dup := seen[key]; dup {
			d.fault(kv.Key, at, "", "stands twice; the first is on line %d", line)
			continue
		}
		seen[key] = kv.Key.GetToken().Position.Line
		i := indexOf(keys, key)
		if i < 0 {
			expected := "one of " + strings.Join(keys, ", ")
			if near := nearest(key, keys); near != "" {
				expected = near + " (nearest key)"
			}
			d.fault(kv.Key, at, expected, "unknown key %q", key)
			continue
		}
		d.value(kv.Value, v.Field(fields[i].index), fields[i], at, depth+1)
	}
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
func (d *decoder) value(n ast.Node, v reflect.Value, f Field, path string, depth int) {
	switch n.(type) {
	case *ast.AliasNode, *ast.AnchorNode, *ast.TagNode:
		d.fault(n, path, "the value itself", "anchors, aliases and tags are not used in a design")
		return
	}
	switch {
	case v.Kind() == reflect.Pointer && v.Type().Elem().Kind() == reflect.Struct:
		if isNull(n) {
			v.SetZero()
			d.forget(path)
			return
		}
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		d.mapping(n, v.Elem(), path, depth)
	case v.Kind() == reflect.Pointer:
		if isNull(n) {
			v.SetZero()
			d.forget(path)
			return
		}
		p := reflect.New(v.Type().Elem())
		if d.single(n, p.Elem(), f, path) {
			v.Set(p)
		}
	case v.Kind() == reflect.Struct:
		d.mapping(n, v, path, depth)
	case v.Kind() == reflect.Slice:
		d.list(n, v, f, path, depth)
	default:
		d.single(n, v, f, path)
	}
}

func (d *decoder) forget(path string) {
	for p := range d.marks {
		if p == path || strings.HasPrefix(p, path+".") || strings.HasPrefix(p, path+"[") {
			delete(d.marks, p)
		}
	}
}

// single decodes one scalar and checks it against the schema.
func (d *decoder) single(n ast.Node, v reflect.Value, f Field, path string) bool {
	text, ok := scalar(n)
	if !ok {
		want := "a value"
		if f.Kind != "" {
			want = "a " + string(f.Kind) + " with unit"
		}
		if isNull(n) {
			d.fault(n, path, want, "no value")
		} else {
			d.fault(n, path, want, "this is %s", describe(n))
		}
		return false
	}
	return d.scalarText(n, text, v, f, path)
}

// scalarText decodes the text of a scalar.
func (d *decoder) scalarText(n ast.Node, text string, v reflect.Value, f Field, path string) bool {
	m := Mark{Kind: d.kind, Text: text}
	if p := n.GetToken().Position; p != nil {
		m.Line, m.Column = p.Line, p.Column
	}
	switch {
	case f.Kind != "":
		q, err := unit.Parse(f.Kind, text)
		if err != nil {
			d.fault(n, path, "", "%s", err.Error())
			return false
		}
		lo, hi, hasLo, hasHi := f.limits()
		if hasLo && q.SI < lo-1e-12*abs(lo) || hasHi && q.SI > hi+1e-12*abs(hi) {
			d.fault(n, path, f.rangeText(), "%s is outside the accepted range", text)
			return false
		}
		v.SetFloat(q.SI)
		m.Symbol = q.Symbol
	case v.Kind() == reflect.Int:
		i, err := strconv.Atoi(text)
		if err != nil {
			d.fault(n, path, "a whole number "+f.rangeText(), "%q is not a whole number", text)
			return false
		}
		if lo, err := strconv.Atoi(f.Min); err == nil && i < lo {
			d.fault(n, path, f.rangeText(), "%d is outside the accepted range", i)
			return false
		}
		if hi, err := strconv.Atoi(f.Max); err == nil && i > hi {
			d.fault(n, path, f.rangeText(), "%d is outside the accepted range", i)
			return false
		}
		v.SetInt(int64(i))
	case v.Kind() == reflect.Bool:
		switch text {
		case "true", "yes":
			v.SetBool(true)
		case "false", "no":
			v.SetBool(false)
		default:
			d.fault(n, path, "true or false", "%q is not a switch", text)
			return false
		}
	default:
		if f.Enum != nil && indexOf(f.Enum, text) < 0 {
			expected := "one of " + strings.Join(f.Enum, ", ")
			if near := nearest(text, f.Enum); near != "" {
				expected += " (nearest: " + near + ")"
			}
			d.fault(n, path, expected, "unknown word %q", text)
			return false
		}
		if len(text) > 20000 {
			d.fault(n, path, "at most 20000 characters", "the text is too long")
			return false
		}
		v.SetString(text)
	}
	d.marks[path] = m
	return true
}

func (f Field) rangeText() string {
	switch {
	case f.Min != "" && f.Max != "":
		return f.Min + " to " + f.Max
	case f.Min != "":
		return "at least " + f.Min
	case f.Max != "":
		return "at most " + f.Max
	}
	return ""
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
