package impact

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/bottle"
	"costrel/unit"

	"pgregory.net/rapid"
)

// pack is a 1.75 L carbonated bottle with invented properties of the wall.
func pack() Input {
	wall := func(name string, r, h float64) Zone {
		return Zone{Name: name, Tube: Tube{Radius: r, Wall: h, Modulus: 5.2e9, Poisson: 0.4}, Yield: 131e6}
	}
	return Input{
		Height: 1.8, Mass: 1.85, Liquid: Liquid{1035, 2.3e9}, LiquidHeight: 0.26, Base: bottle.Petaloid,
		Zones:      []Zone{wall("base wall", 50.5e-3, 0.36e-3), wall("panel", 49.5e-3, 0.281e-3)},
		Wall:       []Piece{{131e6, 5.2e9, 2 * math.Pi * 50e-3 * 0.3e-3 * 0.26}},
		Gate:       &Gate{Gain: 0.75 * 16, Modulus: 2.2e9, Yield: 55e6, IntrinsicViscosity: 0.08},
		Closure:    &Closure{SealDiameter: 24.94e-3, Hold: 900},
		Conditions: UsualConditions(2.1e5, 4.4e5),
	}
}

func must(t *testing.T, in Input) Result {
	t.Helper()
	r, err := Assess(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestAssessByHand(t *testing.T) {
	// 65 mm, 0.30 mm, 3 GPa, water, 2 m, 23 °C, no pressure, flat base:
	// v 6.2631 m/s, c 117.30 m/s, dp 0.73466 MPa, hoop 79.588 MPa; of it 0.8.
	in := Input{
		Height: 2, Mass: 0.53, Liquid: water(), LiquidHeight: 0.18,
		Zones:      []Zone{{Name: "wall", Tube: Tube{Radius: 32.5e-3, Wall: 0.3e-3, Modulus: 3e9}, Yield: 100e6}},
		Wall:       []Piece{{100e6, 3e9, 10e-6}, {80e6, 2e9, 3.5e-6}},
		Conditions: []Condition{{"warm", unit.Celsius(23), 0}, {"warm, 4 bar", unit.Celsius(23), 4e5}},
	}
	r := must(t, in)
	near := func(what string, got, want, rel float64) {
		t.Helper()
		if math.Abs(got-want) > rel*math.Abs(want) {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	z := r.Conditions[0].Zones[0]
	near("speed", r.Speed, 6.2631, 1e-4)
	near("dynamic", z.Dynamic, 0.8*79.588e6, 1e-3)
	near("static", z.Static, 0, 0)
	// strain 63.67/3000 = 0.02122 in 0.18/117.3 = 1.5345 ms: 13.83 1/s;
	// 1 + 0.1 log10(1383) = 1.3141
	near("rate", z.StrainRate, 13.83, 2e-3)
	near("strength", z.Strength, 131.41e6, 1e-3)
	near("index", z.Index.Value, 63.67/131.41, 2e-3)
	near("static at 4 bar", r.Conditions[1].Zones[0].Static, 43.333e6, 1e-4)
	near("index at 4 bar", r.Conditions[1].Zones[0].Index.Value, (43.333+63.67)/131.41, 2e-3)
	if z.Index.Rank != Lower || r.Conditions[1].Zones[0].Index.Rank != Test {
		t.Errorf("ranks %s, %s", z.Index.Rank, r.Conditions[1].Zones[0].Index.Rank)
	}
	near("capacity", r.Capacity, 100e6*100e6/6e9*10e-6+80e6*80e6/4e9*3.5e-6, 1e-12)
	near("unconfined", r.Unconfined.Pressure, 1000*1479.86*6.2631, 1e-4)
	near("unconfined time", r.Unconfined.Time, 32.5e-3/1479.86, 1e-4)
	if r.Worst.Condition != "warm, 4 bar" || r.Worst.Place != "wall" {
		t.Errorf("worst: %+v", r.Worst)
	}
	in.Zones[0].StaticGain = 50
	near("given gain", must(t, in).Conditions[1].Zones[0].Static, 20e6, 1e-12)
}

func TestEverythingIsRanking(t *testing.T) {
	r := must(t, pack())
	if r.Label != Ranking || r.Worst.Index.Label != Ranking || !strings.Contains(r.Warnings[0], "estimates") {
		t.Errorf("%+v", r)
	}
	for _, c := range r.Conditions {
		if c.Gate.Index.Label != Ranking || c.Closure.Label != Ranking {
			t.Errorf("%s: not marked as ranking", c.Name)
		}
		for _, i := range []Index{c.Gate.Index, c.Zones[0].Index, c.Zones[1].Index} {
			if !(i.Low <= i.Value && i.Value <= i.High) {
				t.Errorf("%s: %g not in %g..%g", c.Name, i.Value, i.Low, i.High)
			}
		}
	}
}

func TestVacuumKeepsBand(t *testing.T) {
	in := pack()
	in.Height = 0.01
	in.Conditions = []Condition{{"vacuum", unit.Celsius(23), -0.9e5}}
	i := must(t, in).Conditions[0].Zones[1].Index
	if !(i.Low <= i.Value && i.Value <= i.High) || i.Value >= 0 {
		t.Errorf("%+v", i)
	}
}

func TestClosure(t *testing.T) {
	r := must(t, pack())
	c := r.Conditions[0] // 2.1 bar
	want := (2.1e5 + math.Max(c.Zones[0].Hammer, c.Zones[1].Hammer)) * math.Pi / 4 * 24.94e-3 * 24.94e-3
	if math.Abs(c.Closure.Lift-want) > 1e-6*want || math.Abs(c.Closure.Ratio-want/900) > 1e-9 {
		t.Errorf("lift %g, want %g", c.Closure.Lift, want)
	}
	in := pack()
	in.Closure.Hold = 100
	if w := unit.Spell(strings.Join(must(t, in).Warnings, "\n"), unit.EU); !strings.Contains(w, "holds 100 N") {
		t.Errorf("no warning: %s", w)
	}
}

func TestBaseFactors(t *testing.T) {
	for kind, want := range map[bottle.BaseKind]float64{"": 0.8, bottle.Flat: 0.8, bottle.Punt: 0.7, bottle.Petaloid: 0.6, bottle.Ribbed: 0.8, bottle.Hemisphere: 0.6, Rigid: 1} {
		d, err := BaseFactor(kind)
		if err != nil || d.Value != want || d.Confidence != "low" {
			t.Errorf("%q: %+v, %v", kind, d, err)
		}
	}
	if _, err := BaseFactor("cushion"); err == nil {
		t.Error("an unknown base has a factor")
	}
}

func TestGateInColdAndLowViscosity(t *testing.T) {
	in := pack()
	in.Conditions = []Condition{{"cold", unit.Celsius(4), 2e5}, {"warm", unit.Celsius(23), 2e5}}
	r := must(t, in)
	if !(r.Conditions[0].Gate.Strength < r.Conditions[1].Gate.Strength) || !(r.Conditions[0].Zones[0].Strength > r.Conditions[1].Zones[0].Strength) {
		t.Error("cold must weaken the gate and strengthen the wall")
	}
	in.Gate.IntrinsicViscosity = 0.074
	low := must(t, in).Conditions[1].Gate
	// six steps of 0.01 dL/g at 2 %: 0.88
	if got := low.Strength / r.Conditions[1].Gate.Strength; math.Abs(got-0.88) > 1e-9 {
		t.Errorf("viscosity factor %g, want 0.88", got)
	}
	if s := viscosityFactor(0.04); s.value != 0.3 || s.low != 0.3 || s.high != 1 {
		t.Errorf("floor: %+v", s) // high end: no loss
	}
}

func TestRateFactor(t *testing.T) {
	for rate, want := range map[float64]float64{0: 1, 0.001: 1, 0.01: 1, 0.1: 1.1, 10: 1.3, 100: 1.4} {
		if v, low, high, err := RateFactor(rate); err != nil || math.Abs(v-want) > 1e-12 || low > v || high < v {
			t.Errorf("%g: %g (%g..%g) %v, want %g", rate, v, low, high, err, want)
		}
	}
	if _, _, _, err := RateFactor(math.NaN()); err == nil {
		t.Error("NaN has a factor")
	}
}

func TestTemperatureNodes(t *testing.T) {
	for c, want := range map[float64]float64{0: 1.10, 11.5: 1.05, 23: 1, 31.5: 0.95, 40: 0.90} {
		if s, err := atTemperature("yield", unit.Celsius(c)); err != nil || math.Abs(s.value-want) > 1e-9 {
			t.Errorf("%g °C: %+v, %v", c, s, err)
		}
	}
	for _, c := range []float64{-0.1, 40.1, math.NaN()} {
		if _, err := atTemperature("yield", unit.Celsius(c)); err == nil {
			t.Errorf("%g °C is answered", c)
		}
	}
}

func TestSupports(t *testing.T) {
	for s, want := range map[Support]float64{"": 1, Free: 1, Anchored: 0.84, Closed: 0.8} {
		if psi, err := s.Psi(0.4); err != nil || math.Abs(psi-want) > 1e-12 {
			t.Errorf("%q: %g, %v", s, psi, err)
		}
	}
	if _, err := Support("glued").Psi(0.4); err == nil {
		t.Error("an unknown support is answered")
	}
	// A rigid wall leaves the speed of sound.
	c, err := WaveSpeed(water(), Tube{Radius: 1e-3, Wall: 0.9e-3, Modulus: 3e11})
	if c0, _ := water().SoundSpeed(); err != nil || math.Abs(c/c0-1) > 0.01 {
		t.Errorf("rigid: %g, %v", c, err)
	}
}

// Every index rises with height, pressure, radius over wall; falls with wall,
// yield, and with the base softening the blow.
func TestTrends(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pack()
		in.Height = rapid.Float64Range(0.5, 3).Draw(t, "height")
		p := rapid.Float64Range(0, 5e5).Draw(t, "pressure")
		in.Conditions = []Condition{{"one", unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "temperature")), unit.GaugePressure(p)}}
		r0, h0 := rapid.Float64Range(25e-3, 60e-3).Draw(t, "radius"), rapid.Float64Range(0.1e-3, 0.6e-3).Draw(t, "wall")
		e0, y0 := rapid.Float64Range(2e9, 6e9).Draw(t, "modulus"), rapid.Float64Range(50e6, 200e6).Draw(t, "yield")
		f := rapid.Float64Range(1.02, 1.5).Draw(t, "factor")
		index := func(change func(*Input)) (float64, float64) {
			c := in
			c.Zones = []Zone{{Name: "wall", Tube: Tube{Radius: r0, Wall: h0, Modulus: e0}, Yield: y0}}
			g := *in.Gate
			c.Gate = &g
			c.Conditions = append([]Condition(nil), in.Conditions...)
			change(&c)
			r, err := Assess(c)
			if err != nil {
				t.Fatal(err)
			}
			at := r.Conditions[0]
			for _, v := range []float64{at.Zones[0].Index.Low, at.Zones[0].Index.High, at.Gate.Index.Low, at.Gate.Index.High} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatal("not finite")
				}
			}
			return at.Zones[0].Index.Value, at.Gate.Index.Value
		}
		wall, gate := index(func(*Input) {})
		for _, c := range []struct {
			what       string
			change     func(*Input)
			wall, gate int // sign of the change; 2: not judged
		}{
			{"height", func(i *Input) { i.Height *= f }, 1, 1},
			{"pressure", func(i *Input) { i.Conditions[0].Pressure += 5e4 }, 1, 1},
			{"radius", func(i *Input) { i.Zones[0].Radius *= f }, 1, 2},
			{"wall", func(i *Input) { i.Zones[0].Wall *= f }, -1, 2},
			{"yield", func(i *Input) { i.Zones[0].Yield *= f; i.Gate.Yield *= f }, -1, -1},
			{"rigid base", func(i *Input) { i.Base = Rigid }, 1, 1},
			{"gate gain", func(i *Input) { i.Gate.Gain *= f }, 0, 1},
			{"density", func(i *Input) { i.Liquid.Density *= f }, 1, 1},
		} {
			w, g := index(c.change)
			for _, x := range []struct {
				what      string
				got, base float64
				want      int
			}{{"wall", w, wall, c.wall}, {"gate", g, gate, c.gate}} {
				ok := x.want == 2 || x.want == 1 && x.got > x.base || x.want == -1 && x.got < x.base || x.want == 0 && x.got == x.base
				if !ok {
					t.Fatalf("%s: index of the %s goes %g -> %g, want %+d", c.what, x.what, x.base, x.got, x.want)
				}
			}
		}
	})
}

// Joukowsky's pressure is linear in the speed and grows as the root of the
// height; the pulse lasts as long from any height (KaracIvankovic2009).
func TestHammerScales(t *testing.T) {
	in := pack()
	a := must(t, in).Conditions[0].Zones[0]
	in.Height *= 4
	b := must(t, in).Conditions[0].Zones[0]
	if math.Abs(b.Hammer/a.Hammer-2) > 1e-12 || b.Duration != a.Duration {
		t.Errorf("hammer %g -> %g, duration %g -> %g", a.Hammer, b.Hammer, a.Duration, b.Duration)
	}
}

func TestHeightAt(t *testing.T) {
	in := pack()
	r := must(t, in)
	h, err := HeightAt(in, r.Worst.Index.Value)
	if err != nil || math.Abs(h-in.Height) > 1e-6 {
		t.Errorf("%g m, %v; want %g", h, err, in.Height)
	}
	for index, want := range map[float64]string{0.01: "alone", 50: "beyond", 0: "outside", math.NaN(): "outside"} {
		if _, err := HeightAt(in, index); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%g: %v, want %q", index, err, want)
		}
	}
	in.Zones = nil
	if _, err := HeightAt(in, 1); err == nil {
		t.Error("no zone is answered")
	}
}

func TestRefusals(t *testing.T) {
	nan := math.NaN()
	for want, change := range map[string]func(*Input){
		"height 0 m outside":                      func(i *Input) { i.Height = 0 },
		"height NaN":                              func(i *Input) { i.Height = nan },
		"mass 0 kg outside":                       func(i *Input) { i.Mass = 0 },
		"density 1 kg/m³ outside":                 func(i *Input) { i.Liquid.Density = 1 },
		"bulk modulus 0 Pa outside":               func(i *Input) { i.Liquid.BulkModulus = 0 },
		"liquid height 0 m outside":               func(i *Input) { i.LiquidHeight = 0 },
		`base "cushion": choose`:                  func(i *Input) { i.Base = "cushion" },
		"no zone":                                 func(i *Input) { i.Zones = nil },
		"no condition":                            func(i *Input) { i.Conditions = nil },
		`zone "": want a name`:                    func(i *Input) { i.Zones[0].Name = "" },
		`zone "panel": want a name of its own`:    func(i *Input) { i.Zones[0].Name = "panel" },
		`condition "": want a name`:               func(i *Input) { i.Conditions[0].Name = "" },
		"wall -0.0003 m outside":                  func(i *Input) { i.Zones[1].Wall = -0.3e-3 },
		"wall 0 m outside":                        func(i *Input) { i.Zones[1].Wall = 0 },
		"is not below the radius":                 func(i *Input) { i.Zones[1].Radius = 2e-3; i.Zones[1].Wall = 2e-3 },
		"modulus 0 Pa outside":                    func(i *Input) { i.Zones[0].Modulus = 0 },
		"yield stress 0 Pa outside":               func(i *Input) { i.Zones[0].Yield = 0 },
		"static gain -1 outside":                  func(i *Input) { i.Zones[0].StaticGain = -1 },
		"wall volume -1 m³ outside":               func(i *Input) { i.Wall[0].Volume = -1 },
		`support "glued"`:                         func(i *Input) { i.Zones[0].Support = "glued" },
		"Poisson's ratio 0.7 outside":             func(i *Input) { i.Zones[0].Poisson = 0.7 },
		"temperature 60 °C outside 0..40":         func(i *Input) { i.Conditions[1].Temperature = unit.Celsius(60) },
		"pressure 1e+07 Pa(g) outside":            func(i *Input) { i.Conditions[1].Pressure = 1e7 },
		"stress per pressure 0 outside":           func(i *Input) { i.Gate.Gain = 0 },
		"gate: modulus 0 Pa outside":              func(i *Input) { i.Gate.Modulus = 0 },
		"gate: yield stress NaN Pa outside":       func(i *Input) { i.Gate.Yield = nan },
		"intrinsic viscosity 0.8 m³/kg outside":   func(i *Input) { i.Gate.IntrinsicViscosity = 0.8 },
		"holding force 0 N outside":               func(i *Input) { i.Closure.Hold = 0 },
		"seal diameter 25 m outside 5e-3..0.15 m": func(i *Input) { i.Closure.SealDiameter = 25 },
	} {
		in := pack()
		change(&in)
		if _, err := Assess(in); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) || !strings.HasPrefix(err.Error(), "impact: ") {
			t.Errorf("%q: %v", want, err)
		}
	}
}

func TestWarnings(t *testing.T) {
	in := pack()
	in.Zones[0].Radius, in.Zones[0].Wall = 10e-3, 2e-3
	in.Wall[0].Volume = 1e-7
	in.Gate.IntrinsicViscosity = 0
	w := strings.Join(must(t, in).Warnings, "\n")
	for _, want := range []string{"radius over wall 5 is below 10", "viscosity not given", "more than the"} {
		if !strings.Contains(w, want) {
			t.Errorf("no %q in %s", want, w)
		}
	}
	in.Gate = nil
	if w := unit.Spell(strings.Join(must(t, in).Warnings, "\n"), unit.EU); !strings.Contains(w, "gate is not judged") {
		t.Error(w)
	}
}

func TestCautions(t *testing.T) {
	still, charged := Cautions(40.4, 0), Cautions(40.4, 4e5)
	if len(still) != 2 || len(charged) != 4 || !strings.Contains(still[0].Text, "40 J") {
		t.Errorf("%+v", still)
	}
}

// A limb of every scalar function refuses.
func TestScalarRefusals(t *testing.T) {
	inf := math.Inf(1)
	_, e1 := Joukowsky(1000, inf, 1)
	_, e2 := Joukowsky(1000, 100, -1)
	_, e3 := Joukowsky(0, 100, 1)
	_, e4 := Duration(0.1, 0)
	_, e5 := UnconfinedPeak(water(), 0, 1)
	_, e6 := UnconfinedPeak(water(), 0.03, inf)
	_, e7 := Capacity(1, 1e9, 0)
	_, e8 := Capacity(1e8, 1, 0)
	_, e9 := Lift(0, -1, 0.025)
	_, e10 := Energy(1, inf)
	_, e11 := Liquid{}.SoundSpeed()
	for i, err := range []error{e1, e2, e3, e4, e5, e6, e7, e8, e9, e10, e11} {
		if err == nil {
			t.Errorf("%d is answered", i+1)
		}
	}
}
