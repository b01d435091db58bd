package lab

import (
	"math"
	"os"
	"strings"
	"testing"

	"costrel/quality"
	"costrel/quality/stat"
	"costrel/unit"
)

// table reads a demo table, which must have no fault.
func table(t *testing.T, name string) *Table {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	tb, err := Read(name, data, "")
	if err != nil {
		t.Fatal(err)
	}
	return tb
}

func limit(t *testing.T, side quality.Side, k unit.Kind, text string) quality.Limit {
	t.Helper()
	v, err := unit.Parse(k, text)
	if err != nil {
		t.Fatal(err)
	}
	return quality.Limit{Side: side, Kind: k, Value: v.SI, Unit: v.Symbol, Owner: "example", Source: "example"}
}

func judged(t *testing.T, tb *Table, key, variant, condition string, l quality.Limit) Verdict {
	t.Helper()
	s, err := tb.Find(key, variant, condition)
	if err != nil {
		t.Fatal(err)
	}
	l.Figure = key
	v, err := Judge(s, l, Usual())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// in returns a value of the verdict in the unit of its limit.
func in(t *testing.T, v Verdict, si float64) float64 {
	t.Helper()
	u, ok := unit.Find(v.Limit.Kind, v.Limit.Unit)
	if !ok {
		t.Fatalf("no unit %q", v.Limit.Unit)
	}
	return (si - u.Offset) / u.Scale
}

// row is a line of a table of expected verdicts, in the unit of the limit and
// as rounded as printed.
type row struct {
	file, key, variant, condition string
	side                          quality.Side
	kind                          unit.Kind
	limit                         string
	mean, s, bound, ppk           float64 // NaN: not compared
	half                          [3]float64
	word                          quality.Word
	thin                          bool
}

func check(t *testing.T, rows []row) {
	t.Helper()
	for _, r := range rows {
		v := judged(t, table(t, r.file), r.key, r.variant, r.condition, limit(t, r.side, r.kind, r.limit))
		s := v.S
		if v.Scale == stat.Linear {
			s = in(t, v, v.S) - in(t, v, 0)
		}
		name := v.Name + " " + string(r.side) + " " + r.limit
		for i, c := range []struct {
			what      string
			got, want float64
		}{{"mean", in(t, v, v.Mean), r.mean}, {"s", s, r.s}, {"bound", in(t, v, v.Bound), r.bound}} {
			if !math.IsNaN(c.want) && math.Abs(c.got-c.want) > r.half[i]*1.0001 {
				t.Errorf("%s: %s %.6g, want %g", name, c.what, c.got, c.want)
			}
		}
		if !math.IsNaN(r.ppk) && math.Abs(v.Ppk.Value-r.ppk) > 0.005001 {
			t.Errorf("%s: Ppk %.4f, want %.2f", name, v.Ppk.Value, r.ppk)
		}
		if v.Word != r.word || v.Thin != r.thin {
			t.Errorf("%s: %s (thin %t), want %s (thin %t): %s", name, v.Word, v.Thin, r.word, r.thin, v.Reason)
		}
	}
}

// Sorrel Lime, 12 bottles a test: mean, s, bound and Ppk to the last printed
// digit.
func TestSorrelVerdicts(t *testing.T) {
	const f, w = "A_tests.csv", "A_section_weights.csv"
	nan := math.NaN()
	check(t, []row{
		{f, "topload.empty", "", "", quality.Min, unit.Force, "190 N", 248.3, 13.9, 210.2, 1.40, [3]float64{.05, .05, .05}, quality.Pass, false},
		{f, "burst.pressure", "", "", quality.Min, unit.PressureGauge, "9.0 bar(g)", 10.424, 0.318, 9.55, 1.49, [3]float64{.0005, .0005, .005}, quality.Pass, false},
		{f, "growth.diameter", "", "", quality.Max, unit.Fraction, "3.0 %", 1.973, 0.136, 2.35, 2.52, [3]float64{.0005, .0005, .005}, quality.Pass, false},
		{f, "growth.height", "", "", quality.Max, unit.Length, "2.0 mm", 1.117, 0.135, 1.49, 2.19, [3]float64{.0005, .0005, .005}, quality.Pass, false},
		{f, "fillpoint.drop", "", "", quality.Max, unit.Length, "14 mm", 10.55, 1.140, 13.7, 1.01, [3]float64{.005, .0005, .05}, quality.Pass, true},
		{f, "base.clearance", "", "", quality.Min, unit.Length, "2.0 mm", 2.949, 0.311, 2.10, 1.02, [3]float64{.0005, .0005, .005}, quality.Pass, true},
		{f, "perpendicularity", "", "", quality.Max, unit.Length, "5 mm", 2.508, 0.468, 3.79, 1.77, [3]float64{.0005, .0005, .005}, quality.Pass, false},
		{w, "section.shoulder.mass", "", "", quality.Min, unit.Mass, "12.5 g", 13.07, 0.195, 12.54, 0.98, [3]float64{.005, .0005, .005}, quality.Pass, true},
		{w, "section.shoulder.mass", "", "", quality.Max, unit.Mass, "13.7 g", 13.07, 0.195, 13.60, 1.08, [3]float64{.005, .0005, .005}, quality.Pass, true},
		{w, "section.panel.mass", "", "", quality.Min, unit.Mass, "15.1 g", 15.53, 0.122, 15.19, 1.16, [3]float64{.005, .0005, .005}, quality.Pass, true},
		{w, "section.panel.mass", "", "", quality.Max, unit.Mass, "15.9 g", 15.53, 0.122, 15.86, 1.02, [3]float64{.005, .0005, .005}, quality.Pass, true},
		{w, "section.base.mass", "", "", quality.Min, unit.Mass, "9.7 g", 10.20, 0.169, 9.73, 0.98, [3]float64{.005, .0005, .005}, quality.Pass, true},
		{f, "stresscrack.time", "", "", quality.Min, unit.Time, "16 min", 33.9, nan, 14.7, 0.82, [3]float64{.05, 0, .05}, quality.NotShown, false},
	})
}

// The stress-crack sample: all twelve beyond 19.5 min and still not shown;
// more bottles of the same mean and s would show it.
func TestSorrelStressCrackNeedsBottles(t *testing.T) {
	tb := table(t, "A_tests.csv")
	v := judged(t, tb, "stresscrack.time", "", "", limit(t, quality.Min, unit.Time, "16 min"))
	if len(v.Outside) != 0 || in(t, v, v.Min) < 19.5-1e-9 || !v.HasNeed {
		t.Errorf("outside %v, least %g, needed %d", v.Outside, in(t, v, v.Min), v.Need)
	}
	for _, c := range []struct {
		n     int
		bound float64
	}{{16, 15.7}, {20, 16.3}, {24, 16.7}} {
		b, err := stat.Normal{N: c.n, Mean: math.Log(v.Mean), S: v.S, Scale: stat.Log}.Bound(stat.Lower, stat.Usual())
		if err != nil {
			t.Fatal(err)
		}
		if got := b.Value / 60; math.Abs(got-c.bound) > 0.05 {
			t.Errorf("n %d: bound %.3f min, want %.1f", c.n, got, c.bound)
		}
	}
	if v.Need < 17 || v.Need > 20 {
		t.Errorf("needed %d, want between 17 and 20", v.Need)
	}
	if !strings.Contains(v.Reason, "the mean passes, the evidence does not") || !strings.Contains(v.Reason, "lower tail decides") {
		t.Errorf("reason %q", v.Reason)
	}
}

// Carbonation after 20 weeks: the line gives 12.2 % (11.3 to 13.1 %) against
// 12 %, which shows nothing.
func TestSorrelCarbonationIsNotShown(t *testing.T) {
	tb := table(t, "A_carbonation_22C.csv")
	s, err := tb.Find("drink.carbonation", "", "")
	if err != nil {
		t.Fatal(err)
	}
	const week = 7 * 86400
	l, err := JudgeLoss(s, "week", 20*week, 0.12, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what            string
		got, want, half float64
	}{
		{"reference", l.Reference / unit.VolumeCO2, 4.105, 0.0005},
		{"value", l.Value / unit.VolumeCO2, 3.604, 0.0005},
		{"loss", 100 * l.Loss, 12.2, 0.05},
		{"low", 100 * l.Lo, 11.3, 0.05},
		{"high", 100 * l.Hi, 13.1, 0.05},
		{"last", 100 * l.LastSeen, 7.9, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.half {
			t.Errorf("%s %.4f, want %g", c.what, c.got, c.want)
		}
	}
	if l.Word != quality.NotShown || l.WideLo > l.Lo || l.WideHi < l.Hi {
		t.Errorf("%+v", l)
	}
	if l, err := JudgeLoss(s, "week", 20*week, 0.20, 0.95); err != nil || l.Word != quality.Pass {
		t.Errorf("20 %% allowed: %s, %v", l.Word, err)
	}
	if l, err := JudgeLoss(s, "week", 20*week, 0.05, 0.95); err != nil || l.Word != quality.Fail {
		t.Errorf("5 %% allowed: %s, %v", l.Word, err)
	}
	if _, err := JudgeLoss(s, "month", 20*week, 0.12, 0.95); err == nil {
		t.Error("unknown setting: no error")
	}
}

// The cold drop: one of twelve against none. Mould 14, which failed, has the
// lightest bases.
func TestSorrelDropAndMould(t *testing.T) {
	v, err := JudgeCount("drop, 4 °C, vertical", 1, 12, CountDemand{})
	if err != nil {
		t.Fatal(err)
	}
	if v.Word != quality.Fail || math.Abs(100*v.Fraction.Upper-33.9) > 0.05 {
		t.Errorf("%+v", v)
	}
	s, err := table(t, "A_section_weights.csv").Find("section.base.mass", "", "")
	if err != nil {
		t.Fatal(err)
	}
	a, err := ByGroup(s, "mould")
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range a.Groups {
		mean := g.Mean * 1e3
		if g.Name == "14" {
			if math.Abs(mean-9.98) > 0.005 || math.Abs(g.Min*1e3-9.85) > 1e-9 {
				t.Errorf("mould 14: mean %.3f, lowest %.3f g", mean, g.Min*1e3)
			}
		} else if mean < 10.235 || mean > 10.325 {
			t.Errorf("mould %s: mean %.3f g", g.Name, mean)
		}
	}
	if a.P > 0.05 {
		t.Errorf("mould effect p %g", a.P)
	}
	if _, err := ByGroup(s, "cavity"); err == nil {
		t.Error("no cavity: no error")
	}
}

// One-sided heat or an offset gate: the thickest place is at one angle on
// every level.
func TestSorrelThicknessPhase(t *testing.T) {
	s, err := table(t, "A_thickness.csv").Find("wall", "", "")
	if err != nil {
		t.Fatal(err)
	}
	h, a, err := Harmonics(s)
	if err != nil {
		t.Fatal(err)
	}
	deg := 180 / math.Pi
	if len(h) != 13 || math.Abs(a.Phase*deg-125) > 1 || math.Round(a.Lo*deg) != 111 || math.Round(a.Hi*deg) != 147 || a.P > 1e-6 {
		t.Errorf("%d levels, phase %.1f°, %.1f to %.1f°, p %.2g", len(h), a.Phase*deg, a.Lo*deg, a.Hi*deg, a.P)
	}
	for i, x := range h {
		if x.Spread < 0.065 || x.Spread > 0.0975 {
			t.Errorf("level %d: spread %.3f", i+1, x.Spread)
		}
	}
}

// Wrenhollow, hot fill: own verdict on every column, limits of an example.
func TestWrenhollowVerdicts(t *testing.T) {
	const f, w = "B_tests.csv", "B_section_weights.csv"
	nan := math.NaN()
	h := [3]float64{.05, .005, .05}
	check(t, []row{
		{f, "hotfill.vacuum", "", "", quality.Max, unit.PressureChange, "22 kPa", 18.1, 1.105, 21.12, 1.18, [3]float64{.005, .001, .005}, quality.Pass, true},
		{f, "hotfill.shrinkage", "", "", quality.Max, unit.Fraction, "1.5 %", 0.935, nan, 1.119, nan, [3]float64{.0005, 0, .001}, quality.Pass, false},
		{f, "hotfill.height.change", "", "", quality.Min, unit.Length, "-1.0 mm", -0.528, nan, -0.756, nan, [3]float64{.0005, 0, .0005}, quality.Pass, false},
		{f, "ovality.label", "", "", quality.Max, unit.Length, "1.0 mm", 0.442, nan, 0.843, nan, [3]float64{.0005, 0, .0005}, quality.Pass, true},
		{f, "hotfill.bore.change", "", "", quality.Max, unit.Length, "0.15 mm", 0.067, nan, 0.128, nan, [3]float64{.0005, 0, .001}, quality.Pass, true},
		{f, "base.push_up", "", "", quality.Min, unit.Length, "5.0 mm", 6.31, 0.505, 4.93, 0.87, [3]float64{.005, .0005, .005}, quality.NotShown, false},
		{f, "topload.filled", "", "", quality.Min, unit.Force, "150 N", 208.3, 12.43, 174.3, nan, h, quality.Pass, false},
		{f, "torque.removal", "", "", quality.Max, unit.Torque, "18 in·lb", 15.87, 0.947, 18.46, nan, [3]float64{.005, .0005, .005}, quality.NotShown, false},
		{f, "torque.removal", "", "", quality.Min, unit.Torque, "10 in·lb", 15.87, 0.947, 13.28, nan, [3]float64{.005, .0005, .005}, quality.Pass, false},
		{w, "section.base.mass", "", "", quality.Min, unit.Mass, "7.0 g", 7.307, nan, nan, nan, [3]float64{.0005, 0, 0}, quality.NotShown, false},
		{w, "bottle.mass", "", "", quality.Max, unit.Mass, "27.8 g", 27.47, nan, nan, nan, [3]float64{.005, 0, 0}, quality.Pass, false},
	})
	// The push-up misses its bound because one bottle stands high: the upper
	// side makes the spread, the lower tail decides.
	v := judged(t, table(t, f), "base.push_up", "", "", limit(t, quality.Min, unit.Length, "5.0 mm"))
	if v.Spread != "upper" || v.Tail != stat.Lower || len(v.Flags) != 1 || v.Flags[0].Piece != "bottle 10" || !v.HasFree || in(t, v, v.Without) < 5 {
		t.Errorf("%+v", v)
	}
	c, err := JudgeCount("panels", 1, 24, CountDemand{})
	if err != nil || c.Word != quality.Fail || math.Abs(100*c.Fraction.Upper-18.3) > 0.05 {
		t.Errorf("panels: %+v, %v", c, err)
	}
	// Crystallinity by zone follows from the densities, chi = (rho-1.335)/(1.455-1.335).
	tb := table(t, "B_density_by_zone.csv")
	sums := map[int][]float64{}
	for _, r := range tb.Readings {
		sums[r.Row] = append(sums[r.Row], r.Value)
	}
	for _, d := range tb.Derived {
		m, err := stat.Summarize(sums[d.Row])
		if err != nil {
			t.Fatal(err)
		}
		if chi := (m.Mean - 1335) / 120; math.Abs(chi-d.Value) > 0.0006 {
			t.Errorf("line %d: crystallinity %.4f, stated %.4f", d.Line, chi, d.Value)
		}
	}
	// The means by fill temperature rise, and agree with those stated.
	tb = table(t, "B_shrink_vs_fill_temperature.csv")
	rows := map[int][]float64{}
	for _, r := range tb.Readings {
		rows[r.Row] = append(rows[r.Row], r.Value)
	}
	last := 0.0
	for i, d := range tb.Derived {
		m, err := stat.Summarize(rows[i])
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(m.Mean-d.Value) > 0.51e-4 || m.Mean <= last {
			t.Errorf("line %d: mean %.5f, stated %.5f, before %.5f", d.Line, m.Mean, d.Value, last)
		}
		last = m.Mean
	}
}

// Ravensholt, lightweighting: old and new on the same limits of an example,
// and the bench of the neck.
func TestRavensholtVerdicts(t *testing.T) {
	nan := math.NaN()
	h2 := [3]float64{.005, .005, .005}
	h1 := [3]float64{.05, .05, .05}
	check(t, []row{
		{"C_burst_topload.csv", "burst.pressure", "old", "", quality.Min, unit.PressureGauge, "8.6 bar(g)", 10.31, 0.26, 9.58, 2.15, h2, quality.Pass, false},
		{"C_burst_topload.csv", "burst.pressure", "new", "", quality.Min, unit.PressureGauge, "8.6 bar(g)", 9.56, 0.29, 8.76, 1.10, h2, quality.Pass, true},
		{"C_burst_topload.csv", "topload.empty", "old", "", quality.Min, unit.Force, "200 N", 270.3, 13.4, 233.5, 1.74, h1, quality.Pass, false},
		{"C_burst_topload.csv", "topload.empty", "new", "", quality.Min, unit.Force, "200 N", 242.8, 18.9, 191.1, 0.75, h1, quality.NotShown, false},
		{"C_stress_crack.csv", "stresscrack.time", "old", "", quality.Min, unit.Time, "16 min", 41.2, nan, 23.0, 1.25, h1, quality.Pass, true},
		{"C_stress_crack.csv", "stresscrack.time", "new", "", quality.Min, unit.Time, "16 min", 34.15, nan, 18.9, 0.98, h1, quality.Pass, true},
		{"C_break_torque.csv", "torque.band", "old", "4 °C", quality.Max, unit.Torque, "18 in·lb", 14.3, 1.0, 16.6, 1.21, h1, quality.Pass, true},
		{"C_break_torque.csv", "torque.band", "new", "4 °C", quality.Max, unit.Torque, "18 in·lb", 15.0, 1.6, 18.6, 0.64, h1, quality.NotShown, false},
		{"C_break_torque.csv", "torque.band", "new", "22 °C", quality.Max, unit.Torque, "18 in·lb", 13.6, 1.0, 15.9, 1.45, h1, quality.Pass, false},
		{"C_opening_angles.csv", "opening.difference", "", "", quality.Min, unit.Angle, "0 °", 37, 8.5, 13.8, nan, h1, quality.Pass, false},
		{"C_temperature_cycles.csv", "closure.rise", "", "", quality.Max, unit.Length, "1.5 mm", 0.72, 0.15, 1.07, 1.73, h2, quality.Pass, false},
		{"C_section_weights_old.csv", "bottle.mass", "", "", quality.Max, unit.Mass, "36.6 g", 36.22, nan, nan, nan, h2, quality.Pass, false},
		{"C_section_weights_new.csv", "bottle.mass", "", "", quality.Max, unit.Mass, "34.3 g", 33.99, nan, nan, nan, h2, quality.Pass, false},
		{"C_section_weights_new.csv", "section.base.mass", "", "", quality.Min, unit.Mass, "9.6 g", 10.03, nan, nan, nan, h2, quality.NotShown, false},
	})
	// The new neck misses the upper limit through two low torques: they make
	// the spread, the upper tail decides, and without them the bound is inside.
	v := judged(t, table(t, "C_break_torque.csv"), "torque.band", "new", "4 °C", limit(t, quality.Max, unit.Torque, "18 in·lb"))
	if v.Tail != stat.Upper || v.Spread != "lower" || len(v.Outside) != 0 || !v.HasFree || in(t, v, v.Without) > 18 {
		t.Errorf("%+v", v)
	}
	var low []string
	for _, f := range v.Flags {
		low = append(low, f.Piece+" "+f.Tail)
	}
	if got := strings.Join(low, ", "); got != "sample 7 lower, sample 23 lower" {
		t.Errorf("flags %s", got)
	}
	// Leaks and broken bands: none of 24, which still allows 11.7 %.
	tb := table(t, "C_temperature_cycles.csv")
	for _, key := range []string{"closure.leak", "closure.band"} {
		s, err := tb.Find(key, "", "")
		if err != nil {
			t.Fatal(err)
		}
		x, n, err := s.Count()
		if err != nil {
			t.Fatal(err)
		}
		c, err := JudgeCount(key, x, n, CountDemand{Reliability: 0.95})
		if err != nil || c.Word != quality.NotShown || c.Need != 59 || math.Abs(100*c.Fraction.Upper-11.7) > 0.05 {
			t.Errorf("%+v, %v", c, err)
		}
		if c, err := JudgeCount(key, x, n, CountDemand{}); err != nil || c.Word != quality.Pass {
			t.Errorf("%+v, %v", c, err)
		}
	}
	if c, err := JudgeCount("heat and top weight", 1, 24, CountDemand{}); err != nil || c.Word != quality.Fail {
		t.Errorf("%+v, %v", c, err)
	}
}
