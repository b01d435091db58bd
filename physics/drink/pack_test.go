package drink

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/unit"
)

func soda(t tester) Liquid { return liquid(t, Drink{Carbonation: FromVolumes(4), Basis: Mass}) }

// At the reference temperature a sealed pack shows its stated carbonation, and
// without air the pressure of the open chart.
func TestSealedIsTheOpenChart(t *testing.T) {
	l := soda(t)
	p := smallPack()
	s, err := l.Pressure(p, p.ReferenceT)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "carbonation", Volumes(s.Carbonation), 4, 1e-8)
	p.Air = 0
	s, err = l.Pressure(p, p.ReferenceT)
	if err != nil {
		t.Fatal(err)
	}
	open, err := l.Open(p.ReferenceT, unit.Atm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pressure", float64(s.Total), float64(open.Total), 0.01)
}

// Reference split of the carbon dioxide in the 0.5 L bottle at 4 vol, 22 °C:
// 2001 cm³ in the liquid and 137 in the headspace at 0 °C, 1 atm.
func TestHeadspaceShare(t *testing.T) {
	p := smallPack()
	c, err := p.Contents(soda(t))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "liquid", c.Counted*unit.MolarVolumeCO2*1e6, 2001, 2)
	near(t, "headspace", (c.CO2-c.Counted)*unit.MolarVolumeCO2*1e6, 137, 2)
}

// A filler's set point loses its share to the headspace; a sealed value does not.
func TestFillerSetPoint(t *testing.T) {
	l := soda(t)
	p := smallPack()
	p.Stated = Filler
	p.Air = 1
	s, err := l.Pressure(p, celsius(22))
	if err != nil {
		t.Fatal(err)
	}
	// One share of gas space over liquid: 137/2001 of the liquid at equal
	// carbonation, so 1 - 1/1.068 is lost.
	near(t, "loss to the headspace", 1-s.Carbonation/FromVolumes(4), 0.064, 0.002)
	p.Air = 0.3
	less, err := l.Pressure(p, celsius(22))
	if err != nil || less.Carbonation <= s.Carbonation {
		t.Errorf("carbon dioxide in the headspace at closing: %g, %v, want more than %g", less.Carbonation, err, s.Carbonation)
	}
	// Warm filling: one chilled to 4 °C has the same liquid content.
	p.FillT, p.ReferenceT = celsius(4), 0
	if _, err := l.Pressure(p, celsius(22)); err != nil {
		t.Errorf("a filler value needs no reference temperature: %v", err)
	}
}

// The state satisfies the equations it stands for.
func TestEquilibriumBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := draw(t).Liquid()
		if err != nil {
			t.Fatal(err)
		}
		fill := rapid.Float64Range(0.2e-3, 3e-3).Draw(t, "fill")
		p := Pack{
			Fill:       fill,
			Brimful:    fill * rapid.Float64Range(1.005, 1.5).Draw(t, "headspace"),
			FillT:      unit.Temperature(rapid.Float64Range(float64(LowT), 360).Draw(t, "fill T")),
			ReferenceT: unit.Temperature(rapid.Float64Range(float64(LowT), float64(HighT)).Draw(t, "reference T")),
			Ambient:    unit.AbsPressure(rapid.Float64Range(7e4, 1.1e5).Draw(t, "ambient")),
			Air:        rapid.Float64Range(0, 1).Draw(t, "air"),
			Growth:     rapid.Float64Range(0, 2e-7).Draw(t, "growth"),
			Expansion:  rapid.Float64Range(0, 3e-4).Draw(t, "expansion"),
			Stated:     rapid.SampledFrom([]Stated{"", Sealed, Filler}).Draw(t, "stated"),
		}
		T := unit.Temperature(rapid.Float64Range(float64(LowT), float64(HighT)).Draw(t, "T"))
		c, err := p.Contents(l)
		if err != nil {
			if c.CO2 != 0 && !finite(c.CO2) {
				t.Fatalf("%+v %v", c, err)
			}
			return
		}
		s, err := l.Equilibrium(c, p.Vessel(T), T)
		if err != nil {
			if s.Total != 0 || strings.Contains(err.Error(), "root:") {
				t.Fatalf("%+v, %v", s, err)
			}
			return
		}
		total := float64(s.Total)
		if !finite(total) || total < 0 || s.Headspace <= 0 {
			t.Fatalf("%+v", s)
		}
		parts := s.CO2 + s.Oxygen + s.Nitrogen + s.Water
		if math.Abs(parts-total) > 0.01+1e-9*total {
			t.Fatalf("parts %.6f, total %.6f", parts, total)
		}
		rt := gasR * float64(T)
		b := SecondVirialCO2(T)
		if l.Law().Ideal {
			b = 0
		}
		if n := s.Dissolved + s.CO2*s.Headspace/(rt+b*total); math.Abs(n-c.CO2) > 1e-7*c.CO2+1e-12 {
			t.Fatalf("carbon dioxide %g, want %g", n, c.CO2)
		}
		water := c.Liquid * (1 - l.MassFraction())
		if n := s.Oxygen * (water*HenryOxygen(T) + s.Headspace/rt); math.Abs(n-c.Oxygen) > 1e-7*c.Oxygen+1e-15 {
			t.Fatalf("oxygen %g, want %g", n, c.Oxygen)
		}
		if n := s.Nitrogen * (water*HenryNitrogen(T) + s.Headspace/rt); math.Abs(n-c.Nitrogen) > 1e-7*c.Nitrogen+1e-15 {
			t.Fatalf("nitrogen %g, want %g", n, c.Nitrogen)
		}
		bottle := p.Vessel(T).Volume * (1 + p.Growth*float64(s.Gauge))
		if math.Abs(bottle-s.Bottle) > 1e-12*bottle || math.Abs(s.Volume+s.Headspace-s.Bottle) > 1e-12*bottle {
			t.Fatalf("volumes: bottle %g %g, liquid %g, headspace %g", bottle, s.Bottle, s.Volume, s.Headspace)
		}
	})
}

// Pressure rises with temperature and carbonation, and falls with headspace
// and with a wall that gives, for a filler's set point.
func TestClosedRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(1.5, 5).Draw(t, "volumes")
		c := rapid.Float64Range(0, 50).Draw(t, "t")
		p := Pack{
			Fill: 1e-3, Brimful: rapid.Float64Range(1.04e-3, 1.3e-3).Draw(t, "brimful"),
			FillT: celsius(15), ReferenceT: celsius(22), Ambient: unit.Atm,
			Air:    rapid.Float64Range(0, 1).Draw(t, "air"),
			Growth: rapid.Float64Range(0, 1e-7).Draw(t, "growth"),
			Stated: rapid.SampledFrom([]Stated{Sealed, Filler}).Draw(t, "stated"),
		}
		at := func(p Pack, v, c float64) float64 {
			s, err := liquid(t, Drink{Carbonation: FromVolumes(v)}).Pressure(p, celsius(c))
			if err != nil {
				t.Fatal(err)
			}
			return float64(s.Total)
		}
		base := at(p, v, c)
		if x := at(p, v, c+1); x <= base {
			t.Fatalf("one degree: %g to %g", base, x)
		}
		if x := at(p, v+0.1, c); x <= base {
			t.Fatalf("0.1 vol: %g to %g", base, x)
		}
		p.Stated = Filler
		base = at(p, v, c)
		roomy := p
		roomy.Brimful += 10e-6
		roomy.Air = p.Air * (p.Brimful - p.Fill) / (roomy.Brimful - roomy.Fill) // the same air
		if x := at(roomy, v, c); p.Air == 1 && x >= base {
			t.Fatalf("10 mL of headspace: %g to %g", base, x)
		}
		p.Growth += 1e-8
		if x := at(p, v, c); base > atm && x >= base {
			t.Fatalf("softer wall: %g to %g", base, x)
		}
	})
}

func TestStillDrinks(t *testing.T) {
	l := liquid(t, Drink{})
	p := Pack{Fill: 500e-6, Brimful: 520e-6, FillT: celsius(20), ReferenceT: celsius(20), Ambient: unit.Atm, Air: 1}
	// Closed at 20 °C with moist air and water free of gas: nitrogen dissolves
	// and leaves a slight vacuum.
	s, err := l.Pressure(p, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	if s.Gauge > 0 || s.CO2 != 0 || s.Carbonation != 0 {
		t.Errorf("%+v", s)
	}
	// Saturated water with the same air keeps it: only argon, counted as
	// nitrogen in the headspace, is short in the liquid.
	o, n := AirSaturation(celsius(20), unit.Atm)
	s, err = liquid(t, Drink{Oxygen: o, Nitrogen: n}).Pressure(p, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "air-saturated water, gauge", float64(s.Gauge), 0, 600)
	// 8.6 mg of nitrogen in 15 mL give 0.5 bar when none dissolves; here up to
	// 4.9 mg more are taken up by the water. The hand value is 13.5 mg for both.
	p.Brimful = 515e-6
	p.NitrogenDose = 13.5e-6 / MolarMassNitrogen
	dosed, err := l.Pressure(p, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	p.NitrogenDose = 0
	plain, err := l.Pressure(p, celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "nitrogen dose", float64(dosed.Total-plain.Total), 5e4, 1000)
}

// Hot fill, rigid, 500 mL of 11 °Brix at 85 °C in 520 mL, cooled to 20 °C: the
// closed form without dissolution gives 0.2272 bar by hand, where the sugar was
// not counted in the vapour pressure. Here the gas dissolves too, so the vacuum
// is deeper.
func TestHotFillVacuum(t *testing.T) {
	l := liquid(t, Drink{Sugar: SugarConcentration(0.11)})
	p := Pack{Fill: 500e-6, Brimful: 520e-6, FillT: celsius(85), ReferenceT: celsius(20), Ambient: unit.Atm, Air: 1}
	c, err := p.Contents(l)
	if err != nil {
		t.Fatal(err)
	}
	s, err := l.Equilibrium(c, p.Vessel(celsius(20)), celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	// Undo the dissolution: the dissolved amount at that pressure goes back
	// into the same gas space.
	dry := (c.Oxygen + c.Nitrogen) * gasR * 293.15 / s.Headspace
	near(t, "closed form", (dry+s.Water)/1e5, 0.2272, 0.002)
	if float64(s.Total) >= dry+s.Water {
		t.Errorf("dissolution does not lower the pressure: %g", s.Total)
	}
}

func TestClosedRefusesAndWarns(t *testing.T) {
	l := soda(t)
	good := smallPack()
	nan := math.NaN()
	for _, c := range []struct {
		change func(*Pack)
		want   string
	}{
		{func(p *Pack) { p.Fill = p.Brimful }, "not below brimful"},
		{func(p *Pack) { p.Fill = nan }, "fill"},
		{func(p *Pack) { p.Brimful = math.Inf(1) }, "brimful"},
		{func(p *Pack) { p.Air = 1.5 }, "share of air"},
		{func(p *Pack) { p.Growth = nan }, "growth"},
		{func(p *Pack) { p.Growth = 1 }, "1e-06"},
		{func(p *Pack) { p.FillT = 0 }, "fill temperature"},
		{func(p *Pack) { p.ReferenceT = 0 }, "reference temperature"},
		{func(p *Pack) { p.Ambient = 0 }, "ambient"},
		{func(p *Pack) { p.Expansion = -1 }, "expansion"},
		{func(p *Pack) { p.NitrogenDose = -1 }, "nitrogen dose"},
		{func(p *Pack) { p.Stated = "later" }, `"later"`},
	} {
		p := good
		c.change(&p)
		if _, err := l.Pressure(p, celsius(22)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want a fault that names %s", err, c.want)
		}
	}
	if _, err := l.Pressure(good, 400); err == nil {
		t.Error("400 K: want an error")
	}
	// A rigid bottle filled cold to within 0.5 % has no gas space at 60 °C.
	full := good
	full.Brimful, full.FillT, full.Growth = full.Fill*1.005, celsius(4), 0
	if _, err := l.Pressure(full, celsius(60)); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "no gas space at 60 °C") || !strings.Contains(err.Error(), "fill less") {
		t.Errorf("liquid-full: %v", err)
	}
	full.Brimful = full.Fill * 1.022
	s, err := l.Pressure(full, celsius(60))
	if err != nil || len(s.Warnings) == 0 || !strings.Contains(strings.Join(s.Warnings, " "), "below 1 %") {
		t.Errorf("nearly full: %+v, %v", s, err)
	}
}

func TestClosedRangeWarnings(t *testing.T) {
	l := liquid(t, Drink{Carbonation: 8, Law: "weiss"})
	p := smallPack()
	p.ReferenceT = celsius(45)
	s, err := l.Pressure(p, celsius(22))
	if err != nil || len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "reference temperature") {
		t.Errorf("reference outside the law: %q, %v", s.Warnings, err)
	}
	s, err = soda(t).Pressure(smallPack(), celsius(-2))
	if err != nil || len(s.Warnings) != 2 || !strings.Contains(unit.Spell(s.Warnings[0], unit.EU), "below 0 °C") {
		t.Errorf("below freezing: %q, %v", s.Warnings, err)
	}
}

// The solvers call this thousands of times: no garbage, and quick enough that
// one call costs microseconds.
func TestNoAllocation(t *testing.T) {
	l := soda(t)
	p := smallPack()
	n := testing.AllocsPerRun(100, func() {
		if _, err := l.Pressure(p, celsius(30)); err != nil {
			t.Fatal(err)
		}
		if _, err := l.Open(celsius(30), unit.Atm); err != nil {
			t.Fatal(err)
		}
	})
	if n != 0 {
		t.Errorf("%g allocations a call", n)
	}
}

func BenchmarkClosed(b *testing.B) {
	l := soda(b)
	p := smallPack()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := l.Pressure(p, celsius(30)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDrinkToOpen(b *testing.B) {
	d := Drink{Carbonation: 8, Basis: Mass, Sugar: 92}
	for b.Loop() {
		if _, err := d.Open(celsius(30), unit.Atm); err != nil {
			b.Fatal(err)
		}
	}
}
