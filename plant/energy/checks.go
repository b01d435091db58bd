package energy

import (
	"math"

	"costrel/cite"
)

const kWh = 3.6e6

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	return []cite.Check{
		{
			ID: "energy.oven.ideal", Case: "heat per kilogram of PET from 20 to 105 °C, enthalpy rise 125 kJ/kg", Source: "CommonPractice",
			Unit: "kWh/kg", Published: 0.035, Allowed: 0.0005, Mark: cite.Regression, Note: "mean of 123-128 kJ/kg",
			Ours: func() float64 { return cite.Or(Ideal(1, 125e3)) / kWh },
		},
		{
			ID: "energy.oven.real", Case: "oven, electric, per kilogram at the efficiency of the card", Source: "CommonPractice",
			Unit: "kWh/kg", Published: 0.175, Allowed: 0.075, Mark: cite.Practice, Note: "the middle of 0.10-0.25 kWh/kg and half its width: practice (from memory) is that wide",
			Ours: func() float64 {
				return cite.Or(Oven(cite.Or(Ideal(1, 125e3)), Machines().Value("oven.efficiency"))) / kWh
			},
		},
		{
			ID: "energy.air.halflitre", Case: "16.8 NL a bottle at 0.188 kWh/Nm³, 1000 bottles", Source: "MoranShapiro2006",
			Unit: "kWh", Published: 3.2, Allowed: 0.05, Mark: cite.Regression,
			Ours: func() float64 {
				l, err := Factor("air", "air", 16.8e-3, 0.188*kWh, 0.188*kWh, 0.188*kWh, "MoranShapiro2006")
				if err != nil {
					return math.NaN()
				}
				s, err := Sum(l)
				return cite.Or(PerThousand(s.Energy), err) / kWh
			},
		},
	}
}
