package inject

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/physics/resin"
	"costrel/unit"
)

// Checks returns the table of published checks of this package. A computation
// that fails gives NaN, which fails its row.
func Checks() []cite.Check {
	c := unit.Celsius
	var out []cite.Check
	for _, r := range []struct{ wall, mean75, mean110, mid110 float64 }{
		{2.0, 5.6, 3.6, 5.6},
		{2.5, 8.7, 5.6, 8.8},
		{3.0, 12.5, 8.1, 12.6},
		{3.5, 17.1, 11.0, 17.2},
		{4.0, 22.3, 14.3, 22.5},
		{4.5, 28.2, 18.1, 28.4},
	} {
		k := DefaultCooling(r.wall * 1e-3)
		for _, q := range []struct {
			id, text string
			ours     func() float64
			want     float64
		}{
			{"mean75", "mean 75 °C", func() float64 { return cite.Or(k.ToMean(c(75))) }, r.mean75},
			{"mean110", "mean 110 °C", func() float64 { return cite.Or(k.ToMean(c(110))) }, r.mean110},
			{"middle110", "middle 110 °C", func() float64 { return cite.Or(k.ToMiddle(c(110))) }, r.mid110},
		} {
			out = append(out, cite.Check{
				ID: fmt.Sprintf("inject.cool.%gmm.%s", r.wall, q.id), Case: fmt.Sprintf("cooling of a wall of %g mm from 280 °C between faces of 12 °C to %s", r.wall, q.text), Source: "BallmanShusman1959",
				Unit: "s", Ours: q.ours, Published: q.want, Allowed: 0.06, Mark: cite.Regression, Note: "formula from memory, 9e-8 m²/s; table reckoned by hand",
			})
		}
	}
	rate := func(t, f float64) float64 { return cite.Or(AldehydeRate(c(t), f)) * 60 * 1e6 }
	for _, r := range []struct{ t, ppm, allowed float64 }{{270, 3.3, 0.06}, {280, 6.2, 0.06}, {290, 11.4, 0.1}, {300, 20.4, 0.1}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("inject.aldehyde.%.0fC", r.t), Case: fmt.Sprintf("acetaldehyde made in the melt at %.0f °C, resin factor 1", r.t), Source: "Halek1986",
			Unit: "ppm/min", Ours: func() float64 { return rate(r.t, 1) }, Published: r.ppm, Allowed: r.allowed, Mark: cite.Regression,
			Note: "constants published, unit of the pre-factor inferred",
		})
	}
	out = append(out, []cite.Check{
		{
			ID: "inject.cool.simulated", Case: "cooling of a wall of 3 mm from 280 °C to a mean of 75 °C by finite volumes, against the first term of the series", Source: "BallmanShusman1959",
			Unit: "s", Ours: func() float64 {
				p, err := DefaultCooling(3e-3).Simulate(c(75))
				return cite.Or(p.Time, err)
			}, Published: 12.54, Allowed: 0.01, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "inject.cool.middle", Case: "middle of a plate when its mean has fallen to 75 °C, against pi/2 of the mean's way", Source: "CarslawJaeger1959",
			Unit: "°C", Ours: func() float64 {
				p, err := DefaultCooling(3e-3).Simulate(c(75))
				return cite.Or(p.Middle.Celsius(), err)
			}, Published: 12 + math.Pi/2*63, Allowed: 0.5, Mark: cite.Independent,
		},
		{
			ID: "inject.aldehyde.ratio", Case: "acetaldehyde at 300 °C over that at 280 °C", Source: "Halek1986",
			Unit: "1", Ours: func() float64 { return rate(300, 1) / rate(280, 1) }, Published: 3.29, Allowed: 0.01, Mark: cite.Regression,
		},
		{
			ID: "inject.aldehyde.cross", Case: "temperature where the two branches cross, against melting", Source: "Halek1986",
			Unit: "°C", Ours: func() float64 {
				a := deck.Card("aldehyde")
				e1, e2 := a.Value("activation_melt"), a.Value("activation_solid")
				return (e1-e2)/(unit.GasConstant*math.Log(a.Value("factor_melt")/a.Value("factor_solid"))) - 273.15
			}, Published: 252, Allowed: 4, Mark: cite.Independent, Note: "the abstract says that the law changes at melting; melting peaks read lie at 252 to 256 °C",
		},
		{
			ID: "inject.iv.50ppm", Case: "viscosity of the preform, resin of 0.80 dL/g with 50 ppm of water", Source: "PolymerHandbook1999",
			Unit: "dL/g", Ours: func() float64 {
				g, err := resin.Find("pet-carbonated")
				if err != nil {
					return math.NaN()
				}
				r, _, err := Viscosity(g, 0.080, 50e-6)
				return cite.Or(10*r.Value, err)
			}, Published: 0.760, Allowed: 0.0006, Mark: cite.Regression, Note: "bound by stoichiometry",
		},
		{
			ID: "inject.clamp.28mm", Case: "clamp force of one cavity with a ledge of 33 mm, against 2.2 to 3 t in practice", Source: "CommonPractice",
			Unit: "t", Ours: func() float64 {
				r, err := Clamp(0.033, 1)
				return cite.Or(r.Value/unit.Gravity/1e3, err)
			}, Published: 2.6, Allowed: 0.4, Mark: cite.Practice, Note: "the middle of what practice prints and half its width",
		},
		{
			ID: "inject.cycle.thin", Case: "cycle of a preform with a wall of 2.2 mm, against about 6 s for thin preforms", Source: "BrandauCycles",
			Unit: "s", Ours: func() float64 {
				r, err := Cycle(2.2e-3)
				return cite.Or(r.Value, err)
			}, Published: 6, Allowed: 1, Mark: cite.Practice, Note: "printed as about 6 s for walls that are not stated; a tenth of a millimetre is about 0.25 s",
		},
		{
			ID: "inject.fill.525g", Case: "filling of a preform of 525 g with a wall of 8.5 mm", Source: "BrandauCycles",
			Unit: "s", Ours: func() float64 {
				r, err := Fill(0.525, 8.5e-3)
				return cite.Or(r.Value, err)
			}, Published: 525 / 19.4, Allowed: 0.01, Mark: cite.Regression,
		},
		{
			ID: "inject.hoop.outer", Case: "outer hoop ratio for an inner one of 4.025: preform radii 8 and 11 mm, bottle 32.2 and 32.5 mm", Source: "CommonPractice",
			Unit: "1", Ours: func() float64 { return cite.Or(HoopOuter(32.2/8, 8e-3, 11e-3, 32.2e-3, 32.5e-3)) }, Published: 2.95, Allowed: 0.006, Mark: cite.Regression, Note: "hand calculation",
		},
	}...)
	size := func(f func(Size) float64) func() float64 {
		return func() float64 {
			s, err := SizeFor(0.300, 0.095, 0.5e-3, 2.83, 2.83)
			return cite.Or(f(s), err) * 1e3
		}
	}
	for _, r := range []struct {
		id, text string
		f        func(Size) float64
		want     float64
		allowed  float64
	}{
		{"length", "length", func(s Size) float64 { return s.Length }, 106, 0.1},
		{"diameter", "diameter", func(s Size) float64 { return s.Diameter }, 33.5, 0.1},
		{"wall", "wall", func(s Size) float64 { return s.Wall }, 4.0, 0.01},
	} {
		out = append(out, cite.Check{
			ID: "inject.size." + r.id, Case: "preform for a bottle of 300 x 95 mm with a wall of 0.5 mm at 2.83 x 2.83: " + r.text, Source: "PreformTrader2013",
			Unit: "mm", Ours: size(r.f), Published: r.want, Allowed: r.allowed, Mark: cite.Independent,
		})
	}
	return out
}
