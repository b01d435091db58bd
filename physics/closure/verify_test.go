package closure

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
		if seen[c.ID] || !strings.HasPrefix(c.ID, "closure.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
	}
	// Named in notes of the cards.
	for _, k := range []string{"EN17665", "GBT17876", "GasworldClosure", "WiskSiebert1987", "MetalClosureTorque"} {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}
