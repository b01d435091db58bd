package capping

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
		if seen[c.ID] || !strings.HasPrefix(c.ID, "capping.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
	}
	keys := []string{"Shigley1989", "Brandau201304", "Brandau201610", "GBT17876", "MoranShapiro2006"} // named in doc comments
	for _, c := range Cautions(1e6) {
		keys = append(keys, c.Source)
	}
	for _, k := range keys {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}
