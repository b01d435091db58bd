package api

import (
	"net/http"
	"testing"

	"costrel/cite"
)

func TestCards(t *testing.T) {
	s, _ := server(t)
	var out struct{ Cards []DataCard }
	if r := call(t, "GET", s.URL+"/api/cards", nil, &out); r.StatusCode != http.StatusOK {
		t.Fatalf("cards: %s", r.Status)
	}
	values := 0
	for _, c := range out.Cards {
		if c.Shelf == "" || c.Name == "" || c.Title == "" || len(c.Data) == 0 {
			t.Errorf("card %q of shelf %q: title %q, %d values", c.Name, c.Shelf, c.Title, len(c.Data))
		}
		for _, d := range c.Data {
			values++
			if d.Label == "" || d.Display == "" || d.Confidence == "" {
				t.Errorf("%s: %s: label %q, value %q, confidence %q", c.Name, d.Key, d.Label, d.Display, d.Confidence)
			}
			if _, ok := cite.Lookup(d.Source); !ok {
				t.Errorf("%s: %s: source %q is not in the list", c.Name, d.Key, d.Source)
			}
		}
	}
	shelves := map[string]bool{}
	for _, c := range out.Cards {
		shelves[c.Shelf] = true
	}
	for _, want := range []string{"Hot fill", "Rules of preform and stretch", "Blowing air", "Energy of the machines", "Prices", "Footprint", "Pallets"} {
		if !shelves[want] {
			t.Errorf("no cards of %q", want)
		}
	}
	if len(out.Cards) < 20 || values < 100 {
		t.Errorf("%d cards with %d values: some shelves are empty", len(out.Cards), values)
	}
}
