package pallet

import (
	"math"

	"costrel/cite"
)

// sorrel is a stack of 1.75 L packs: 84 a layer, 5 layers, 2 pallets.
var sorrel = Stack{Pack: 1.852, PerLayer: 84, Layers: 5, Pallets: 2, Pallet: 25, Safety: 1.5}

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	load := func(f func(Load) float64) func() float64 {
		return func() float64 {
			l, err := sorrel.Bottom()
			if err != nil {
				return math.NaN()
			}
			return f(l)
		}
	}
	drop := func(m, h float64, speed bool) func() float64 {
		return func() float64 {
			e, v, err := Drop(m, h)
			switch {
			case err != nil:
				return math.NaN()
			case speed:
				return v
			}
			return e
		}
	}
	return []cite.Check{
		{
			ID: "pallet.stack.force", Case: "pack of 1.852 kg, 84 a layer, 5 layers, 2 pallets of 25 kg", Source: "Brandau201304", Unit: "N",
			Published: 166, Allowed: 0.5, Mark: cite.Regression, Note: "the source gives the method, not this case",
			Ours: load(func(l Load) float64 { return l.Force }),
		},
		{
			ID: "pallet.stack.required", Case: "the same times 1.5", Source: "Brandau201304", Unit: "N",
			Published: 250, Allowed: 0.5, Mark: cite.Regression, Ours: load(func(l Load) float64 { return l.Required }),
		},
		{
			ID: "pallet.drop.pack", Case: "filled 2 L pack of 2.06 kg from 2 m", Source: "CommonPractice", Unit: "J",
			Published: 40.4, Allowed: 0.05, Mark: cite.Regression, Ours: drop(2.06, 2, false),
		},
		{
			ID: "pallet.drop.speed", Case: "impact speed from 2 m", Source: "CommonPractice", Unit: "m/s",
			Published: 6.3, Allowed: 0.05, Mark: cite.Regression, Ours: drop(2.06, 2, true),
		},
		{
			ID: "pallet.drop.ball", Case: "ball of 286 g from 762 mm on a closure", Source: "CommonPractice", Unit: "J",
			Published: 2.14, Allowed: 0.005, Mark: cite.Regression, Ours: drop(0.286, 0.762, false),
		},
	}
}
