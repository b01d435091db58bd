package permeation

import (
	"math"

	"costrel/cite"
	"costrel/num/root"
	"costrel/unit"
)

// filmChecks hold the cells against analytic answers of diffusion.
func filmChecks() []cite.Check {
	const (
		L = 0.3e-3
		D = 2e-13
		S = 1.2e-4
		p = 5e5
	)
	henry := Film{Sorption: Sorption{Henry: S, Diffusivity: D}, Thickness: L, Inside: p, Cells: 60}
	row := func(id, what, source, u string, want, allowed float64, relative bool, mark cite.Mark, note string, f func() float64) cite.Check {
		return cite.Check{ID: "permeation.film." + id, Case: what, Source: source, Unit: u, Published: want, Allowed: allowed, Relative: relative, Mark: mark, Note: note, Ours: f}
	}
	lag := L * L / (6 * D)
	series := func(t float64) float64 {
		x := D * t / (L * L)
		s := x - 1./6
		for n := 1.0; n < 50; n++ {
			sign := 1.0
			if math.Mod(n, 2) == 1 {
				sign = -1
			}
			s -= 2 / (math.Pi * math.Pi) * sign / (n * n) * math.Exp(-x*n*n*math.Pi*math.Pi)
		}
		return s * L * S * p
	}
	dual := func() (Film, error) {
		m, err := Named("wall")
		return Film{Sorption: m.CO2.At(unit.Celsius(22)), Thickness: 0.30e-3, Inside: 5e5, Cells: 60}, err
	}
	// through returns the steady permeability [cc·mm/(m²·d·bar)] of 0.27 mm
	// that dissolves 1.7 volumes a bar.
	through := func(d float64) func() float64 {
		return func() float64 {
			const wall, bar = 0.27e-3, 1e5
			f := Film{Sorption: Sorption{Henry: 1.7 / unit.MolarVolumeSTP / bar, Diffusivity: d}, Thickness: wall, Inside: 4 * bar}
			s, err := f.Run([]float64{10 * wall * wall / (6 * d)})
			if err != nil {
				return math.NaN()
			}
			return s[0].Flux * wall / (4 * bar) * day * bar * 1e3 / cc
		}
	}
	return []cite.Check{
		row("trap", "2e-13 m²/s, 1.7 m³/(m³·bar), 270 µm: permeability implied", "CommonPractice", "cc·mm/(m²·d·bar)", 29, 0.02, true, cite.Regression,
			"a pair of values that circulates for cola bottles; it loses 3 % a week, about seven times too much for an oriented wall: not for use", through(2e-13)),
		row("trap.right", "the same with 2.7e-14 m²/s", "CommonPractice", "cc·mm/(m²·d·bar)", 4, 0.02, true, cite.Regression,
			"what 15 % loss of a 2 L bottle in 26 weeks asks for", through(2.7e-14)),
		row("trap.week", "the pair of 2e-13 m²/s in a 1.5 L bottle of 0.07 m², 4 bar over 8 g/L: lost in a week once the flow is steady", "CommonPractice", "%", 3, 0.5, false, cite.Regression,
			"printed as 3 % without its pressure, so half a per cent is allowed", func() float64 {
				const area, wall, content = 0.07, 0.27, 1.5 * 8 / 44.0095 // m², mm, mol
				return 100 * through(2e-13)() / wall * area * 4 * 7 * 1e-6 / unit.MolarVolumeSTP / content
			}),
		row("trap.lag", "0.27 mm with 2.7e-14 m²/s: time lag", "CommonPractice", "d", 6, 1, false, cite.Regression,
			"printed as about 6 d without its wall; 0.29 mm gives 6.0 d", func() float64 {
				f := Film{Sorption: Sorption{Henry: 1.7 / unit.MolarVolumeSTP / 1e5, Diffusivity: 2.7e-14}, Thickness: 0.27e-3, Inside: 4e5}
				return cite.Or(f.Lag()) / day
			}),
		row("lag", "Henry, 0.3 mm, 2e-13 m²/s: time lag", "Crank1975", "s", lag, 1e-3, true, cite.Independent, "analytic: L²/6D", func() float64 { return cite.Or(henry.Lag()) }),
		row("series", "the same, 5 bar, 1.2e-4 mol/(m³·Pa): passed after two lags", "Crank1975", "mol/m²", series(2*lag), 1e-3, true, cite.Independent, "analytic series", func() float64 {
			s, err := henry.Run([]float64{2 * lag})
			if err != nil {
				return math.NaN()
			}
			return s[0].Passed
		}),
		row("series.value", "the same against the value worked out by hand", "Crank1975", "mol/m²", 3.1359e-3, 1e-3, true, cite.Regression, "", func() float64 { return series(2 * lag) }),
		row("half", "sorption from both sides: D t/L² at half of the equilibrium", "Crank1975", "1", 0.04919, 1e-3, true, cite.Independent, "analytic", func() float64 {
			f := Film{Sorption: henry.Sorption, Thickness: L, Inside: p, Outside: p, Cells: 60}
			t, err := root.Brent(func(t float64) float64 {
				s, err := f.Run([]float64{t})
				if err != nil {
					return math.NaN()
				}
				return s[0].Held/(L*S*p) - 0.5
			}, 0.01*L*L/D, 0.1*L*L/D, 1)
			return cite.Or(t*D/(L*L), err)
		}),
		row("steady", "dual mode, wall at 22 °C, 5 bar: steady flux over D (kD + F C'H b/(1 + b p)) p/L", "KorosPaul1978", "1", 1, 1e-6, false, cite.Independent, "analytic", func() float64 {
			f, err := dual()
			if err != nil {
				return math.NaN()
			}
			s, err := f.Run([]float64{200 * day})
			if err != nil {
				return math.NaN()
			}
			return s[0].Flux / (f.Sorption.Permeability(5e5) * 5e5 / f.Thickness)
		}),
		row("dual.lag", "the same: time lag", "PaulKoros1976", "d", 3.96, 0.02, false, cite.Regression, "the value is from a second program, both by the slope and by the integral", func() float64 {
			f, err := dual()
			if err != nil {
				return math.NaN()
			}
			return cite.Or(f.Lag()) / day
		}),
		row("dual.integral", "the same: time lag less the integral of x C(x)/J over the steady wall", "Frisch1957", "d", 0, 0.01, false, cite.Independent, "analytic", func() float64 {
			f, err := dual()
			if err != nil {
				return math.NaN()
			}
			return (cite.Or(f.Lag()) - steadyLag(f)) / day
		}),
		row("dual.90", "the same: time to 90 % of the steady flux", "PaulKoros1976", "d", 6.6, 0.1, false, cite.Regression, "the value is from a second program", func() float64 {
			f, err := dual()
			if err != nil {
				return math.NaN()
			}
			end := f.Sorption.Permeability(5e5) * 5e5 / f.Thickness
			t, err := root.Brent(func(t float64) float64 {
				s, err := f.Run([]float64{t})
				if err != nil {
					return math.NaN()
				}
				return s[0].Flux/end - 0.9
			}, day, 20*day, 10)
			return cite.Or(t, err) / day
		}),
	}
}

// steadyLag is the lag of a dual-mode film that starts empty, from its steady
// profile: the integral of x C(x) dx over J L, with theta linear in x.
func steadyLag(f Film) float64 {
	s := f.Sorption
	top := s.Permeability(f.Inside) / s.Diffusivity * f.Inside
	const n = 2000
	sum := 0.0
	for i := range n {
		x := (float64(i) + 0.5) / n
		target := top * (1 - x)
		p, err := root.Brent(func(p float64) float64 { return s.Permeability(p)/s.Diffusivity*p - target }, 0, f.Inside, 1e-6)
		if err != nil {
			return math.NaN()
		}
		sum += x * s.Concentration(p) / n
	}
	return sum * f.Thickness * f.Thickness / (s.Diffusivity * top)
}
