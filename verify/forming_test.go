package verify

import "testing"

// TestFormingList walks V1 to V32: each is shown by checks that exist and hold,
// or are listed as known with a reason.
func TestFormingList(t *testing.T) {
	rows := map[string]Row{}
	for _, prefix := range []string{"resin.", "blow.", "oven.", "inject.", "air."} {
		for _, r := range Run(prefix) {
			rows[r.ID] = r
		}
	}
	list := Forming()
	if len(list) != 32 {
		t.Fatalf("%d rows, want 32", len(list))
	}
	for i, it := range list {
		if it.Number != i+1 || it.What == "" || len(it.IDs) == 0 {
			t.Errorf("V%d: %+v", i+1, it)
		}
		for _, id := range it.IDs {
			r, ok := rows[id]
			switch {
			case !ok:
				t.Errorf("V%d: no check %s", it.Number, id)
			case !r.OK && r.Known == "":
				t.Errorf("V%d: %s: %g, want %g", it.Number, id, r.Ours, r.Published)
			}
		}
	}
}
