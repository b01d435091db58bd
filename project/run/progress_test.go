package run

import (
	"testing"
	"time"
)

// TestShares prints the share of each stage in a full run without a cache, by
// which the progress of the whole run is weighed, and holds that progress never
// falls and ends at 1. It asserts nothing of time.
func TestShares(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run")
	}
	doc := example(t, "sorrel-lime.yaml")
	begin := time.Now()
	spent := map[string]time.Duration{}
	mark, last, stagesSeen := begin, -1.0, map[string]bool{}
	_, err := Full(t.Context(), doc, nil, func(stage string, fraction float64) {
		now := time.Now()
		spent[stage] += now.Sub(mark)
		mark = now
		stagesSeen[stage] = true
		if fraction < last || fraction > 1 {
			t.Errorf("%s: progress %g after %g", stage, fraction, last)
		}
		last = fraction
	})
	if err != nil {
		t.Fatal(err)
	}
	all := time.Since(begin)
	for _, s := range stages {
		t.Logf("%-10s %5.1f %%", s.name, 100*spent[s.name].Seconds()/all.Seconds())
	}
	if last != 1 {
		t.Errorf("progress ends at %g", last)
	}
	for _, s := range stages {
		if !stagesSeen[s.shown()] {
			t.Errorf("stage %s was not told", s.name)
		}
	}
}
