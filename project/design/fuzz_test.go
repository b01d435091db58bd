package design

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design/yaml"
)

func seeds(f *testing.F) []string {
	f.Helper()
	var out []string
	for _, pattern := range []string{"testdata/broken/*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatal(pattern, err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			if len(text) < 8<<10 { // long seeds slow the search
				out = append(out, string(text))
			}
		}
	}
	for _, class := range Classes() {
		text, err := Template(class)
		if err != nil {
			f.Fatal(err)
		}
		out = append(out, minimal(class)+text)
	}
	return append(out, noted)
}

// FuzzLoad: a text is a document, or faults with their places; never a panic.
func FuzzLoad(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		doc, err := Load("fuzz.yaml", text)
		if err != nil {
			var faults Faults
			if !errors.As(err, &faults) || doc != nil {
				t.Fatalf("document %v with error %v", doc, err)
			}
			sound(t, text, faults)
			if len(err.Error()) == 0 {
				t.Error("no message")
			}
			return
		}
		if doc.Design.Schema != Schema || doc.Design.Name == "" {
			t.Errorf("accepted without head: %+v", doc.Design)
		}
		for _, it := range Walk() {
			m := doc.MarkOf(it.Path)
			if m.Kind == "" {
				t.Errorf("%s has no mark", it.Path)
			}
			lo, hi, hasLo, hasHi := it.Field.Limits()
			if v, _, ok := doc.Design.Number(it.Path); ok && (m.Kind == figure.Given) && (hasLo && v < lo*(1-1e-9)-1e-12 && lo >= 0 || hasHi && v > hi*(1+1e-9)) {
				t.Errorf("%s = %g outside %g..%g", it.Path, v, lo, hi)
			}
		}
		if got := len(doc.Listing("eu")); got != len(Walk()) {
			t.Errorf("%d values listed of %d", got, len(Walk()))
		}
	})
}

// FuzzSet: an edit is refused, or the document differs at the path only and
// keeps its comments.
func FuzzSet(f *testing.F) {
	var paths []string
	for _, it := range Walk() {
		if !it.Table {
			paths = append(paths, it.Path)
		}
	}
	paths = append(paths, "limits[0].value", "limits[1].note", "oven.zones[0].power", "oven.zones[1].zone", "bottle.profile[0].r", "bottle.profile[2].via", "bottle.planes[0]", "bottle.planes[1]", "climate.lane[0].swing", "no.such.path", "preform", "oven.zones")
	for i, s := range seeds(f) {
		for j := range 6 {
			f.Add(s, uint16(i*31+j*7), []string{"3.5 mm", "", "a: b # c", "52 %", "x\ny", "~"}[(i+j)%6])
		}
	}
	f.Fuzz(func(t *testing.T, text string, n uint16, value string) {
		path := paths[int(n)%len(paths)]
		got, err := Set(text, path, value)
		if err != nil {
			return
		}
		a, _ := flat(text)
		b, faults := flat(got)
		if len(faults) > 0 {
			t.Fatalf("no YAML any more: %v\n%s", faults, got)
		}
		key := path[strings.LastIndexByte(path, '.')+1:]
		if value == "" && !strings.Contains(text, key) && got != text {
			t.Errorf("%s is not there, and taking it out changed the text:\n%s", path, got)
		}
		table, _, cell := strings.Cut(path, "[")
		mine := func(p string) bool {
			whole := strings.HasPrefix(p, path+".") || strings.HasPrefix(p, path+"[") // of a table taken out or replaced
			return p == path || whole || cell && strings.HasPrefix(p, table) && (p[len(table):] == "" || p[len(table)] == '[' || p[len(table)] == '.')
		}
		for k, v := range a {
			if w, ok := b[k]; !mine(k) && (!ok || v != w) {
				t.Errorf("%s was %q, is %q (%v)", k, v, w, ok)
			}
		}
		for k := range b {
			if _, ok := a[k]; !ok && !mine(k) {
				t.Errorf("%s came", k)
			}
		}
		if v := strings.TrimSpace(value); v != "" && !cell && b[path] != v {
			t.Errorf("%s is %q, want %q", path, b[path], v)
		}
		if lost := lostComments(text, got); lost > 1 || lost == 1 && strings.TrimSpace(value) != "" {
			t.Errorf("%d comments are lost:\n%s", lost, got)
		}
		again, err := Set(got, path, value)
		if err != nil || again != got {
			t.Errorf("done twice it is another text: %v\n%s", err, again)
		}
	})
}

// lostComments counts the comments of one text that another does not have;
// the comment behind a line that is taken out goes with it.
func lostComments(before, after string) int {
	have := map[string]int{}
	for _, c := range comments(after) {
		have[c]++
	}
	n := 0
	for _, c := range comments(before) {
		if have[c]--; have[c] < 0 {
			n++
		}
	}
	return n
}

// comments returns what follows a # outside texts; it looks at lines that are
// comments as a whole and at ends of lines behind a value.
func comments(text string) []string {
	root, faults := yaml.Parse(text)
	if root == nil || len(faults) > 0 {
		return nil
	}
	held := make([]bool, len(text)+1) // bytes of scalars
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		if n.Kind == yaml.Scalar {
			for i := n.Start; i < n.End; i++ {
				held[i] = true
			}
		}
		for _, p := range n.Pairs {
			walk(p.Key)
			walk(p.Value)
		}
		for _, i := range n.Items {
			walk(i)
		}
	}
	walk(root)
	var out []string
	for i := 0; i < len(text); i++ {
		if text[i] == '#' && !held[i] {
			end := strings.IndexByte(text[i:], '\n')
			if end < 0 {
				end = len(text) - i
			}
			out = append(out, strings.TrimRight(text[i:i+end], "\r"))
			i += end
		}
	}
	return out
}
