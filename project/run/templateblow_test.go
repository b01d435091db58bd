package run

import (
	"testing"

	"costrel/physics/blow"
	"costrel/project/design"
	"costrel/quality"
)

// meetsItsLimits says where a figure lies beyond a limit of its own template.
func meetsItsLimits(t *testing.T, d *design.Design, done map[string]*entry) {
	t.Helper()
	limits, faults := Limits(d)
	for _, f := range faults {
		t.Error(f)
	}
	for _, f := range collect(done) {
		for _, q := range limits {
			if q.Figure == f.Key && ((q.Side == quality.Min && f.Value < q.Value) || (q.Side == quality.Max && f.Value > q.Value)) {
				t.Errorf("%s is %g, its own limit %g", f.Key, f.Value, q.Value)
			}
		}
		if f.Key == "base.clearance" && f.Value <= 0 {
			t.Errorf("the pack rocks: %g m", f.Value)
		}
	}
}

// Every pack class, and small drafts of it, blow by the recipe that a new
// design gets: the mould is filled, nothing folds, no wall rises above the
// ledge, the corners are made while the high stage lasts, and the
// pack meets the limits that come with its template.
func TestTemplatesBlow(t *testing.T) {
	if testing.Short() {
		t.Skip("a blow of each pack class")
	}
	type pack struct{ class, volume string }
	packs := []pack{{"csd-500", "250 mL"}, {"csd-500", "12 fl oz"}, {"still-500", "250 mL"}}
	for _, class := range design.Classes() {
		packs = append(packs, pack{class, ""})
	}
	for _, p := range packs {
		t.Run(p.class+p.volume, func(t *testing.T) {
			t.Parallel()
			text, err := design.Draft(p.class, map[string]string{"brief.nominal": p.volume})
			if err != nil {
				t.Fatal(err)
			}
			doc, err := design.Load("draft", text)
			if err != nil {
				t.Fatal(err)
			}
			last := "wall"
			if p.volume == "" {
				last = "strength"
			}
			done := evaluate(doc.Design, work{ctx: t.Context(), full: true, until: last}, NewCache(64))
			if err := done["wall"].err; err != nil {
				t.Fatal(err)
			}
			meetsItsLimits(t, doc.Design, done)
			r := done["wall"].out.(*Wall).Blown.Result
			if !r.Filled {
				t.Error("not filled")
			}
			for _, f := range r.Flags {
				if f.Kind == blow.FlagFold || f.Kind == blow.FlagNotFilled || f.Kind == blow.FlagThin || f.Kind == blow.FlagLocking {
					t.Errorf("%s: %s", f.Kind, f.Text)
				}
			}
			// The tip keeps the gate.
			if gate := r.Places[0].Wall; gate < 0.8*doc.Design.Preform.Gate {
				t.Errorf("the gate of %.2f mm is drawn to %.2f mm under the rod", doc.Design.Preform.Gate*1e3, gate*1e3)
			}
			fast := 0.0
			for _, q := range r.Places {
				if q.Z < 0 {
					t.Errorf("wall %.1f mm above the ledge", -q.Z*1e3)
				}
				if q.Rate > 100 {
					fast += q.Mass / r.Mass
				}
			}
			if fast > 0.2 {
				t.Errorf("%.0f %% of the wall is stretched faster than 100 1/s: the high stage does the work of the pre-blow", 100*fast)
			}
		})
	}
}
