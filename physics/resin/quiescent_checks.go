package resin

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// QuiescentChecks returns the checks of the crystallisation from the glass;
// [Checks] of the package and the table of the program list them.
func QuiescentChecks() []cite.Check {
	at := func(f func(Quiescent) (float64, error)) func() float64 {
		return func() float64 {
			g, err := Find("pet-carbonated")
			if err != nil {
				return math.NaN()
			}
			q, err := NewQuiescent(g)
			if err != nil {
				return math.NaN()
			}
			return cite.Or(f(q))
		}
	}
	out := []cite.Check{
		{
			ID: "resin.quiescent.peak", Case: "crystallisation peak of glass heated at 10 K/min, against the middle of three calorimeter curves (130, 132, 146 °C)", Source: "DSCTeaching",
			Unit: "°C", Ours: at(func(q Quiescent) (float64, error) {
				t, err := q.HeatingPeak(10.0 / 60)
				return t.Celsius(), err
			}), Published: 136, Allowed: 6, Mark: cite.Practice,
			Note: "shortest half-time 45 s; the shape over temperature was chosen to fall here",
		},
		{
			ID: "resin.quiescent.fastest", Case: "temperature of the shortest half-time", Source: "CommonPractice",
			Unit: "°C", Ours: at(func(q Quiescent) (float64, error) { return q.Fastest - 273.15, nil }), Published: 159, Allowed: 0.5, Mark: cite.Regression,
			Note: "spherulites are remembered to grow fastest at 175 to 180 °C; nuclei move the peak down",
		},
	}
	for _, p := range []struct{ c, s float64 }{{110, 611}, {120, 213}, {130, 103}, {140, 63}, {160, 45}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("resin.quiescent.half.%.0fC", p.c), Case: fmt.Sprintf("half-time at %.0f °C, shortest 45 s", p.c), Source: "Nakamura1973",
			Unit: "s", Ours: at(func(q Quiescent) (float64, error) { return q.HalfTime(unit.Celsius(p.c)) }), Published: p.s, Allowed: 0.01, Relative: true, Mark: cite.Regression,
		})
	}
	return out
}
