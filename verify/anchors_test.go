package verify

import "testing"

// TestAnchors walks J5 to J20: each is shown by checks that exist, are printed
// under that number, and hold or are listed as known with a reason.
func TestAnchors(t *testing.T) {
	rows := map[string]Row{}
	for _, prefix := range []string{"drink.contraction.", "drink.vapour.", "resin.crystallinity.", "air.", "capping.lift.", "finish.turns.", "stat.", "climate.", "pallet.drop.", "impact.energy.", "preform.lime.", "drawdown.lime.", "shell.cylinder.", "permeation.film.", "permeation.unit.", "unit.permeability."} {
		for _, r := range Run(prefix) {
			rows[r.ID] = r
		}
	}
	list := Anchors()
	if len(list) != 16 || list[0].Number != 5 || list[15].Number != 20 {
		t.Fatalf("%d rows from %d", len(list), list[0].Number)
	}
	for _, it := range list {
		for _, id := range it.IDs {
			switch r, ok := rows[id]; {
			case !ok:
				t.Errorf("J%d: no check %s", it.Number, id)
			case r.Anchor != it.Number:
				t.Errorf("J%d: %s is printed as J%d", it.Number, id, r.Anchor)
			case !r.OK && r.Known == "":
				t.Errorf("J%d: %s: %g, want %g", it.Number, id, r.Ours, r.Published)
			}
		}
	}
}
