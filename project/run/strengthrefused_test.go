package run

import (
	"strings"
	"testing"

	"costrel/project/design"
)

// A blow that stands with a wall that is refused says why there are no tests.
func TestTestsSayWhyTheWallIsRefused(t *testing.T) {
	doc, err := design.Load("", "schema: 1\nname: thick\nclass: csd-500\nblow: {wall_factor: 2}\n")
	if err != nil {
		t.Fatal(err)
	}
	d := doc.Design
	w := work{ctx: t.Context(), full: true, until: "wall"}
	_, err = newStrengthTests(&pass{d: d, name: "strength", work: w, done: evaluate(d, w, NewCache(64))})
	if err == nil || !strings.Contains(err.Error(), "panel factor of 2") {
		t.Errorf("%v", err)
	}
}
