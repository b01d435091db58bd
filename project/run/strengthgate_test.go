package run

import (
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// The drop judges the gate of packs without gas too: nobody can be asked for its
// stress per pressure.
func TestGateOfStillAndHotPacks(t *testing.T) {
	if testing.Short() {
		t.Skip("blows two bottles")
	}
	still, err := design.Load("", "schema: 1\nname: plain\nclass: still-500\ndrink: {nitrogen: 0 mg}\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, doc := range []*design.Document{example(t, "wrenhollow.yaml"), still} {
		w := work{ctx: t.Context(), full: true, even: true, until: "pressure"}
		x, err := newStrengthTests(&pass{d: doc.Design, name: "strength", work: w, done: evaluate(doc.Design, w, NewCache(64))})
		if err != nil {
			t.Fatal(err)
		}
		x.cracks()
		x.drop()
		f := x.last("drop.index")
		if f == nil {
			t.Fatal(doc.Design.Name, x.problems)
		}
		text := unit.Spell(strings.Join(f.Origin.Warnings, "; "), unit.EU)
		if strings.Contains(text, "gate is not judged") || !strings.Contains(text, " gate 0.") {
			t.Errorf("%s: gate gains %g: %s", doc.Design.Name, x.gate, text)
		}
	}
}
