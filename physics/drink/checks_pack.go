package drink

import (
	"costrel/cite"
	"costrel/num/root"
	"costrel/unit"
)

// handChecks reproduces hand calculations with the textbook law.
func handChecks() []cite.Check {
	var out []cite.Check
	for _, r := range []struct{ t, bar float64 }{
		{4, 2.88}, {12, 3.67}, {20, 4.62}, {22, 4.88}, {25, 5.30}, {30, 6.05}, {38, 7.42}, {40, 7.79}, {50, 9.88},
	} {
		out = append(out, cite.Check{
			ID: label("drink.hand.4vol.%gC", r.t), Case: label("absolute CO2 pressure of 4 vol at %g °C by the textbook law", r.t), Source: "Sander2023",
			Unit: "bar", Ours: func() float64 {
				p, err := Drink{Carbonation: FromVolumes(4), Law: "vant-hoff"}.Open(celsius(r.t), unit.Atm)
				if err != nil {
					return wrong
				}
				return p.CO2 / 1e5
			}, Published: r.bar, Allowed: 0.006, Mark: cite.Regression, Note: "worked by hand; 22.26 L/mol",
		})
	}
	for _, r := range []struct{ volumes, sugar, t, bar float64 }{
		{4.1, 92, 4, 2.11}, {4.1, 92, 22, 4.29}, {4.1, 92, 38, 7.04}, {4.1, 92, 45, 8.53}, {3.9, 95, 22, 4.04}, {3.9, 95, 38, 6.66},
	} {
		out = append(out, cite.Check{
			ID: label("drink.hand.sugar%g.%gC", r.sugar, r.t), Case: label("gauge pressure of %g vol with %g g/L of sugar at %g °C by the textbook law and 0.06 %% per g/L", r.volumes, r.sugar, r.t), Source: "CommonPractice",
			Unit: "bar", Ours: func() float64 {
				p, err := Drink{
					Carbonation: FromVolumes(r.volumes), Basis: Mass, Sugar: r.sugar,
					Law: "vant-hoff", Rule: Linear, SugarSlope: HandSugarSlope,
				}.Open(celsius(r.t), unit.Atm)
				if err != nil {
					return wrong
				}
				return float64(p.Gauge) / 1e5
			}, Published: r.bar, Allowed: 0.01, Mark: cite.Regression, Note: "worked by hand",
		})
	}
	return out
}

// Two bottles filled with water of 4 volumes, equilibrated closed at 22 °C.
// Fill volumes at 20 °C, no thermal expansion of the wall.
func smallPack() Pack { return checkPack(0.5e-3, 0.522e-3, 32.5e-3, 0.30e-3) }
func largePack() Pack { return checkPack(2e-3, 2.06e-3, 54e-3, 0.24e-3) }

func checkPack(fill, brimful, radius, wall float64) Pack {
	// Closed cylinder g = s (R/t)(2.5 - 2 nu)/E with s = 0.70 for shoulder and
	// base, nu = 0.38, E = 4.2 GPa.
	growth := 0.70 * radius / wall * (2.5 - 2*0.38) / 4.2e9
	return Pack{Fill: fill, Brimful: brimful, FillT: celsius(20), ReferenceT: celsius(22), Ambient: unit.Atm, Air: 0.3, Growth: growth}
}

func closedChecks() []cite.Check {
	state := func(p Pack, t float64) (State, error) {
		l, err := Drink{Carbonation: FromVolumes(4), Basis: Mass}.Liquid()
		if err != nil {
			return State{}, err
		}
		return l.Pressure(p, celsius(t))
	}
	gauge := func(p Pack, t float64) func() float64 {
		return func() float64 {
			s, err := state(p, t)
			if err != nil {
				return wrong
			}
			return float64(s.Gauge) / 1e5
		}
	}
	const note = "a second program of the same scheme; radius and the temperature of the fill volume were not all stated there"
	var out []cite.Check
	for _, r := range []struct{ t, bar float64 }{
		{4, 2.04}, {10, 2.72}, {20, 4.00}, {22, 4.28}, {25, 4.71}, {26, 4.85}, {30, 5.44}, {38, 6.67}, {50, 8.59}, {60, 10.21},
	} {
		out = append(out, cite.Check{
			ID: label("drink.closed.500mL.%gC", r.t), Case: label("closed 0.5 L bottle, 4 vol, gauge pressure at %g °C", r.t), Source: "PlummerBusenberg1982",
			Unit: "bar", Ours: gauge(smallPack(), r.t), Published: r.bar, Allowed: 0.025, Mark: cite.Regression, Note: note,
		})
	}
	for _, r := range []struct{ t, bar float64 }{{4, 2.01}, {20, 3.96}, {22, 4.23}, {26, 4.78}, {38, 6.51}, {50, 8.27}, {60, 9.71}} {
		out = append(out, cite.Check{
			ID: label("drink.closed.2L.%gC", r.t), Case: label("closed 2 L bottle, 4 vol, gauge pressure at %g °C", r.t), Source: "PlummerBusenberg1982",
			Unit: "bar", Ours: gauge(largePack(), r.t), Published: r.bar, Allowed: 0.02, Mark: cite.Regression, Note: note,
		})
	}
	for _, r := range []struct {
		id   string
		pack Pack
		t    float64
	}{{"500mL", smallPack(), 25.8}, {"2L", largePack(), 26.3}} {
		out = append(out, cite.Check{
			ID: "drink.closed." + r.id + ".70psi", Case: "temperature at which the closed bottle of 4 vol shows 70 psi, " + r.id, Source: "CommonPractice",
			Unit: "°C", Ours: func() float64 {
				t, err := root.Brent(func(t float64) float64 { return gauge(r.pack, t)() - 70*psi/1e5 }, 5, 50, 1e-4)
				if err != nil {
					return wrong
				}
				return t
			}, Published: r.t, Allowed: 0.2, Mark: cite.Regression, Note: "\"about 70 psi\" is the trade's figure for a soda",
		})
	}
	for _, r := range []struct {
		id      string
		pack    Pack
		percent float64
	}{{"500mL", smallPack(), 1.32}, {"2L", largePack(), 2.76}} {
		out = append(out, cite.Check{
			ID: "drink.closed." + r.id + ".growth", Case: "elastic growth in volume of the closed bottle of 4 vol at 22 °C, " + r.id, Source: "PlummerBusenberg1982",
			Unit: "%", Ours: func() float64 {
				s, err := state(r.pack, 22)
				if err != nil {
					return wrong
				}
				return 100 * (s.Bottle/r.pack.Brimful - 1)
			}, Published: r.percent, Allowed: 0.03, Mark: cite.Regression, Note: note,
		})
	}
	return out
}
