package blow

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
		} else {
			t.Logf("%-20s %.6g (%.6g)", c.ID, r.Value, c.Published)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: source %q is not in sources.txt", c.ID, c.Source)
		}
		if seen[c.ID] || !strings.HasPrefix(c.ID, "blow.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
	}
}
