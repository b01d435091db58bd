package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// drafted is the design of a class as it is drafted.
func drafted(t *testing.T, class string) *design.Design {
	t.Helper()
	return loaded(t, "class: "+class)
}

// loaded is the design of a few lines.
func loaded(t *testing.T, lines string) *design.Design {
	t.Helper()
	doc, err := design.Load("", "schema: 1\nname: loaded\n"+lines+"\n")
	if err != nil {
		t.Fatal(err)
	}
	return doc.Design
}

// testsOf prepares the virtual tests of a design.
func testsOf(t *testing.T, d *design.Design) *strengthTests {
	t.Helper()
	w := work{ctx: t.Context(), full: true, even: true, until: "pressure"}
	x, err := newStrengthTests(&pass{d: d, name: "strength", work: w, done: evaluate(d, w, NewCache(64))})
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// At its softening temperature the closed pack, its gas in balance with the room
// that it gains, is at the limit of the design: the stability test at once at that
// temperature says the same. A tighter limit is left earlier, and named.
func TestSofteningOfTheClosedPack(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := example(t, "sorrel-lime.yaml").Design.Clone()
	x := testsOf(t, d)
	soften := func(limits ...design.Limit) (unit.Temperature, string) {
		t.Helper()
		d.Limits, x.figures = limits, nil
		x.softening()
		f := x.last(softKey)
		if f == nil {
			t.Fatal(x.problems)
		}
		return unit.Temperature(f.Value), unit.Spell(strings.Join(f.Origin.Warnings, "; "), unit.EU)
	}
	at := func(q unit.Temperature) shell.Growth {
		t.Helper()
		sealed, err := x.pressures.sealed(q)
		if err != nil {
			t.Fatal(err)
		}
		soft, _, _, _ := x.warm.Factors(q)
		in := shell.GrowInput{Bottle: x.b, GaugeZ: (x.shape.Panel[0] + x.shape.Panel[1]) / 2, Stages: []shell.Stage{{Sealed: sealed, Soft: soft}}}
		in.Quick, in.Sizing.Factor = true, 2*sizing
		r, err := shell.Grow(in)
		if err != nil {
			t.Fatal(err)
		}
		return r.End
	}
	plain, why := soften()
	if g := at(plain).Gauge; math.Abs(g/0.03-1) > 0.03 || !strings.Contains(why, "limit of growth, 3 %") {
		t.Errorf("without limits, %.2f °C: growth %g; %s", plain.Celsius(), g, why)
	}
	early, why := soften(design.Limit{Figure: "growth.diameter", Side: "max", Value: "2.4 %"})
	if g := at(early).Gauge; math.Abs(g/0.024-1) > 0.03 || early >= plain || !strings.Contains(why, "limit of growth, 2.4 %") {
		t.Errorf("2.4 %%, %.2f °C: growth %g; %s", early.Celsius(), g, why)
	}
	tall, why := soften(design.Limit{Figure: "growth.height", Side: "max", Value: "1.1 mm"})
	if g := at(tall).Height; math.Abs(g/1.1e-3-1) > 0.03 || tall >= plain || !strings.Contains(why, "growth in height, 1.1 mm") {
		t.Errorf("1.1 mm, %.2f °C: growth %g m; %s", tall.Celsius(), g, why)
	}
	if low, why := soften(design.Limit{Figure: "base.clearance", Side: "min", Value: "4.2 mm"}); low >= plain || !strings.Contains(why, "limit of clearance, 4.2 mm") {
		t.Errorf("clearance, %.2f °C: %s", low.Celsius(), why)
	}
}

// A bottle without pressure softens out of its own limit of top load, or of none.
func TestSofteningOfTheEmptyBottle(t *testing.T) {
	x := strengthTests{pass: &pass{d: &design.Design{}, name: "strength"}, warm: shell.DefaultWarmth(false), labSoft: 1}
	// Half of the stiffness at 70 °C, see the card.
	if q := x.softTopLoad(200, 100); math.Abs(q.Celsius()-70) > 0.01 {
		t.Errorf("half of the load at %.2f °C", q.Celsius())
	}
	if q := x.softTopLoad(200, 10); q != 0 {
		t.Errorf("a twentieth of the load at %.2f °C", q.Celsius())
	}
	x.softening()
	if len(x.problems) != 1 || !strings.Contains(x.problems[0].Reason, "no limit on topload.empty") {
		t.Errorf("%+v", x.problems)
	}
}

// A bottle that misses a limit cold softens at or below the temperature where the
// search begins: never above a stronger one, and judged by a limit on it.
func TestSofteningRanksTheWeakest(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "csd-1500")
	last := 0.0
	for _, q := range []struct {
		factor, load, growth float64 // growth that the design allows; 0 for the default
		bound                bool
	}{{0.5, 150, 0, true}, {0.6, 155, 0, true}, {0.6, 159, 0.002, true}, {0.7, 186, 0, false}, {0.8, 212, 0, false}, {1, 265, 0, false}} {
		d.Handling.Modulus = q.factor
		x := testsOf(t, d)
		d.Limits = []design.Limit{{Figure: "topload.empty", Side: "min", Value: "180 N"}}
		if q.growth > 0 {
			d.Limits = []design.Limit{{Figure: "growth.diameter", Side: "max", Value: "0.2 %"}}
		}
		x.figures = []figure.Figure{{Key: "topload.empty", Kind: unit.Force, Value: q.load, Lo: 0.9 * q.load, Hi: 1.1 * q.load}}
		x.softening()
		f := x.last(softKey)
		if f == nil {
			t.Fatalf("factor %g: %v", q.factor, x.problems)
		}
		why := unit.Spell(strings.Join(f.Origin.Warnings, "; "), unit.EU)
		if f.Value < last || (f.Value == float64(x.warm.At[0])) != q.bound || strings.Contains(why, "at or below 23 °C") != q.bound {
			t.Errorf("factor %g: %.2f °C after %.2f °C: %s", q.factor, f.Value-273.15, last-273.15, why)
		}
		if last = f.Value; q.bound {
			v := quality.Of(quality.Limit{Figure: softKey, Side: quality.Min, Value: float64(unit.Celsius(50)), Kind: unit.TemperaturePoint}, *f)
			if v.Word != quality.Fail {
				t.Errorf("factor %g, %g .. %g K: a limit of 50 °C says %s: %s", q.factor, f.Lo, f.Hi, v.Word, v.Reason)
			}
		}
	}
}

// A base that rolls out on the way is met, not stepped over by a guess ahead: a little
// more strength moves the temperature by a little.
func TestSofteningMeetsTheRollOut(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := drafted(t, "returnable-1000")
	last := 0.0
	for _, factor := range []float64{1.16, 1.16666667, 1.17} {
		d.Handling.Strength = factor
		x := testsOf(t, d)
		x.softening()
		f := x.last(softKey)
		if f == nil {
			t.Fatalf("factor %g: %v", factor, x.problems)
		}
		if last > 0 && math.Abs(f.Value-last) > 0.2 {
			t.Errorf("factor %g: %.2f °C after %.2f °C", factor, f.Value-273.15, last-273.15)
		}
		last = f.Value
	}
}

// A band that ends where the search does says so.
func TestSofteningTellsTheEndOfTheSearch(t *testing.T) {
	x := strengthTests{pass: &pass{d: &design.Design{}, name: "strength"}, warm: shell.DefaultWarmth(false), labSoft: 1, wall: &Wall{}}
	for _, q := range []struct {
		load, low, high float64
		upper, lower    bool
	}{{200, 150, 240, false, false}, {200, 150, 2000, true, false}, {200, 90, 240, false, true}} {
		x.figures = nil
		x.softStanding(x.softTopLoad(q.load, 100), softEnd, figure.Figure{Key: "topload.empty", Kind: unit.Force, Value: q.load, Lo: q.low, Hi: q.high}, quality.Limit{Figure: "topload.empty", Value: 100})
		f := x.last(softKey)
		why := strings.Join(f.Origin.Warnings, "; ")
		if strings.Contains(why, "upper end of the band") != q.upper || strings.Contains(why, "lower end of the band") != q.lower || f.Hi > float64(softEnd) {
			t.Errorf("%+v: %g .. %g K: %s", q, f.Lo, f.Hi, why)
		}
	}
	// Two effects that reach it only together.
	f := x.show(result{key: softKey, value: float64(softEnd) - 1})
	for _, path := range []string{"handling.modulus_factor", "blow.wall_factor"} {
		widen(f, figure.Effect{Path: path, Low: -0.8, High: 0.8})
	}
	x.searched(f)
	if why := strings.Join(f.Origin.Warnings, "; "); f.Hi != float64(softEnd) || !strings.Contains(why, "upper end of the band") {
		t.Errorf("band up to %g K: %s", f.Hi, why)
	}
}

// inputOf returns an input of a figure by its symbol.
func inputOf(t *testing.T, f figure.Figure, symbol string) float64 {
	t.Helper()
	for _, in := range f.Origin.Inputs {
		if in.Symbol == symbol {
			return in.Value
		}
	}
	t.Fatalf("%s has no input %s", f.Key, symbol)
	return 0
}

// A pack that keeps its limits to the end of the search is better than one that
// leaves them before, and is judged: it stands at the end or above.
func TestSofteningBeyondTheSearch(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	d := example(t, "wrenhollow.yaml").Design.Clone()
	x := testsOf(t, d)
	loads := []design.Limit{{Figure: "topload.empty", Side: "min", Value: "120 N"}}
	d.Limits = loads
	x.topLoads()
	kept := func(lowest string) *figure.Figure {
		t.Helper()
		x.softening()
		f := x.last(softKey)
		if f == nil {
			t.Fatal(x.problems)
		}
		if f.Value != float64(softEnd) || f.Hi != f.Value || f.Origin.Equation != "T >= T_1" || !strings.Contains(strings.Join(f.Origin.Warnings, " "), "at or above") {
			t.Errorf("%+v", f)
		}
		if len(f.Effects) != 1 || f.Effects[0].Label != lowest || f.Lo >= f.Value {
			t.Errorf("down to %g by %+v", f.Lo, f.Effects)
		}
		return f
	}
	kept("Top load of the empty bottle")
	d.Limits = append(loads, design.Limit{Figure: softKey, Side: "min", Value: "85 °C"})
	x.figures = x.figures[:len(x.figures)-1]
	x.softening()
	if n := len(x.problems); x.last(softKey) != nil || n == 0 || !strings.Contains(unit.Spell(x.problems[n-1].Reason, unit.EU), "the limit is 85 °C") {
		t.Errorf("more than the search: %+v", x.problems)
	}

	d = drafted(t, "csd-500")
	x = testsOf(t, d)
	x.b = changed(x.b, 6, 6, 1)
	kept(stiffnessLaw(d).label)
}

// The gate of a stiff pack that grows comes back as the pressure falls: the limit
// that it left on the way is left, however the search ends.
func TestSofteningSeesAGateThatComesBack(t *testing.T) {
	if testing.Short() {
		t.Skip("blows bottles")
	}
	var at [2]float64
	for i, least := range []string{"4.51 mm", "4.52 mm"} {
		x := testsOf(t, loaded(t, "class: csd-500\ndrink: {carbonation: 1.5 vol}\nhandling: {modulus_factor: 3}"))
		x.d.Limits = []design.Limit{{Figure: "base.clearance", Side: "min", Value: least}, {Figure: "growth.diameter", Side: "max", Value: "20 %"}}
		x.softening()
		f := x.last(softKey)
		if f == nil || f.Origin.Equation != "s(T) = c_0 - c_limit" {
			t.Fatalf("%s: %+v %+v", least, f, x.problems)
		}
		at[i] = f.Value
	}
	if d := at[0] - at[1]; d < 0 || d > 1 {
		t.Errorf("0.01 mm of clearance are %g K", d)
	}
	// A milder limit is kept to the end; feet that sag more leave it before.
	x := testsOf(t, loaded(t, "class: csd-500\ndrink: {carbonation: 1.5 vol}\nhandling: {modulus_factor: 3}"))
	x.d.Limits = []design.Limit{{Figure: "base.clearance", Side: "min", Value: "4.4 mm"}, {Figure: "growth.diameter", Side: "max", Value: "20 %"}}
	x.softening()
	f := x.last(softKey)
	if f == nil || f.Origin.Equation != "T >= T_1" || !slices.ContainsFunc(f.Effects, func(e figure.Effect) bool { return e.Path == "bottle.base.feet" && e.Low < -5 }) {
		t.Errorf("%+v", f)
	}
}

// The search ends where the laws of the wall do, and says so.
func TestSofteningEndsWithItsLaws(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	x := testsOf(t, loaded(t, "class: csd-500\ndrink: {carbonation: 6 vol}"))
	x.d.Limits = []design.Limit{{Figure: "growth.diameter", Side: "max", Value: "60 %"}}
	x.softening()
	f := x.last(softKey)
	if f == nil || f.Value > float64(softEnd)-5 || f.Hi != f.Value || !strings.Contains(strings.Join(f.Origin.Warnings, " "), "grown by the 20 %") {
		t.Fatalf("%+v %+v", f, x.problems)
	}
	x.d.Limits = append(x.d.Limits, design.Limit{Figure: softKey, Side: "min", Value: "78 °C"})
	x.figures = nil
	x.softening()
	if x.last(softKey) != nil || len(x.problems) != 1 || !strings.Contains(unit.Spell(x.problems[0].Reason, unit.EU), "the limit is 78 °C") {
		t.Errorf("beyond the laws: %+v", x.problems)
	}
}

func TestLeaves(t *testing.T) {
	r := shell.SoftenResult{Temperature: 304, Others: []float64{0.4}, Growth: 0.01}
	for i, v := range []float64{0.1, 0.5, 0.6} {
		r.Course = append(r.Course, shell.Soft{Temperature: unit.Temperature(301 + i), Others: []float64{v}})
	}
	for limit, want := range map[float64]unit.Temperature{0.05: 301, 0.3: 301.5, 0.55: 302.5, 0.6: 0} {
		if q, ok := r.Leaves(0, limit); ok != (want > 0) || ok && math.Abs(float64(q-want)) > 1e-9 || !ok && q != r.Temperature {
			t.Errorf("limit %g: %g K, %t", limit, q, ok)
		}
	}
	if _, ok := (shell.SoftenResult{Temperature: 301}).Leaves(0, 0.1); ok {
		t.Error("a pack without a state leaves a limit")
	}
}
