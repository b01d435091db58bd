package verify

import "testing"

// TestFormingList walks V1 to V32: each is shown by checks that exist and hold,
// or are listed as known with a reason.
func TestFormingList(t *testing.T) {
	walkList(t, Forming(), "resin.", "blow.", "oven.", "inject.", "air.")
}

// walkList runs the checks with the prefixes and walks a list of 32 rows: each
// in its order, with checks that exist and hold or are known to fail. It
// returns the rows by ID.
func walkList(t *testing.T, list []Item, prefixes ...string) map[string]Row {
	t.Helper()
	rows := map[string]Row{}
	for _, prefix := range prefixes {
		for _, r := range Run(prefix) {
			rows[r.ID] = r
		}
	}
	if len(list) != 32 {
		t.Fatalf("%d rows, want 32", len(list))
	}
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
			}
		}
	}
	return rows
}
