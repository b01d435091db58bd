package run

import (
	"testing"

	"costrel/project/design"
)

// The wall whose elastic energy is held against that of the drop is all of the
// bottle below its finish: what the preform has there, but for what the feet of a
// petaloid base have more than its dome.
func TestDropCountsTheWholeWall(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	for class, most := range map[string]float64{"hotfill-500": 0.05, "csd-500": 0.15} {
		doc, err := design.Load("", "schema: 1\nname: drop\nclass: "+class+"\n")
		if err != nil {
			t.Fatal(err)
		}
		x, volume := testsOf(t, doc.Design), 0.0
		for _, p := range pieces(x.b.Stations) {
			volume += p.Volume
		}
		d := doc.Design
		want := (from[*Preform](x.pass, "preform").Mass - d.Finish.Mass) / d.Resin.DensityWall
		t.Logf("%s: %.3g mL of wall, %.3g mL of plastic", class, 1e6*volume, 1e6*want)
		if volume > 1.02*want || volume < (1-most)*want {
			t.Errorf("%s: %g m³ of wall, %g m³ of plastic", class, volume, want)
		}
	}
}
