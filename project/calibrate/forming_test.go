package calibrate

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/quality/lab"
	"costrel/unit"
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

// thickness returns the wall readings of the demo laboratory.
func thickness(t *testing.T) WallData {
	t.Helper()
	const file = "sorrel-thickness.csv"
	b, err := os.ReadFile("../../examples/lab/" + file)
	if err != nil {
		t.Fatal(err)
	}
	table, err := lab.Read(file, b, "thickness")
	if err != nil {
		t.Fatal(err)
	}
	var data WallData
	if err := LevelsOf(table, &data); err != nil {
		t.Fatal(err)
	}
	return data
}

func logFit(t *testing.T, f *Forming) {
	t.Helper()
	for _, k := range f.Knobs {
		t.Logf("%-34s %10.4g -> %10.4g ± %.2g identified %v %s", k.Label, k.Before, k.After, k.SD, k.Identified, k.Why)
	}
	for _, c := range f.Data {
		t.Logf("%-30s measured %.4g before %.4g after %.4g", c.Label, c.Measured, c.Before, c.After)
	}
	t.Logf("rms %.2f -> %.2f in %d blows", f.RMSFirst, f.RMSAfter, f.Runs)
}

// TestRecover blows the demo with another tilt and flow, reads its wall where
// the laboratory reads it, and finds that wall again from the settings of the
// card.
func TestRecover(t *testing.T) {
	if testing.Short() {
		t.Skip("some dozens of blows")
	}
	t.Parallel()
	d := sorrel(t).Design
	d.Oven.Tilt, d.Oven.Bow = 0, 0 // as if nobody had touched it
	known := d.Clone()
	known.SetNumber("oven.tilt", -5)
	known.SetNumber("blow.pre_orifice", 10e-6)
	w, _, shape, err := run.BlownWall(context.Background(), known, run.NewCache(16))
	if err != nil {
		t.Fatal(err)
	}
	data := thickness(t)
	for i := range data.Levels {
		l := &data.Levels[i]
		l.Wall = w.RealAt(shape.Bottle.CutS(l.Z))
		l.SD = 0.01 * l.Wall
	}
	all := FormingKnobs()
	var knobs []Knob
	for _, k := range all {
		if k.Path == "oven.tilt" || k.Path == "blow.pre_orifice" {
			knobs = append(knobs, k)
		}
	}
	f, err := FitForming(context.Background(), d, data, knobs, nil)
	if err != nil {
		t.Fatal(err)
	}
	logFit(t, f)
	if f.RMSAfter > 1 {
		t.Errorf("residuals %.2f times their scatter", f.RMSAfter)
	}
	worst := 0.0
	for _, c := range f.Data {
		worst = math.Max(worst, math.Abs(c.Before/c.Measured-1))
		if off := c.After/c.Measured - 1; math.Abs(off) > 0.01 {
			t.Errorf("%s: %+.1f %% off after the fit", c.Label, 100*off)
		}
	}
	if worst < 0.2 {
		t.Errorf("the card is within %.1f %% of the known wall: there is nothing to find", 100*worst)
	}
	if f.Panel > 0.012 || f.Weight != 0 {
		t.Errorf("left in the panel %.2g, in the weights %.2g g", f.Panel, 1e3*f.Weight)
	}
}

// TestDemoTable fits the demo to weights and readings together. They contradict
// each other in the shoulder and a little in the base, which is told; the weights
// come right within 0.4 g and the panel at each place within 5 %.
func TestDemoTable(t *testing.T) {
	if testing.Short() {
		t.Skip("some dozens of blows")
	}
	t.Parallel()
	d := sorrel(t).Design
	data := thickness(t)
	weights, err := os.ReadFile("../../examples/lab/sorrel-section_weights.csv")
	if err != nil {
		t.Fatal(err)
	}
	table, err := lab.Read("sorrel-section_weights.csv", weights, "")
	if err != nil {
		t.Fatal(err)
	}
	if err := SectionsOf(table, &data); err != nil {
		t.Fatal(err)
	}
	f, err := FitForming(context.Background(), d, data, FormingKnobs(), nil)
	if err != nil {
		t.Fatal(err)
	}
	logFit(t, f)
	t.Log(strings.Join(f.Notes, "\n"))
	if said := strings.Join(f.Notes, "\n"); len(f.Notes) != 2 || !strings.Contains(said, "weight of the shoulder") || !strings.Contains(said, "-15 %") {
		t.Errorf("the contradiction of the tables is told as %q", said)
	}
	if !(f.RMSAfter < f.RMSFirst) {
		t.Errorf("residual %.2f after the fit, %.2f before", f.RMSAfter, f.RMSFirst)
	}
	for i, c := range f.Data {
		switch off := c.After/c.Measured - 1; {
		case c.Section:
			if math.Abs(c.After-c.Measured) > 0.4e-3 {
				t.Errorf("%s: %+.2f g off after the fit", c.Label, 1e3*(c.After-c.Measured))
			}
		case data.Levels[i-3].Z > 0.064 && data.Levels[i-3].Z < 0.178:
			if math.Abs(off) > 0.05 {
				t.Errorf("%s: %+.1f %% off after the fit", c.Label, 100*off)
			}
		}
	}
	before := d.Clone()
	f.Apply(d)
	if !(d.Blow.Residual > 0 && d.Blow.Residual < 0.05 && d.Blow.WeightLeft > 0 && d.Blow.FitMass > 0) || before.Blow.Residual != 0 {
		t.Errorf("written: residual %g, weight %g, mass %g", d.Blow.Residual, d.Blow.WeightLeft, d.Blow.FitMass)
	}
	if why := run.FitMoved(d); why != "" {
		t.Errorf("a design does not count as fitted right after its fit: %s", why)
	}
	// Two heights in the panel, or two sections, say nothing of the rest.
	m := &wallModel{data: WallData{Levels: []Level{{Z: 0.1, Wall: 3e-4}, {Z: 0.12, Wall: 3e-4}}}, shape: &run.Shape{Panel: [2]float64{0.064, 0.178}}, sections: 2, n: 4, measured: []float64{1, 1, 3e-4, 3e-4}, last: []float64{1.1, 1.1, 4e-4, 4e-4}, sd: []float64{1, 1, 1, 1}}
	if m.panelLeft() != 0 || m.weightLeft() != 0 {
		t.Errorf("two readings leave %g of the panel, two sections %g kg", m.panelLeft(), m.weightLeft())
	}
}

// A row that contradicts its total is left out, one without a cell told; a table of
// nothing else is refused.
func TestSectionRows(t *testing.T) {
	const head = "bottle,total_g,shoulder_incl_finish_g,panel_g,base_g\n"
	read := func(rows string) (data WallData, err error) {
		table, err := lab.Read("w.csv", []byte(head+rows), "")
		if err != nil {
			t.Fatal(err)
		}
		return data, SectionsOf(table, &data)
	}
	data, err := read("1,38.9,13.0,15.5,10.4\n2,38.9,13.0,18.4,10.4\n3,38.9,13.1,,10.3\n")
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(data.Panel.Mean-15.5e-3) > 1e-9 || math.Abs(data.Base.Mean-10.35e-3) > 1e-9 || data.Panel.N != 1 {
		t.Errorf("panel %+v, base %+v", data.Panel, data.Base)
	}
	said := strings.Join(data.Notes, "\n")
	for _, want := range []string{"w.csv:3: shoulder 13 g, panel 18.4 g, base 10.4 g are 41.8 g in sum, the total of the row is 38.9 g", "w.csv:4: no weight of the panel"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
	if _, err := read("1,38.9,13.0,18.4,10.4\n"); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "41.8 g in sum") {
		t.Errorf("a table that contradicts itself: %v", err)
	}
}

// A trial blow that fails is reported as that, with where the knobs stood.
func TestFailedTrial(t *testing.T) {
	d := sorrel(t).Design
	data := thickness(t)
	m, err := newWallModel(context.Background(), d, data, nil)
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]string{}
	// at 300 K below its value the preform is refused as cold
	knobs := []Knob{{Path: "oven.mean_temperature", Label: "level", Low: 300, High: 345}}
	free, err := m.seen(knobs, held)
	if err != nil || len(free) != 0 {
		t.Fatalf("free %v, %v", free, err)
	}
	why := held["oven.mean_temperature"]
	for _, want := range []string{"trial blow failed", "oven.mean_temperature = ", "cold"} {
		if !strings.Contains(why, want) {
			t.Errorf("%q lacks %q", why, want)
		}
	}
}

// Weights of another bottle and readings beside it are refused after one blow, all
// at once; what cannot be a weight before it.
func TestForeignData(t *testing.T) {
	d := sorrel(t).Design
	foreign := WallData{Shoulder: Reading{Mean: 9e-3}, Panel: Reading{Mean: 12e-3}, Base: Reading{Mean: 7.7e-3}, Levels: []Level{{Z: 0.4, Wall: 3e-4}}}
	_, err := FitForming(t.Context(), d, foreign, FormingKnobs(), nil)
	for _, want := range []string{"28.7 g in sum", "38.8", "weights of another bottle", "400 mm is beside the bottle"} {
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%v lacks %q", err, want)
		}
	}
	_, err = FitForming(t.Context(), d, WallData{Panel: Reading{Mean: -15e-3}, Base: Reading{Mean: 10}, Levels: []Level{{Z: 0.1, Wall: 0.3}}}, FormingKnobs(), nil)
	for _, want := range []string{"panel section: a mean of -15 g", "base section: a mean of 1e+04 g", "a wall of 300 mm"} {
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%v lacks %q", err, want)
		}
	}
}
