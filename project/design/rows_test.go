package design

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const zonesNoted = `oven:
  zones: # neck to tip
    # the lamps of the line
    columns: [zone, power %] # of full
    rows:
      # lamps new in May
      - [1, 60.0] # scratched
      # second ring

      # third ring
      - [2, 50]   # dim
      - [3, 45]   # bright
  # next
  overall: 70 %
`

// A given table takes comments with the rows it takes out, and no others.
func TestSetTableComments(t *testing.T) {
	for name, c := range map[string]struct{ path, old, value, want string }{
		"one cell": {"oven.zones", zonesNoted, "zone\tpower %\n1\t60\n2\t51\n3\t45", strings.Replace(zonesNoted, "[2, 50]", "[2, 51]", 1)},
		"another unit of the heading": {
			"oven.zones", zonesNoted, "zone\tpower\n1\t60 %\n2\t50 %\n3\t45 %",
			strings.NewReplacer("power %]", "power]", "[1, 60.0]", "[1, 60 %]", "[2, 50]", "[2, 50 %]", "[3, 45]", "[3, 45 %]").Replace(zonesNoted),
		},
		"a row goes":                 {"oven.zones", zonesNoted, "zone\tpower %\n1\t60\n3\t45", strings.Replace(zonesNoted, "      # third ring\n      - [2, 50]   # dim\n", "", 1)},
		"the first goes":             {"oven.zones", zonesNoted, "zone\tpower %\n2\t50\n3\t45", strings.Replace(zonesNoted, "      # lamps new in May\n      - [1, 60.0] # scratched\n", "", 1)},
		"a row comes":                {"oven.zones", zonesNoted, "zone\tpower %\n1\t60\n2\t50\n4\t1\n3\t45", strings.Replace(zonesNoted, "      - [3,", "      - [4, 1]\n      - [3,", 1)},
		"a row comes first, last":    {"oven.zones", "oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n      # ring\n      - [2, 50]", "zone\tpower %\n1\t1\n2\t50\n4\t2", "oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n      - [1, 1]\n      # ring\n      - [2, 50]\n      - [4, 2]"},
		"a comment over two goes on": {"oven.zones", "oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n      - [1, 60] # these two,\n      - [2, 50] # seen in May\n", "zone\tpower %\n2\t50", "oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n                # these two,\n      - [2, 50] # seen in May\n"},
		"in brackets on lines":       {"oven.zones", "oven:\n  zones: {columns: [zone, power %], rows: [\n    [1, 60], # a\n    [2, 50]]}\n", "zone\tpower %\n1\t60\n2\t51", "oven:\n  zones: {columns: [zone, power %], rows: [\n    [1, 60], # a\n    [2, 51]]}\n"},
		"a moved point":              {"bottle.profile", "bottle:\n  profile:\n    columns: [z mm, r in]\n    rows:\n      - [0, 1] # ring\n      - [60, 1.98] # body\n      - [288, 0.52]\n", "z mm\tr in\n0\t1\n61\t1.98\n288\t0.52", "bottle:\n  profile:\n    columns: [z mm, r in]\n    rows:\n      - [0, 1] # ring\n      - [61, 1.98] # body\n      - [288, 0.52]\n"},
		"a column more":              {"bottle.profile", "bottle:\n  profile:\n    columns: [z mm, r in]\n    rows:\n      - [0, 1] # ring\n      - [288, 0.52]\n", "z mm\tr in\tvia\n0\t1\t\n5\t2\tline\n288\t0.52\tcurve", "bottle:\n  profile:\n    columns: [z mm, r in, via]\n    rows:\n      - [0, 1] # ring\n      - [5, 2, line]\n      - [288, 0.52, curve]\n"},
		"a list on lines":            {"bottle.planes", "bottle:\n  planes:\n    - 60 mm # heel\n    # above\n    - \"190 mm\" # shoulder\n", "planes mm\n60\n195", "bottle:\n  planes:\n    - 60 mm # heel\n    # above\n    - \"195 mm\" # shoulder\n"},
		"limits": {
			"limits", "limits:\n  # the customer's\n  - {figure: shelf.loss.end, side: max, value: \"12 %\"} # agreed\n  - figure: closure.lift # on the thread\n    side: max\n    value: 650 N # or 66 kgf\n",
			"figure\tside\tvalue\townr\nshelf.loss.end\tmax\t11 %\nclosure.lift\tmax\t600 N",
			"limits:\n  # the customer's\n  - {figure: shelf.loss.end, side: max, value: \"11 %\"} # agreed\n  - figure: closure.lift # on the thread\n    side: max\n    value: 600 N # or 66 kgf\n",
		},
	} {
		for _, eol := range []string{"\n", "\r\n"} {
			end := func(s string) string { return strings.ReplaceAll(minimal("csd-1500")+s, "\n", eol) }
			got, err := Set(end(c.old), c.path, strings.ReplaceAll(c.value, "\townr", ""))
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if diff := cmp.Diff(end(c.want), got); diff != "" {
				t.Errorf("%s (-want +got):\n%s", name, diff)
			}
		}
	}
	if _, err := Set(minimal("csd-1500")+"oven:\n  zones: {columns: [zone, power %], rows: [\n    [1, 60], # a\n    [2, 50]]}\n", "oven.zones", "zone\tpower %\n1\t60"); err == nil || !strings.Contains(err.Error(), "comments") {
		t.Errorf("comments in brackets are lost: %v", err)
	}
}

// A comment of several lines goes or stays as a whole.
func TestSetKeepsCommentWhole(t *testing.T) {
	const two = "oven:\n  overall: 76 %\n  tilt: -18.7 K  # the tip cooler, the middle cooler than both:\n  bow: -7.6 K    # set on the weights\n"
	for _, c := range []struct{ path, old, want string }{
		{"oven.tilt", two, "oven:\n  overall: 76 %\n                 # the tip cooler, the middle cooler than both:\n  bow: -7.6 K    # set on the weights\n"},
		{"oven.bow", two, "oven:\n  overall: 76 %\n  tilt: -18.7 K  # the tip cooler, the middle cooler than both:\n                 # set on the weights\n"},
		{"oven.tilt", "oven:\n  tilt: -18.7 K  # the tip\n                 # is cooler\n  bow: -7.6 K\n", "oven:\n  bow: -7.6 K\n"},
		{"oven.tilt", "oven:\n  tilt: -18.7 K  # first\n  bow: -7.6 K    # second\n", "oven:\n  bow: -7.6 K    # second\n"},
	} {
		got, err := Set(minimal("csd-1500")+c.old, c.path, "")
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(minimal("csd-1500")+c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.path, diff)
		}
	}
}
