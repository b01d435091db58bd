package footprint

import (
	"math"

	"costrel/cite"
)

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	change := func(f func(Saved) float64) func() float64 {
		return func() float64 {
			s, err := Change(396e3, 0.3, 99e3, 0, Factors())
			if err != nil {
				return math.NaN()
			}
			return f(s) / 1e3
		}
	}
	return []cite.Check{
		{
			ID: "footprint.change", Case: "396 t of PET with 30 % recycled and 99 t of closures saved", Source: "Denkstatt2017", Unit: "tCO2e",
			Published: 838, Allowed: 0.6, Mark: cite.Regression, Ours: change(func(s Saved) float64 { return s.Total }),
		},
		{
			ID: "footprint.change.resin", Case: "the resin of it: 396 (0.7 * 2.15 + 0.3 * 0.45)", Source: "Denkstatt2017", Unit: "tCO2e",
			Published: 649.44, Allowed: 0.01, Mark: cite.Regression, Ours: change(func(s Saved) float64 { return s.Resin }),
		},
	}
}
