package drink

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/num/numtest"
	"costrel/num/root"
	"costrel/unit"
)

func TestMain(m *testing.M) { numtest.Main(m) }

// tester is what testing.T, testing.B and rapid.T share.
type tester interface {
	Helper()
	Fatal(...any)
}

func liquid(t tester, d Drink) Liquid {
	t.Helper()
	l, err := d.Liquid()
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func near(t *testing.T, what string, ours, want, allowed float64) {
	t.Helper()
	if !(math.Abs(ours-want) <= allowed) {
		t.Errorf("%s: %.8g, want %.8g ± %.2g", what, ours, want, allowed)
	}
}

func TestVolumesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0, 10).Draw(t, "volumes")
		if back := Volumes(FromVolumes(v)); math.Abs(back-v) > 1e-14*v+1e-300 {
			t.Fatalf("%g came back as %g", v, back)
		}
	})
}

func TestSugarRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0, MaxSugar).Draw(t, "w")
		back, err := SugarFraction(SugarConcentration(w))
		if err != nil || math.Abs(back-w) > 1e-12 {
			t.Fatalf("%g came back as %g, %v", w, back, err)
		}
	})
	// 11 °Brix is 114.65 g/L: 0.11 of 1042.26 kg/m³.
	near(t, "11 °Brix", SugarConcentration(0.11), 114.65, 0.005)
	for _, c := range []float64{-1, 2000, math.NaN(), math.Inf(1)} {
		if w, err := SugarFraction(c); err == nil || w != 0 {
			t.Errorf("%g kg/m³ gave %g", c, w)
		}
	}
}

// The laws are meant to agree; the spread is what the notes of the catalogue
// promise.
func TestLawsAgree(t *testing.T) {
	spread := map[string][]struct{ low, high, most float64 }{
		"weiss":     {{0, 40, 0.0075}},
		"carroll":   {{0, 90, 0.05}, {15, 25, 0.021}},
		"iapws":     {{1, 90, 0.05}},
		"vant-hoff": {{10, 40, 0.025}, {0, 60, 0.13}},
	}
	for name, ranges := range spread {
		law, err := LawNamed(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range ranges {
			for c := r.low; c <= r.high; c++ {
				if d := law.Henry(celsius(c))/HenryCO2(celsius(c)) - 1; math.Abs(d) > r.most {
					t.Errorf("%s at %g °C is %+.4f off the default, more than %g", name, c, d, r.most)
				}
			}
		}
	}
	for _, law := range Laws() {
		for c := -5.0; c < 100; c++ {
			if !(law.Henry(celsius(c)) > law.Henry(celsius(c+1))) {
				t.Errorf("%s does not fall from %g °C", law.Name, c)
			}
		}
	}
	if _, err := LawNamed("henry"); err == nil || !strings.Contains(err.Error(), "vant-hoff") {
		t.Errorf("unknown law: %v", err)
	}
}

func TestLawRange(t *testing.T) {
	law, err := LawNamed("weiss")
	if err != nil {
		t.Fatal(err)
	}
	if w, err := law.Check(celsius(25)); w != "" || err != nil {
		t.Errorf("25 °C: %q, %v", w, err)
	}
	w, err := law.Check(celsius(60))
	w = unit.Spell(w, unit.EU)
	if err != nil || !strings.Contains(w, "60.0 °C") || !strings.Contains(w, "..40 °C") {
		t.Errorf("60 °C: %q, %v: want value and limit", w, err)
	}
	if _, err := law.Check(celsius(120)); err == nil {
		t.Error("120 °C: want an error")
	}
}

func TestVirialAgainstCorrespondingStates(t *testing.T) {
	for c := 0.0; c <= 100; c++ {
		most := 2.0
		if c > 60 {
			most = 7
		}
		d := (SecondVirialCO2(celsius(c)) - TsonopoulosCO2(celsius(c))) * 1e6
		if math.Abs(d) > most {
			t.Errorf("%g °C: %+.2f cm³/mol apart, more than %g", c, d, most)
		}
	}
	// The value quoted with the equation, and the ideal limit.
	near(t, "phi at 5 bar, 22 °C", FugacityCO2(celsius(22), 5e5), 0.975, 5e-4)
	near(t, "Poynting at 5 bar, 22 °C", PoyntingCO2(celsius(22), 5e5), 0.995, 5e-4)
	near(t, "phi at 0 bar", FugacityCO2(celsius(22), 0), 1, 0)
}

// What a given sugar rule makes of the content and the pressure.
func TestSugarRules(t *testing.T) {
	const c = 8.0
	at := func(d Drink) float64 {
		p, err := d.Open(celsius(22), unit.Atm)
		if err != nil {
			t.Fatal(err)
		}
		return p.CO2
	}
	water := at(Drink{Carbonation: c, Basis: Mass})
	// Chart: the pressure is that of water, the content less.
	near(t, "chart pressure", at(Drink{Carbonation: c, Sugar: 115}), at(Drink{Carbonation: c}), 60) // vapour moves phi by 1e-5
	w := SugarConcentration(0.11)
	near(t, "content at 11 °Brix", liquid(t, Drink{Carbonation: c, Sugar: w}).Content(), c*0.9276, 1e-3)
	near(t, "content of water", liquid(t, Drink{Carbonation: c}).Content(), c*0.9982, 1e-3)
	near(t, "content on the mass basis", liquid(t, Drink{Carbonation: c, Basis: Mass, Sugar: w}).Content(), c, 1e-12)
	// Mass: the same grams in less water press harder, by the inverse of the
	// kilograms of water a litre (0.9276 against 0.9982), a little more in a
	// real gas.
	near(t, "mass, per water", at(Drink{Carbonation: c, Basis: Mass, Sugar: w})/water, 0.9982/0.9276, 4e-3)
	near(t, "mass, linear", at(Drink{Carbonation: c, Basis: Mass, Sugar: 100, Rule: Linear, SugarSlope: 0.0006})/water, 1/0.94, 4e-3)
	near(t, "mass, none", at(Drink{Carbonation: c, Basis: Mass, Sugar: 100, Rule: NoEffect})/water, 1, 1e-4)
	if salted := at(Drink{Carbonation: c, Basis: Mass, Sugar: w, SaltingOut: SaltingOutHigh}); salted <= at(Drink{Carbonation: c, Basis: Mass, Sugar: w}) {
		t.Errorf("salting-out does not raise the pressure: %g", salted)
	}
	// The textbook law is per litre: exact division.
	hand := Drink{Carbonation: FromVolumes(4), Basis: Mass, Law: "vant-hoff"}
	near(t, "textbook, mass", at(hand), at(Drink{Carbonation: FromVolumes(4), Law: "vant-hoff"}), 1e-6)
	hand.Sugar, hand.Rule, hand.SugarSlope = 100, Linear, 0.001
	near(t, "textbook, linear", at(hand)*0.9, at(Drink{Carbonation: FromVolumes(4), Law: "vant-hoff"}), 1e-6)
}

func TestDrinkRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		d    Drink
		want string
	}{
		{Drink{Carbonation: -1}, "carbonation"},
		{Drink{Carbonation: nan}, "carbonation"},
		{Drink{Carbonation: 30}, "20 kg/m³"},
		{Drink{Sugar: nan}, "sugar"},
		{Drink{Sugar: 1500}, "1500"},
		{Drink{Basis: "weight"}, `"weight"`},
		{Drink{Rule: "cubic"}, `"cubic"`},
		{Drink{SugarSlope: 0.001}, "sugar slope"},
		{Drink{Rule: Linear, SugarSlope: 0.01}, "0.005"},
		{Drink{Rule: Linear, SugarSlope: 0.004, Sugar: 400}, "0.5"},
		{Drink{SaltingOut: 3}, "salting-out"},
		{Drink{Oxygen: nan}, "oxygen"},
		{Drink{Nitrogen: -1}, "nitrogen"},
		{Drink{Law: "boyle"}, `"boyle"`},
	} {
		if _, err := c.d.Liquid(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want a fault that names %s", c.d, err, c.want)
		}
	}
}

func TestOpenRefusesAndWarns(t *testing.T) {
	d := Drink{Carbonation: 8}
	for _, in := range []struct{ t, ambient float64 }{
		{380, 101325}, {260, 101325}, {math.NaN(), 101325}, {295, 0}, {295, math.Inf(1)}, {295, math.NaN()},
	} {
		if p, err := d.Open(unit.Temperature(in.t), unit.AbsPressure(in.ambient)); err == nil {
			t.Errorf("%+v: %+v", in, p)
		}
	}
	if _, err := (Liquid{}).Open(295, unit.Atm); err == nil {
		t.Error("the zero Liquid: want an error")
	}
	p, err := Drink{Carbonation: 8, Law: "weiss"}.Open(celsius(60), unit.Atm)
	if err != nil || len(p.Warnings) != 1 {
		t.Errorf("weiss at 60 °C: %q, %v", p.Warnings, err)
	}
	p, err = Drink{Carbonation: 20}.Open(celsius(60), unit.Atm)
	if err != nil || len(p.Warnings) != 1 || !strings.Contains(p.Warnings[0], "16 bar") {
		t.Errorf("10 vol at 60 °C: %q, %v", p.Warnings, err)
	}
	if p, err := (Drink{Carbonation: 20}).Open(celsius(100), unit.Atm); err == nil && p.Total > MaxPressure {
		t.Errorf("10 vol at 100 °C: %v", p)
	}
}

// Water saturated with air at 20 °C presses with one atmosphere, whatever the
// altitude of the reader.
func TestAirSaturatedWater(t *testing.T) {
	o, n := AirSaturation(celsius(20), unit.Atm)
	p, err := Drink{Oxygen: o, Nitrogen: n}.Open(celsius(20), 80000)
	if err != nil {
		t.Fatal(err)
	}
	argon := (1 - AirOxygen - AirNitrogen) * (float64(unit.Atm) - p.Water)
	near(t, "total", float64(p.Total), float64(unit.Atm)-argon, 5)
	near(t, "gauge at altitude", float64(p.Gauge), float64(p.Total)-80000, 1e-9)
}

func TestCarbonicPH(t *testing.T) {
	m := func(v float64) float64 { return v / (unit.MolarVolumeCO2 * 1000) }
	for _, r := range []struct{ v, c, ph float64 }{{1, 25, 3.85}, {2, 25, 3.70}, {3, 25, 3.61}, {5, 25, 3.50}, {4, 5, 3.63}} {
		ph, err := CarbonicPH(m(r.v), celsius(r.c))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "pH", ph, r.ph, 0.011)
	}
	for _, bad := range []float64{0, 2, math.NaN()} {
		if _, err := CarbonicPH(bad, 298.15); err == nil {
			t.Errorf("%g mol/kg: want an error", bad)
		}
	}
	if _, err := CarbonicPH(0.1, 400); err == nil {
		t.Error("400 K: want an error")
	}
}

func TestCautions(t *testing.T) {
	if c := Cautions(Drink{}, celsius(60)); c != nil {
		t.Errorf("still water: %q", c)
	}
	all := strings.Join(Cautions(Drink{Carbonation: FromVolumes(4.5), Sugar: 100}, celsius(50)), "\n")
	for _, want := range []string{"4.50 volumes", "50 °C", "ferment", "shield"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %q", want, all)
		}
	}
}

// draw makes any drink the package accepts.
func draw(t *rapid.T) Drink {
	d := Drink{
		Carbonation: rapid.Float64Range(0, MaxCarbonation).Draw(t, "carbonation"),
		Basis:       rapid.SampledFrom([]Basis{"", Chart, Mass}).Draw(t, "basis"),
		Sugar:       rapid.Float64Range(0, 900).Draw(t, "sugar"),
		Law:         rapid.SampledFrom([]string{"", "weiss", "carroll", "iapws", "vant-hoff"}).Draw(t, "law"),
		Rule:        rapid.SampledFrom([]Rule{"", PerWater, Linear, NoEffect}).Draw(t, "rule"),
		SaltingOut:  rapid.Float64Range(-0.2, 0.2).Draw(t, "salting-out"),
		Oxygen:      rapid.Float64Range(0, 0.1).Draw(t, "oxygen"),
		Nitrogen:    rapid.Float64Range(0, 0.1).Draw(t, "nitrogen"),
	}
	if d.Rule == Linear {
		d.SugarSlope = rapid.Float64Range(0, 0.0005).Draw(t, "slope")
	}
	return d
}

// A finite input in range gives finite numbers or a refusal, and the open
// pressure satisfies the law it was computed from.
func TestOpenIsFiniteAndConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := draw(t).Liquid()
		if err != nil {
			t.Fatal(err)
		}
		T := unit.Temperature(rapid.Float64Range(float64(LowT), float64(HighT)).Draw(t, "T"))
		p, err := l.Open(T, unit.AbsPressure(rapid.Float64Range(1e4, 2e5).Draw(t, "ambient")))
		if err != nil {
			if p.Total != 0 || errors.Is(err, root.ErrNoConvergence) {
				t.Fatalf("%+v, %v", p, err)
			}
			return
		}
		for _, x := range []float64{p.CO2, p.Oxygen, p.Nitrogen, p.Water, float64(p.Total), float64(p.Gauge), l.Content(), l.Molality()} {
			if !finite(x) {
				t.Fatalf("%+v", p)
			}
		}
		total := float64(p.Total)
		m := l.HenryCO2(T) * p.CO2
		if !l.Law().Ideal {
			m *= FugacityCO2(T, total) * PoyntingCO2(T, total)
		}
		if math.Abs(m-l.Molality()) > 1e-9*l.Molality()+1e-12 {
			t.Fatalf("holds %g mol/kg, want %g", m, l.Molality())
		}
		if s := p.CO2 + p.Oxygen + p.Nitrogen + p.Water; math.Abs(s-total) > 1e-6*total {
			t.Fatalf("parts %g, total %g", s, total)
		}
	})
}

func TestOpenRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Drink{
			Carbonation: rapid.Float64Range(1, 12).Draw(t, "carbonation"),
			Sugar:       rapid.Float64Range(0, 200).Draw(t, "sugar"),
			Basis:       rapid.SampledFrom([]Basis{Chart, Mass}).Draw(t, "basis"),
			Law:         rapid.SampledFrom([]string{"", "weiss", "carroll", "iapws", "vant-hoff"}).Draw(t, "law"),
		}
		c := rapid.Float64Range(0, 60).Draw(t, "t")
		p, err := d.Open(celsius(c), unit.Atm)
		if err != nil {
			t.Fatal(err)
		}
		warm, err := d.Open(celsius(c+1), unit.Atm)
		if err != nil || warm.Total <= p.Total {
			t.Fatalf("one degree: %g to %g, %v", p.Total, warm.Total, err)
		}
		d.Carbonation += 0.1
		more, err := d.Open(celsius(c), unit.Atm)
		if err != nil || more.Total <= p.Total {
			t.Fatalf("0.1 g/L: %g to %g, %v", p.Total, more.Total, err)
		}
	})
}

// Plain functions are finite over the whole range of the package.
func TestFunctionsAreFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := unit.Temperature(rapid.Float64Range(float64(LowT), float64(HighT)).Draw(t, "T"))
		w := rapid.Float64Range(0, MaxSugar).Draw(t, "w")
		p := rapid.Float64Range(1e3, float64(MaxPressure)).Draw(t, "p")
		o, n := AirSaturation(T, unit.AbsPressure(p))
		for i, x := range []float64{
			WaterDensity(T), SucroseDensity(T, w), float64(VapourPressure(T)), WaterViscosity(T), WaterActivity(w),
			HenryCO2(T), HenryOxygen(T), HenryNitrogen(T), FugacityCO2(T, p), PoyntingCO2(T, p), -SecondVirialCO2(T),
			-TsonopoulosCO2(T), PK1(T), 1 + o, 1 + n, 1 + Contraction(w, T, 293.15), SugarConcentration(w) + 1,
		} {
			if !finite(x) || x <= 0 {
				t.Fatalf("function %d is %g at %g K, w %g, %g Pa", i, x, T, w, p)
			}
		}
	})
}

// Two published fits of the air gases.
func TestAirGasesAgree(t *testing.T) {
	bunsen := func(c, a1, a2, a3 float64) float64 {
		h := float64(celsius(c)) / 100
		return math.Exp(a1+a2/h+a3*math.Log(h)) / (atm * WaterDensity(celsius(c)) * unit.MolarVolumeSTP)
	}
	for c := 0.0; c <= 40; c++ {
		if d := HenryOxygen(celsius(c))/bunsen(c, -58.3877, 85.8079, 23.8439) - 1; math.Abs(d) > 0.014 {
			t.Errorf("oxygen at %g °C: %+.4f", c, d)
		}
		if d := HenryNitrogen(celsius(c))/bunsen(c, -59.6274, 85.7661, 24.3696) - 1; math.Abs(d) > 0.029 {
			t.Errorf("nitrogen at %g °C: %+.4f", c, d)
		}
	}
}
