package calibrate

import (
	"context"
	"math"
	"os"
	"testing"

	"costrel/project/design"
)

func sorrel(t *testing.T) *design.Document {
	t.Helper()
	b, err := os.ReadFile("../../examples/sorrel-lime.yaml")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := design.Load("sorrel-lime.yaml", string(b))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// sections of the demo laboratory: means and standard deviations of twelve
// bottles.
var sections = WallData{
	Shoulder: Reading{13.07e-3, 0.195e-3, 12}, Panel: Reading{15.53e-3, 0.122e-3, 12}, Base: Reading{10.20e-3, 0.169e-3, 12},
}

func TestFitForming(t *testing.T) {
	if testing.Short() {
		t.Skip("some dozens of blows")
	}
	doc := sorrel(t)
	f, err := FitForming(context.Background(), doc.Design, sections, FormingKnobs(), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range f.Knobs {
		t.Logf("%-34s %10.4g -> %10.4g ± %.2g identified %v %s", k.Label, k.Before, k.After, k.SD, k.Identified, k.Why)
	}
	for _, c := range f.Data {
		t.Logf("%-30s measured %.4g before %.4g after %.4g", c.Label, c.Measured, c.Before, c.After)
		if c.Section && math.Abs(c.After-c.Measured) > 0.4e-3 {
			t.Errorf("%s: %.2f g after calibration, measured %.2f g", c.Label, c.After*1e3, c.Measured*1e3)
		}
	}
	t.Logf("rms %.2f -> %.2f in %d blows", f.RMSFirst, f.RMSAfter, f.Runs)
	if f.RMSAfter >= f.RMSFirst {
		t.Error("the fit is no better than the start")
	}
}
