package calibrate

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/permeation"
	"costrel/quality/lab"
	"costrel/unit"
)

// TestOutlierIsNamed: one bottle that leaks is named with its pull, counts in
// the fit, and the fit without it is that of the table without it.
func TestOutlierIsNamed(t *testing.T) {
	pulls := readPulls(t)
	good, err := FitPulls(Setup{Case: soda(t), Pulls: pulls})
	if err != nil || len(good.Outliers) > 0 {
		t.Fatalf("%+v, %v", good.Outliers, err)
	}
	bad := append([]Pull(nil), pulls...)
	bad[4].Values = append([]float64(nil), bad[4].Values...)
	bad[4].Values[2] = 3.15 * unit.VolumeCO2
	f, err := FitPulls(Setup{Case: soda(t), Pulls: bad})
	if err != nil || len(f.Outliers) != 1 {
		t.Fatalf("%+v, %v", f.Outliers, err)
	}
	o := f.Outliers[0]
	// The critical value of 36 readings at 5 % on both sides together: t(1 -
	// 0.05/72; 34) = 3.489 gives 35/6 sqrt(t²/(34 + t²)) = 2.99.
	if o.Time != 8*week || o.Value != bad[4].Values[2] || !(o.G > o.Critical) || math.Abs(o.Critical-2.99) > 0.01 || !strings.Contains(strings.Join(f.Warnings, " "), "3.15 vol at 56 d") {
		t.Errorf("%+v, %q", o, f.Warnings)
	}
	g, err := f.Without()
	if err != nil {
		t.Fatal(err)
	}
	if a, b := f.Parameters[0], g.Parameters[0]; !(a.Hi-a.Lo > 2*(b.Hi-b.Lo)) || math.Abs(b.Value/good.Parameters[0].Value-1) > 0.02 || len(g.Residuals) != 35 {
		t.Errorf("with it %+v, without %+v", a, b)
	}
}

// TestStartIsNamed: pulls that begin 0.25 vol below the fill are named, those
// within the tolerance of a filler are not.
func TestStartIsNamed(t *testing.T) {
	for factor, want := range map[float64]bool{0.94: true, 0.985: false} {
		pulls := readPulls(t)
		for _, p := range pulls {
			for i := range p.Values {
				p.Values[i] *= factor
			}
		}
		f, err := FitPulls(Setup{Case: soda(t), Pulls: pulls})
		if err != nil {
			t.Fatal(err)
		}
		if said := strings.Contains(strings.Join(f.Warnings, " "), "the curve starts at"); said != want {
			t.Errorf("%g: %q", factor, f.Warnings)
		}
	}
}

// TestTightWallHasNoPulls: behind glass pulls tell nothing of the wall.
func TestTightWallHasNoPulls(t *testing.T) {
	c := soda(t)
	for i := range c.Zones {
		m, err := permeation.Named("glass")
		if err != nil {
			t.Fatal(err)
		}
		c.Zones[i].Material = m
	}
	if _, err := FitPulls(Setup{Case: c, Pulls: readPulls(t)}); err == nil || !strings.Contains(err.Error(), "set shelf.material") {
		t.Errorf("%v", err)
	}
}

// TestCopiedRow: a row that stands twice is refused; the same week with other
// bottles, and a bottle that reads the same by chance, are not.
func TestCopiedRow(t *testing.T) {
	for text, want := range map[string]string{
		"week,b1_vol,b2_vol,b3_vol\n0,4.1,4.2,4.1\n4,4.0,3.9,4.0\n4,4.0,3.9,4.0\n": "line 4 repeats line 3",
		"week,b1_vol,b2_vol,b3_vol\n0,4.1,4.2,4.1\n4,4.0,3.9,4.0\n4,4.0,3.9,3.9\n": "",
		"week,b1_vol\n0,4.1\n0,4.2\n4,4.0\n4,4.0\n":                                "",
		"day,b1_vol,b2_vol\n0,4.1,4.2\n28,4.0,3.9\n":                               "",
		"time_h,b1_vol,b2_vol\n24,4.1,4.2\n672,4.0,3.9\n":                          "",
		"b1_vol,b2_vol\n4.1,4.2\n4.0,3.9\n":                                        "line 2 (4.1 ...): no time is given; write a column week, day or time",
	} {
		tb, err := lab.Read("p.csv", []byte(text), "carbonation")
		if err != nil {
			t.Fatal(err)
		}
		s, err := tb.Find("drink.carbonation", "", "")
		if err != nil {
			t.Fatal(err)
		}
		p, err := PullsOf(s, "week")
		if err == nil && p[1].Time != 4*week {
			t.Errorf("%q: second pull at %g d", text, p[1].Time/day)
		}
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// TestOneBottleAPull: without two bottles of a pull the scatter is that about the
// curve; of pulls of the first day nothing is concluded; an interval of the loss
// ends at all of it.
func TestOneBottleAPull(t *testing.T) {
	var single []Pull
	for _, p := range readPulls(t) {
		single = append(single, Pull{Time: p.Time, Values: p.Values[:1]})
	}
	f, err := FitPulls(Setup{Case: soda(t), Pulls: single})
	if err != nil || f.Refused != "" || f.Bottles != 0 || !math.IsNaN(f.Misfit) || f.Untested == "" {
		t.Fatalf("%+v, %v", f, err)
	}
	if s := f.Sigma / unit.VolumeCO2; !(s > 0.005 && s < 0.1) {
		t.Errorf("scatter %g vol", s)
	}
	vol := func(x ...float64) (out []float64) {
		for _, v := range x {
			out = append(out, v*unit.VolumeCO2)
		}
		return out
	}
	// Three bottles that happen to lie on a curve tell no scatter: the interval is
	// that of the usual one, in least squares wider by the ratio of both.
	three := []Pull{{Time: day, Values: vol(4.1)}, {Time: 8 * week, Values: vol(3.88)}, {Time: 12 * week, Values: vol(3.79)}}
	if f, err = FitPulls(Setup{Case: soda(t), Pulls: three}); err != nil {
		t.Fatal(err)
	}
	if f.Untested == "" || f.Assumed != usualSigma || !(f.Sigma < 0.1*usualSigma) || !(math.Log(f.Parameters[0].Hi/f.Parameters[0].Lo) > 0.5) {
		t.Errorf("three bottles: %+v", f.Parameters)
	}
	var far []Pull
	for i, v := range vol(4.1, 3.6, 3.5, 3.45, 3.44, 3.43) {
		far = append(far, Pull{Time: []float64{day, week, 2 * week, 4 * week, 8 * week, 12 * week}[i], Values: []float64{v}})
	}
	if f, err = FitPulls(Setup{Case: soda(t), Pulls: far}); err != nil || !math.IsNaN(f.Misfit) || !strings.Contains(f.Refused, "does not follow the pulls: they lie") {
		t.Errorf("pulls off every curve: %v, %v", f.Refused, err)
	}
	early, err := FitPulls(Setup{Case: soda(t), Pulls: []Pull{{Time: day, Values: vol(4.1, 4.12)}, {Time: 1.4 * day, Values: vol(4.1, 4.09)}}})
	if err != nil || !strings.Contains(early.Refused, "leave the factor open") {
		t.Errorf("pulls of a day: %+v, %v", early, err)
	}
	wild := single
	wild[3].Values = vol(3.2)
	if f, err = FitPulls(Setup{Case: soda(t), Pulls: wild}); err != nil {
		t.Fatal(err)
	}
	if p, err := f.Predict(50*week, 0.999, ""); err != nil || p.Hi > 1 || p.Lo < 0 {
		t.Errorf("%+v, %v", p, err)
	}
}
