package api

import (
	"net/http"
	"strings"
	"testing"

	"costrel/cite"
)

// Every source that a card names has a title that is no key.
func TestSourceTitles(t *testing.T) {
	s, _ := server(t)
	var got struct{ Sources []SourceTitle }
	if r := call(t, "GET", s.URL+"/api/sources", nil, &got); r.StatusCode != http.StatusOK {
		t.Fatal(r.Status)
	}
	titles := map[string]string{}
	for _, src := range got.Sources {
		titles[src.Key] = src.Title
	}
	for _, shelf := range shelves() {
		for _, c := range shelf.cards {
			for _, d := range c.Data {
				if title := titles[d.Source]; len(title) < 8 || title == d.Source || !strings.Contains(title, " ") {
					t.Errorf("%s %s: source %s is called %q", c.Name, d.Key, d.Source, title)
				}
			}
		}
	}
	if got := titles["CommonPractice"]; got != "Common practice, no published source" {
		t.Errorf("common practice is called %q", got)
	}
	src, _ := cite.Lookup("SI2019")
	if got, want := titles["SI2019"], src.Title+" (2019)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
