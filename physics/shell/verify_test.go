package shell

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
		r := c.Run()
		if r.OK != (c.Known == "") {
			t.Errorf("%s: ours %.8g, published %.8g %s, off by %.3g, allowed %g %s", c.ID, r.Value, c.Published, c.Unit, r.Deviation, c.Allowed, r.Problem)
		} else if testing.Verbose() {
			t.Logf("%-24s ours %.6g published %.6g %s off %.2g allowed %g", c.ID, r.Value, c.Published, c.Unit, r.Deviation, c.Allowed)
		}
		if c.Case == "" || c.Unit == "" || c.Mark == "" {
			t.Errorf("%s lacks case, unit or mark", c.ID)
		}
	}
}

func BenchmarkChecks(b *testing.B) {
	for b.Loop() {
		for _, c := range Checks() {
			c.Run()
		}
	}
}
