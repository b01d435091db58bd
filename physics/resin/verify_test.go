package resin

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
		if seen[c.ID] || !strings.HasPrefix(c.ID, "resin.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
	}
}

func TestSources(t *testing.T) {
	var keys []string
	for _, p := range DensityPairs() {
		keys = append(keys, p.Source)
	}
	for _, f := range RecycledFindings() {
		keys = append(keys, f.Source)
	}
	// Named in doc comments.
	keys = append(keys, "Liu2004", "ESAFORM2007", "ATHAS", "StressOptical2014", "Zhang2020", "PolymerHandbook1999", "Berkowitz1984", "Billmeyer1949", "ASTMD4603", "PTIMethods")
	for _, k := range keys {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}
