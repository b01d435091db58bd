package verify

import (
	"math"
	"strconv"
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

// TestOurs holds the digits of our value to what its check asks for.
func TestOurs(t *testing.T) {
	for _, c := range []struct {
		value, published, allowed float64
		relative                  bool
		want                      string
	}{
		{0.0073325, 0.0073, 0.0001, false, "0.00733"},
		{0.0073325, 0.13, 0.12, false, "0.00733"},
		{0.0458308, 0.0458, 0.01, true, "0.04583"},
		{6.140625, 8, 0.15, true, "6.14"},
		{37.3257, 37.326, 2e-5, true, "37.3257"},
		{3.25, 3.25, 0.25, false, "3.25"},
		{0, 0, 0.1, false, "0"},
		{10.0049, 10, 0.00488, false, "10.0049"}, // would agree when rounded to less
	} {
		r := cite.Check{Published: c.published, Allowed: c.allowed, Relative: c.relative, Ours: func() float64 { return c.value }}.Run()
		if got := ours(r); got != c.want {
			t.Errorf("%g beside %g ± %g: %s, want %s", c.value, c.published, c.allowed, got, c.want)
		}
	}
	for _, r := range Run("") {
		allowed := r.Allowed
		if r.Relative {
			allowed *= math.Abs(r.Published)
		}
		v, err := strconv.ParseFloat(r.OursText, 64)
		if err != nil || math.Abs(v-r.Published) <= allowed*(1+1e-9) != r.OK && len(strings.Trim(r.OursText, "-0.")) < 6 {
			t.Errorf("%s: %s beside %g ± %g reads otherwise than it is (%v)", r.ID, r.OursText, r.Published, allowed, r.OK)
		}
	}
}
