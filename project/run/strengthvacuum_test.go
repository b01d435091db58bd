package run

import (
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/project/design"
)

// A drink with next to no gas draws its closed pack together: a bottle that collapses
// has no growth, altitude or top load, and says at which vacuum. One with little gas
// has them, and no fill point that would be read cold under a vacuum.
func TestPackThatCollapsesHasNoTests(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for text, lost := range map[string][]string{
		"0.3 vol": {"growth.diameter", "fillpoint.drop", "stress.max", "altitude.pressure", "altitude.growth", "topload.filled", "stack.capacity", "softening.temperature", "material.hdpe.growth"},
		"0.6 vol": {"fillpoint.drop"},
		"2 vol":   nil,
	} {
		doc, err := design.Load("", "schema: 1\nname: flat\nclass: csd-500\ndrink: {carbonation: "+text+"}\n")
		if err != nil {
			t.Fatal(err)
		}
		x := testsOf(t, doc.Design)
		for _, test := range []func(){x.growth, x.vacuum, x.topLoads, x.softening, x.altitude, x.otherMaterials} {
			test()
		}
		for _, key := range []string{"growth.diameter", "fillpoint.drop", "stress.max", "altitude.pressure", "altitude.growth", "topload.filled", "stack.capacity", "softening.temperature", "material.hdpe.growth", "vacuum.collapse"} {
			shown := slices.ContainsFunc(x.figures, func(f figure.Figure) bool { return f.Key == key })
			if shown == slices.Contains(lost, key) {
				t.Errorf("%s: %s shown %t", text, key, shown)
			}
		}
		for _, p := range x.problems {
			if slices.Contains(lost, p.Key) && !strings.Contains(p.Reason, "its wall collapses at") {
				t.Errorf("%s: %s: %s", text, p.Key, p.Reason)
			}
		}
	}
}
