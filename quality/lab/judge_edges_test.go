package lab

import (
	"math"
	"strings"
	"testing"

	"costrel/quality"
	"costrel/quality/stat"
	"costrel/unit"
)

// What moved by saving 2.23 g: on the mean and on the bound.
func TestRavensholtShift(t *testing.T) {
	tb := table(t, "C_burst_topload.csv")
	const saved = 2.2e-3
	for _, c := range []struct {
		key  string
		l    quality.Limit
		mean float64
		lost float64
	}{
		{"burst.pressure", limit(t, quality.Min, unit.PressureGauge, "8.6 bar(g)"), -0.75e5, 0.82e5},
		{"topload.empty", limit(t, quality.Min, unit.Force, "200 N"), -27.5, 42.4},
	} {
		o, err := tb.Find(c.key, "old", "")
		if err != nil {
			t.Fatal(err)
		}
		n, err := tb.Find(c.key, "new", "")
		if err != nil {
			t.Fatal(err)
		}
		s, err := CompareSeries(o, n, c.l, Usual(), saved)
		if err != nil {
			t.Fatal(err)
		}
		if !s.Shown || math.Abs(s.Mean/c.mean-1) > 0.01 || math.Abs(s.Lost/c.lost-1) > 0.01 || math.Abs(s.PerKg*saved/s.Lost-1) > 1e-12 {
			t.Errorf("%s: mean %g, lost %g, shown %t", c.key, s.Mean, s.Lost, s.Shown)
		}
	}
	o, _ := tb.Find("burst.pressure", "old", "")
	n, _ := tb.Find("topload.empty", "new", "")
	if _, err := CompareSeries(o, n, limit(t, quality.Min, unit.Force, "1 N"), Usual(), 0); err == nil {
		t.Error("two quantities: no error")
	}
	// Retention, given by mean, s and n: no difference is shown.
	c, err := stat.Compare(stat.Summary{N: 12, Mean: 3.58, S: 0.03}, stat.Summary{N: 12, Mean: 3.57, S: 0.03}, 0.95)
	if err != nil || c.P < 0.05 {
		t.Errorf("%+v, %v", c, err)
	}
}

func series(scale stat.Scale, values ...Reading) Series {
	s := Series{Key: "x", Label: "X", Kind: unit.Time, Unit: "min", Scale: scale}
	for i, r := range values {
		r.Row, r.Line = -1, i+2
		s.Readings = append(s.Readings, r)
	}
	return s
}

func exact(v ...float64) []Reading {
	var out []Reading
	for _, x := range v {
		out = append(out, Reading{Value: x})
	}
	return out
}

func TestJudgeEdges(t *testing.T) {
	l := quality.Limit{Side: quality.Min, Kind: unit.Time, Value: 900, Unit: "min"}
	many := func(n int, r Reading) []Reading {
		out := make([]Reading, n)
		for i := range out {
			out[i] = r
		}
		return out
	}
	running := Reading{Value: 3600, Censor: Above}
	for _, c := range []struct {
		name string
		s    Series
		l    quality.Limit
		want quality.Word
		says string
	}{
		{"mean outside", series(stat.Linear, exact(600, 700, 800)...), l, quality.Fail, "mean is outside"},
		{"one piece", series(stat.Linear, exact(1000)...), l, quality.NotShown, "one piece"},
		{"one piece outside", series(stat.Linear, exact(500)...), l, quality.Fail, "only piece"},
		{"equal", series(stat.Linear, exact(1000, 1000, 1000)...), l, quality.NotShown, "equal"},
		{"equal, 59", series(stat.Linear, many(59, Reading{Value: 1000})...), l, quality.Pass, "equal"},
		{"hopeless", series(stat.Linear, exact(910, 950, 1000, 890, 905, 930, 880, 990, 901, 935, 960, 915, 925, 940, 895)...), l, quality.Fail, "more than 5 %"},
		{"too near", series(stat.Linear, exact(910, 950, 1000, 930, 880, 990)...), l, quality.NotShown, "no number of pieces"},
		{"running on", series(stat.Log, append(exact(1000, 1900, 2400, 2600, 2900, 3100, 3300), many(5, running)...)...), l, quality.NotShown, "median passes"},
		{"running on, early failures", series(stat.Log, append(exact(300, 400, 500, 600, 700, 750, 800), many(1, running)...)...), l, quality.Fail, "half of the pieces"},
		{"all running on", series(stat.Log, many(12, running)...), l, quality.NotShown, "59 pieces"},
		{"59 running on", series(stat.Log, many(59, running)...), l, quality.Pass, "at most"},
		{"below a maximum", series(stat.Linear, many(60, Reading{Value: 600, Censor: Below})...), quality.Limit{Side: quality.Max, Kind: unit.Time, Value: 900}, quality.Pass, "at most"},
		{"below a minimum", series(stat.Linear, many(12, Reading{Value: 600, Censor: Below})...), l, quality.Fail, "12 of 12 outside"},
		{"beyond a maximum", series(stat.Linear, many(12, running)...), quality.Limit{Side: quality.Max, Kind: unit.Time, Value: 900}, quality.Fail, "12 of 12"},
	} {
		v, err := Judge(c.s, c.l, Usual())
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if v.Word != c.want || !strings.Contains(v.Reason, c.says) {
			t.Errorf("%s: %s (%s), want %s with %q", c.name, v.Word, v.Reason, c.want, c.says)
		}
	}
	for _, bad := range []struct {
		s Series
		l quality.Limit
	}{
		{series(stat.Linear), l},
		{series(stat.Linear, exact(1, 2)...), quality.Limit{Side: quality.Min, Kind: unit.Mass}},
		{series(stat.Log, exact(-1, 2)...), l},
		{series(stat.Linear, exact(1, 2)...), quality.Limit{Side: "above", Kind: unit.Time}},
	} {
		if _, err := Judge(bad.s, bad.l, Usual()); err == nil {
			t.Errorf("%+v: no error", bad.l)
		}
	}
	if _, err := JudgeCount("x", 3, 2, CountDemand{}); err == nil {
		t.Error("3 of 2: no error")
	}
}

func TestCautions(t *testing.T) {
	var titles []string
	for _, c := range CautionsFor(table(t, "A_tests.csv")) {
		titles = append(titles, c.Title)
	}
	got := strings.Join(titles, "; ")
	for _, want := range []string{"Burst test", "Caustic bath", "Filled packs in heat", "Tested packs"} {
		if !strings.Contains(got, want) {
			t.Errorf("cautions %q lack %q", got, want)
		}
	}
	if c := CautionsFor(table(t, "A_section_weights.csv")); c != nil {
		t.Errorf("weighing needs no caution: %v", c)
	}
}
