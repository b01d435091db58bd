package permeation

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/physics/drink"
	"costrel/unit"
)

// Units of the trade, SI.
const (
	cc  = 1e-6 / unit.MolarVolumeSTP // cm³ of ideal gas at 0 °C and 1 atm [mol]
	day = 86400.0
	atm = float64(unit.Atm)
	// trade is cc·mm/(m²·d·atm).
	trade = cc * 1e-3 / (day * atm)
)

// halfLitre is a 23 g bottle of 522 mL: oriented zones, then gate and finish.
var halfLitre = []struct {
	area, thickness float64
	amorphous       bool
}{
	{0.0285, 0.30e-3, false},
	{0.0060, 0.38e-3, false},
	{0.0055, 0.43e-3, false},
	{0.0005, 1.6e-3, true},
	{0.0015, 1.9e-3, true},
}

// oxygenWall returns the conductance of the half-litre wall for oxygen.
func oxygenWall(t unit.Temperature) (float64, error) {
	wall, err := Named("wall")
	if err != nil {
		return 0, err
	}
	neck, err := Named("amorphous")
	if err != nil {
		return 0, err
	}
	var zones []Zone
	for _, z := range halfLitre {
		p := wall.Oxygen.Permeability.At(t)
		if z.amorphous {
			p = neck.Oxygen.Permeability.At(t)
		}
		zones = append(zones, Zone{Area: z.area, Thickness: z.thickness, Permeability: p})
	}
	return Conductance(zones)
}

func steadyChecks() []cite.Check {
	var out []cite.Check
	conversion := func(id, text, u string, want float64, mark cite.Mark, note string) {
		out = append(out, cite.Check{
			ID: "permeation.unit." + id, Case: "1 " + text, Source: "SI2019", Unit: u, Published: want, Allowed: 1e-4, Relative: true, Mark: mark, Note: note,
			Ours: func() float64 {
				v, err := unit.Parse(unit.Permeability, "1 "+text)
				if err != nil {
					return math.NaN()
				}
				if w, ok := unit.Find(unit.Permeability, u); ok {
					return v.SI / w.Scale
				}
				return math.NaN()
			},
		})
	}
	conversion("barrer", "Barrer", "cc·mm/(m²·d·atm)", 65.664, cite.Independent, "from the definition, 1e-10 * 10 * 1e4 * 86400 * 76; the 65.70 found in tables follows from a rounded 3.348e-16 mol·m/(m²·s·Pa)")
	conversion("mil", "cc·mil/(100 in²·d·atm)", "cc·mm/(m²·d·atm)", 0.39370, cite.Independent, "0.0254/0.064516")
	conversion("pascal", "cc·cm/(cm²·s·Pa)", "cc·mm/(m²·d·atm)", 87.54e13, cite.Independent, "1e-13 of it is 87.54")
	conversion("si", "cc·mm/(m²·d·atm)", "mol·m/(m²·s·Pa)", 5.0963e-18, cite.Independent, "ideal molar volume 22.414 L/mol")

	out = append(out, cite.Check{
		ID: "permeation.loss.lumped", Case: "500 mL of water under 20 mL, wall 0.04 m² of 0.34 mm with 3.659 cc·mm/(m²·d·atm), 22 °C, 84 d", Source: "PlummerBusenberg1982",
		Unit: "%", Published: 8.026, Allowed: 0.02, Mark: cite.Independent,
		Note: "analytic limit of a shelf-life model without wall capacity, growth and closure; the source holds the solubility",
		Ours: func() float64 {
			t := unit.Celsius(22)
			c, err := Capacity(500e-6*drink.WaterDensity(t), drink.HenryCO2(t), 20e-6, t)
			if err != nil {
				return math.NaN()
			}
			k, err := Conductance([]Zone{{Area: 0.04, Thickness: 0.34e-3, Permeability: 3.659 * trade}})
			if err != nil {
				return math.NaN()
			}
			return 100 * cite.Or(LossExponential(k, c, 84*day))
		},
	})

	oxygen := func(id, what string, want float64, f func() float64) {
		out = append(out, cite.Check{
			ID: "permeation.oxygen." + id, Case: "half-litre bottle of 23 g in air at 23 °C: oxygen through the " + what, Source: "BrewingScience2011",
			Unit: "cm³/d", Published: want, Allowed: 0.01, Relative: true, Mark: cite.Regression, Note: "the source holds the activation energy", Ours: f,
		})
	}
	perDay := func(k float64, err error) float64 {
		if err != nil {
			return math.NaN()
		}
		return cite.Or(Transmission(k, 0.2095*atm, 0)) / cc * day
	}
	oxygen("wall", "wall", 0.0458, func() float64 { return perDay(oxygenWall(unit.Celsius(23))) })
	oxygen("closure", "closure of 0.035 cm³/(d·atm)", 0.0073, func() float64 { return perDay(0.035*cc/(day*atm), nil) })

	out = append(out, cite.Check{
		ID: "permeation.water.bottle", Case: "0.03 m² of 0.10 mm, 20 °C, 60 % RH, 5 years: water lost", Source: "BottledWater2016",
		Unit: "g", Published: 60, Allowed: 12, Mark: cite.Independent, Note: "one bottle in a basement; the permeability was set knowing it, so the order of size is all it shows",
		Ours: waterLost,
	}, cite.Check{
		ID: "permeation.water.model", Case: "the same against a second program", Source: "BottledWater2016",
		Unit: "g", Published: 52, Allowed: 0.5, Mark: cite.Regression, Ours: waterLost,
	})

	for _, r := range []struct {
		phi, alpha, want float64
	}{{0.25, 4, 0.500}, {0.20, 3, 0.615}, {0.20, 4, 0.571}, {0.30, 3, 0.483}, {0.30, 4, 0.437}, {0.35, 3, 0.426}, {0.35, 4, 0.382}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("permeation.nielsen.%g.%g", 100*r.phi, r.alpha), Case: fmt.Sprintf("crystals, volume fraction %g, aspect ratio %g: P/P0", r.phi, r.alpha),
			Source: "Nielsen1967", Unit: "1", Published: r.want, Allowed: 0.001, Mark: cite.Independent, Note: "arithmetic of the published formula",
			Ours: func() float64 { return cite.Or(Nielsen(r.phi, r.alpha)) },
		})
	}
	for _, r := range []struct{ w, alpha, want float64 }{{2, 27, 1.33}, {5, 27, 1.85}, {8, 27, 2.41}, {10, 27, 2.80}, {5, 6, 1.23}, {10, 6, 1.50}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("permeation.blend.%g.%g", r.w, r.alpha), Case: fmt.Sprintf("%g %% by mass of an aromatic polyamide, 1220 in 1360 kg/m³, aspect ratio %g: improvement", r.w, r.alpha),
			Source: "Nielsen1967", Unit: "1", Published: r.want, Allowed: 0.006, Mark: cite.Regression, Note: "densities from memory",
			Ours: func() float64 {
				phi, err := VolumeFraction(r.w/100, 1220, 1360)
				if err != nil {
					return math.NaN()
				}
				return 1 / cite.Or(Nielsen(phi, r.alpha))
			},
		})
	}
	for _, r := range []struct{ bif, want float64 }{{2, 6.33}, {5, 1.58}, {10, 0.70}, {50, 0.129}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("permeation.coating.%g", r.bif), Case: fmt.Sprintf("wall of 0.30 mm with 1.9 cc·mm/(m²·d·atm): permeance of a coating for a factor of %g", r.bif),
			Source: "CommonPractice", Unit: "cc/(m²·d·atm)", Published: r.want, Allowed: 0.006, Mark: cite.Regression,
			Ours: func() float64 { return cite.Or(CoatingFor(1.9*trade, 0.30e-3, r.bif)) / (cc / (day * atm)) },
		})
	}
	return append(out, dualChecks()...)
}

func waterLost() float64 {
	m, err := Named("wall")
	if err != nil {
		return math.NaN()
	}
	t := unit.Celsius(20)
	k, err := Conductance([]Zone{{Area: 0.03, Thickness: 0.10e-3, Permeability: m.Water.At(t)}})
	if err != nil {
		return math.NaN()
	}
	return cite.Or(WaterRate(k, float64(drink.VapourPressure(t)), 1, 0.6)) * 5 * 365.25 * day * 1e3
}

func dualChecks() []cite.Check {
	var out []cite.Check
	row := func(material string, t, p, want, allowed float64) {
		out = append(out, cite.Check{
			ID:     fmt.Sprintf("permeation.dualmode.%s.%gatm.%gC", material, p, t),
			Case:   fmt.Sprintf("CO2 in %s PET, %g atm, %g °C: permeability", material, p, t),
			Source: "KorosPaul1978", Unit: "cc·mm/(m²·d·atm)", Published: want, Allowed: allowed, Mark: cite.Regression,
			Note: "the source holds the equation, the parameters are chosen",
			Ours: func() float64 {
				m, err := Named(material)
				if err != nil {
					return math.NaN()
				}
				return cite.Or(m.CO2.Permeability(unit.Celsius(t), p*atm)) / trade
			},
		})
	}
	row("wall", 25, 0, 6.05, 0.01)
	row("wall", 25, 1, 5.57, 0.01)
	row("wall", 25, 3, 5.08, 0.01)
	row("wall", 25, 5, 4.84, 0.01)
	row("wall", 5, 5, 2.13, 0.01)
	row("wall", 22, 5, 4.32, 0.01)
	row("wall", 38, 5, 7.65, 0.02)
	row("amorphous", 25, 0, 26.2, 0.1)
	row("amorphous", 25, 1, 24.1, 0.1)
	row("amorphous", 25, 5, 20.9, 0.1)
	return append(out, cite.Check{
		ID: "permeation.dualmode.sorbed", Case: "CO2 held by the wall under 5 bar at 22 °C, gas volume per volume", Source: "KorosPaul1978", Unit: "cc/cm³",
		Published: 4.4, Allowed: 0.05, Mark: cite.Regression,
		Ours: func() float64 {
			m, err := Named("wall")
			if err != nil {
				return math.NaN()
			}
			return m.CO2.At(unit.Celsius(22)).Concentration(5e5) * unit.MolarVolumeSTP
		},
	})
}
