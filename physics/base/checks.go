package base

import (
	"math"

	"costrel/cite"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	panel := Disc{Radius: 25e-3, Thickness: 0.4e-3, Modulus: 3e9, Poisson: 0.38}
	under := func(f func(Plate) float64) func() float64 {
		return func() float64 {
			p, err := panel.Under(10e3)
			if err != nil {
				return math.NaN()
			}
			return f(p)
		}
	}
	life := func(f func(Life) float64) func() float64 {
		return func() float64 {
			l, err := FitLife(HandFailures())
			if err != nil {
				return math.NaN()
			}
			return f(l)
		}
	}
	return []cite.Check{
		{
			ID: "base.plate.deflection", Case: "clamped plate, radius 25 mm, 0.4 mm, 3 GPa, nu 0.38, 10 kPa: linear deflection", Source: "Timoshenko1959",
			Unit: "mm", Ours: under(func(p Plate) float64 { return p.Small * 1e3 }), Published: 3.26, Allowed: 0.005, Mark: cite.Regression,
			Note: "formula published, case worked for this project",
		},
		{
			ID: "base.plate.edge", Case: "the same, stress at the rim", Source: "Timoshenko1959",
			Unit: "MPa", Ours: under(func(p Plate) float64 { return p.Edge / 1e6 }), Published: 29.297, Allowed: 0.001, Mark: cite.Independent,
			Note: "by hand: 0.75 0.01 (25/0.4)²",
		},
		{
			ID: "base.plate.centre", Case: "the same, stress in the middle over that at the rim, (1 + nu)/2", Source: "Timoshenko1959",
			Unit: "1", Ours: under(func(p Plate) float64 { return p.Centre / p.Edge }), Published: 0.69, Allowed: 1e-9, Mark: cite.Independent,
		},
		{
			ID: "base.plate.large", Case: "the same, rest of w (1 + 0.488 (w/h)²) = w_linear with the large deflection put in", Source: "Timoshenko1959",
			Unit: "1", Ours: under(func(p Plate) float64 {
				x := p.Large / panel.Thickness
				return p.Large * (1 + 0.488*x*x) / p.Small
			}), Published: 1, Allowed: 1e-9, Mark: cite.Independent,
		},
		{
			ID: "base.strap", Case: "hemisphere of 49.5 mm, 0.30 mm, 4.29 bar(g), before the factor", Source: "Timoshenko1959",
			Unit: "MPa", Ours: func() float64 {
				s, err := StrapStress(4.29e5, 49.5e-3, 0.30e-3)
				if err != nil {
					return math.NaN()
				}
				return s.Hemisphere / 1e6
			}, Published: 35.3925, Allowed: 1e-4, Mark: cite.Independent, Note: "pR/2h by hand",
		},
		{
			ID: "base.sphere", Case: "perfect sphere, 32.5 mm, 0.30 mm, 3 GPa, nu 0.38", Source: "Zoelly1915",
			Unit: "MPa", Ours: func() float64 {
				s, err := Cap{Radius: 32.5e-3, Ring: 32.5e-3, Wall: 0.3e-3, Modulus: 3e9, Poisson: 0.38}.Snap()
				if err != nil {
					return math.NaN()
				}
				return s.Perfect / 1e6
			}, Published: 0.31910, Allowed: 5e-5, Mark: cite.Regression, Note: "formula published, case worked for this project",
		},
		{
			ID: "base.life.slope", Case: "least squares through 8, 8, 10, 12, 12 MPa", Source: "CommonPractice",
			Unit: "1/MPa", Ours: life(func(l Life) float64 { return l.B * 1e6 }), Published: 0.15, Allowed: 1e-9, Mark: cite.Independent,
			Note: "by hand: S_xy -2.4, S_xx 16",
		},
		{
			ID: "base.life.level", Case: "the same, log10 of seconds at no stress", Source: "CommonPractice",
			Unit: "1", Ours: life(func(l Life) float64 { return l.A }), Published: 4.74, Allowed: 1e-9, Mark: cite.Independent,
			Note: "by hand: 3.24 + 0.15 10",
		},
		{
			ID: "base.life.residual", Case: "the same, standard deviation of log10 t", Source: "CommonPractice",
			Unit: "1", Ours: life(func(l Life) float64 { return l.Residual }), Published: 0.0632456, Allowed: 1e-6, Mark: cite.Independent,
			Note: "by hand: sqrt(0.012/3)",
		},
	}
}

// HandFailures returns the five bottles of the hand-worked line: log10 t of
// 3.6, 3.5, 3.2, 3.0 and 2.9 at 8, 8, 10, 12 and 12 MPa.
func HandFailures() []Failure {
	out := []Failure{{8e6, 3.6}, {8e6, 3.5}, {10e6, 3.2}, {12e6, 3.0}, {12e6, 2.9}}
	for i := range out {
		out[i].Time = math.Pow(10, out[i].Time)
	}
	return out
}
