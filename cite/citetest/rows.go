// Package citetest is what the tests of every package ask of its published
// checks. Only test files import it.
package citetest

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/cite"
)

// Rows runs the checks of a package and fails the test for each row that
//
//   - is not OK, or is OK although it names a known failure;
//   - could not be evaluated, known failure or not;
//   - names a source that sources.txt lacks;
//   - has an id without the prefix ("oven.") or one that stands twice;
//   - lacks case, unit or mark, or has a mark that is none;
//   - allows nothing, unless it counts: a whole number of unit 1 may be exact.
//
// A package without rows fails. With -v each row is logged.
func Rows(t testing.TB, prefix string, checks []cite.Check) {
	t.Helper()
	if len(checks) == 0 {
		t.Errorf("%s no checks", prefix)
	}
	seen := map[string]bool{}
	for _, c := range checks {
		r := c.Run()
		if testing.Verbose() {
			t.Logf("%-36s ours %12.6g, published %12.6g %s, off by %+.2g, allowed %.2g", c.ID, r.Value, c.Published, c.Unit, r.Deviation, c.Allowed)
		}
		if r.OK != (c.Known == "") || r.Problem != "" {
			t.Errorf("%s: %s: ours %.9g, published %.9g %s, off by %.3g, allowed %.3g; known %q, problem %q",
				c.ID, c.Case, r.Value, c.Published, c.Unit, r.Deviation, c.Allowed, c.Known, r.Problem)
		}
		if !strings.HasPrefix(c.ID, prefix) || c.ID == prefix {
			t.Errorf("%s: want an id that begins with %q", c.ID, prefix)
		}
		if seen[c.ID] {
			t.Errorf("%s stands twice", c.ID)
		}
		seen[c.ID] = true
		if c.Case == "" || c.Unit == "" || !slices.Contains(marks, c.Mark) {
			t.Errorf("%s: case %q, unit %q, mark %q: want all three, the unit of a pure number is 1", c.ID, c.Case, c.Unit, c.Mark)
		}
		counts := c.Unit == "1" && c.Published == math.Trunc(c.Published)
		if !(c.Allowed > 0 || c.Allowed == 0 && counts) {
			t.Errorf("%s allows %g %s", c.ID, c.Allowed, c.Unit)
		}
		Sources(t, c.Source)
	}
}

var marks = []cite.Mark{cite.Independent, cite.Regression, cite.Memory, cite.Practice}

// Sharp fails the test for each row that would still pass if the published
// value were off by the given fraction of itself.
func Sharp(t testing.TB, off float64, checks []cite.Check) {
	t.Helper()
	for _, c := range checks {
		c.Published *= 1 + off
		if c.Run().OK {
			t.Errorf("%s passes %g %% off", c.ID, 100*off)
		}
	}
}

// Sources fails the test for each key that sources.txt lacks.
func Sources(t testing.TB, keys ...string) {
	t.Helper()
	for _, k := range keys {
		if _, ok := cite.Lookup(k); !ok {
			t.Errorf("source %q is not in sources.txt", k)
		}
	}
}
