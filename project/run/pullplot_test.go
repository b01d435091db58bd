package run

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// TestPullsAsMeasured: the points of the laboratory go out with every digit that
// was typed, at the time at which the fit takes them, and the note tells of the
// one time that is not the typed one.
func TestPullsAsMeasured(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	rows := doc.Design.Lab.Pulls
	if len(rows) < 25 {
		t.Fatalf("%d pulls: too few to be rounded", len(rows))
	}
	plot := func() (Plot, Series) {
		t.Helper()
		for _, p := range Check(doc, NewCache(64)).Plots {
			if p.Key == "shelf.carbonation" {
				for _, s := range p.Series {
					if s.Points {
						return p, s
					}
				}
			}
		}
		t.Fatal("no pulls on the trace")
		return Plot{}, Series{}
	}
	p, s := plot()
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var sent Series
	if err := json.Unmarshal(b, &sent); err != nil || sent.Name != s.Name || !sent.Points {
		t.Fatalf("%v: %s", err, b)
	}
	for i, r := range rows {
		if sent.Y[i] != r.Carbonation {
			t.Errorf("row %d: %v of %v", i, sent.Y[i], r.Carbonation)
		}
		vol, ok := unit.Find(unit.Carbonation, "vol")
		if typed := math.Round(r.Carbonation/vol.Scale*1e6) / 1e6; !ok || math.Abs(sent.Y[i]/vol.Scale-typed) > 1e-12*typed {
			t.Errorf("row %d: %.15g vol, typed %g", i, sent.Y[i]/vol.Scale, typed)
		}
		want := r.Time
		if want == 0 {
			want = 86400
		}
		if sent.X[i] != want {
			t.Errorf("row %d at %v s, want %v", i, sent.X[i], want)
		}
	}
	if !strings.Contains(p.Note, "from filling; pulls of time 0 are the readings after 24 hours") {
		t.Errorf("the note tells no time: %s", p.Note)
	}
	// A pull of half a day stays there.
	doc.Design.Lab.Pulls = []design.PullRow{{Time: 43200, Carbonation: rows[0].Carbonation}, {Time: 6048000, Carbonation: rows[0].Carbonation}}
	if p, s = plot(); s.X[0] != 43200 || strings.Contains(p.Note, "24 hours") {
		t.Errorf("half a day at %v s: %s", s.X[0], p.Note)
	}
}
