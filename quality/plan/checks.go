package plan

import (
	"math"

	"costrel/cite"
	"costrel/quality/stat"
)

// Checks returns the published checks of the package.
func Checks() []cite.Check {
	return []cite.Check{
		{
			ID: "plan.shows.12", Case: "Failing fraction that 12 pieces without failure still allow, 95 %", Source: "ClopperPearson1934", Unit: "%", Published: 22.1, Allowed: 0.05001, Mark: cite.Independent, Note: "one decimal",
			Ours: func() float64 {
				r, err := Shows(12, 0.95)
				if err != nil {
					return math.NaN()
				}
				return 100 * (1 - r)
			},
		},
		{
			ID: "plan.pieces.bound", Case: "Pieces for a mean 2.737 s inside the limit, 95/95", Source: "Owen1968", Unit: "1", Published: 12, Allowed: 0, Mark: cite.Independent, Note: "the factor of 12 is 2.736, that of 11 2.815",
			Ours: func() float64 {
				n, ok, err := Pieces(Bound, stat.Usual(), 2.737)
				if err != nil || !ok {
					return math.NaN()
				}
				return float64(n)
			},
		},
	}
}
