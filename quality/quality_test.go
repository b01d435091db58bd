package quality

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"costrel/figure"
	"costrel/unit"
)

func height(side Side, mm float64) Limit {
	return Limit{Figure: "bottle.height", Side: side, Value: mm * 1e-3, Kind: unit.Length, Unit: "mm", Owner: "brand", Source: "example"}
}

func fig(lo, v, hi float64) figure.Figure {
	return figure.Figure{Key: "bottle.height", Kind: unit.Length, Value: v * 1e-3, Lo: lo * 1e-3, Hi: hi * 1e-3, Origin: figure.Origin{Kind: figure.Computed}}
}

func TestVerdicts(t *testing.T) {
	estimate := fig(300, 305, 308)
	estimate.Origin.Warnings = []string{"Estimate: foot factors from memory"}
	looked := fig(305, 305, 305)
	looked.Effects = []figure.Effect{}
	given := fig(305, 305, 305)
	given.Origin.Kind = figure.Given
	bare := fig(0, 305, 0)
	broken := fig(300, math.NaN(), 310)
	mass := fig(300, 305, 308)
	mass.Kind = unit.Mass
	for _, c := range []struct {
		name string
		l    Limit
		f    figure.Figure
		want Word
		says string
	}{
		{"band inside", height(Max, 310), fig(300, 305, 309), Pass, ""},
		{"on the limit", height(Max, 310), fig(300, 305, 310), Pass, ""},
		{"band straddles, value inside", height(Max, 310), fig(300, 305, 311), Close, "300 mm to 311 mm"},
		{"band straddles, value outside", height(Min, 306), fig(300, 305, 311), Close, "straddles"},
		{"band outside", height(Max, 299), fig(300, 305, 311), Fail, "whole"},
		{"no band, inside", height(Max, 310), fig(305, 305, 305), NotShown, "no band"},
		{"no band, zero ends", height(Max, 310), bare, NotShown, "no band"},
		{"no band, outside", height(Min, 310), fig(305, 305, 305), Fail, "no band"},
		{"exact because given", height(Max, 310), given, Pass, ""},
		{"exact because looked for", height(Max, 310), looked, Pass, ""},
		{"an estimate cannot pass", height(Max, 310), estimate, NotShown, "foot factors"},
		{"an estimate can fail", height(Max, 299), estimate, Fail, "foot factors"},
		{"not finite", height(Max, 310), broken, NotComputed, "finite"},
		{"wrong kind", height(Max, 310), mass, NotComputed, "mass"},
	} {
		v := Of(c.l, c.f)
		if v.Word != c.want || !strings.Contains(unit.Spell(v.Reason, unit.EU), c.says) {
			t.Errorf("%s: %s (%s), want %s", c.name, v.Word, v.Reason, c.want)
		}
		if v.Computed() != (c.want != NotComputed) {
			t.Errorf("%s: computed %t", c.name, v.Computed())
		}
	}
}

func TestMargins(t *testing.T) {
	v := Of(height(Max, 310), fig(300, 305, 309))
	m, symbol := v.Limit.InUnit(v.Margin)
	if math.Abs(m-5) > 1e-9 || symbol != "mm" || math.Abs(v.Percent-100*5/310.0) > 1e-9 {
		t.Errorf("margin %g %s, %g %%", m, symbol, v.Percent)
	}
	if math.Abs(v.BandMargin-1e-3) > 1e-12 {
		t.Errorf("band margin %g m", v.BandMargin)
	}
	if v := Of(height(Min, 310), fig(300, 305, 309)); v.Margin >= 0 {
		t.Errorf("margin below a minimum is %g", v.Margin)
	}
	hot := Limit{Figure: "x", Side: Max, Value: 363.15, Kind: unit.TemperaturePoint, Unit: "°C"}
	if _, ok := hot.Percent(3); ok {
		t.Error("per cent of a temperature point")
	}
	if m, symbol := hot.InUnit(3); m != 3 || symbol != "K" {
		t.Errorf("3 K is %g %s", m, symbol)
	}
	bar := Limit{Figure: "x", Side: Min, Value: 9e5, Kind: unit.PressureGauge, Unit: "bar(g)"}
	if m, symbol := bar.InUnit(5e4); math.Abs(m-0.5) > 1e-12 || symbol != "bar" {
		t.Errorf("0.5 bar is %g %s", m, symbol)
	}
	if _, ok := (Limit{Kind: unit.Angle}).Percent(1); ok {
		t.Error("per cent of a limit of zero")
	}
}

// A limit converted from another unit differs from the figure in the last
// digits: 3.5 in is 88.9 mm, 0.35 lb is 158.7573 g when printed.
func TestValueOnTheLimit(t *testing.T) {
	for _, c := range []struct {
		limit, value float64
		side         Side
		want         bool
	}{
		{88.9e-3, 3.5 * 0.0254, Max, true},
		{88.9e-3, 3.5 * 0.0254, Min, true},
		{158.7573e-3, 0.35 * 0.45359237, Max, true}, // 2e-7 above
		{158.7573e-3, 158.7573e-3 * (1 + 0.9e-6), Max, true},
		{158.7573e-3, 158.7573e-3 * (1 + 1.1e-6), Max, false},
		{158.7573e-3, 158.7573e-3 * (1 - 0.9e-6), Min, true},
		{158.7573e-3, 158.7573e-3 * (1 - 1.1e-6), Min, false},
		{-20e3, -20e3 * (1 + 0.9e-6), Min, true},
		{-20e3, -20e3 * (1 + 1.1e-6), Min, false},
		{0, 1e-12, Max, false}, // nothing is a millionth of zero
		{0, 0, Max, true},
	} {
		if l := (Limit{Side: c.side, Value: c.limit}); l.Meets(c.value) != c.want {
			t.Errorf("%.9g against %s %.9g: meets it: %t", c.value, c.side, c.limit, !c.want)
		}
	}
}

// The margin is in per cent of the size of the limit, so that its sign stays
// that of the margin; of a limit of zero there is none.
func TestPercentOfNegativeAndZero(t *testing.T) {
	gauge := func(side Side, limit, value float64) Verdict {
		f := figure.Figure{Kind: unit.PressureGauge, Value: value, Lo: value - 1e3, Hi: value + 1e3}
		return Of(Limit{Side: side, Value: limit, Kind: unit.PressureGauge, Unit: "bar(g)"}, f)
	}
	for _, c := range []struct {
		v       Verdict
		margin  float64
		percent float64
		has     bool
	}{
		{gauge(Min, -20e3, -15e3), 5e3, 25, true},
		{gauge(Min, -20e3, -30e3), -10e3, -50, true},
		{gauge(Max, -20e3, -30e3), 10e3, 50, true},
		{gauge(Max, -20e3, 10e3), -30e3, -150, true},
		{gauge(Min, 0, 5e3), 5e3, 0, false},
		{gauge(Max, 0, 5e3), -5e3, 0, false},
	} {
		if math.Abs(c.v.Margin-c.margin) > 1e-9 || math.Abs(c.v.Percent-c.percent) > 1e-9 || c.v.HasPercent != c.has {
			t.Errorf("%s: margin %g Pa, %g %% (%t), want %g, %g (%t)", c.v.Limit, c.v.Margin, c.v.Percent, c.v.HasPercent, c.margin, c.percent, c.has)
		}
	}
	// A line without per cent takes its place and hides no other.
	b := Board{gauge(Max, 0, 5e3), gauge(Max, -20e3, 10e3)}.Sorted()
	if len(b) != 2 || b[0].Word != Fail || b[1].Word != Fail {
		t.Errorf("%+v", b)
	}
}

// Two owners may each hold a maximum on one figure: each has its line.
func TestTwoOwners(t *testing.T) {
	a, b := height(Max, 310), height(Max, 306)
	b.Owner = "filler"
	if err := Check([]Limit{a, b}, func(string) (unit.Kind, bool) { return unit.Length, true }); err != nil {
		t.Error(err)
	}
	board := Judge([]Limit{a, b}, []figure.Figure{fig(300, 305, 308)}, nil)
	if len(board) != 2 || board[0].Word != Close || board[0].Limit.Owner != "filler" || board[1].Word != Pass || board[1].Limit.Owner != "brand" {
		t.Errorf("%+v", board)
	}
}

func TestCheckReportsEverything(t *testing.T) {
	find := func(key string) (unit.Kind, bool) {
		k, ok := map[string]unit.Kind{"bottle.height": unit.Length, "preform.mass": unit.Mass}[key]
		return k, ok
	}
	limits := []Limit{
		height(Min, 310),
		{Figure: "bottle.heigth", Side: Max, Value: 1, Kind: unit.Length},
		{Figure: "preform.mass", Side: Max, Value: 1, Kind: unit.Length, Unit: "g"},
		{Figure: "preform.mass", Side: "most", Value: math.NaN(), Kind: unit.Mass, Date: "yesterday"},
		height(Max, 305),
		height(Max, 310),
	}
	err := Check(limits, find)
	faults, ok := err.(Faults)
	if !ok {
		t.Fatalf("%v", err)
	}
	want := []struct {
		i    int
		says string
	}{{1, "no figure"}, {2, "the figure a mass"}, {2, "unit"}, {3, "neither"}, {3, "finite"}, {3, "date"}, {0, "above maximum 305 mm of brand (limit 5)"}}
	if len(faults) != len(want) {
		t.Fatalf("%d faults, want %d:\n%v", len(faults), len(want), err)
	}
	for i, w := range want {
		if faults[i].Index != w.i || !strings.Contains(unit.Spell(faults[i].Reason, unit.EU), w.says) {
			t.Errorf("fault %d: %+v, want limit %d, %q", i, faults[i], w.i, w.says)
		}
	}
	if err := Check([]Limit{height(Min, 300), height(Max, 305)}, find); err != nil {
		t.Errorf("sound limits: %v", err)
	}
}

func TestBoardIsWorstFirst(t *testing.T) {
	limits := []Limit{height(Max, 310), height(Max, 299), height(Max, 306), height(Max, 290), {Figure: "gone", Side: Max, Value: 1, Kind: unit.Mass}, height(Max, 400)}
	limits[5].Owner = "second"
	b := Judge(limits, []figure.Figure{fig(300, 305, 308)}, map[string]string{"gone": "the blow stage failed"})
	var got []string
	for _, v := range b {
		got = append(got, string(v.Word)+" "+v.Limit.String())
	}
	want := []string{
		"fail bottle.height <= 290 mm", "fail bottle.height <= 299 mm", "close bottle.height <= 306 mm",
		"not computed gone <= 1000 g", "pass bottle.height <= 310 mm", "pass bottle.height <= 400 mm",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if b[3].Reason != "the blow stage failed" || b.Count(Fail) != 2 {
		t.Errorf("reason %q, %d fail", b[3].Reason, b.Count(Fail))
	}
}

func TestSortingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b Board
		words := []Word{Pass, Fail, Close, NotShown, NotComputed}
		for i := range rapid.IntRange(0, 12).Draw(t, "n") {
			b = append(b, Verdict{
				Limit: Limit{Value: float64(i)}, Word: rapid.SampledFrom(words).Draw(t, "word"),
				Percent: float64(rapid.IntRange(-3, 3).Draw(t, "percent")), HasPercent: rapid.Bool().Draw(t, "has"),
			})
		}
		s := b.Sorted()
		if len(s) != len(b) {
			t.Fatal("lines lost")
		}
		for i := 1; i < len(s); i++ {
			x, y := s[i-1], s[i]
			if x.Word.rank() > y.Word.rank() {
				t.Fatalf("%s before %s", x.Word, y.Word)
			}
			if x.Word == y.Word && x.HasPercent == y.HasPercent {
				if x.Percent > y.Percent || x.Percent == y.Percent && x.Limit.Value > y.Limit.Value {
					t.Fatalf("line %d after %d", int(y.Limit.Value), int(x.Limit.Value))
				}
			}
		}
	})
}

func TestDifference(t *testing.T) {
	mass := func(side Side, g, lo, v, hi float64, key string) Verdict {
		return Of(Limit{Figure: key, Side: side, Value: g * 1e-3, Kind: unit.Mass, Unit: "g"},
			figure.Figure{Key: key, Kind: unit.Mass, Value: v * 1e-3, Lo: lo * 1e-3, Hi: hi * 1e-3})
	}
	older := Board{
		mass(Min, 9.6, 9.9, 10.09, 10.3, "section.base.mass"),
		mass(Min, 12, 12.9, 13.13, 13.3, "section.panel.mass"),
		mass(Max, 40, 36, 36.2, 36.4, "preform.mass"),
		Of(height(Max, 320), fig(310, 312, 314)),
		mass(Min, 1, 2, 3, 4, "same"),
		mass(Min, 1, 2, 3, 4, "dropped"),
		mass(Min, 1, 2, 3, 4, "lost"),
	}
	newer := Board{
		mass(Max, 40, 33.8, 34, 34.2, "preform.mass"),
		mass(Min, 9.6, 9.5, 10.03, 10.2, "section.base.mass"),
		mass(Min, 12, 12.4, 12.65, 12.9, "section.panel.mass"),
		Of(height(Max, 320), fig(306, 308, 310)),
		mass(Min, 1, 2, 3, 4, "same"),
		NotComputedBecause(Limit{Figure: "lost", Side: Min, Value: 1e-3, Kind: unit.Mass}, "stage failed"),
		mass(Min, 1, 2, 3, 4, "added"),
		mass(Min, 5, 2, 3, 4, "added and failed"),
		Verdict{Limit: Limit{Figure: "added and not shown", Side: Min, Value: 1e-3, Kind: unit.Mass}, Word: NotShown},
	}
	d, err := Diff(older, newer, 36.2e-3, 34e-3)
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, c := range d.Changes {
		keys = append(keys, c.Figure)
	}
	if diff := cmp.Diff([]string{"added and failed", "section.panel.mass", "section.base.mass", "bottle.height", "preform.mass", "dropped", "added", "added and not shown", "lost"}, keys); diff != "" {
		t.Fatal(diff)
	}
	p := d.Changes[1]
	// (13.13 - 12.65)/12 of the limit over 2.2 g
	if want := 100 * 0.48 / 12 / 2.2; math.Abs(p.PerGram-want) > 1e-9 || !p.HasPerGram {
		t.Errorf("panel: %g %% a gram, want %g", p.PerGram, want)
	}
	base := d.Changes[2]
	if !slices.Contains(base.What, "verdict") || base.New.Word != Close || math.Abs(base.Lost-0.06e-3) > 1e-12 {
		t.Errorf("base: %+v", base)
	}
	if d.Changes[3].LostPercent >= 0 {
		t.Errorf("the lower bottle gained margin: %g", d.Changes[3].LostPercent)
	}
	// The same board differs in nothing; a heavier one has no price a gram.
	if same, err := Diff(older, older, 1, 1); err != nil || same.Changes != nil {
		t.Errorf("same boards: %v, %v", same, err)
	}
	back, err := Diff(newer, older, 34e-3, 36.2e-3)
	if err != nil {
		t.Fatal(err)
	}
	gained := false
	for _, c := range back.Changes {
		gained = gained || c.HasLost && c.Lost <= 0
		if gained && c.HasLost && c.Lost > 0 {
			t.Errorf("%s loses margin and stands behind a gain", c.Figure)
		}
		if c.HasPerGram {
			t.Errorf("%s: price a gram without a saving", c.Figure)
		}
	}
	// Also where each limit moved: the largest loss in per cent of its limit first.
	moved := slices.Clone(older)
	for i := range moved[:4] {
		v := moved[i]
		v.Limit.Value *= 1.01
		v.Margin -= []float64{1, -2, 3, 4}[i] * 1e-3 * v.Limit.Value
		v.Percent -= []float64{0.1, -0.2, 0.3, 0.4}[i]
		moved[i] = v
	}
	heavier, err := Diff(older, moved, 36.2e-3, 37e-3)
	if err != nil {
		t.Fatal(err)
	}
	keys = nil
	for _, c := range heavier.Changes {
		keys = append(keys, c.Figure)
	}
	if diff := cmp.Diff([]string{"bottle.height", "preform.mass", "section.base.mass", "section.panel.mass"}, keys); diff != "" {
		t.Error(diff)
	}
	if _, err := Diff(older, newer, 0, 1); err == nil {
		t.Error("no mass: no error")
	}
}
