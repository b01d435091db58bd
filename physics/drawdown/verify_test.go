package drawdown

import (
	"testing"

	"costrel/cite"
)

func TestChecks(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Checks() {
		r := c.Run()
		if r.OK != (c.Known == "") {
			t.Errorf("%s: %s: %.9g %s, published %.9g, deviation %.3g, allowed %.3g", c.ID, c.Case, r.Value, c.Unit, c.Published, r.Deviation, c.Allowed)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: source %q is not in sources.txt", c.ID, c.Source)
		}
		if seen[c.ID] {
			t.Errorf("%s stands twice", c.ID)
		}
		seen[c.ID] = true
		t.Logf("%-28s %12.6g %12.6g %s", c.ID, r.Value, c.Published, c.Unit)
	}
}
