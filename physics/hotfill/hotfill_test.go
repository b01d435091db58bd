package hotfill

import (
	"errors"
	"math"
	"strings"
	"testing"

	"costrel/physics/drink"
	"costrel/unit"

	"pgregory.net/rapid"
)

// A drink is a liquid; its carbonation is refused.
func TestDrinkIsALiquid(t *testing.T) {
	still, err := drink.Drink{Sugar: 110}.Liquid()
	if err != nil {
		t.Fatal(err)
	}
	p := juice(85)
	p.Liquid = still
	s, err := Cool(p, room)
	if err != nil {
		t.Fatal(err)
	}
	if v := s.Vacuum / 1e5; v < 0.77 || v > 0.80 {
		t.Errorf("vacuum %g bar", v)
	}
	cola, err := drink.Drink{Sugar: 110, Carbonation: drink.FromVolumes(3.5)}.Liquid()
	if err != nil {
		t.Fatal(err)
	}
	p.Liquid = cola
	if _, err := Cool(p, room); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "carbon dioxide") {
		t.Errorf("carbonated hot fill: %v", err)
	}
}

// With equal temperatures nothing happens, whatever the bottle.
func TestNoCooling(t *testing.T) {
	p := juice(40)
	p.Panel.Compliance = 1 * perkP
	s, err := Cool(p, Store{Temperature: unit.Celsius(40)})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.Vacuum) > 1e-6 || math.Abs(s.Budget.Panels) > 1e-15 || s.Budget.Liquid != 0 || math.Abs(s.PanelNeed) > 1e-15 {
		t.Errorf("%+v", s)
	}
}

// Steam alone in a rigid bottle leaves the vapour pressure of the store.
func TestSteamAlone(t *testing.T) {
	p := juice(85)
	p.Steam = 1
	s, err := Cool(p, room)
	if err != nil {
		t.Fatal(err)
	}
	if float64(s.Pressure) != s.Vapour || s.Dry != 0 || math.Abs(s.Budget.Rest) > 1e-18 {
		t.Errorf("%+v", s)
	}
	if len(s.Warnings) == 0 {
		t.Error("no warning of boiling")
	}
}

// drawPack draws a pack that the package answers for.
func drawPack(t *rapid.T) (Pack, Store) {
	v0 := rapid.Float64Range(250, 2000).Draw(t, "V0")
	fill := unit.Celsius(rapid.Float64Range(70, 96).Draw(t, "Tf"))
	p := Pack{
		Liquid: solution(rapid.Float64Range(0, 0.2).Draw(t, "w")), Overflow: v0 * mL,
		Fill: v0 * rapid.Float64Range(0.85, 0.99).Draw(t, "fill") * mL, FillAt: fill, Temperature: fill,
		Gas:   fill - unit.Temperature(rapid.Float64Range(0, 15).Draw(t, "below")),
		Steam: rapid.Float64Range(0, 0.9).Draw(t, "steam"), Shrinkage: rapid.Float64Range(0, 0.02).Draw(t, "s"),
		Nitrogen: rapid.Float64Range(0, 50e-6).Draw(t, "N2"), Ambient: 101325,
	}
	p.Panel.Compliance = rapid.Float64Range(0.01, 5).Draw(t, "k") * perkP
	p.Panel.Outward = rapid.Float64Range(0.01, 5).Draw(t, "out") * perkP
	return p, Store{Temperature: unit.Celsius(rapid.Float64Range(4, 40).Draw(t, "T")), Ambient: 101325}
}

// The budget closes to 1e-12 of the bottle, the panels give what their law
// says, and the gas obeys its law.
func TestBudgetCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, st := drawPack(t)
		s, err := Cool(p, st)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Budget.Rest) > 1e-12*p.Overflow {
			t.Fatalf("budget leaves %g of %g m³", s.Budget.Rest, p.Overflow)
		}
		if d := s.Budget.Panels - p.Panel.Volume(s.Vacuum); math.Abs(d) > 1e-18 {
			t.Fatalf("panels are off by %g", d)
		}
		if d := s.Bottle - s.Liquid - s.Headspace; math.Abs(d) > 1e-12*p.Overflow {
			t.Fatalf("volumes are off by %g", d)
		}
		need, err := WallNeed(p, st, s.Vacuum)
		if err != nil || math.Abs(need-s.Budget.Shrinkage-s.Budget.Panels) > 1e-11*p.Overflow {
			t.Fatalf("wall need %g, given %g, %v", need, s.Budget.Shrinkage+s.Budget.Panels, err)
		}
		q := p
		q.Nitrogen = 0
		if air, err := WallNeed(q, st, s.Vacuum); err != nil || math.Abs(air-need-s.Budget.Nitrogen) > 1e-11*p.Overflow {
			t.Fatalf("without the dose the wall need is %g, with it %g, the dose fills %g, %v", air, need, s.Budget.Nitrogen, err)
		}
		a := Air{Water: 0.9, OxygenSolubility: drink.HenryOxygen(st.Temperature), NitrogenSolubility: drink.HenryNitrogen(st.Temperature)}
		w, err := Settle(p, st, a)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(w.Budget.Rest) > 1e-12*p.Overflow {
			t.Fatalf("settled: budget leaves %g of %g m³", w.Budget.Rest, p.Overflow)
		}
		if w.Headspace > 0 && w.Pressure > s.Pressure+1e-6 {
			t.Fatalf("gas that dissolves raises the pressure: %g to %g", float64(s.Pressure), float64(w.Pressure))
		}
	})
}

// Without water nothing dissolves: Settle is Cool.
func TestSettleWithoutWater(t *testing.T) {
	p := tea(1.13)
	a, err := Cool(p, room)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Settle(p, room, Air{})
	if err != nil || math.Abs(float64(a.Pressure-b.Pressure)) > 1e-6 || math.Abs(a.PanelNeed-b.PanelNeed) > 1e-15 {
		t.Errorf("%+v\n%+v\n%v", a, b, err)
	}
}

// Softer panels and more shrinkage leave less vacuum; a hotter fill more.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, st := drawPack(t)
		base, err := Cool(p, st)
		if err != nil {
			t.Fatal(err)
		}
		q := p
		q.Panel.Compliance *= 1.2
		q.Panel.Outward *= 1.2
		soft, err := Cool(q, st)
		if err != nil || math.Abs(soft.Vacuum) > math.Abs(base.Vacuum) {
			t.Fatalf("softer panels: %g to %g Pa, %v", base.Vacuum, soft.Vacuum, err)
		}
		q = p
		q.Shrinkage += 0.005
		if small, err := Cool(q, st); err != nil || small.Vacuum > base.Vacuum {
			t.Fatalf("more shrinkage: %g to %g Pa, %v", base.Vacuum, small.Vacuum, err)
		}
		q = p
		q.Temperature, q.Gas, q.FillAt = p.Temperature+1, p.Gas+1, p.FillAt+1
		if hot, err := Cool(q, st); err != nil || hot.Vacuum < base.Vacuum {
			t.Fatalf("hotter fill: %g to %g Pa, %v", base.Vacuum, hot.Vacuum, err)
		}
	})
}

// A curve with points on a straight line is a compliance, however many points.
func TestCurveOnALine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, st := drawPack(t)
		k := p.Panel.Compliance
		want, err := Cool(p, st)
		if err != nil {
			t.Fatal(err)
		}
		p.Panel = Panel{Outward: p.Panel.Outward}
		v := 0.0
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			v += rapid.Float64Range(1e3, 30e3).Draw(t, "dv")
			p.Panel.Curve = append(p.Panel.Curve, Point{v, k * v})
		}
		got, err := Cool(p, st)
		if err != nil || math.Abs(float64(got.Pressure-want.Pressure)) > 1e-6*float64(want.Pressure) {
			t.Fatalf("%g want %g, %v", float64(got.Pressure), float64(want.Pressure), err)
		}
	})
}

// A curve with kinks: the solution satisfies the balance, on whichever part.
func TestCurveWithKinks(t *testing.T) {
	p := tea(0)
	for _, c := range [][]Point{
		{{5e3, 8e-6}, {10e3, 20e-6}, {60e3, 21e-6}}, // panels snap, then lock
		{{30e3, 2e-6}, {31e3, 20e-6}},               // stiff, then soft
		{{1e3, 0}, {2e3, 0}, {50e3, 10e-6}},         // slack first
		{{5e3, 8e-6}, {10e3, 8e-6}},                 // flat at the end
		{{90e3, 25e-6}, {95e3, 40e-6}},              // never reaches the second part
	} {
		p.Panel = Panel{Curve: c}
		s, err := Cool(p, room)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Budget.Rest) > 1e-12*p.Overflow || math.Abs(s.Budget.Panels-p.Panel.Volume(s.Vacuum)) > 1e-18 {
			t.Errorf("%v: vacuum %g, rest %g", c, s.Vacuum, s.Budget.Rest)
		}
		beyond := s.Vacuum > c[len(c)-1].Vacuum
		warned := strings.Contains(strings.Join(s.Warnings, "\n"), "beyond the last point")
		if beyond != warned {
			t.Errorf("%v: vacuum %g, warnings %q", c, s.Vacuum, s.Warnings)
		}
	}
}

func TestRefusals(t *testing.T) {
	for want, change := range map[string]func(*Pack, *Store){
		"fill: volume 560 mL against 0..538 mL, brimful":  func(p *Pack, _ *Store) { p.Fill = 560 * mL },
		"headspace: volume at closing":                    func(p *Pack, _ *Store) { p.Fill = 530 * mL },
		"fill: temperature 105 °C against 0..100 °C":      func(p *Pack, _ *Store) { p.Temperature = unit.Celsius(105) },
		"fill: temperature -188.15 °C":                    func(p *Pack, _ *Store) { p.Temperature = 85 }, // Celsius for kelvin
		"headspace: temperature":                          func(p *Pack, _ *Store) { p.Gas = unit.Temperature(math.NaN()) },
		"store: temperature -5 °C":                        func(_ *Pack, s *Store) { s.Temperature = unit.Celsius(-5) },
		"fill: ambient pressure 1 kPa(a)":                 func(p *Pack, _ *Store) { p.Ambient = 1e3 },
		"bottle: shrinkage 30 %":                          func(p *Pack, _ *Store) { p.Shrinkage = 0.3 },
		"a wall that gives nothing outward cannot shrink": func(p *Pack, _ *Store) { p.Shrinkage = 0.1 },
		"headspace: share of steam 2":                     func(p *Pack, _ *Store) { p.Steam = 2 },
		"panel: compliance -1 mL/kPa":                     func(p *Pack, _ *Store) { p.Panel.Compliance = -1e-9 },
		"panel: point 2: vacuum":                          func(p *Pack, _ *Store) { p.Panel.Curve = []Point{{2e3, 1e-6}, {1e3, 2e-6}} },
		"panel: point 2: volume":                          func(p *Pack, _ *Store) { p.Panel.Curve = []Point{{2e3, 2e-6}, {3e3, 1e-6}} },
		"give a compliance or a curve":                    func(p *Pack, _ *Store) { p.Panel = Panel{1e-9, []Point{{1e3, 1e-6}}, 0} },
		"panel: outward compliance -1 mL/kPa":             func(p *Pack, _ *Store) { p.Panel.Outward = -1e-9 },
		"fill: vapour pressure of the drink 84.609 kPa(a) against 70 kPa(a), ambient: at 95 °C it boils": func(p *Pack, _ *Store) { p.Ambient = 70e3; p.Gas = unit.Celsius(95); p.Temperature = unit.Celsius(95) },
		"give the drink":         func(p *Pack, _ *Store) { p.Liquid = nil },
		"headspace: nitrogen":    func(p *Pack, _ *Store) { p.Nitrogen = 1 },
		"bottle: brimful volume": func(p *Pack, _ *Store) { p.Overflow = 0 },
	} {
		p, st := tea(0), room
		change(&p, &st)
		_, err := Cool(p, st)
		var r *Refusal
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) || !errors.As(err, &r) || r.Remedy == "" {
			t.Errorf("want %q, have %v", want, err)
		}
		if _, err := Settle(p, st, Air{}); err == nil {
			t.Errorf("%q: Settle answers", want)
		}
	}
	if _, err := Settle(tea(0), room, Air{Water: 2}); err == nil {
		t.Error("two kilograms of water in one accepted")
	}
	if _, err := WallNeed(tea(0), room, 100e3); err == nil {
		t.Error("a vacuum below the vapour pressure accepted")
	}
}

// An elastic bottle that shrinks below its liquid is under pressure and says so.
func TestShrunkBelowLiquid(t *testing.T) {
	p := tea(0)
	p.Panel.Outward = 0.5 * perkP
	p.Shrinkage = 0.1
	s, err := Cool(p, room)
	if err != nil {
		t.Fatal(err)
	}
	if s.Vacuum >= 0 || s.Headspace <= 0 || !strings.Contains(strings.Join(s.Warnings, " "), "overpressure of") {
		t.Errorf("%+v", s)
	}
}

// TestOverpressureByHand is the tea of 500 mL in 538 mL with 60 mg of nitrogen,
// by a bisection in P outside of the program with water of 998.20 and 968.61
// kg/m³ and 2339 Pa and 47 415 Pa of vapour at 20 and 80 °C: outward compliance
// 0.05 mL/kPa gives 71.7 kPa above ambient where the panel compliance of 1.13
// taken outward gives 18.0.
func TestOverpressureByHand(t *testing.T) {
	p := tea(1.13)
	p.Nitrogen = 60e-6
	for out, want := range map[float64]float64{0.05: 71.66e3, 1.13: 18.01e3} {
		p.Panel.Outward = out * perkP
		s, err := Cool(p, room)
		if err != nil || math.Abs(float64(s.Gauge)-want) > 50 || math.Abs(s.Budget.Rest) > 1e-12*p.Overflow {
			t.Errorf("outward %g mL/kPa: %g Pa(g), by hand %g, %v", out, float64(s.Gauge), want, err)
		}
		if v, ok := p.Panel.vacuumAt(p.Panel.Volume(s.Vacuum)); !ok || math.Abs(v-s.Vacuum) > 1e-9 {
			t.Errorf("outward %g mL/kPa: the volume belongs to %g Pa, want %g", out, v, s.Vacuum)
		}
	}
}

// The dose makes the wished pressure, panels and all.
func TestDoseReaches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, st := drawPack(t)
		p.Nitrogen = 0
		aim := unit.GaugePressure(rapid.Float64Range(0, 50e3).Draw(t, "aim"))
		m, err := Dose(p, st, aim)
		var r *Refusal
		if errors.As(err, &r) && (r.Item == "nitrogen" || r.Item == "gas space") {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		p.Nitrogen = m
		s, err := Cool(p, st)
		if err != nil || math.Abs(float64(s.Gauge-aim)) > 1e-4 {
			t.Fatalf("gauge %g, aim %g, %v", float64(s.Gauge), float64(aim), err)
		}
		if m > 0 && s.HotGauge <= 0 {
			t.Fatalf("a dosed hot bottle without pressure: %+v", s)
		}
	})
}

func TestDoseRefuses(t *testing.T) {
	if _, err := Dose(tea(1), room, -200e3); err == nil {
		t.Error("below vacuum accepted")
	}
	if _, err := Dose(tea(0), room, -90e3); err == nil {
		t.Error("a negative dose accepted")
	}
	if _, _, err := StillDose(math.NaN(), 0.5, 1e-9, 293, 1e5); err == nil {
		t.Error("NaN accepted")
	}
	if m, v, err := Drop(20e-6, 0.4); err != nil || math.Abs(m-50e-6) > 1e-15 || math.Abs(v-50e-6/807) > 1e-15 {
		t.Errorf("%g %g %v", m, v, err)
	}
	if _, _, err := Drop(20e-6, 0); err == nil {
		t.Error("nothing captured accepted")
	}
}

func TestSweeps(t *testing.T) {
	p := tea(0.7)
	ts := []unit.Temperature{unit.Celsius(82), unit.Celsius(85), unit.Celsius(88), unit.Celsius(92)}
	states, err := SweepFill(p, room, ts, func(t unit.Temperature) float64 { return 0.008 + 0.001*(t.Celsius()-82) })
	if err != nil || len(states) != len(ts) {
		t.Fatal(err)
	}
	one := p
	one.Temperature, one.Gas, one.Shrinkage = ts[3], ts[3]-5, 0.018
	want, err := Cool(one, room)
	if err != nil || states[3].Pressure != want.Pressure {
		t.Errorf("%g want %g, %v", float64(states[3].Pressure), float64(want.Pressure), err)
	}
	if _, err := SweepFill(p, room, []unit.Temperature{unit.Celsius(85), unit.Celsius(120)}, nil); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "120 °C") {
		t.Errorf("%v", err)
	}
	if _, err := SweepHeadspace(p, room, []float64{-1e-6}); err == nil {
		t.Error("a negative headspace accepted")
	}
	if _, err := SweepHeadspace(Pack{}, room, []float64{1e-6}); err == nil {
		t.Error("an empty pack accepted")
	}
}

// A recorded ramp against its integral by hand, and its limits.
func TestProfile(t *testing.T) {
	l := Lethality{Reference: unit.Celsius(60), Z: 10}
	// 50 to 70 °C in 100 s: z/(ln10 20 K) (10 - 0.1) 100 s.
	got, err := l.Profile([]Reading{{0, unit.Celsius(50)}, {100, unit.Celsius(70)}})
	want := 10 / (math.Ln10 * 20) * (10 - 0.1) * 100
	if err != nil || math.Abs(got-want) > 1e-9 {
		t.Errorf("got %g want %g, %v", got, want, err)
	}
	if got, _ = l.Hold(unit.Celsius(60), 42); math.Abs(got-42) > 1e-12 {
		t.Errorf("hold at the reference: %g", got)
	}
	for name, r := range map[string][]Reading{
		"one":    {{0, 333}},
		"back":   {{0, 333}, {0, 334}},
		"kelvin": {{0, 60}, {1, 60}},
		"NaN":    {{0, 333}, {math.NaN(), 334}},
	} {
		if _, err := l.Profile(r); err == nil {
			t.Errorf("%s accepted", name)
		}
	}
	if _, err := Scale("PU100"); err == nil {
		t.Error("an unknown scale answers")
	}
	if _, err := l.Cooling(unit.Celsius(85), unit.Celsius(20), 0, 100); err == nil {
		t.Error("no time constant accepted")
	}
	if _, err := (Lethality{}).Hold(333, 1); err == nil {
		t.Error("the zero scale answers")
	}
}

// Cooling agrees with a finely recorded profile of the same course.
func TestCoolingAgreesWithProfile(t *testing.T) {
	l := Lethality{Reference: unit.Celsius(85), Z: 10}
	const tau, end, n = 1200.0, 6000.0, 20000
	var r []Reading
	for i := 0; i <= n; i++ {
		x := end * float64(i) / n
		r = append(r, Reading{x, unit.Celsius(20 + 65*math.Exp(-x/tau))})
	}
	a, err := l.Profile(r)
	if err != nil {
		t.Fatal(err)
	}
	b, err := l.Cooling(unit.Celsius(85), unit.Celsius(20), tau, end)
	if err != nil || math.Abs(a/b-1) > 1e-6 {
		t.Errorf("%g and %g, %v", a, b, err)
	}
	// Steep and flat scales, a pack that warms, one that stays.
	for _, c := range []struct{ from, to, z, end float64 }{{150, -10, 1, 3000}, {62, 61.999, 7, 1e4}, {40, 40, 10, 500}, {20, 85, 10, 4000}, {20, 72, 4, 2e4}} {
		l := Lethality{Reference: unit.Celsius(80), Z: unit.TemperatureDiff(c.z)}
		r = r[:0]
		for i := 0; i <= n; i++ {
			x := c.end * float64(i) / n
			r = append(r, Reading{x, unit.Celsius(c.to + (c.from-c.to)*math.Exp(-x/tau))})
		}
		a, errA := l.Profile(r)
		b, errB := l.Cooling(unit.Celsius(c.from), unit.Celsius(c.to), tau, c.end)
		if errA != nil || errB != nil || math.Abs(a/b-1) > 2e-5 {
			t.Errorf("%+v: %g and %g, %v, %v", c, a, b, errA, errB)
		}
	}
}

func TestDefaults(t *testing.T) {
	if k := Defaults().Value("compliance"); math.Abs(k-1e-9) > 1e-20 {
		t.Errorf("compliance %g m³/Pa", k)
	}
	if tf := Defaults().Value("fill.temperature"); math.Abs(tf-358.15) > 1e-9 {
		t.Errorf("fill %g K", tf)
	}
}

// TestRefusalUnits holds that a refusal is read in the units of its reader.
func TestRefusalUnits(t *testing.T) {
	p, st := tea(0), room
	p.Fill = 560e-6
	_, err := Cool(p, st)
	if err == nil {
		t.Fatal("an overfull bottle is cooled")
	}
	for s, want := range map[unit.System]string{unit.EU: "volume 560 mL against 0..538 mL, brimful", unit.US: "volume 18.94 fl oz against 0..18.19 fl oz, brimful"} {
		if got := unit.Spell(err.Error(), s); !strings.Contains(got, want) {
			t.Errorf("%s: %q lacks %q", s, got, want)
		}
	}
}
