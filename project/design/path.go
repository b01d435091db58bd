package design

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// step is one part of a path: a key, or an index into a list or table.
type step struct {
	key   string
	index int // -1 for a key
}

// steps reads a path such as "preform.wall", "bottle.planes[1]" or
// "bottle.profile[3].r".
func steps(path string) ([]step, error) {
	var out []step
	for _, part := range strings.Split(path, ".") {
		key, rest, has := strings.Cut(part, "[")
		if key == "" {
			return nil, fmt.Errorf("%q is no path", path)
		}
		out = append(out, step{key, -1})
		if !has {
			continue
		}
		num, ok := strings.CutSuffix(rest, "]")
		i, err := strconv.Atoi(num)
		if !ok || err != nil || i < 0 || i >= maxRows || strconv.Itoa(i) != num {
			return nil, fmt.Errorf("%q is no path: want an index such as [0]", path)
		}
		out = append(out, step{"", i})
	}
	return out, nil
}

// fieldAt returns the schema of the single value at a path, which may be a
// cell of a table or an entry of a list.
func fieldAt(path string) (Field, []step, error) {
	st, err := steps(path)
	if err != nil {
		return Field{}, nil, err
	}
	t := reflect.TypeOf(Design{})
	var f Field
	for _, s := range st {
		switch {
		case s.index >= 0 && t.Kind() == reflect.Slice:
			t = t.Elem()
		case s.index >= 0:
			return f, nil, fmt.Errorf("%s is no list", f.Key)
		case t.Kind() == reflect.Struct:
			sc := schemaOf(t)
			i, ok := sc.byKey[s.key]
			if !ok {
				return f, nil, unknownPath(path)
			}
			f = sc.fields[i]
			if t = f.typ; t.Kind() == reflect.Pointer {
				t = t.Elem()
			}
		default:
			return f, nil, unknownPath(path)
		}
	}
	switch t.Kind() {
	case reflect.Slice:
		return f, nil, fmt.Errorf("this is a list; name an entry, such as %s[0], or edit it in the text", path)
	case reflect.Struct:
		return f, nil, fmt.Errorf("this is a section; name a value of it")
	}
	return f, st, nil
}

func unknownPath(path string) error {
	var all []string
	for _, it := range Walk() {
		all = append(all, it.Path)
	}
	if near := nearest(path, all); near != "" {
		return fmt.Errorf("no such value; nearest: %s", near)
	}
	return fmt.Errorf("no such value")
}
