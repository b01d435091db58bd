package permeation

import (
	"testing"

	"costrel/cite"
)

func TestChecks(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Checks() {
		if seen[c.ID] {
			t.Errorf("%s stands twice", c.ID)
		}
		seen[c.ID] = true
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: source %q is not in sources.txt", c.ID, c.Source)
		}
		if r := c.Run(); r.OK != (c.Known == "") {
			t.Errorf("%s: ours %.6g, published %.6g %s, allowed %g (known: %q)", c.ID, r.Value, c.Published, c.Unit, c.Allowed, c.Known)
		}
	}
}
