package calibrate

import (
	"math"
	"os"
	"testing"

	"costrel/project/run"
	"costrel/quality/lab"
)

func sorrelTests(t *testing.T) *lab.Table {
	t.Helper()
	b, err := os.ReadFile("../../examples/lab/sorrel-tests.csv")
	if err != nil {
		t.Fatal(err)
	}
	table, err := lab.Read("sorrel-tests.csv", b, "")
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func TestTestedOf(t *testing.T) {
	table := sorrelTests(t)
	got, err := TestedOf(table, "")
	if err != nil || len(got) != 5 {
		t.Fatalf("%v %v", got, err)
	}
	for _, q := range got {
		if q.Key == "topload.empty" && (math.Abs(q.Mean-248.3) > 0.1 || q.N != 12) {
			t.Errorf("%+v", q)
		}
	}
	if _, err := TestedOf(table, "old"); err == nil {
		t.Error("a variant the table does not have was found")
	}
}

// Tests made by the model itself are met, and turn the factors the right way.
func TestFitStrength(t *testing.T) {
	if testing.Short() {
		t.Skip("dozens of virtual tests")
	}
	d := sorrel(t).Design
	truth := d.Clone()
	truth.Handling.Modulus, truth.Handling.Creep, truth.Handling.Strength = 1.25, 0.4, 1.1
	v, err := run.LabStrength(t.Context(), truth, run.NewCache(64))
	if err != nil {
		t.Fatal(err)
	}
	var tests []Tested
	for _, k := range run.StrengthKeys {
		tests = append(tests, Tested{k, Reading{Mean: v[k], N: 12}})
	}
	f, err := FitStrength(t.Context(), d, tests, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range f.Data {
		if math.Abs(c.After/c.Measured-1) > 0.06 {
			t.Errorf("%s: measured %g, after the fit %g", c.Key, c.Measured, c.After)
		}
	}
	for i, want := range []float64{1.25, 0.4, 1.1} {
		k := f.Knobs[i]
		// What was believed before draws the factors a little.
		if math.Abs(math.Log(k.After/want)) > 2.5*k.SD/k.After {
			t.Errorf("%s: %g ± %g, made with %g", k.Path, k.After, k.SD, want)
		}
	}
	if f.RMSAfter >= f.RMSFirst {
		t.Errorf("residuals %g before, %g after", f.RMSFirst, f.RMSAfter)
	}
	if _, err := FitStrength(t.Context(), d, nil, nil); err == nil {
		t.Error("no tests were accepted")
	}
}
