package impact

import (
	"math"

	"costrel/cite"
)

// water is the liquid of the check rows.
func water() Liquid { return Liquid{Density: 1000, BulkModulus: 2.19e9} }

// row is a plain bottle dropped 2 m, of the check rows.
type row struct{ diameter, wall, modulus float64 }

func (r row) tube() Tube { return Tube{Radius: r.diameter / 2, Wall: r.wall, Modulus: r.modulus} }

func (r row) wave() float64 { return cite.Or(WaveSpeed(water(), r.tube())) }

func (r row) hammer() float64 {
	return cite.Or(Joukowsky(water().Density, r.wave(), cite.Or(Speed(2))))
}

func (r row) hoop() float64 { return r.hammer() * r.diameter / 2 / r.wall }

// HandDrops returns an up-and-down test of 20 packs with a step of 0.1 m, worked by
// hand: 9 failures, 3 each at 1.6, 1.7 and 1.8 m.
func HandDrops() []Drop {
	heights := [20]float64{1.5, 1.6, 1.7, 1.6, 1.7, 1.8, 1.7, 1.6, 1.5, 1.6, 1.7, 1.6, 1.5, 1.6, 1.5, 1.6, 1.7, 1.8, 1.7, 1.8}
	const results = "..X..XXX..XX.X...X.X"
	out := make([]Drop, len(heights))
	for i, h := range heights {
		out[i] = Drop{h, results[i] == 'X'}
	}
	return out
}

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	half, half25 := row{65e-3, 0.30e-3, 3e9}, row{65e-3, 0.25e-3, 4e9}
	two, two4 := row{110e-3, 0.30e-3, 3e9}, row{108e-3, 0.30e-3, 4e9}
	var out []cite.Check
	for _, c := range []struct {
		id, name           string
		r                  row
		wave, hammer, hoop float64
	}{
		{"halflitre", "0.5 L, 65 mm, wall 0.30 mm, 3 GPa", half, 117.3, 7.35, 79.6},
		{"halflitre.thin", "0.5 L, 65 mm, wall 0.25 mm, 4 GPa", half25, 123.6, 7.74, 100.7},
		{"twolitre", "2 L, 110 mm, wall 0.30 mm, 3 GPa", two, 90.3, 5.66, 103.7},
		{"twolitre.stiff", "2 L, 108 mm, wall 0.30 mm, 4 GPa", two4, 105.1, 6.59, 118.6},
	} {
		r := c.r
		out = append(
			out,
			cite.Check{
				ID: "impact.wave." + c.id, Case: "wave speed, " + c.name, Source: "Korteweg1878",
				Unit: "m/s", Ours: r.wave, Published: c.wave, Allowed: 0.06, Mark: cite.Regression,
				Note: "formula published, case worked for this project",
			},
			cite.Check{
				ID: "impact.hammer." + c.id, Case: "hammer pressure from 2 m, " + c.name, Source: "Joukowsky1900",
				Unit: "bar", Ours: func() float64 { return r.hammer() / 1e5 }, Published: c.hammer, Allowed: 0.006, Mark: cite.Regression,
				Note: "formula published, case worked for this project",
			},
			cite.Check{
				ID: "impact.hoop." + c.id, Case: "hoop stress of the full hammer from 2 m, " + c.name, Source: "Joukowsky1900",
				Unit: "MPa", Ours: func() float64 { return r.hoop() / 1e6 }, Published: c.hoop, Allowed: 0.002, Relative: true, Mark: cite.Regression,
				Note: "formula published, case worked for this project from rounded pressures",
			},
		)
	}
	hand := func(f func(Staircase) float64) func() float64 {
		return func() float64 {
			s, err := ReadStaircase(HandDrops(), 0.1)
			if err != nil {
				return math.NaN()
			}
			return f(s)
		}
	}
	return append(
		out,
		cite.Check{
			ID: "impact.wave.thin", Case: "wave speed of a soft wall, E 1 MPa, over sqrt(E h/(rho D))", Source: "Korteweg1878",
			Unit: "1", Ours: func() float64 {
				r := row{65e-3, 0.30e-3, 1e6}
				return r.wave() / math.Sqrt(r.modulus*r.wall/(water().Density*r.diameter))
			}, Published: 1, Allowed: 1e-5, Mark: cite.Independent, Note: "limit of the formula",
		},
		cite.Check{
			ID: "impact.sound", Case: "speed of sound in water, bulk modulus 2.19 GPa", Source: "KaracIvankovic2009",
			Unit: "m/s", Ours: func() float64 { return cite.Or(water().SoundSpeed()) }, Published: 1485, Allowed: 10, Mark: cite.Independent,
			Note: "wave speed in open water as their test used it",
		},
		cite.Check{
			ID: "impact.duration", Case: "pulse of 0.5 L, 180 mm of liquid", Source: "KaracIvankovic2009",
			Unit: "ms", Ours: func() float64 { return 1e3 * cite.Or(Duration(0.180, half.wave())) }, Published: 6.1, Allowed: 0.05, Mark: cite.Regression,
			Note: "4 L/c; independent of drop height in tests",
		},
		cite.Check{
			ID: "impact.energy.halflitre", Case: "0.53 kg from 2 m", Source: "CommonPractice",
			Unit: "J", Ours: func() float64 { return cite.Or(Energy(0.53, 2)) }, Published: 10.4, Allowed: 0.05, Mark: cite.Regression,
		},
		cite.Check{
			ID: "impact.energy.twolitre", Case: "2.06 kg from 2 m", Source: "CommonPractice",
			Unit: "J", Ours: func() float64 { return cite.Or(Energy(2.06, 2)) }, Published: 40.4, Allowed: 0.05, Mark: cite.Regression,
		},
		cite.Check{
			ID: "impact.capacity", Case: "13.5 cm³ of wall, yield 100 MPa, 4 GPa", Source: "CommonPractice",
			Unit: "J", Ours: func() float64 { return cite.Or(Capacity(100e6, 4e9, 13.5e-6)) }, Published: 16.9, Allowed: 0.05, Mark: cite.Regression,
		},
		cite.Check{
			ID: "impact.lift", Case: "lift on 24.94 mm at 100 psi(g) without hammer", Source: "CommonPractice",
			Unit: "N", Ours: func() float64 { return cite.Or(Lift(689476, 0, 24.94e-3)) }, Published: 337, Allowed: 0.5, Mark: cite.Regression,
		},
		cite.Check{
			ID: "impact.updown.h50", Case: "20 drops, step 0.1 m, 3 failures each at 1.6, 1.7, 1.8 m", Source: "DixonMood1948",
			Unit: "m", Ours: hand(func(s Staircase) float64 { return s.H50 }), Published: 1.65, Allowed: 1e-9, Mark: cite.Regression,
			Note: "by hand: N 9, A 9, B 15; 1.6 + 0.1 (9/9 - 1/2)",
		},
		cite.Check{
			ID: "impact.updown.s", Case: "the same, standard deviation", Source: "DixonMood1948",
			Unit: "m", Ours: hand(func(s Staircase) float64 { return s.S }), Published: 0.112698, Allowed: 1e-6, Mark: cite.Regression,
			Note: "by hand: 0.162 ((9 15 - 81)/81 + 0.029)",
		},
		cite.Check{
			ID: "impact.updown.tenpercent", Case: "the same, height at which 10 % fail", Source: "DixonMood1948",
			Unit: "m", Ours: hand(func(s Staircase) float64 {
				h, _, err := s.HeightFor(0.10)
				return cite.Or(h, err)
			}), Published: 1.5056, Allowed: 5e-5, Mark: cite.Regression,
			Note: "by hand: 1.65 - 1.28155 0.112698",
		},
	)
}
