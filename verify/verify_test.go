package verify

import (
	"strings"
	"testing"

	"costrel/cite"
)

// TestRun holds the rows of one package against its checks: all of them and no
// other, sorted, with the text that a reader sees.
func TestRun(t *testing.T) {
	rows := Run("stat.")
	want := 0
	byID := map[string]cite.Check{}
	for _, c := range Checks() {
		if strings.HasPrefix(c.ID, "stat.") {
			want++
			byID[c.ID] = c
		}
	}
	if len(rows) != want || want == 0 {
		t.Fatalf("%d rows, want %d", len(rows), want)
	}
	for i, r := range rows {
		c := byID[r.ID]
		if i > 0 && rows[i-1].ID >= r.ID {
			t.Errorf("%s stands after %s", r.ID, rows[i-1].ID)
		}
		if r.Unit == "1" || c.Unit != "1" && r.Unit != c.Unit {
			t.Errorf("%s: unit %q of %q", r.ID, r.Unit, c.Unit)
		}
		if r.Reference == "" || r.OursText == "" || r.PublishedText == "" || strings.HasSuffix(r.AllowedText, "%") != c.Relative {
			t.Errorf("%+v", r)
		}
	}
	if Run("nowhere.") != nil {
		t.Error("rows of no package")
	}
}
