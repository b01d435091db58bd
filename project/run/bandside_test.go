package run

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
)

func figureOf(t *testing.T, r *Result, key string) figure.Figure {
	t.Helper()
	for _, f := range r.Figures {
		if f.Key == key {
			return f
		}
	}
	t.Fatalf("no figure %s", key)
	return figure.Figure{}
}

func effect(f figure.Figure, path string) (figure.Effect, bool) {
	for _, e := range f.Effects {
		if e.Path == path {
			return e, true
		}
	}
	return figure.Effect{}, false
}

// TestEffectsByHand compares what a figure does at the low and at the high end
// of one input with the same by hand. Low belongs to the low end of the input,
// whatever the figure does there.
func TestEffectsByHand(t *testing.T) {
	r := Check(golden(t, "golden-carbonated.yaml"), nil)
	for _, c := range []struct {
		key, path string
		low, high float64
	}{
		{"preform.mass", "preform.wall", -0.215224e-3, 0.216026e-3},        // the tube π ρ (d + w) w 54 mm, taper and cap with 3.11 and 3.19 mm
		{"preform.mass", "preform.body_length", -45.774e-6, 45.774e-6},     // 1333 π 17.35e-3 · 3.15e-3 · 0.2e-3
		{"preform.mass", "preform.inner_diameter", -52.018e-6, 52.043e-6},  // the same with 14.15 and 14.25 mm
		{"preform.mass", "finish.mass", -30e-6, 30e-6},                     // as given
		{"wall.panel.mean", "resin.density_wall", 1.02557e-6, -1.01804e-6}, // R - √(R² - m / (π ρ H)) with 1357 and 1367 kg/m³
		{"bottle.headspace", "brief.nominal", 2.4e-6, -2.4e-6},             // 0.5 % of 480 mL
		{"stack.load", "brief.nominal", -0.455594, 0.455594},               // 1.7 · 9.80665 · 11 · 1035.122 · 2.4e-6
		{"air.volume", "blow.high_blow", -0.387376e-3, 0.387376e-3},        // 774.752 mL · 0.5
		{"air.volume", "blow.dead_volume", -1.116e-3, 1.116e-3},            // 0.15 · 240 mL · 31
		{"air.volume.net", "blow.air_recovery", 1.200866e-3, -1.200866e-3}, // 0.05 · 24.017326e-3
		{"air.energy", "plant.air_energy", -1942.291, 1942.291},            // 0.12 · 16185.756
		{"oven.energy", "oven.energy", -3736.787, 3736.787},                // 0.3 · 12455.958
		{"cost.resin", "plant.resin_price", -4.187296, 4.187296},           // 0.15 · 27.915304
		{"cost.total", "plant.preform_making", -1.711340, 1.711340},        // 0.2 · 8.3 / 0.97
		{"cost.total", "plant.blowing", -1.381443, 1.381443},               // 0.2 · 6.7 / 0.97
		{"footprint.total", "plant.virgin_emission", -4.710603, 4.710603},  // 0.15 · 20.376135 · 0.65 · 2.3 / 0.97
	} {
		e, ok := effect(figureOf(t, r, c.key), c.path)
		if !ok {
			t.Errorf("%s has no effect of %s", c.key, c.path)
			continue
		}
		low := 2e-3
		if slices.ContainsFunc(spreads, func(s spread) bool { return s.path == c.path && s.mirror }) {
			low = 1e-2 // the high end turned round
		}
		if math.Abs(e.Low-c.low) > low*math.Abs(c.low) || math.Abs(e.High-c.high) > 2e-3*math.Abs(c.high) {
			t.Errorf("%s by %s: %g and %g, by hand %g and %g", c.key, c.path, e.Low, e.High, c.low, c.high)
		}
	}
}

// TestEffectsHaveTheirSign knows which way a figure goes with an input whose
// effect has no closed form: +1 it rises with the input, -1 it falls.
func TestEffectsHaveTheirSign(t *testing.T) {
	csd := Check(golden(t, "golden-carbonated.yaml"), nil)
	hot := Check(golden(t, "golden-hotfill.yaml"), nil)
	for _, c := range []struct {
		of        *Result
		key, path string
		sign      float64
	}{
		{csd, "pack.pressure.store", "drink.carbonation", 1},
		{csd, "pack.pressure.store", "drink.headspace_air", 1},
		{csd, "pack.pressure.store", "climate.store", 1},
		{csd, "pack.pressure.hot", "climate.hot", 1},
		{csd, "pack.pressure.fill", "drink.fill_temperature", 1},
		{csd, "pack.pressure.hot", "drink.nitrogen", 1},
		{csd, "closure.lift", "climate.hot", 1},
		{csd, "wall.panel.mean", "preform.wall", 1},
		{csd, "wall.panel.mean", "preform.section_targets.panel", 1},
		{csd, "wall.panel.mean", "preform.section_targets.base", -1},
		{csd, "pack.stress.hoop.store", "preform.section_targets.panel", -1},
		{csd, "bottle.volume.brimful", "bottle.wall", -1},
		{csd, "shelf.loss.end", "shelf.barrier_factor", 1},
		{csd, "shelf.loss.end", "closure.co2", 1},
		{csd, "shelf.loss.end", "climate.store", 1},
		{csd, "shelf.loss.end", "preform.wall", -1},
		{csd, "cost.total", "blow.air_recovery", -1},
		{hot, "hotfill.vacuum", "hotfill.shrinkage", -1},
		{hot, "hotfill.vacuum", "hotfill.panel_compliance", -1},
		{hot, "hotfill.panel.need", "hotfill.panel_compliance", 1},
		{hot, "hotfill.vacuum", "hotfill.headspace_temperature", 1},
		{hot, "hotfill.vacuum", "drink.fill_temperature", 1},
		{hot, "hotfill.vacuum", "drink.nitrogen", -1},
		{hot, "hotfill.vacuum.settled", "drink.nitrogen_dissolved", -1},
		{hot, "hotfill.vacuum.settled", "drink.oxygen_dissolved", -1},
		{hot, "hotfill.vacuum", "hotfill.end_temperature", -1},
		{hot, "shelf.vacuum.max", "hotfill.headspace_temperature", 1},
		{hot, "shelf.oxygen.end", "closure.o2", 1},
		{hot, "hotfill.budget.nitrogen", "drink.nitrogen", 1},
		{hot, "pasteur.units", "hotfill.hold_time", 1},
		{hot, "pasteur.units", "hotfill.cooling_time", 1},
		{hot, "pasteur.f93", "drink.fill_temperature", 1},
	} {
		e, ok := effect(figureOf(t, c.of, c.key), c.path)
		if !ok || !(e.Low*c.sign < 0) || !(e.High*c.sign > 0) {
			t.Errorf("%s by %s: %g at the low end, %g at the high end, want %+g times rising", c.key, c.path, e.Low, e.High, c.sign)
		}
	}
}

// TestBandSides holds a band that is wider below than above. With 2 % of the
// air recovered, five points less cannot be: the low end is 0 and gives
// +0.02 N, the high end gives -0.05 N. N = 24.017326e-3 Nm³, net 0.98 N.
//
//	pressure     ± 0.98 · 0.387376e-3 = 0.379628e-3
//	dead volume  ± 0.98 · 1.116e-3    = 1.093680e-3
//	low   23.536980 - √(1.200866² + 0.379628² + 1.093680²) = 21.868947e-3
//	high  23.536980 + √(0.480347² + 0.379628² + 1.093680²) = 24.790370e-3
func TestBandSides(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	doc.Design.Blow.Recovery = 0.02
	f := figureOf(t, Check(doc, nil), "air.volume.net")
	if math.Abs(f.Value-23.536980e-3) > 1e-8 || math.Abs(f.Lo-21.868947e-3) > 2e-6 || math.Abs(f.Hi-24.790370e-3) > 2e-6 {
		t.Errorf("%g (%g to %g), by hand 23.536980e-3 (21.868947e-3 to 24.790370e-3)", f.Value, f.Lo, f.Hi)
	}
}

// TestBandsAreTheirEffects adds the effects of every figure in squares, each
// side for itself, and looks for the band.
func TestBandsAreTheirEffects(t *testing.T) {
	for _, name := range []string{"golden-carbonated.yaml", "golden-hotfill.yaml"} {
		wide := 0
		for _, f := range Check(golden(t, name), nil).Figures {
			var down, up float64
			for _, e := range f.Effects {
				down, up = math.Hypot(down, min(e.Low, e.High, 0)), math.Hypot(up, max(e.Low, e.High, 0))
			}
			if !slices.IsSortedFunc(f.Effects, func(a, b figure.Effect) int { return cmp.Compare(b.Size(), a.Size()) }) {
				t.Errorf("%s: %s: effects are not in order: %+v", name, f.Key, f.Effects)
			}
			if !(f.Lo <= f.Value && f.Value <= f.Hi) {
				t.Errorf("%s: %s: %g not in %g to %g", name, f.Key, f.Value, f.Lo, f.Hi)
			}
			if len(f.Effects) == 0 {
				continue
			}
			wide++
			lo, hi := f.Value-down, f.Value+up
			if f.Kind == "fraction" { // a share stays between nothing and all, unless it is given back
				hi = min(hi, max(1, f.Value))
				if f.Value >= 0 {
					lo = max(lo, 0)
				}
			}
			if small := 1e-6 * (down + up); f.Lo >= f.Hi || math.Abs(f.Lo-lo) > small || math.Abs(f.Hi-hi) > small {
				t.Errorf("%s: %s: band %g to %g, its effects give %g to %g", name, f.Key, f.Lo, f.Hi, lo, hi)
			}
		}
		if wide < 25 {
			t.Errorf("%s: only %d figures have a band", name, wide)
		}
	}
}

// TestRank: what a stage gives in any order is ranked by what it adds to the
// band; an input that moves a figure one way alone adds on one side.
func TestRank(t *testing.T) {
	given := []figure.Effect{{Path: "one side", High: 1.1}, {Path: "little", Low: -0.1, High: 0.1}, {Path: "both", Low: 0.9, High: -0.9}}
	f := []figure.Figure{{Effects: given}}
	rank(f)
	var got []string
	for _, e := range f[0].Effects {
		got = append(got, e.Path)
	}
	if want := []string{"both", "one side", "little"}; !slices.Equal(got, want) || f[0].Banding == "" || given[0].Path != "one side" {
		t.Errorf("%q, %q, given %q first", got, f[0].Banding, given[0].Path)
	}
}

// TestNegativeLimit judges a vacuum of 17.877 kPa against -5 kPa: as a maximum
// it is 22.877 kPa too much, 457.5 % of 5; as a minimum it passes by as much.
func TestNegativeLimit(t *testing.T) {
	for side, sign := range map[string]float64{"max": -1, "min": 1} {
		doc := golden(t, "golden-hotfill.yaml")
		doc.Design.Limits = []design.Limit{{Figure: "hotfill.vacuum", Side: side, Value: "-5 kPa", Owner: "test", Source: "example"}}
		v := slices.DeleteFunc(Check(doc, nil).Verdicts, func(v quality.Verdict) bool { return v.Limit.Figure != "hotfill.vacuum" })
		if len(v) != 1 {
			t.Fatalf("%d verdicts", len(v))
		}
		word := map[string]quality.Word{"max": quality.Fail, "min": quality.Pass}[side]
		if v[0].Word != word || !v[0].HasPercent || math.Abs(v[0].Percent-sign*457.53) > 0.2 || math.Abs(v[0].Margin-sign*22877) > 10 {
			t.Errorf("%s: %s, margin %g Pa, %g %%", side, v[0].Word, v[0].Margin, v[0].Percent)
		}
	}
}

// TestNoBandNoPass: where the coarse runs that measure the band do not give a
// figure, the figure has no band and cannot pass a limit.
func TestNoBandNoPass(t *testing.T) {
	r := Check(golden(t, "golden-carbonated.yaml"), nil)
	f := figureOf(t, r, "shelf.loss.end")
	limit := quality.Limit{Figure: f.Key, Kind: f.Kind, Side: quality.Max, Value: 2 * f.Value, Owner: "test", Source: "example"}
	if f.Lo == f.Hi {
		t.Fatal("the figure has no band to begin with")
	}
	f.Lo, f.Hi, f.Effects = f.Value, f.Value, nil
	overfull := r.Doc.Design.Clone()
	overfull.SetNumber("brief.nominal", 1)
	figures := []figure.Figure{f}
	band(overfull, figures, false, NewCache(64))
	if v := quality.Of(limit, figures[0]); v.Word != quality.NotShown {
		t.Errorf("%s without a band is %q (%s), want %q", f.Key, v.Word, v.Reason, quality.NotShown)
	}
}
