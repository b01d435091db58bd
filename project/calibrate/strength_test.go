package calibrate

import (
	"math"
	"os"
	"strings"
	"testing"

	"costrel/project/run"
	"costrel/quality/lab"
)

// blown keeps the blow of the demo, on which no factor of a virtual test bears.
var blown = run.NewCache(64)

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
	if err != nil || len(got) != 6 {
		t.Fatalf("%v %v", got, err)
	}
	for _, q := range got {
		if q.Key == run.ExpansionKey && math.Abs(q.Mean-0.1637) > 1e-4 {
			t.Errorf("%+v", q)
		}
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
	t.Parallel()
	d := sorrel(t).Design
	d.Handling.Modulus, d.Handling.Creep, d.Handling.Strength, d.Handling.TopLoad = 1, 0.3, 1, 1
	truth := d.Clone()
	truth.Handling.Modulus, truth.Handling.Creep, truth.Handling.Strength, truth.Handling.TopLoad = 1.25, 0.4, 1.1, 1.5
	v, err := run.LabStrength(t.Context(), truth, blown)
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
	for i, want := range []float64{1.25, 0.4, 1.1, 1.5} {
		k := f.Knobs[i]
		// What was believed before draws the factors a little.
		if math.Abs(math.Log(k.After/want)) > 2.5*k.SD/k.After {
			t.Errorf("%s: %g ± %g, made with %g", k.Path, k.After, k.SD, want)
		}
	}
	// What is left of the top load is less than of either of its factors; tests
	// that agree leave the least residual.
	if s := f.Spread; s[topLoad] <= 0 || s[topLoad] > 0.8*s[modulus] || s[topLoad] > 0.8*f.Knobs[topLoad].SD/f.Knobs[topLoad].After || f.Residual < leastResidual || f.Residual > 1.2*leastResidual {
		t.Errorf("spreads %v, residual %g", f.Spread, f.Residual)
	}
	if f.RMSAfter >= f.RMSFirst {
		t.Errorf("residuals %g before, %g after", f.RMSFirst, f.RMSAfter)
	}
	if _, err := FitStrength(t.Context(), d, nil, nil); err == nil {
		t.Error("no tests were accepted")
	}
}

// Readings that no bottle shows are refused, all at once, with their place.
func TestTestedOfImpossible(t *testing.T) {
	const csv = "bottle,topload_empty_vented_N,burst_barg,ts_dia_growth_pct,ts_fill_drop_mm\n" +
		"1,250,10.1,2.1,11\n2,-5,1e9,250,11\n3,250,0,-3,1100\n4,250,10.2,2,11\n"
	table, err := lab.Read("bad.csv", []byte(csv), "")
	if err != nil {
		t.Fatal(err)
	}
	_, err = TestedOf(table, "")
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"bad.csv:3:2:", "bad.csv:3:3:", "bad.csv:3:4:", "bad.csv:4:3:", "bad.csv:4:4:", "bad.csv:4:5:", "outside 1 N to 5000 N", "outside 1 bar(g) to 30 bar(g)", "outside 0 % to 20 %", "outside 0 mm to 100 mm", "check figure and unit"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("no %q in\n%v", want, err)
		}
	}
	if n := strings.Count(err.Error(), "\n") + 1; n != 6 {
		t.Errorf("%d faults, want 6:\n%v", n, err)
	}
}

// What was fitted is no prior of the next fit, or the same tests would count
// again: the fit of a design with fitted factors starts and is held where that of
// the template is.
func TestPriorIsTheTemplates(t *testing.T) {
	d := sorrel(t).Design
	w := &weighing{ctx: t.Context(), d: d, out: &StrengthFit{}}
	var err error
	if w.prior, err = priors(d.Class); err != nil {
		t.Fatal(err)
	}
	p := w.problem([]int{0, 1, 2, 3})
	for i, want := range []float64{1, 0.3, 1, 1} {
		if v, _, _ := d.Number(strengthFactors[i].Path); math.Abs(v-want) < 0.05 {
			t.Errorf("%s is not fitted: %g", strengthFactors[i].Path, v)
		}
		if math.Abs(math.Exp(p.Start[i])-want) > 1e-12 {
			t.Errorf("%s is held about %g, want %g", strengthFactors[i].Path, math.Exp(p.Start[i]), want)
		}
	}
	if _, err := priors("no such class"); err == nil {
		t.Error("no error of an unknown class")
	}
}

// A factor that no test bears on keeps the value of the design.
func TestFitStrengthLeavesAlone(t *testing.T) {
	if testing.Short() {
		t.Skip("dozens of virtual tests")
	}
	t.Parallel()
	d := sorrel(t).Design.Clone()
	d.Handling.Creep = 0.49
	v, err := run.LabStrength(t.Context(), d, blown)
	if err != nil {
		t.Fatal(err)
	}
	f, err := FitStrength(t.Context(), d, []Tested{{"burst.pressure", Reading{Mean: 1.1 * v["burst.pressure"], N: 12}}, {"topload.empty", Reading{Mean: 1.1 * v["topload.empty"], N: 12}}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if k := f.Knobs[1]; k.After != 0.49 || k.Identified || !strings.Contains(k.Why, "left alone") {
		t.Errorf("creep: %+v", k)
	}
	if f.Spread[1] != 0 {
		t.Errorf("spread %g of a factor left alone", f.Spread[1])
	}
	for _, i := range []int{2, 3} {
		if k := f.Knobs[i]; !k.Identified || !(k.After > k.Before) {
			t.Errorf("%+v", k)
		}
	}
}
