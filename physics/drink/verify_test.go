package drink

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
		if r.OK == (c.Known != "") {
			t.Errorf("%s: ours %.6g, published %.6g %s, deviation %.3g, allowed %.3g, known failure %q",
				c.ID, r.Value, c.Published, c.Unit, r.Deviation, c.Allowed, c.Known)
		}
		if testing.Verbose() {
			t.Logf("%-36s %10.5g %10.5g  %+.2e of %.1e  %s", c.ID, r.Value, c.Published, r.Deviation, c.Allowed, c.Mark)
		}
	}
}

func TestLawSources(t *testing.T) {
	for _, l := range Laws() {
		if _, ok := cite.Lookup(l.Source); !ok {
			t.Errorf("law %s: source %q is not in sources.txt", l.Name, l.Source)
		}
	}
}
