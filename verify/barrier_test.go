package verify

import (
	"strings"
	"testing"
)

// TestBarrierList walks the 32 rows of the barrier chapter: each is there in
// order, is shown by checks that exist, and holds.
func TestBarrierList(t *testing.T) {
	list := Barrier()
	rows := walkList(t, list, "drink.", "hotfill.", "permeation.", "climate.", "unit.")
	seen := map[string]int{}
	for _, it := range list {
		for _, id := range it.IDs {
			if r, ok := rows[id]; ok && r.Barrier != it.Number {
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
