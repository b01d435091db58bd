package drink

import (
	"math"

	"costrel/cite"
	"costrel/unit"
)

// solubilityChecks compares the laws with other programs, with measured
// solubilities and with each other.
func solubilityChecks() []cite.Check {
	henry := func(name string, t float64) func() float64 {
		return func() float64 {
			l, err := LawNamed(name)
			if err != nil {
				return wrong
			}
			return l.Henry(celsius(t)) * atm
		}
	}
	var out []cite.Check
	for _, r := range []struct{ t, pb, weiss, carroll, iapws float64 }{
		{0, .07791, .07758, .07570, .0740},
		{5, .06426, .06407, .06346, .0619},
		{15, .04562, .04556, .04602, .0448},
		{25, .03405, .03406, .03473, .0340},
		{38, .02477, .02492, .02542, .0250},
		{60, .01644, .01691, .01695, .0169},
	} {
		for _, law := range []struct {
			name, source string
			value        float64
		}{{DefaultLaw, "PlummerBusenberg1982", r.pb}, {"weiss", "Weiss1974", r.weiss}, {"carroll", "Carroll1991", r.carroll}} {
			out = append(out, cite.Check{
				ID: label("drink.co2."+law.name+".%gC", r.t), Case: label("CO2 solubility at %g °C, law "+law.name, r.t), Source: law.source,
				Unit: "mol/(kg atm)", Ours: henry(law.name, r.t), Published: law.value, Allowed: 1e-5, Mark: cite.Regression,
				Note: "the same equation worked by a second program",
			})
		}
		out = append(out, cite.Check{
			ID: label("drink.co2.iapws.%gC", r.t), Case: label("CO2 solubility at %g °C, law iapws", r.t), Source: "IAPWSG704",
			Unit: "mol/(kg atm)", Ours: henry("iapws", r.t), Published: r.iapws, Allowed: 6e-5, Mark: cite.Independent, Note: "value of another program",
		})
	}
	// Grams per 100 g of water with 1 atm of CO2 and vapour together.
	for _, r := range []struct{ t, grams float64 }{{10, .232}, {20, .169}, {30, .126}, {40, .097}, {50, .076}, {60, .058}} {
		out = append(out, cite.Check{
			ID: label("drink.co2.measured.%gC", r.t), Case: label("CO2 in 100 g of water at %g °C, 1 atm in all", r.t), Source: "Frey1958",
			Unit: "g", Ours: func() float64 {
				t := celsius(r.t)
				p := atm - float64(VapourPressure(t))
				return HenryCO2(t) * FugacityCO2(t, atm) * p * MolarMassCO2 * 100
			}, Published: r.grams, Allowed: 0.015, Relative: true, Mark: cite.Independent,
		})
	}
	return append(out,
		cite.Check{
			ID: "drink.co2.ostwald.25C", Case: "Ostwald coefficient of CO2 in water at 25 °C, 1 atm", Source: "ShedlovskyMacInnes1935",
			Unit: "1", Ours: func() float64 {
				t := celsius(25)
				return HenryCO2(t) * FugacityCO2(t, atm) * atm * WaterDensity(t) * MolarVolumeCO2(t, atm)
			}, Published: 0.8207, Allowed: 0.005, Mark: cite.Independent,
		},
		cite.Check{
			ID: "drink.co2.weiss.litre.20C", Case: "Weiss per kilogram times density against Weiss per litre, 20 °C", Source: "Weiss1974",
			Unit: "mol/(L atm)", Ours: func() float64 { return henry("weiss", 20)() * WaterDensity(celsius(20)) / 1000 },
			Published: math.Exp(-58.0931 + 90.5069/2.9315 + 22.2940*math.Log(2.9315)), Allowed: 2e-3, Relative: true, Mark: cite.Independent,
			Note: "the paper's second coefficient set",
		},
		cite.Check{
			ID: "drink.co2.rule60F", Case: "volumes in water at 60 °F under 1 atm of CO2", Source: "CommonPractice",
			Unit: "vol", Ours: func() float64 {
				t := celsius((60 - 32) / 1.8)
				return HenryCO2(t) * FugacityCO2(t, atm) * atm * unit.MolarVolumeCO2 * 1000
			}, Published: 1, Allowed: 0.01, Mark: cite.Practice, Note: "the trade's definition of one volume",
		},
	)
}

func gasChecks() []cite.Check {
	var out []cite.Check
	for _, t := range []float64{0, 25, 60} {
		out = append(out, cite.Check{
			ID: label("drink.virial.%gC", t), Case: label("second virial coefficient of CO2 at %g °C against corresponding states", t), Source: "Tsonopoulos1974",
			Unit: "cm³/mol", Ours: func() float64 { return SecondVirialCO2(celsius(t)) * 1e6 },
			Published: TsonopoulosCO2(celsius(t)) * 1e6, Allowed: 2, Mark: cite.Independent,
		})
	}
	return append(out,
		cite.Check{
			ID: "drink.molar-volume.25C", Case: "molar volume of CO2 at 25 °C, 1 atm", Source: "ShedlovskyMacInnes1935",
			Unit: "L/mol", Ours: func() float64 { return MolarVolumeCO2(celsius(25), atm) * 1e3 }, Published: 24.340, Allowed: 0.01, Mark: cite.Independent,
		},
		cite.Check{
			ID: "drink.molar-volume.0C", Case: "molar volume of CO2 at 0 °C, 1 atm, by the virial against the constant in use", Source: "Weiss1974",
			Unit: "L/mol", Ours: func() float64 { return MolarVolumeCO2(celsius(0), atm) * 1e3 }, Published: 22.263, Allowed: 0.01, Mark: cite.Memory,
		},
		cite.Check{
			ID: "drink.volume.grams", Case: "carbonation of one volume", Source: "ASTMF1115",
			Unit: "g/L", Ours: func() float64 { return FromVolumes(1) }, Published: 1.9768, Allowed: 1e-4, Mark: cite.Regression,
		},
	)
}

// chartChecks holds the open chart of carbonated water and the brewing charts.
func chartChecks() []cite.Check {
	open := func(t, volumes float64) func() float64 {
		return func() float64 {
			p, err := Drink{Carbonation: FromVolumes(volumes)}.Open(celsius(t), unit.Atm)
			if err != nil {
				return wrong
			}
			return float64(p.Gauge) / 1e5
		}
	}
	var out []cite.Check
	for _, r := range []struct {
		t   float64
		bar [5]float64 // at 2, 3, 4, 4.5, 5 volumes
	}{
		{0, [...]float64{.17, .77, 1.37, 1.67, 1.98}},
		{5, [...]float64{.43, 1.15, 1.89, 2.26, 2.63}},
		{20, [...]float64{1.37, 2.57, 3.80, 4.42, 5.05}},
		{40, [...]float64{2.98, 5.00, 7.07, 8.13, 9.19}},
		{60, [...]float64{4.87, 7.82, 10.86, 12.42, 13.99}},
	} {
		for i, v := range []float64{2, 3, 4, 4.5, 5} {
			out = append(out, cite.Check{
				ID: label("drink.chart.%gvol.%gC", v, r.t), Case: label("gauge pressure over carbonated water, %g vol at %g °C", v, r.t), Source: "PlummerBusenberg1982",
				Unit: "bar", Ours: open(r.t, v), Published: r.bar[i], Allowed: 0.01, Mark: cite.Regression,
				Note: "the same model worked by a second program",
			})
		}
	}
	out = append(out, cite.Check{
		ID: "drink.chart.4vol.38C", Case: "gauge pressure over carbonated water, 4 vol at 38 °C", Source: "PlummerBusenberg1982",
		Unit: "bar", Ours: open(38, 4), Published: 6.72, Allowed: 0.01, Mark: cite.Regression,
	})
	for _, r := range []struct{ f, p, volumes, allowed float64 }{{40, 30, 4.16, 0.21}, {60, 45, 3.89, 0.08}, {80, 60, 3.57, 0.08}} {
		out = append(out, cite.Check{
			ID: label("drink.chart.beer.%gF", r.f), Case: label("volumes in water at %g °F, %g psi gauge, against the chart of beer", r.f, r.p), Source: "DeLangeFit",
			Unit: "vol", Ours: func() float64 { return volumesAt((r.f-32)/1.8, r.p*psi) }, Published: r.volumes, Allowed: r.allowed, Mark: cite.Independent,
			Note: "beer holds alcohol and extract: up to 4 % below water when cold",
		})
	}
	for _, r := range []struct{ f, p, volumes float64 }{{40, 30, 4.16}, {70, 45, 3.31}} {
		out = append(out, cite.Check{
			ID: label("drink.brewing.delange.%gF", r.f), Case: label("the fit of the chart of beer at %g °F, %g psi gauge", r.f, r.p), Source: "DeLangeFit",
			Unit: "vol", Ours: func() float64 { return deLange(r.f, r.p) }, Published: r.volumes, Allowed: 0.01, Mark: cite.Regression,
		})
	}
	for _, r := range []struct{ f, p float64 }{{32, 22.235}, {68, 51.0}, {72, 54.4}, {100, 79}} {
		out = append(out, cite.Check{
			ID: label("drink.brewing.polynomial.%gF", r.f), Case: label("the polynomial of home brewing, 4 vol at %g °F", r.f), Source: "CommonPractice",
			Unit: "psi", Ours: func() float64 { return brewingPolynomial(r.f, 4) }, Published: r.p, Allowed: 0.2, Mark: cite.Regression,
			Note: "at 100 °F 13 psi below the textbook law, 18 below the default: never use it for a warm pack",
		})
	}
	return out
}

// volumesAt returns the chart volumes of water at t °C and the gauge pressure
// p [Pa], by inverting Open step by step.
func volumesAt(t, p float64) float64 {
	total := p + atm
	T := celsius(t)
	l, err := Drink{Carbonation: 1}.Liquid()
	if err != nil {
		return wrong
	}
	m := l.gasAt(T).solubility(total) * (total - l.VapourPressure(T))
	return Volumes(l.Carbonation(m))
}
