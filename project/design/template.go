package design

import (
	"embed"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"

	"costrel/figure"
)

//go:embed templates/*.yaml
var templateFS embed.FS

// Classes returns the pack classes that have a template, sorted.
func Classes() []string {
	f, _ := reflect.TypeOf(Design{}).FieldByName("Class")
	out := strings.Split(f.Tag.Get("enum"), ",")
	slices.Sort(out)
	return out
}

// Template returns the text of the template of a pack class.
func Template(class string) (string, error) {
	if indexOf(Classes(), class) < 0 {
		msg := fmt.Sprintf("design: no template for class %q: use one of %s", class, strings.Join(Classes(), ", "))
		if near := nearest(class, Classes()); near != "" {
			msg += "; nearest: " + near
		}
		return "", fmt.Errorf("%s", msg)
	}
	return embedded(class)
}

func embedded(name string) (string, error) {
	b, err := templateFS.ReadFile("templates/" + name + ".yaml")
	return string(b), err
}

// base is a decoded template: what stands where a design says nothing.
type base struct {
	design *Design
	marks  map[string]Mark
}

// bases holds the decoded templates by class. They are never changed: a
// document starts from a copy.
var bases = sync.OnceValues(func() (map[string]base, error) {
	out := map[string]base{}
	for _, class := range Classes() {
		b := base{design: &Design{}, marks: map[string]Mark{}}
		for _, name := range []string{"common", class} {
			text, err := embedded(name)
			if err != nil {
				return nil, err
			}
			d := &decoder{file: name + ".yaml", text: text, kind: figure.Default, marks: b.marks}
			if root := d.parse(); root != nil {
				d.mapping(root, reflect.ValueOf(b.design).Elem(), "")
			}
			if len(d.faults) > 0 {
				return nil, placed(d.faults, text)
			}
		}
		out[class] = b
	}
	return out, nil
})

// baseOf returns a copy of the decoded template of a class.
func baseOf(class string) (base, error) {
	all, err := bases()
	if err != nil {
		return base{}, err
	}
	b, ok := all[class]
	if !ok {
		return base{}, fmt.Errorf("design: no template for class %q", class)
	}
	return base{b.design.Clone(), maps.Clone(b.marks)}, nil
}

// templateMarks returns the marks of the template of a class; they are not to
// be changed.
func templateMarks(class string) map[string]Mark {
	all, err := bases()
	if err != nil {
		return nil
	}
	return all[class].marks
}
