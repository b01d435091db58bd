package plan

import (
	"testing"

	"costrel/cite"
)

func TestChecks(t *testing.T) {
	for _, c := range Checks() {
		r := c.Run()
		if r.OK == (c.Known != "") {
			t.Errorf("%s: ours %g, published %g, deviation %g, allowed %g", c.ID, r.Value, c.Published, r.Deviation, c.Allowed)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: no source %s", c.ID, c.Source)
		}
	}
}
