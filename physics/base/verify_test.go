package base

import (
	"strings"
	"testing"

	"costrel/cite"
)

func TestChecks(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Checks() {
		r := c.Run()
		if r.OK != (c.Known == "") || r.Problem != "" {
			t.Errorf("%s: ours %g, published %g, allowed %g, known %q, problem %q", c.ID, r.Value, c.Published, c.Allowed, c.Known, r.Problem)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: source %q is not in sources.txt", c.ID, c.Source)
		}
		if seen[c.ID] || !strings.HasPrefix(c.ID, "base.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
		c.Published *= 1.02
		if c.Run().OK {
			t.Errorf("%s passes 2 %% off", c.ID)
		}
	}
	keys := []string{"Zagarola", "PlasticsNewsAIPMA2018", "DemirelDaver2009", "ISBTStressCrack", "PTIMethods", "Timoshenko1959", "Zoelly1915", "NASASP8032"}
	for _, c := range Cautions(5e5, true) {
		keys = append(keys, c.Source)
	}
	for _, k := range keys {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}

func TestCards(t *testing.T) {
	want := map[string]int{"strap": 1, "crack": 4, "rule": 10, "snap": 2}
	cards := Cards()
	if len(cards) != len(want) {
		t.Fatalf("%d cards", len(cards))
	}
	for _, c := range cards {
		if len(c.Data) != want[c.Name] {
			t.Errorf("%s: %d data, want %d", c.Name, len(c.Data), want[c.Name])
		}
	}
	cards[0].Data[0].Value = 9
	if StrapFactor().Value != 2 {
		t.Error("Cards hands out the package's own data")
	}
	if d := CrackThreshold(); d.Low != 12e6 || d.High != 20e6 || d.Confidence != "low" {
		t.Errorf("%+v", d)
	}
}
