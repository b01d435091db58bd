package drink

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	var out []cite.Check
	out = append(out, waterChecks()...)
	out = append(out, sugarChecks()...)
	out = append(out, airChecks()...)
	out = append(out, solubilityChecks()...)
	out = append(out, gasChecks()...)
	out = append(out, chartChecks()...)
	out = append(out, handChecks()...)
	out = append(out, closedChecks()...)
	return out
}

func celsius(t float64) unit.Temperature { return unit.Celsius(t) }

func label(format string, args ...any) string { return fmt.Sprintf(format, args...) }

// wrong is what a check shows when the code under it refuses: no published
// value is near it, so the row fails instead of passing by chance.
const wrong = -1e99

func waterChecks() []cite.Check {
	var out []cite.Check
	for _, r := range []struct {
		t, kell, iapws95 float64
	}{
		{4, 999.972, 999.975},
		{20, 998.204, 998.207},
		{60, 983.199, 983.196},
		{85, 968.620, 968.611},
	} {
		ours := func() float64 { return WaterDensity(celsius(r.t)) }
		out = append(out,
			cite.Check{
				ID: label("drink.kell.%gC", r.t), Case: label("density of water at %g °C, 1 atm", r.t), Source: "Kell1975",
				Unit: "kg/m³", Ours: ours, Published: r.kell, Allowed: 1e-3, Mark: cite.Regression,
				Note: "the same equation worked by a second program",
			},
			cite.Check{
				ID: label("drink.kell.%gC.iapws95", r.t), Case: label("density of water at %g °C, 1 atm, against the reference equation", r.t), Source: "IAPWS95",
				Unit: "kg/m³", Ours: ours, Published: r.iapws95, Allowed: 0.012, Mark: cite.Independent,
			})
	}
	for _, r := range []struct{ t, kPa float64 }{{4, 0.8136}, {25, 3.1699}, {60, 19.946}, {85, 57.867}, {100, 101.418}} {
		out = append(out, cite.Check{
			ID: label("drink.vapour.%gC", r.t), Case: label("vapour pressure of water at %g °C", r.t), Source: "IAPWS95",
			Unit: "kPa", Ours: func() float64 { return float64(VapourPressure(celsius(r.t))) / 1000 }, Published: r.kPa,
			Allowed: 1.5e-4, Relative: true, Mark: cite.Independent,
		})
	}
	for _, r := range []struct{ t, kPa float64 }{{80, 47.3}, {85, 57.7}, {90, 70.0}} {
		out = append(out, cite.Check{
			ID: label("drink.vapour.headspace.%gC", r.t), Case: label("water vapour in a hot headspace at %g °C", r.t), Source: "CommonPractice",
			Unit: "kPa", Ours: func() float64 { return float64(VapourPressure(celsius(r.t))) / 1000 }, Published: r.kPa,
			Allowed: 5e-3, Relative: true, Mark: cite.Memory, Note: "hand value by the Antoine equation, constants from memory",
		})
	}
	for _, r := range []struct{ t, mPas float64 }{{0, 1.791}, {10, 1.306}, {25, 0.890}, {60, 0.466}, {100, 0.282}} {
		out = append(out, cite.Check{
			ID: label("drink.viscosity.%gC", r.t), Case: label("viscosity of water at %g °C", r.t), Source: "IAPWS95",
			Unit: "mPa s", Ours: func() float64 { return WaterViscosity(celsius(r.t)) * 1e3 }, Published: r.mPas,
			Allowed: 2e-3, Relative: true, Mark: cite.Independent, Note: "values rounded to 0.001 mPa s",
		})
	}
	out = append(out, cite.Check{
		ID: "drink.contraction.water.85C.iapws95", Case: "contraction of water from 85 to 20 °C", Source: "IAPWS95",
		Unit: "%", Ours: func() float64 { return 100 * Contraction(0, celsius(85), celsius(20)) },
		Published: 100 * (1 - 968.611/998.207), Allowed: 0.005, Mark: cite.Independent,
	})
	for _, r := range []struct{ t, percent float64 }{{80, 2.66}, {85, 2.98}, {88, 3.18}, {90, 3.31}, {95, 3.66}} {
		out = append(out, cite.Check{
			ID: label("drink.contraction.hand.%gC", r.t), Case: label("contraction of water from %g to 20 °C, hand value", r.t), Source: "CommonPractice",
			Unit: "%", Ours: func() float64 { return 100 * Contraction(0, celsius(r.t), celsius(20)) },
			Published: r.percent, Allowed: 0.03, Mark: cite.Practice, Note: "hand value from densities rounded to 0.1 kg/m³: the trade's \"about 3 %\"",
		})
	}
	return out
}

func sugarChecks() []cite.Check {
	var out []cite.Check
	for _, r := range []struct{ brix, t, rho float64 }{
		{10, 20, 1038.12}, {50, 20, 1229.65}, {65, 20, 1316.56}, {11, 5, 1044.97}, {11, 85, 1011.02},
	} {
		out = append(out, cite.Check{
			ID: label("drink.sucrose.%gBx.%gC", r.brix, r.t), Case: label("density of sucrose solution, %g °Brix at %g °C", r.brix, r.t), Source: "ICUMSASPS4",
			Unit: "kg/m³", Ours: func() float64 { return SucroseDensity(celsius(r.t), r.brix/100) }, Published: r.rho,
			Allowed: 0.02, Mark: cite.Regression, Note: "the same equation worked by a second program",
		})
	}
	return append(out,
		cite.Check{
			ID: "drink.sucrose.10P.gravity", Case: "specific gravity 20/20 of 10 % sucrose", Source: "Plato1900",
			Unit: "1", Ours: func() float64 { return SucroseDensity(celsius(20), 0.10) / SucroseDensity(celsius(20), 0) }, Published: 1.0400,
			Allowed: 2e-4, Mark: cite.Memory,
		},
		cite.Check{
			ID: "drink.contraction.11Bx.85C", Case: "contraction of 11 °Brix from 85 to 20 °C", Source: "ICUMSASPS4",
			Unit: "%", Ours: func() float64 { return 100 * Contraction(0.11, celsius(85), celsius(20)) }, Published: 2.996,
			Allowed: 0.005, Mark: cite.Regression,
		},
	)
}

func airChecks() []cite.Check {
	oxygen := func(t float64) func() float64 {
		return func() float64 { o, _ := AirSaturation(celsius(t), unit.Atm); return o * 1000 }
	}
	nitrogen := func(t float64) func() float64 {
		return func() float64 { _, n := AirSaturation(celsius(t), unit.Atm); return n * 1000 }
	}
	out := []cite.Check{{
		ID: "drink.oxygen.air.20C.tables", Case: "oxygen in air-saturated water at 20 °C, 1 atm, oxygen tables", Source: "BensonKrause1984",
		Unit: "mg/L", Ours: oxygen(20), Published: 9.09, Allowed: 0.01, Relative: true, Mark: cite.Memory,
	}}
	for _, r := range []struct{ t, o, n float64 }{{5, 12.73, 20.1}, {20, 9.17, 15.1}, {30, 7.64, 12.9}} {
		out = append(out,
			cite.Check{
				ID: label("drink.oxygen.air.%gC", r.t), Case: label("oxygen in air-saturated water at %g °C, 1 atm", r.t), Source: "IAPWSG704",
				Unit: "mg/L", Ours: oxygen(r.t), Published: r.o, Allowed: 0.01, Mark: cite.Independent, Note: "from Henry's constants of another program",
			},
			cite.Check{
				ID: label("drink.nitrogen.air.%gC", r.t), Case: label("nitrogen in air-saturated water at %g °C, 1 atm", r.t), Source: "IAPWSG704",
				Unit: "mg/L", Ours: nitrogen(r.t), Published: r.n, Allowed: 0.06, Mark: cite.Independent, Note: "from Henry's constants of another program",
			})
	}
	for _, r := range []struct {
		gas     string
		t, MPa  float64
		solubil func(unit.Temperature) float64
	}{
		{"oxygen", 5, 2935, HenryOxygen},
		{"oxygen", 25, 4364, HenryOxygen},
		{"oxygen", 85, 6970, HenryOxygen},
		{"nitrogen", 5, 6063, HenryNitrogen},
		{"nitrogen", 25, 8560, HenryNitrogen},
		{"nitrogen", 85, 11995, HenryNitrogen},
	} {
		out = append(out, cite.Check{
			ID: label("drink."+r.gas+".henry.%gC", r.t), Case: label("Henry's constant of "+r.gas+" at %g °C", r.t), Source: "IAPWSG704",
			Unit: "MPa", Ours: func() float64 { return 1e-6 / (r.solubil(celsius(r.t)) * MolarMassWater) }, Published: r.MPa,
			Allowed: 3e-4, Relative: true, Mark: cite.Independent, Note: "value of another program",
		})
	}
	// Bunsen coefficients of the older fit: ln b = A1 + A2 (100 K/T) + A3 ln(T/100 K).
	for _, r := range []struct {
		gas        string
		t          float64
		a1, a2, a3 float64
		solubil    func(unit.Temperature) float64
	}{
		{"oxygen", 0, -58.3877, 85.8079, 23.8439, HenryOxygen},
		{"oxygen", 20, -58.3877, 85.8079, 23.8439, HenryOxygen},
		{"nitrogen", 0, -59.6274, 85.7661, 24.3696, HenryNitrogen},
		{"nitrogen", 20, -59.6274, 85.7661, 24.3696, HenryNitrogen},
	} {
		h := float64(celsius(r.t)) / 100
		out = append(out, cite.Check{
			ID: label("drink."+r.gas+".bunsen.%gC", r.t), Case: label("Bunsen coefficient of "+r.gas+" in water at %g °C", r.t), Source: "Weiss1970",
			Unit: "1", Ours: func() float64 {
				return r.solubil(celsius(r.t)) * atm * WaterDensity(celsius(r.t)) * unit.MolarVolumeSTP
			},
			Published: math.Exp(r.a1 + r.a2/h + r.a3*math.Log(h)), Allowed: 0.022, Relative: true, Mark: cite.Independent,
			Note: "two published fits; nitrogen at 0 °C is outside the one in use",
		})
	}
	out = append(out,
		cite.Check{
			ID: "drink.acid.pk1.25C", Case: "pK1 of carbonic acid at 25 °C", Source: "HarnedDavis1943",
			Unit: "1", Ours: func() float64 { return PK1(celsius(25)) }, Published: 6.352, Allowed: 0.002, Mark: cite.Memory,
		},
		cite.Check{
			ID: "drink.acid.4vol.25C", Case: "pH of carbonated water, 4 volumes at 25 °C", Source: "PlummerBusenberg1982",
			Unit: "1", Ours: func() float64 {
				ph, err := CarbonicPH(4/(unit.MolarVolumeCO2*1000), celsius(25))
				if err != nil {
					return wrong
				}
				return ph
			}, Published: 3.55, Allowed: 0.02, Mark: cite.Regression,
		},
	)
	return out
}
