package permeation

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

// Two zones by hand, and none.
func TestConductance(t *testing.T) {
	k, err := Conductance([]Zone{{"a", 0.02, 0.3e-3, 2e-17}, {"b", 0.01, 0.5e-3, 4e-17}})
	if want := 2e-17*0.02/0.3e-3 + 4e-17*0.01/0.5e-3; err != nil || math.Abs(k/want-1) > 1e-12 {
		t.Errorf("%g want %g, %v", k, want, err)
	}
	if k, err = Conductance(nil); k != 0 || err != nil {
		t.Errorf("no wall passes %g, %v", k, err)
	}
	for name, z := range map[string]Zone{
		"area": {"x", -1, 1e-3, 1e-17}, "thickness": {"x", 1, 0, 1e-17},
		"permeability": {"x", 1, 1e-3, math.NaN()},
	} {
		if _, err := Conductance([]Zone{{"ok", 1, 1e-3, 1e-17}, z}); err == nil || !strings.Contains(err.Error(), "zone 2 (x): "+name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Loss and time are inverse; small loss is K t/c; the share rises with
// conductance and time.
func TestLossAndTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(1e-16, 1e-14).Draw(t, "K")
		c := rapid.Float64Range(1e-8, 1e-6).Draw(t, "c")
		share := rapid.Float64Range(1e-6, 0.9).Draw(t, "share")
		s, err := TimeToLoss(k, c, share)
		if err != nil {
			t.Fatal(err)
		}
		got, err := LossExponential(k, c, s)
		if err != nil || math.Abs(got-share) > 1e-12 {
			t.Fatalf("%g want %g, %v", got, share, err)
		}
		if more, _ := LossExponential(1.1*k, c, s); more <= got {
			t.Fatalf("a leakier pack loses %g against %g", more, got)
		}
	})
	if got, _ := LossExponential(1e-15, 1e-7, 1); math.Abs(got/1e-8-1) > 1e-6 {
		t.Errorf("small loss %g", got)
	}
	if got, _ := LossExponential(0, 1e-7, 1e9); got != 0 {
		t.Errorf("a tight pack loses %g", got)
	}
	if _, err := TimeToLoss(0, 1e-7, 0.1); err == nil {
		t.Error("a tight pack has a time")
	}
	if _, err := LossExponential(1e-15, 0, 1); err == nil {
		t.Error("no capacity accepted")
	}
	if _, err := LossExponential(1e-15, 1e-7, math.NaN()); err == nil {
		t.Error("time NaN accepted")
	}
	if _, err := TimeToLoss(1e-15, 1e-7, 1); err == nil {
		t.Error("all lost in a finite time")
	}
}

func TestCapacity(t *testing.T) {
	c, err := Capacity(0, 0, 20e-6, 293.15)
	if want := 20e-6 / (8.31446261815324 * 293.15); err != nil || math.Abs(c/want-1) > 1e-12 {
		t.Errorf("%g want %g, %v", c, want, err)
	}
	if _, err := Capacity(0.5, 3e-7, 20e-6, 20); err == nil {
		t.Error("20 K accepted")
	}
	if _, err := Capacity(0.5, -1, 20e-6, 293); err == nil {
		t.Error("a negative solubility accepted")
	}
}

func TestTransmissionAndWater(t *testing.T) {
	if j, err := Transmission(2e-16, 21e3, 1e3); err != nil || math.Abs(j-4e-12) > 1e-24 {
		t.Errorf("%g %v", j, err)
	}
	if _, err := Transmission(2e-16, -1, 0); err == nil {
		t.Error("a negative pressure accepted")
	}
	// A dry drink in a wet store gains; equal activities stand still.
	if j, _ := WaterRate(1e-15, 2339, 0.6, 0.8); j >= 0 {
		t.Errorf("rate %g", j)
	}
	if j, _ := WaterRate(1e-15, 2339, 0.7, 0.7); j != 0 {
		t.Errorf("rate %g", j)
	}
	for _, h := range []float64{-0.1, 50, math.NaN()} {
		if _, err := WaterRate(1e-15, 2339, 1, h); err == nil {
			t.Errorf("humidity %g accepted", h)
		}
	}
}

// Layers in series: equal halves are the whole; the tightest rules; a coating
// sized for a factor gives it.
func TestLayers(t *testing.T) {
	a := Layer{0.15e-3, 1e-17}
	one, err := Permeance([]Layer{{0.30e-3, 1e-17}}, math.Inf(1))
	if err != nil {
		t.Fatal(err)
	}
	two, _ := Permeance([]Layer{a, a}, math.Inf(1))
	if math.Abs(two/one-1) > 1e-12 {
		t.Errorf("%g and %g", one, two)
	}
	eq, _ := Equivalent([]Layer{a, a}, math.Inf(1))
	if math.Abs(eq/1e-17-1) > 1e-12 {
		t.Errorf("equivalent %g", eq)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(1e-18, 1e-16).Draw(t, "P")
		l := rapid.Float64Range(0.1e-3, 1e-3).Draw(t, "L")
		f := rapid.Float64Range(1.01, 100).Draw(t, "BIF")
		coat, err := CoatingFor(p, l, f)
		if err != nil {
			t.Fatal(err)
		}
		with, err := Permeance([]Layer{{l, p}}, coat)
		if err != nil || math.Abs(p/l/with/f-1) > 1e-9 {
			t.Fatalf("factor %g want %g, %v", p/l/with, f, err)
		}
		if with > coat || with > p/l {
			t.Fatalf("series passes more than a part: %g, %g, %g", with, coat, p/l)
		}
	})
	for name, f := range map[string]func() (float64, error){
		"none":     func() (float64, error) { return Permeance(nil, math.Inf(1)) },
		"open":     func() (float64, error) { return Permeance([]Layer{a}, 0) },
		"zero":     func() (float64, error) { return Permeance([]Layer{{0.1e-3, 0}}, math.Inf(1)) },
		"thick":    func() (float64, error) { return Permeance([]Layer{{1, 1e-17}}, math.Inf(1)) },
		"factor 1": func() (float64, error) { return CoatingFor(1e-17, 1e-4, 1) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s accepted", name)
		}
	}
}

func TestNielsen(t *testing.T) {
	if f, err := Nielsen(0, 27); err != nil || f != 1 {
		t.Errorf("nothing in it: %g %v", f, err)
	}
	if _, err := Nielsen(0.9, 4); err == nil {
		t.Error("volume fraction 0.9 accepted")
	}
	if _, err := Nielsen(0.1, 0); err == nil {
		t.Error("aspect ratio 0 accepted")
	}
	if v, err := VolumeFraction(0.5, 1000, 1000); err != nil || v != 0.5 {
		t.Errorf("%g %v", v, err)
	}
	if _, err := VolumeFraction(0.1, 1.22, 1.36); err == nil {
		t.Error("g/cm³ for kg/m³ accepted")
	}
}

// Limits of dual mode: Henry without microvoids and above the glass
// transition; the secant permeability falls with pressure to D kD.
func TestDualMode(t *testing.T) {
	m, err := Named("wall")
	if err != nil {
		t.Fatal(err)
	}
	d := m.CO2
	low, high := d.At(298.15), d.At(d.Glass+1)
	if high.Capacity != 0 || low.Capacity <= 0 {
		t.Errorf("capacity %g below, %g above", low.Capacity, high.Capacity)
	}
	if p := low.Permeability(1e12); math.Abs(p/(low.Diffusivity*low.Henry)-1) > 1e-3 {
		t.Errorf("at high pressure %g", p)
	}
	last := math.Inf(1)
	for p := 0.0; p < 1e6; p += 1e5 {
		x, err := d.Permeability(298.15, p)
		if err != nil || x >= last {
			t.Fatalf("at %g Pa: %g after %g, %v", p, x, last, err)
		}
		last = x
	}
	if _, err := d.Permeability(400, 1e5); err == nil {
		t.Error("127 °C accepted")
	}
	if _, err := d.Permeability(298, math.Inf(1)); err == nil {
		t.Error("infinite pressure accepted")
	}
}

// Every gas passes faster when warmer, in all materials.
func TestWarmerPassesMore(t *testing.T) {
	for _, name := range Materials() {
		m, err := Named(name)
		if err != nil {
			t.Fatal(err)
		}
		if m.Tight {
			continue
		}
		f := func(t unit.Temperature) []float64 {
			return []float64{m.CO2.At(t).Permeability(4e5), m.Oxygen.Permeability.At(t), m.Nitrogen.Permeability.At(t), m.Water.At(t)}
		}
		a, b := f(unit.Celsius(5)), f(unit.Celsius(38))
		for i := range a {
			if b[i] <= a[i] {
				t.Errorf("%s: %d: %g at 5 °C, %g at 38 °C", name, i, a[i], b[i])
			}
		}
		if s := m.Oxygen.Solubility(unit.Celsius(25)); s <= 0 || math.IsInf(s, 0) {
			t.Errorf("%s: oxygen solubility %g", name, s)
		}
	}
	if _, err := Named("unobtainium"); err == nil {
		t.Error("an unknown material answers")
	}
}

func TestScaled(t *testing.T) {
	m, _ := Named("wall")
	s, err := m.Scaled(0.845)
	if err != nil {
		t.Fatal(err)
	}
	p, q := m.CO2.At(298).Permeability(4e5), s.CO2.At(298).Permeability(4e5)
	if math.Abs(q/p-0.845) > 1e-12 || s.CO2.At(298).Concentration(4e5) != m.CO2.At(298).Concentration(4e5) {
		t.Errorf("%g and %g", p, q)
	}
	if math.Abs(s.Oxygen.Solubility(298)/m.Oxygen.Solubility(298)-1) > 1e-12 || s.Water != m.Water {
		t.Error("the factor moved solubility or water")
	}
	if _, err := m.Scaled(0); err == nil {
		t.Error("factor 0 accepted")
	}
}

func TestFromCard(t *testing.T) {
	c := Cards()[0]
	c.Data = c.Data[1:]
	if _, err := FromCard(c); err == nil || !strings.Contains(err.Error(), `"reference"`) {
		t.Errorf("%v", err)
	}
	c = Cards()[0]
	for i := range c.Data {
		if c.Data[i].Key == "o2.permeability" {
			c.Data[i].Value = -1
		}
	}
	if _, err := FromCard(c); err == nil || !strings.Contains(err.Error(), "permeability of O2") {
		t.Errorf("%v", err)
	}
	for _, k := range []string{"central", "trade-2L-26wk", "pessimistic"} {
		if v := Presets().Value(k); !(v > 0) {
			t.Errorf("%s: %g", k, v)
		}
	}
	if Bands().Value("thickness.sigma") != 0.08 {
		t.Error("bands")
	}
}
