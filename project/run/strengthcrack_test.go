package run

import (
	"strings"
	"testing"

	"costrel/project/design"
)

// A gate that its push-up presses together in the bath has an index of 0, and is
// told in words why; one that is pulled is not.
func TestGatePushedTogetherIsTold(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for up, pushed := range map[string]bool{"5 mm": false, "6 mm": true} {
		doc, err := design.Load("", "schema: 1\nname: gate\nclass: returnable-1000\nbottle: {base: {push_up: "+up+"}}\n")
		if err != nil {
			t.Fatal(err)
		}
		x := testsOf(t, doc.Design)
		x.cracks()
		f := x.last("base.crack.index")
		if f == nil {
			t.Fatal(x.problems)
		}
		if told := strings.Contains(strings.Join(f.Origin.Warnings, "; "), "pushes the wall round the gate together"); told != pushed || (f.Value == 0) != pushed {
			t.Errorf("%s: %g, told %t: %v", up, f.Value, told, f.Origin.Warnings)
		}
	}
}
