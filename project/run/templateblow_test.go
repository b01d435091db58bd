package run

import (
	"testing"

	"costrel/physics/blow"
	"costrel/project/design"
)

// Every pack class, and small drafts of it, blow by the recipe that a new
// design gets: the mould is filled, nothing folds, no wall rises above the
// ledge, and the corners are made while the high stage lasts.
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
			w, _, err := BlownWall(t.Context(), doc.Design, nil)
			if err != nil {
				t.Fatal(err)
			}
			r := w.Blown.Result
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
