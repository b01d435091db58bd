package cite

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestSourcesFile(t *testing.T) {
	all, err := All()
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range all {
		if i > 0 && all[i-1].Key >= s.Key {
			t.Errorf("%s stands behind %s", s.Key, all[i-1].Key)
		}
		if got, ok := Lookup(s.Key); !ok || got != s {
			t.Errorf("Lookup(%q) = %+v, %v", s.Key, got, ok)
		}
	}
	if _, ok := Lookup("CommonPractice"); !ok {
		t.Error("no CommonPractice")
	}
	if _, ok := Lookup(""); ok {
		t.Error("the empty key has a source")
	}
}

func TestParseSources(t *testing.T) {
	got, err := ParseSources("# a comment\n\n@Hooke1678\nauthors: R. Hooke\r\ntitle: De potentia restitutiva: of spring\nwhere: London\nyear: 1678\nread: memory\nnote: ut tensio\n\n@CommonPractice\nauthors: the trade\ntitle: none\nwhere: -\nyear: 2026\nread: -\n")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]Source{
		"Hooke1678":      {"Hooke1678", "R. Hooke", "De potentia restitutiva: of spring", "London", "1678", "memory", "ut tensio"},
		"CommonPractice": {"CommonPractice", "the trade", "none", "-", "2026", "-", ""},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if s, want := got["Hooke1678"].String(), "R. Hooke (1678): De potentia restitutiva: of spring. London [read: memory]"; s != want {
		t.Errorf("String: %q", s)
	}
	if s := got["CommonPractice"].String(); strings.Contains(s, "read") {
		t.Errorf("String: %q", s)
	}
}

func TestParseSourcesFaults(t *testing.T) {
	const text = `authors: nobody
@One2001
authors: A
authors: B
mood: glad
@One2001
authors: A
title: T
where: W
year: 2001
read: whole
no colon here
@ Two words
@
`
	_, err := ParseSources(text)
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{
		`line 1: want "field: value" under an @Key, have "authors: nobody"`,
		"line 2: entry One2001 lacks title, where, year, read",
		"line 4: field authors of One2001 stands twice",
		`line 5: unknown field "mood"`,
		"line 6: entry One2001 stands twice",
		`line 12: want "field: value" under an @Key, have "no colon here"`,
		`line 13: want "@AuthorYear", have "@ Two words"`,
		`line 14: want "@AuthorYear", have "@"`,
		"line 14: entry  lacks authors, title, where, year, read",
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("lacks %q in\n%v", want, err)
		}
	}
}

func FuzzParseSources(f *testing.F) {
	f.Add("@A\nauthors: a\ntitle: b\nwhere: c\nyear: d\nread: e")
	f.Add("@\n:\n")
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseSources(text)
		if err != nil {
			if m != nil {
				t.Fatal("sources beside an error")
			}
			return
		}
		for key, s := range m {
			if key == "" || s.Key != key || s.Authors == "" || s.Title == "" || s.Where == "" || s.Year == "" || s.Read == "" {
				t.Fatalf("%q: %+v", key, s)
			}
		}
	})
}
