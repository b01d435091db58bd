package inject

import (
	"strings"
	"testing"

	"costrel/cite"
)

func TestChecks(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Checks() {
		r := c.Run()
		t.Logf("%-28s ours %9.5g published %9.5g", c.ID, r.Value, c.Published)
		if r.OK != (c.Known == "") || r.Problem != "" {
			t.Errorf("%s: ours %g, published %g, allowed %g, known %q, problem %q", c.ID, r.Value, c.Published, c.Allowed, c.Known, r.Problem)
		}
		if _, ok := cite.Lookup(c.Source); !ok {
			t.Errorf("%s: source %q is not in sources.txt", c.ID, c.Source)
		}
		if seen[c.ID] || !strings.HasPrefix(c.ID, "inject.") || c.Case == "" || c.Unit == "" || c.Mark == "" || c.Allowed <= 0 {
			t.Errorf("%s: row is incomplete, misnamed or stands twice", c.ID)
		}
		seen[c.ID] = true
	}
}

func TestSources(t *testing.T) {
	for _, k := range []string{"BallmanShusman1959", "BrandauCycles", "Halek1986", "Bashir2002", "Lucchetta2014", "PreformTrader2013", "CarslawJaeger1959"} {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}
