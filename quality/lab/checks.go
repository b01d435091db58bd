package lab

import (
	"math"

	"costrel/cite"
	"costrel/quality"
	"costrel/unit"
)

// sorrel is part of the invented demo sample: burst pressure and time to
// stress crack of twelve bottles, written the continental way.
const sorrel = `bottle;burst [bar(g)];stress_crack_min
1;10,07;23,0
2;10,53;34,6
3;10,49;43,2
4;10,14;34,4
5;11,23;49,6
6;10,44;24,5
7;10,48;28,4
8;10,14;33,5
9;10,33;19,5
10;10,10;40,1
11;10,57;44,5
12;10,57;48,8
`

// Checks returns the published checks of the package: a sample read from a
// table and judged, against hand arithmetic on the same numbers.
func Checks() []cite.Check {
	burst := quality.Limit{Figure: "burst.pressure", Side: quality.Min, Value: 9e5, Kind: unit.PressureGauge, Unit: "bar(g)"}
	crack := quality.Limit{Figure: "stresscrack.time", Side: quality.Min, Value: 16 * 60, Kind: unit.Time, Unit: "min"}
	row := func(id, what, u string, l quality.Limit, published, allowed float64, pick func(Verdict) float64) cite.Check {
		return cite.Check{
			ID: id, Case: what, Source: "CommonPractice", Unit: u, Published: published, Allowed: allowed, Mark: cite.Regression, Note: "hand arithmetic on the invented demo sample",
			Ours: func() float64 {
				t, err := Read("sorrel", []byte(sorrel), "")
				if err != nil {
					return math.NaN()
				}
				s, err := t.Find(l.Figure, "", "")
				if err != nil {
					return math.NaN()
				}
				v, err := Judge(s, l, Usual())
				if err != nil {
					return math.NaN()
				}
				return pick(v)
			},
		}
	}
	return []cite.Check{
		row("lab.burst.mean", "Mean burst pressure of twelve bottles", "bar(g)", burst, 10.424, 0.0005001, func(v Verdict) float64 { return v.Mean / 1e5 }),
		row("lab.burst.s", "Standard deviation of the same", "bar", burst, 0.318, 0.0005001, func(v Verdict) float64 { return v.S / 1e5 }),
		row("lab.burst.bound", "95/95 lower bound of the same", "bar(g)", burst, 9.55, 0.005001, func(v Verdict) float64 { return v.Bound / 1e5 }),
		row("lab.burst.ppk", "Ppk against 9.0 bar(g)", "1", burst, 1.49, 0.005001, func(v Verdict) float64 { return v.Ppk.Value }),
		row("lab.crack.mean", "Geometric mean time to stress crack", "min", crack, 33.9, 0.05001, func(v Verdict) float64 { return v.Mean / 60 }),
		row("lab.crack.bound", "95/95 lower bound of the same, lognormal", "min", crack, 14.7, 0.05001, func(v Verdict) float64 { return v.Bound / 60 }),
		row("lab.crack.ppk", "Ppk against 16 min", "1", crack, 0.82, 0.005001, func(v Verdict) float64 { return v.Ppk.Value }),
	}
}
