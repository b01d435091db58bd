package air

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

func shot() Shot {
	return Shot{
		Bottle: 1.5e-3, Dead: 0.3e-3, Preform: 0.03e-3, Pressure: 35e5,
		Ambient: unit.Atm, Temperature: unit.Celsius(20),
	}
}

// By hand: [1.8 L 3601.325 kPa - 0.33 L 101.325 kPa] / 101.325 kPa * 273.15/293.15.
func TestVolumeStrictByHand(t *testing.T) {
	got, err := Volume(Strict, shot())
	if err != nil {
		t.Fatal(err)
	}
	want := (1.8e-3*3601.325 - 0.33e-3*101.325) / 101.325 * 273.15 / 293.15
	if math.Abs(got-want) > 1e-12 {
		t.Errorf("got %g want %g", got, want)
	}
}

// Where the preform is as large as the bottle only the gauge part is drawn.
func TestVolumeStrictLimit(t *testing.T) {
	s := shot()
	s.Preform = s.Bottle
	got, _ := Volume(Strict, s)
	want := 1.8e-3 * 35e5 / 101325 * 273.15 / 293.15
	if math.Abs(got-want) > 1e-12 {
		t.Errorf("got %g want %g", got, want)
	}
}

func TestVolumeRefuses(t *testing.T) {
	for name, change := range map[string]func(*Shot){
		"bottle":              func(s *Shot) { s.Bottle = 0 },
		"dead volume":         func(s *Shot) { s.Dead = -1e-3 },
		"preform":             func(s *Shot) { s.Preform = 2e-3 },
		"blow pressure":       func(s *Shot) { s.Pressure = unit.GaugePressure(math.NaN()) },
		"ambient pressure":    func(s *Shot) { s.Ambient = 0 },
		"air temperature":     func(s *Shot) { s.Temperature = 20 },
		"blow pressure 100 b": func(s *Shot) { s.Pressure = 100e5 },
	} {
		s := shot()
		change(&s)
		_, err := Volume(Strict, s)
		if err == nil || !strings.Contains(err.Error(), strings.TrimSuffix(name, " 100 b")) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Volume("litres", shot()); err == nil {
		t.Error("unknown convention accepted")
	}
	if _, err := DeadVolume(TradeGauge, 0.01, shot()); err == nil {
		t.Error("a consumption below the bottle accepted")
	}
}

// DeadVolume is the inverse of Volume for every convention.
func TestDeadVolumeInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := shot()
		s.Bottle = rapid.Float64Range(0.2e-3, 3e-3).Draw(t, "bottle")
		s.Dead = rapid.Float64Range(0, 1e-3).Draw(t, "dead")
		s.Pressure = unit.GaugePressure(rapid.Float64Range(10e5, 42e5).Draw(t, "p"))
		for _, c := range []Convention{TradeGauge, TradeAbsolute, Strict} {
			n, err := Volume(c, s)
			if err != nil {
				t.Fatal(err)
			}
			d, err := DeadVolume(c, n, s)
			if err != nil || math.Abs(d-s.Dead) > 1e-12 {
				t.Fatalf("%s: %g want %g (%v)", c, d, s.Dead, err)
			}
		}
	})
}

func TestRecoverable(t *testing.T) {
	// 40 bar(g) down to 12 bar(g), nine tenths of the ideal: 0.7 * 0.9.
	got, err := Recoverable(40e5, 12e5, 0.9)
	if err != nil || math.Abs(got-0.63) > 1e-12 {
		t.Errorf("got %g, %v", got, err)
	}
	if got, _ = Recoverable(40e5, 0, 1); got != 1 {
		t.Errorf("recovery to ambient gives %g, want 1", got)
	}
	if _, err = Recoverable(10e5, 12e5, 1); err == nil {
		t.Error("recovery above the blow pressure accepted")
	}
	if got, _ = Saved(0.5, 0.07, 0.113*3.6e6); math.Abs(got-0.5*0.07*0.113*3.6e6) > 1e-9 {
		t.Errorf("saved %g", got)
	}
	if _, err = Net(1, 1.2); err == nil {
		t.Error("a share above one accepted")
	}
}

// Many stages compress isothermally, at first order in 1/z.
func TestStagesConvergeToIsothermal(t *testing.T) {
	iso, err := Isothermal(unit.Celsius(20), 1.013e5, 41e5)
	if err != nil {
		t.Fatal(err)
	}
	gap := func(z int) float64 {
		w, err := reference(z, 1).Ideal(41e5)
		if err != nil {
			t.Fatal(err)
		}
		return w - iso
	}
	order := math.Log2(gap(50) / gap(100))
	if math.Abs(order-1) > 0.02 {
		t.Errorf("order %g, want 1", order)
	}
	if g := gap(1000) / iso; g > 1e-3 {
		t.Errorf("1000 stages are %g above isothermal", g)
	}
}

func TestCompressorRefuses(t *testing.T) {
	c := reference(3, 0.65)
	for name, f := range map[string]func() (float64, error){
		"no stage":      func() (float64, error) { d := c; d.Stages = 0; return d.Ideal(41e5) },
		"exponent 1":    func() (float64, error) { d := c; d.Exponent = 1; return d.Ideal(41e5) },
		"efficiency 0":  func() (float64, error) { d := c; d.Efficiency = 0; return d.Electric(41e5) },
		"outlet below":  func() (float64, error) { return c.Ideal(0.5e5) },
		"NaN":           func() (float64, error) { return Isothermal(unit.Celsius(20), 1e5, unit.AbsPressure(math.NaN())) },
		"infinite pipe": func() (float64, error) { return Isothermal(unit.Celsius(20), 1e5, unit.AbsPressure(math.Inf(1))) },
	} {
		if w, err := f(); err == nil {
			t.Errorf("%s: %g, no error", name, w)
		}
	}
}

func TestStoredEnergy(t *testing.T) {
	// Small gauge pressure: p_g V at constant temperature, p_g V / k without heat.
	e, err := Energy(1e-3, 100, unit.Atm)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(e.Isentropic/(0.1/1.4)-1) > 1e-3 || math.Abs(e.Isothermal/0.1-1) > 1e-3 {
		t.Errorf("got %+v, want 0.0714 and 0.1 J", e)
	}
	big, _ := Energy(1e-3, 40e5, unit.Atm)
	if !(big.Isothermal > big.Isentropic) {
		t.Errorf("isothermal %g must exceed isentropic %g", big.Isothermal, big.Isentropic)
	}
	if _, err = Energy(0, 40e5, unit.Atm); err == nil {
		t.Error("no volume accepted")
	}
}

func TestCards(t *testing.T) {
	for _, name := range []string{"station", "compressor"} {
		if _, ok := Card(name); !ok {
			t.Errorf("no card %q", name)
		}
	}
	a, _ := Card("station")
	a.Data[0].Value = -1
	if b, _ := Card("station"); b.Data[0].Value == -1 {
		t.Error("a caller's change reached the card")
	}
}

// The example of the theory page: 0.5 L with 60 mL dead at 20, 30, 40 bar(g).
func TestHalfLitreEnergy(t *testing.T) {
	for _, r := range []struct{ p, litres, kwh float64 }{{20e5, 11.2, 1.8}, {30e5, 16.8, 3.2}, {40e5, 22.4, 4.6}} {
		n, err := Volume(TradeGauge, tradeShot(0.5e-3, 0.06e-3, unit.GaugePressure(r.p)))
		if err != nil {
			t.Fatal(err)
		}
		w, err := reference(3, 0.65).Electric(unit.AbsPressure(r.p + 1e5))
		if err != nil {
			t.Fatal(err)
		}
		kwh := n * PerNormalVolume(w) / kWh * 1000
		if math.Abs(n*1e3-r.litres) > 0.05 || math.Abs(kwh-r.kwh) > 0.05 {
			t.Errorf("%g bar: %g NL, %g kWh/1000", r.p/1e5, n*1e3, kwh)
		}
	}
}
