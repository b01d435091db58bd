package design

import (
	"fmt"
	"reflect"
	"strings"

	"costrel/unit"
)

// expectedKey names the key that was meant: the nearest of this section, or
// the sections that do have this one.
func (d *decoder) expectedKey(key, path string, s *schema) string {
	near := nearest(key, s.keys)
	if near != "" && distance(key, near) <= 1 {
		return near + " (nearest key)"
	}
	var homes []string
	for _, it := range Walk() {
		if it.Field.Key == key && it.Group != path {
			homes = append(homes, it.Path)
		}
	}
	switch {
	case len(homes) > 0:
		return strings.Join(homes[:min(len(homes), 4)], " or ") + " (check the indentation)"
	case near != "":
		return near + " (nearest key)"
	}
	return "one of " + strings.Join(s.keys, ", ")
}

// such says what would do for a field, with an example: the template's value.
func (d *decoder) such(f Field, path string) string {
	if path == "schema" {
		return fmt.Sprint(Schema)
	}
	example := d.marks[path].Text
	if example == "" {
		if i := strings.IndexByte(path, '['); i >= 0 { // as in the first row of the template
			if j := strings.IndexByte(path, ']'); j > i {
				example = d.template[path[:i]+"[0]"+path[j+1:]].Text
			}
		}
	}
	if example == "" || example == "~" {
		example = f.Min
	}
	return such(f, example)
}

func such(f Field, example string) string {
	t := f.typ
	if t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	switch {
	case f.Enum != nil:
		return "one of " + strings.Join(f.Enum, ", ")
	case f.Kind == unit.Count || f.Kind == unit.Ratio:
		return "a bare number such as " + example
	case f.Kind != "":
		return fmt.Sprintf("%s with its unit, such as %s", article(string(f.Kind)), example)
	case t.Kind() == reflect.Bool:
		return "true or false"
	case t.Kind() == reflect.Int:
		return strings.TrimSpace("a whole number " + f.rangeText())
	}
	return "a text"
}

var floatType = reflect.TypeFor[float64]()

func article(s string) string {
	if s != "" && strings.IndexByte("aeiou", s[0]) >= 0 {
		return "an " + s
	}
	return "a " + s
}
