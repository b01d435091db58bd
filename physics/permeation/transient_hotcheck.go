package permeation

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

// juice is half a litre of 11 °Brix filled at 85 °C in 520 mL, heat-set, 2
// mL/kPa, 1 % shrinkage, kept at 23 °C, that consumes oxygen within days. Area
// over thickness of its wall is 0.109 m²/mm.
func juice() (*Life, error) {
	t := unit.Celsius(23)
	hot := unit.Celsius(85)
	d := drink.Drink{Sugar: 110 * drink.SucroseDensity(unit.Celsius(20), 0.11) / 1000, Oxygen: 1e-3, Nitrogen: 4.4e-3}
	l, err := d.Liquid()
	if err != nil {
		return nil, err
	}
	wall, err := Named("heat-set")
	if err != nil {
		return nil, err
	}
	wall.Water = Arrhenius{0.105e-3 * 1e-3 / (day * 1e3), 5e3, wall.Water.Reference} // the stretched wall
	gas := (atm - float64(drink.VapourPressure(hot))) * 20e-6 / (unit.GasConstant * float64(hot))
	c := drink.Contents{
		Liquid:   500e-6 * l.Density(hot),
		Oxygen:   drink.AirOxygen*gas + 1e-3*500e-6/drink.MolarMassOxygen,
		Nitrogen: (1-drink.AirOxygen)*gas + 4.4e-3*500e-6/drink.MolarMassNitrogen,
	}
	const perDay = cc / (day * atm)
	return Case{
		Liquid: l, Contents: &c, Fill: drink.Pack{Brimful: 520e-6 * 0.99},
		Zones:  []WallZone{{Name: "all", Area: 0.0392, Thickness: 0.36e-3, Material: wall}},
		Cap:    Cap{CO2: 0.11 * perDay, Oxygen: 0.035 * perDay, Nitrogen: 0.012 * perDay, Water: 2e-5 / (day * 1e3) * 1e-3, Reference: unit.Celsius(23), Energy: 32e3},
		Growth: Growth{Panel: Compliance(2e-9)},
		Uptake: Uptake{Rate: 0.3 / day},
		Lane:   climate.Constant("store", t, 0.5, 364*day),
	}.Run(0, Options{})
}

func hotChecks() []cite.Check {
	at := func(days float64, f func(Point) float64) func() float64 {
		return func() float64 {
			l, err := juice()
			if err != nil {
				return math.NaN()
			}
			p, err := l.At(days * day)
			return cite.Or(f(p), err)
		}
	}
	row := func(id, what, u string, want, allowed float64, f func() float64) cite.Check {
		return cite.Check{
			ID: "permeation.juice." + id, Case: "juice of 11 °Brix, 500 in 520 mL at 85 °C, heat-set, 2 mL/kPa, shrinkage 1 %, 23 °C: " + what, Source: "CommonPractice", Unit: u,
			Published: want, Allowed: allowed, Mark: cite.Regression, Note: secondProgram + "; the zones of its wall are not stated, one of the same area over thickness stands for them", Ours: f,
		}
	}
	vacuum := func(p Point) float64 { return -float64(p.Gauge) / 100 }
	ingress := func(p Point) float64 { return p.Ingress / 0.5e-3 * 1e3 }
	out := []cite.Check{
		row("vacuum.0d", "vacuum with the gas dissolved", "mbar", 133, 1.5, at(0, vacuum)),
		row("vacuum.7d", "vacuum after 7 d, the oxygen consumed", "mbar", 139, 2, at(7, vacuum)),
		row("vacuum.26wk", "vacuum after 26 weeks", "mbar", 154, 3, at(182, vacuum)),
		row("vacuum.52wk", "vacuum after 52 weeks, by loss of water", "mbar", 169, 4, at(364, vacuum)),
		row("water.26wk", "water lost in 26 weeks", "g", 2.84, 0.06, at(182, func(p Point) float64 { return p.WaterLost * 1e3 })),
		row("cap.26wk", "oxygen through the closure in 26 weeks", "mg/L", 3.7, 0.15, at(182, func(p Point) float64 { return p.IngressCap / 0.5e-3 * 1e3 })),
	}
	for _, r := range []struct{ days, want float64 }{{7, 0.9}, {28, 3.4}, {84, 10.2}, {182, 22.2}, {364, 44.6}} {
		out = append(out, row(fmt.Sprintf("oxygen.%gd", r.days), fmt.Sprintf("oxygen come in after %g d, consumed at 0.3 a day", r.days), "mg/L", r.want, 0.15+0.055*r.want, at(r.days, ingress)))
	}
	return out
}
