package bottle

import (
	"math"

	"costrel/cite"
	"costrel/num/curve"
)

func lime() (*Bottle, error) { return New(Example()) }

// shapes whose volumes have formulas
func cylinder(r, h, wall float64) (*Bottle, error) {
	return New(Spec{Rows: []curve.Row{{Z: 0, R: r}, {Z: h, R: r}}, BoreDiameter: r, BoreHeight: h / 10, Wall: wall})
}

func domed(r, h, wall float64) (*Bottle, error) {
	return New(Spec{
		Rows: []curve.Row{{Z: r, R: r}, {Z: h, R: r}}, Base: Base{Kind: Hemisphere},
		BoreDiameter: r, BoreHeight: h / 10, Wall: wall,
	})
}

func punted(r, h, up, wall float64) (*Bottle, error) {
	return New(Spec{
		Rows: []curve.Row{{Z: 0, R: r}, {Z: h, R: r}}, Base: Base{Kind: Punt, PushUp: up},
		BoreDiameter: r, BoreHeight: h / 10, Wall: wall,
	})
}

// Checks returns the table of published checks of this package. Rows never
// panic: a failed computation is NaN and fails.
func Checks() []cite.Check {
	of := func(build func() (*Bottle, error), f func(*Bottle) (float64, error)) func() float64 {
		return func() float64 {
			b, err := build()
			if err != nil {
				return math.NaN()
			}
			v, err := f(b)
			if err != nil {
				return math.NaN()
			}
			return v
		}
	}
	brim := func(b *Bottle) (float64, error) {
		in, err := b.Nominal()
		if err != nil {
			return 0, err
		}
		return in.Brimful() * 1e6, nil
	}
	zone := func(i int) func(*Bottle) (float64, error) {
		return func(b *Bottle) (float64, error) {
			z, err := b.Zones(b.spec.Planes)
			if err != nil {
				return 0, err
			}
			return z[i].Area * 1e4, nil
		}
	}
	pi := math.Pi
	const r, h, t = 0.040, 0.200, 0.0005
	const analytic = "Bronshtein2015"
	return []cite.Check{
		{
			ID: "bottle.cylinder.brimful", Case: "upright cylinder, 40 mm radius, 200 mm, wall 0.5 mm: brimful volume", Source: analytic, Unit: "mL",
			Ours:      of(func() (*Bottle, error) { return cylinder(r, h, t) }, brim),
			Published: 1e6 * pi * ((r-t)*(r-t)*(h-t) + r*r/4*h/10), Allowed: 1e-9, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "bottle.hemisphere.brimful", Case: "cylinder on a hemisphere, wall 0.5 mm: brimful volume", Source: analytic, Unit: "mL",
			Ours:      of(func() (*Bottle, error) { return domed(r, h, t) }, brim),
			Published: 1e6 * pi * (2*math.Pow(r-t, 3)/3 + (r-t)*(r-t)*(h-r) + r*r/4*h/10), Allowed: 1e-9, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "bottle.hemisphere.area", Case: "cylinder on a hemisphere: outer surface", Source: analytic, Unit: "cm²",
			Ours:      of(func() (*Bottle, error) { return domed(r, h, t) }, func(b *Bottle) (float64, error) { return b.OuterArea() * 1e4, nil }),
			Published: 1e4 * (2*pi*r*r + 2*pi*r*(h-r)), Allowed: 1e-12, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "bottle.punt.outer", Case: "cylinder with a spherical punt of 15 mm: outer volume to the ledge", Source: analytic, Unit: "mL",
			Ours:      of(func() (*Bottle, error) { return punted(r, h, 0.015, t) }, func(b *Bottle) (float64, error) { return b.OuterVolume() * 1e6, nil }),
			Published: 1e6 * (pi*r*r*h - pi*0.015/6*(3*r*r+0.015*0.015)), Allowed: 1e-12, Relative: true, Mark: cite.Independent,
			Note: "the cap πh(3r²+h²)/6 is taken away",
		},
		{
			ID: "bottle.cylinder.gravity", Case: "empty upright cylinder without a finish: height of the centre of gravity", Source: analytic, Unit: "mm",
			Ours: of(func() (*Bottle, error) { return cylinder(r, h, t) }, func(b *Bottle) (float64, error) {
				q, err := b.Balance(Load{Wall: curve.Uniform(t), Density: 1350})
				return q.EmptyZ * 1e3, err
			}),
			Published: 1e3 * ((r*r-(r-t)*(r-t))*h*h/2 + (r-t)*(r-t)*t*t/2) / ((r*r-(r-t)*(r-t))*h + (r-t)*(r-t)*t), Allowed: 1e-8, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "bottle.lime.brimful", Case: "1.75 L CSD profile, wall 0.281 mm: brimful volume, hand calculation with r - t", Source: "CommonPractice", Unit: "mL",
			Ours: of(lime, brim), Published: 1811.3, Allowed: 0.001, Relative: true, Mark: cite.Regression,
			Note: "hand calculation; it leaves out the base disc and takes the wall radially, hence 0.1 %",
		},
		{
			ID: "bottle.lime.brimful.normal", Case: "the same with the wall along the normal and under the base disc", Source: "CommonPractice", Unit: "mL",
			Ours: of(lime, brim), Published: 1809.6, Allowed: 0.2, Mark: cite.Regression, Note: "hand calculation: outer volume - wall x area + bore; the curvature of the wall adds 0.1 mL",
		},
		{
			ID: "bottle.lime.outer", Case: "1.75 L CSD profile: outer volume to the ledge", Source: "CommonPractice", Unit: "mL",
			Ours:      of(lime, func(b *Bottle) (float64, error) { return b.OuterVolume() * 1e6, nil }),
			Published: 1827.2, Allowed: 0.05, Mark: cite.Regression, Note: "hand calculation",
		},
		{
			ID: "bottle.lime.area", Case: "1.75 L CSD profile: outer surface without the base disc", Source: "CommonPractice", Unit: "cm²",
			Ours:      of(lime, func(b *Bottle) (float64, error) { return (b.OuterArea() - pi*0.025*0.025) * 1e4, nil }),
			Published: 829, Allowed: 0.5, Mark: cite.Regression, Note: "hand calculation",
		},
		{ID: "bottle.lime.base", Case: "1.75 L CSD profile: surface below 60 mm, with the disc", Source: "CommonPractice", Unit: "cm²", Ours: of(lime, zone(0)), Published: 209.8, Allowed: 0.05, Mark: cite.Regression, Note: "hand calculation"},
		{ID: "bottle.lime.panel", Case: "1.75 L CSD profile: surface from 60 to 190 mm", Source: "CommonPractice", Unit: "cm²", Ours: of(lime, zone(1)), Published: 405.9, Allowed: 0.05, Mark: cite.Regression, Note: "hand calculation"},
		{ID: "bottle.lime.shoulder", Case: "1.75 L CSD profile: surface above 190 mm", Source: "CommonPractice", Unit: "cm²", Ours: of(lime, zone(2)), Published: 233.3, Allowed: 0.05, Mark: cite.Regression, Note: "hand calculation"},
		{
			ID: "bottle.lime.arc", Case: "1.75 L CSD profile: arc length from ledge to gate", Source: "CommonPractice", Unit: "mm",
			Ours:      of(lime, func(b *Bottle) (float64, error) { return b.ArcLength() * 1e3, nil }),
			Published: 331, Allowed: 0.6, Mark: cite.Regression, Note: "hand calculation",
		},
	}
}
