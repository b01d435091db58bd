package resin

import (
	"fmt"
	"math"

	"costrel/cite"
)

// Locking returns the stretch at which the network of the law can stretch no
// further, 1 - alpha² I1 = 0, for the mode of [Pull]: 1 equal-biaxial, 0
// constant width, -0.5 uniaxial.
func (l *GlassRubber) Locking(mode float64) float64 {
	limit := 1 / (l.Alpha * l.Alpha)
	lo, hi := 0.0, 5.0
	for range 200 {
		e := (lo + hi) / 2
		if 3+invariant(e, mode*e) < limit {
			lo = e
		} else {
			hi = e
		}
	}
	return math.Exp(lo)
}

// Stiffening returns the stretch at which the network of the law stiffens: its
// hardening modulus, the slope of its true stress over logarithmic strain, is
// twice the least, at T [K], the nominal rate [1/s] and the mode of [Pull]. The
// flow stress of the bond part is left out: past yield it falls, which hides
// where the network turns up. The factor of two is chosen for this project.
func (l *GlassRubber) Stiffening(T, rate, mode float64) (float64, error) {
	net := *l
	net.Viscosity = 1 // Pa s: no flow stress
	c, _, err := Pull{Law: &net, T: T, Rate: rate, Mode: mode, Stretch: 3, Step: 0.002 / rate}.Run()
	if err != nil {
		return 0, err
	}
	const w = 15 // steps each side
	slope := func(i int) float64 {
		return (c[i+w].Stress[0] - c[i-w].Stress[0]) / math.Log(c[i+w].Stretch/c[i-w].Stretch)
	}
	least := math.Inf(1)
	for i := 60; i+w < len(c); i++ {
		s := slope(i)
		least = min(least, s)
		if s > 2*least {
			return c[i].Stretch, nil
		}
	}
	return 0, fmt.Errorf("resin: stiffening: none up to stretch 3 at %.1f °C and %.3g 1/s", T-273.15, rate)
}

// HotChecks returns the checks of the hot laws.
func HotChecks() []cite.Check {
	a := SetA()
	const src = "AdamsBuckleyJones2000"
	out := []cite.Check{}
	row := func(id, what, unit string, ours func() float64, want, allowed float64, mark cite.Mark, note string) {
		out = append(out, cite.Check{ID: "resin.hot." + id, Case: what, Source: src, Unit: unit, Ours: ours, Published: want, Allowed: allowed, Mark: mark, Note: note})
	}
	row("lock.biaxial", "locking stretch of the network, equal biaxial", "1", func() float64 { return a.Locking(1) }, 4.5530, 5e-4, cite.Regression, "from alpha by 1 - alpha² I1 = 0")
	row("lock.width", "locking stretch, constant width", "1", func() float64 { return a.Locking(0) }, 6.3591, 5e-4, cite.Regression, "")
	row("lock.uniaxial", "locking stretch, uniaxial", "1", func() float64 { return a.Locking(-0.5) }, 6.4149, 5e-4, cite.Regression, "")
	for _, r := range []struct{ C, mu, g1, g8, l1, l8, l32 float64 }{
		{85, 1.710, 21.86, 5.626, 2.643, 2.856, 2.931},
		{95, 0.3109, 4.969, 1.361, 2.287, 2.506, 2.583},
		{105, 0.07594, 1.254, 0.3635, 1.931, 2.156, 2.235},
		{115, 0.02202, 0.348, 0.1062, 1.575, 1.806, 1.887},
	} {
		T := r.C + 273.15
		at := fmt.Sprintf("%.0fC", r.C)
		rel := 0.002
		row("viscosity."+at, fmt.Sprintf("bond viscosity at %.0f °C", r.C), "MPa·s", func() float64 { return a.BondViscosity(T) / 1e6 }, r.mu, rel*r.mu, cite.Regression, "")
		row("slip1."+at, fmt.Sprintf("slip viscosity at %.0f °C, 1 1/s equal biaxial", r.C), "MPa·s", func() float64 { g, _, _ := a.Slip(T, 1, 1); return g / 1e6 }, r.g1, rel*r.g1, cite.Regression, "")
		row("slip8."+at, fmt.Sprintf("slip viscosity at %.0f °C, 8 1/s equal biaxial", r.C), "MPa·s", func() float64 { g, _, _ := a.Slip(T, 8, 1); return g / 1e6 }, r.g8, rel*r.g8, cite.Regression, "")
		for _, q := range []struct{ rate, crit float64 }{{1, r.l1}, {8, r.l8}, {32, r.l32}} {
			row(fmt.Sprintf("critical%.0f.%s", q.rate, at), fmt.Sprintf("critical network stretch at %.0f °C, %.0f 1/s equal biaxial", r.C, q.rate), "1",
				func() float64 { _, c, _ := a.Slip(T, q.rate, 1); return c }, q.crit, 0.001, cite.Regression, "")
		}
	}
	stress := func(law HotLaw, C, rate, mode, stretch, step float64) float64 {
		c, _, err := Pull{Law: law, T: C + 273.15, Rate: rate, Mode: mode, Stretch: stretch, Step: step / rate}.Run()
		if err != nil {
			return math.NaN()
		}
		return c[len(c)-1].Stress[0]
	}
	bond := SetA()
	bond.Links = 0
	row("newton.biaxial", "bond stress at 110 °C, 0.001 1/s equal biaxial: 3 mu rate", "Pa", func() float64 { return stress(&bond, 110, 1e-3, 1, 1.001, 1e-6) }, 121, 0.7, cite.Regression, "limit of slow flow")
	row("newton.uniaxial", "bond stress at 110 °C, 0.001 1/s uniaxial: 1.5 mu rate", "Pa", func() float64 { return stress(&bond, 110, 1e-3, -0.5, 1.001, 1e-6) }, 60.3, 0.3, cite.Regression, "limit of slow flow")
	row("glass.uniaxial", "modulus of instant uniaxial stretch at 95 °C: 3 G", "MPa", func() float64 { return stress(&bond, 95, 1e5, -0.5, 1+1e-5, 1e-7) / 1e-5 / 1e6 }, 1800, 3, cite.Regression, "limit of fast stretch")
	row("glass.biaxial", "modulus of instant equal-biaxial stretch at 95 °C: 6 G", "MPa", func() float64 { return stress(&bond, 95, 1e5, 1, 1+1e-5, 1e-7) / 1e-5 / 1e6 }, 3600, 6, cite.Regression, "limit of fast stretch")
	for _, r := range []struct{ C, rate, stretch, mpa float64 }{
		{90, 1, 3, 17.81}, {90, 32, 2, 11.48}, {95, 8, 1.5, 4.88}, {95, 8, 3, 18.16}, {100, 1, 2.5, 5.90}, {100, 8, 3, 15.31}, {100, 32, 3.5, 43.0}, {105, 1, 2, 2.78}, {105, 32, 3, 17.06},
	} {
		row(fmt.Sprintf("biaxial.%.0fC.%.0f.%.1f", r.C, r.rate, r.stretch), fmt.Sprintf("equal-biaxial true stress at %.0f °C, %.0f 1/s, stretch %.1f", r.C, r.rate, r.stretch), "MPa",
			func() float64 { return stress(&a, r.C, r.rate, 1, r.stretch, 1e-3) / 1e6 }, r.mpa, 0.01*r.mpa, cite.Regression, "an independent program of the same law; no measured table could be read")
	}
	for _, r := range []struct{ C, rate, mode, stretch, mpa float64 }{{95, 32, 1, 3, 21.3139}, {100, 8, 1, 3, 15.3360}, {100, 32, 0, 3, 12.0713}, {105, 8, -0.5, 2, 2.8610}} {
		row(fmt.Sprintf("rungekutta.%.0fC.%.0f", r.C, r.rate+r.mode), fmt.Sprintf("stress at %.0f °C, %.0f 1/s, mode %.1f, stretch %.0f, by Runge-Kutta of fourth order", r.C, r.rate, r.mode, r.stretch), "MPa",
			func() float64 { return stress(&a, r.C, r.rate, r.mode, r.stretch, 5e-4) / 1e6 }, r.mpa, 0.002*r.mpa, cite.Independent, "an independent integration of the rate form, recorded; TestAgainstRungeKutta runs it anew")
	}
	for _, C := range []float64{85, 90, 95} {
		for _, m := range []struct {
			name, words string
			mode        float64
		}{{"biaxial", "equal biaxial", 1}, {"width", "constant width", 0}} {
			row(fmt.Sprintf("stiffening.%.0fC.%s", C, m.name), fmt.Sprintf("stretch where the hardening modulus of the network doubles, %.0f °C, 1 1/s, %s, against 'near 2'", C, m.words), "1",
				func() float64 { return cite.Or(a.Stiffening(C+273.15, 1, m.mode)) }, 2.05, 0.25, cite.Independent, "the abstract says stiffening begins near a draw ratio of 2, no measure of it; with the flow stress, which falls past yield, the slope over stretch doubles at 1.70 (85 °C) to 2.26 (95 °C)")
		}
	}
	b := SetB()
	row("setb.85C", "set B beside set A at 85 °C, 8 1/s, stretch 3: stress ratio", "1", func() float64 { return stress(&b, 85, 8, 1, 3, 1e-3) / stress(&a, 85, 8, 1, 3, 1e-3) }, 22.8/22.2, 0.02, cite.Regression, "two conventions of the slip rate pair with two sets")
	row("setb.110C", "set B beside set A at 110 °C, 8 1/s, stretch 3: stress ratio", "1", func() float64 { return stress(&b, 110, 8, 1, 3, 1e-3) / stress(&a, 110, 8, 1, 3, 1e-3) }, 7.7/7.4, 0.02, cite.Regression, "")
	return out
}
