package run

import (
	"math"
	"os"
	"strings"
	"testing"

	"costrel/project/design"
)

// TestTeeth holds what docs/theory/stress.md says of the teeth in the stress along
// the meridian: they come from the corners of an outline of straight lines, go with
// them, and do not move the largest mean of the wall.
func TestTeeth(t *testing.T) {
	if testing.Short() {
		t.Skip("two full runs")
	}
	b, err := os.ReadFile("../../examples/sorrel-lime.yaml")
	if err != nil {
		t.Fatal(err)
	}
	lines := string(b)
	curved := strings.Replace(lines, "columns: [z mm, r mm]", "columns: [z mm, r mm, via]", 1)
	for _, row := range []string{"[205, 49.5", "[220, 46.4", "[234, 41", "[246, 34.4", "[256, 27.8", "[266, 21.4", "[275, 16.6", "[282, 13.8", "[288, 13.1"} {
		if !strings.Contains(curved, row+"]") {
			t.Fatalf("the example has no row %s]", row)
		}
		curved = strings.Replace(curved, row+"]", row+", curve]", 1)
	}
	teeth := func(text string) (apart, most float64) {
		doc, err := design.Load("sorrel-lime.yaml", text)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Full(t.Context(), doc, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range r.Plots {
			if p.Key != "strength.stress" {
				continue
			}
			for i, s := range p.Series[0].X {
				if s > 0.21 && s < 0.262 { // the shoulder, beyond its step to the panel
					apart = math.Max(apart, math.Abs(p.Series[0].Y[i]-p.Series[1].Y[i]))
				}
			}
		}
		return apart, figureOf(t, r, "stress.max").Value
	}
	cornered, most := teeth(lines)
	smooth, other := teeth(curved)
	t.Logf("faces part by %.3g MPa with corners, %.3g MPa without; stress.max %.5g and %.5g MPa", cornered/1e6, smooth/1e6, most/1e6, other/1e6)
	if cornered < 10e6 || smooth > cornered/4 {
		t.Errorf("the faces part by %.3g MPa with corners, %.3g MPa without", cornered/1e6, smooth/1e6)
	}
	if math.Abs(other/most-1) > 0.01 {
		t.Errorf("stress.max is %.4g MPa with corners, %.4g MPa without", most/1e6, other/1e6)
	}
}
