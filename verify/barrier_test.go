package verify

import (
	"strings"
	"testing"
)

// TestBarrierList walks the 32 rows of the barrier chapter: each is there in
// order, is shown by checks that exist, and holds.
func TestBarrierList(t *testing.T) {
	rows := map[string]Row{}
	for _, prefix := range []string{"drink.", "hotfill.", "permeation.", "climate.", "unit."} {
		for _, r := range Run(prefix) {
			rows[r.ID] = r
		}
	}
	list := Barrier()
	if len(list) != 32 {
		t.Fatalf("%d rows, want 32", len(list))
	}
	seen := map[string]int{}
	for i, it := range list {
		if it.Number != i+1 || it.What == "" || len(it.IDs) == 0 {
			t.Errorf("row %d: %+v", i+1, it)
		}
		for _, id := range it.IDs {
			r, ok := rows[id]
			switch {
			case !ok:
				t.Errorf("row %d: no check %s", it.Number, id)
			case !r.OK && r.Known == "":
				t.Errorf("row %d: %s: %g, want %g", it.Number, id, r.Ours, r.Published)
			case r.Barrier != it.Number:
				t.Errorf("row %d: %s is printed as row %d", it.Number, id, r.Barrier)
			}
			if n, twice := seen[id]; twice {
				t.Errorf("%s stands in rows %d and %d", id, n, it.Number)
			}
			seen[id] = it.Number
		}
	}
	// The trade's statement keeps its mark.
	if r := rows["permeation.life.trade.20C"]; r.Mark != "common practice" || !strings.Contains(r.Note, "fit of one number") {
		t.Errorf("the fit of one number has mark %q and note %q", r.Mark, r.Note)
	}
}
