package calibrate

import (
	"math"
	"testing"

	"costrel/project/run"
)

// The volume expansion of bursts made by the model itself gives back the strain to
// the ultimate strength with which they were made, and leaves the other factors to
// the other tests; one that no strain gives leaves it alone.
func TestFitHardening(t *testing.T) {
	if testing.Short() {
		t.Skip("dozens of virtual tests")
	}
	t.Parallel()
	d := sorrel(t).Design.Clone()
	d.Handling.Hardening = 0.10
	truth := d.Clone()
	truth.Handling.Hardening = 0.25
	v, err := run.LabStrength(t.Context(), truth, blown)
	if err != nil {
		t.Fatal(err)
	}
	tests := []Tested{
		{"burst.pressure", Reading{Mean: v["burst.pressure"], N: 12}},
		{run.ExpansionKey, Reading{Mean: v[run.ExpansionKey], N: 12}},
	}
	f, err := FitStrength(t.Context(), d, tests, nil)
	if err != nil {
		t.Fatal(err)
	}
	if h := f.Hardening; h == nil || !h.Identified || h.Before != 0.10 || math.Abs(h.After-0.25) > 0.03 {
		t.Errorf("made with 0.25: %+v", h)
	}
	// What it leaves: a strain that far off moves the expansion by the 10 % of the model.
	d.Handling.Hardening, d.Handling.HardeningSD = f.Hardening.After+f.Hardening.SD, 0
	off, err := run.LabStrength(t.Context(), d, blown)
	if err != nil {
		t.Fatal(err)
	}
	if q := off[run.ExpansionKey]/v[run.ExpansionKey] - 1; q < 0.06 || q > 0.14 {
		t.Errorf("spread %.3g of the strain moves the expansion by %.1f %%", f.Hardening.SD/f.Hardening.After, 100*q)
	}
	d.Handling.Hardening = 0.10
	last := f.Data[len(f.Data)-1]
	if last.Key != run.ExpansionKey || math.Abs(last.After/last.Measured-1) > 0.05 || last.Before > 0.8*last.Measured {
		t.Errorf("%+v", last)
	}
	tests[1].Mean = 1.5
	if f, err = FitStrength(t.Context(), d, tests, nil); err != nil || f.Hardening.Identified || f.Hardening.After != 0.10 || f.Hardening.Why == "" {
		t.Errorf("150 %%: %+v %v", f.Hardening, err)
	}
	if _, err := FitStrength(t.Context(), d, tests[1:], nil); err == nil {
		t.Error("an expansion alone is fitted")
	}
}
