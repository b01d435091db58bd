package design

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"costrel/project/design/yaml"
)

// validate holds a document, as a general YAML reader sees it, against the
// parts of JSON Schema that ours uses, and returns what does not fit. It
// fails the test on a keyword that it does not know.
func validate(t *testing.T, schema map[string]any, v any, at string) []string {
	t.Helper()
	var out []string
	say := func(format string, args ...any) { out = append(out, at+": "+fmt.Sprintf(format, args...)) }
	for key, rule := range schema {
		switch key {
		case "$schema", "$id", "$comment", "title", "description", "default", "examples", "x-quantity", "x-units":
		case "type":
			names := []any{rule}
			if l, ok := rule.([]any); ok {
				names = l
			}
			if !slices.ContainsFunc(names, func(n any) bool { return isType(v, n.(string)) }) {
				say("%v is not of type %v", v, rule)
			}
		case "const":
			if fmt.Sprint(v) != fmt.Sprint(rule) {
				say("%v is not %v", v, rule)
			}
		case "enum":
			if !slices.ContainsFunc(rule.([]any), func(e any) bool { return e == v }) {
				say("%v is none of %v", v, rule)
			}
		case "pattern":
			if s, ok := v.(string); ok && !regexp.MustCompile(rule.(string)).MatchString(s) {
				say("%q does not match %s", s, rule)
			}
		case "minimum":
			if x, ok := v.(float64); ok && x < rule.(float64) {
				say("%v is below %v", v, rule)
			}
		case "maximum":
			if x, ok := v.(float64); ok && x > rule.(float64) {
				say("%v is above %v", v, rule)
			}
		case "minLength", "maxLength":
			if s, ok := v.(string); ok && (utf8.RuneCountInString(s) < int(rule.(float64))) == (key == "minLength") && utf8.RuneCountInString(s) != int(rule.(float64)) {
				say("%s %v", key, rule)
			}
		case "maxItems":
			if l, ok := v.([]any); ok && len(l) > int(rule.(float64)) {
				say("%d items", len(l))
			}
		case "uniqueItems":
			l, _ := v.([]any)
			for i := range l {
				if slices.Index(l, l[i]) != i {
					say("%v stands twice", l[i])
				}
			}
		case "items":
			l, _ := v.([]any)
			for i := range l {
				out = append(out, validate(t, rule.(map[string]any), l[i], at+index(i))...)
			}
		case "required":
			m, ok := v.(map[string]any)
			for _, k := range rule.([]any) {
				if _, has := m[k.(string)]; ok && !has {
					say("%v is missing", k)
				}
			}
		case "properties", "additionalProperties":
			m, _ := v.(map[string]any)
			props := schema["properties"].(map[string]any)
			for k, x := range m {
				sub, has := props[k]
				if !has && key == "additionalProperties" && rule == false {
					say("%s is no property", k)
				}
				if has && key == "properties" {
					out = append(out, validate(t, sub.(map[string]any), x, join(at, k))...)
				}
			}
		case "anyOf":
			var all []string
			fits := false
			for _, alt := range rule.([]any) {
				faults := validate(t, alt.(map[string]any), v, at)
				fits = fits || len(faults) == 0
				all = append(all, faults...)
			}
			if !fits {
				out = append(out, all...)
			}
		default:
			t.Fatalf("the schema uses %q, which this test does not know", key)
		}
	}
	return out
}

func isType(v any, name string) bool {
	switch x := v.(type) {
	case nil:
		return name == "null"
	case bool:
		return name == "boolean"
	case float64:
		return name == "number" || name == "integer" && x == float64(int64(x))
	case string:
		return name == "string"
	case []any:
		return name == "array"
	case map[string]any:
		return name == "object"
	}
	return false
}

// tree returns a document as JSON would hold it, with the scalars of YAML 1.2.
func tree(n *yaml.Node) any {
	switch n.Kind {
	case yaml.Mapping:
		m := map[string]any{}
		for _, p := range n.Pairs {
			m[p.Key.Text] = tree(p.Value)
		}
		return m
	case yaml.List:
		l := []any{}
		for _, i := range n.Items {
			l = append(l, tree(i))
		}
		return l
	case yaml.Scalar:
		if n.Style == yaml.Plain {
			if x, err := strconv.ParseFloat(n.Text, 64); err == nil {
				return x
			}
			if n.Text == "true" || n.Text == "false" {
				return n.Text == "true"
			}
		}
		return n.Text
	}
	return nil
}

func ourSchema(t *testing.T) map[string]any {
	t.Helper()
	b, err := JSONSchema()
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(b, &schema); err != nil {
		t.Fatal(err)
	}
	return schema
}

func fits(t *testing.T, schema map[string]any, text string) []string {
	t.Helper()
	root, faults := yaml.Parse(text)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return validate(t, schema, tree(root), "")
}

// Every example, template and draft fits the schema.
func TestSchemaHoldsDesigns(t *testing.T) {
	schema := ourSchema(t)
	texts := map[string]string{"noted": noted}
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[file] = string(b)
	}
	common, err := embedded("common")
	if err != nil {
		t.Fatal(err)
	}
	texts["common"] = strings.Replace(common, "schema: 1", minimal("csd-500"), 1)
	texts["quoted"] = minimal("csd-1500") + "blow:\n  stations: '12'\n"
	for _, class := range Classes() {
		text, err := Template(class)
		if err != nil {
			t.Fatal(err)
		}
		texts[class] = minimal(class) + text
		draft, err := Draft(class, map[string]string{"name": "Sorrel", "brief.nominal": "700 mL"})
		if err != nil {
			t.Fatal(err)
		}
		texts["draft "+class] = draft
	}
	for name, text := range texts {
		for _, fault := range fits(t, schema, text) {
			t.Errorf("%s: %s", name, fault)
		}
	}
}

// The schema refuses what a schema can see.
func TestSchemaRefuses(t *testing.T) {
	schema := ourSchema(t)
	head := minimal("csd-1500")
	for _, text := range []string{
		"name: x\nclass: csd-500\n", "schema: 2\nname: x\nclass: csd-500\n", "schema: 1\nname: x\nclass: csd-501\n",
		head + "preform:\n  wal: 3 mm\n", head + "preform:\n  wall: 3.6\n", head + "preform:\n  wall: thick\n", head + "preform: 3 mm\n",
		head + "blow:\n  stations: 12.5\n", head + "blow:\n  stations: 65\n", head + "drink:\n  basis: volume\n", head + "closure:\n  tethered: 1\n",
		head + "bottle:\n  planes: 60 mm\n", head + "bottle:\n  planes: [60]\n", head + "finish:\n  type: nothing\n", head + "shelf:\n  barrier_factor: 7\n",
		head + "oven:\n  zones:\n    columns: [zone, pow %]\n    rows: [[1, 2]]\n", head + "oven:\n  zones:\n    rows: [[1, 2]]\n", head + "oven:\n  zones:\n    - {zone: 1}\n",
		head + "limits:\n  - {figure: wall.min, side: under, value: 1 mm}\n",
	} {
		if len(fits(t, schema, text)) == 0 {
			t.Errorf("the schema accepts:\n%s", text)
		}
	}
}

func TestSchemaIsStable(t *testing.T) {
	a, err := JSONSchema()
	if err != nil {
		t.Fatal(err)
	}
	b, err := JSONSchema()
	if err != nil || !bytes.Equal(a, b) {
		t.Error("two calls give two schemas")
	}
	for _, want := range []string{"https://json-schema.org/draft/2020-12/schema", `"x-units"`, `"default": "3.35 mm"`, `"description": "Wall of the body. Accepted: 1 mm to 10 mm."`} {
		if !bytes.Contains(a, []byte(want)) {
			t.Errorf("the schema lacks %s", want)
		}
	}
	// A default is one that some template has.
	if !bytes.Contains(a, []byte(`"default of every pack class"`)) || !bytes.Contains(a, []byte(`"default of csd-1500"`)) {
		t.Error("defaults do not say whose they are")
	}
}
