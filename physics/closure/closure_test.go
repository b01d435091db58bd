package closure

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
	"costrel/unit"

	"pgregory.net/rapid"
)

func TestAll(t *testing.T) {
	all := All()
	if len(all) != 13 {
		t.Errorf("%d closures, want 13", len(all))
	}
	for _, c := range all {
		if c.Mass < 1e-3 || c.Mass > 5e-3 {
			t.Errorf("%s: mass %g g", c.Name, c.Mass*1e3)
		}
		if c.Bridges > 0 && c.BandTravel >= c.SealTravel {
			t.Errorf("%s: the seal opens at %g mm before the band breaks at %g mm", c.Name, c.SealTravel*1e3, c.BandTravel*1e3)
		}
		if len(c.LowConfidence()) == 0 {
			t.Errorf("%s: no value is marked low, though the seal travel is", c.Name)
		}
	}
	if _, err := Find("brass"); err == nil || !strings.Contains(err.Error(), "hdpe-28-short") {
		t.Errorf("unknown name: %v, want an error that lists the names", err)
	}
}

func TestInherit(t *testing.T) {
	a, err := Find("aluminium-28-tall")
	if err != nil {
		t.Fatal(err)
	}
	if a.HDPE != 0 || math.Abs(a.Aluminium-0.85) > 1e-12 || a.Plug || a.ForceRetained != 0.85 {
		t.Errorf("aluminium closure: HDPE %g, aluminium %g, plug %v, retained %g", a.HDPE, a.Aluminium, a.Plug, a.ForceRetained)
	}
	if a.ThreadFriction != 0.15 || a.Bridges != 10 {
		t.Errorf("aluminium closure: friction %g and %d bridges are not inherited", a.ThreadFriction, a.Bridges)
	}
	plain, err := Find("pp-liner-28-400")
	if err != nil || plain.Bridges != 0 {
		t.Errorf("closure without band: %d bridges, %v", plain.Bridges, err)
	}
	tether, err := Find("hdpe-28-short-tethered")
	if err != nil || !tether.Tethered {
		t.Errorf("tethered closure: %v, %v", tether.Tethered, err)
	}
}

func TestFits(t *testing.T) {
	c, err := Find("hdpe-28-short")
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Fits(27.43e-3, 2.70e-3, 1); err != nil {
		t.Error(err)
	}
	for _, bad := range []struct {
		od, pitch float64
		starts    int
	}{{28e-3, 2.7e-3, 1}, {27.4e-3, 3.18e-3, 1}, {27.4e-3, 2.7e-3, 3}, {math.NaN(), 2.7e-3, 1}} {
		if err := c.Fits(bad.od, bad.pitch, bad.starts); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
}

func TestConductance(t *testing.T) {
	c, err := Find("hdpe-28-short")
	if err != nil {
		t.Fatal(err)
	}
	at, err := c.Conductance(CO2, c.Reference)
	if err != nil || at != c.CO2 {
		t.Errorf("at the reference: %g (%v), want %g", at, err, c.CO2)
	}
	// exp(-32000/8.31446*(1/303.15-1/293.15)) = 1.5419
	a, _ := c.Conductance(O2, unit.Celsius(20))
	b, _ := c.Conductance(O2, unit.Celsius(30))
	if math.Abs(b/a-1.5419) > 1e-3 {
		t.Errorf("ratio 30 to 20 °C %g, want 1.542", b/a)
	}
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-20, 69).Draw(t, "lo")
		hi := rapid.Float64Range(lo, 70).Draw(t, "hi")
		a, err1 := c.Conductance(N2, unit.Celsius(lo))
		b, err2 := c.Conductance(N2, unit.Celsius(hi))
		if err1 != nil || err2 != nil || b < a {
			t.Fatalf("%g °C %g (%v), %g °C %g (%v): not rising", lo, a, err1, hi, b, err2)
		}
	})
	if _, err := c.Conductance(CO2, unit.Celsius(200)); err == nil {
		t.Error("200 °C was accepted")
	}
	if _, err := c.Conductance("He", unit.Celsius(20)); err == nil {
		t.Error("helium was accepted")
	}
	if _, err := Disc(1, 0, 1, 1); err == nil {
		t.Error("a disc of no diameter was accepted")
	}
	if s, err := BoreScale(21.74e-3, 25e-3); err != nil || math.Abs(s-1.3224) > 1e-3 {
		t.Errorf("bore scale %g (%v), want 1.322", s, err)
	}
	if _, err := BoreScale(0, 1); err == nil {
		t.Error("bore 0 was accepted")
	}
}

func TestNewRefuses(t *testing.T) {
	change := func(key string, v float64) cite.Card {
		c := Cards()[0]
		for i := range c.Data {
			if c.Data[i].Key == key {
				c.Data[i].Value = v
			}
		}
		return c
	}
	for key, v := range map[string]float64{
		"share_hdpe":         0.5,
		"force_retained":     1.2,
		"friction_thread":    -0.1,
		"seal_share":         2,
		"bridges":            9.5,
		"mass":               math.NaN(),
		"conductance_co2":    math.Inf(1),
		"application_torque": 9,
	} {
		if _, err := New(change(key, v)); err == nil {
			t.Errorf("%s = %g was accepted", key, v)
		}
	}
	if _, err := New(cite.Card{Name: "x"}); err == nil || !strings.Contains(err.Error(), "lacks") {
		t.Errorf("empty card: %v", err)
	}
	if _, err := New(change("conductance_co2", 0)); err != nil {
		t.Errorf("a gas-tight closure: %v", err)
	}
}
