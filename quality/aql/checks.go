package aql

import (
	"fmt"

	"costrel/cite"
)

// Checks returns the published checks of the sampling plans.
func Checks() []cite.Check {
	var out []cite.Check
	for _, c := range []struct {
		lot   int
		level Level
		aql   float64
		n, ac int
	}{
		{3201, II, 1.0, 200, 5}, {10000, II, 1.0, 200, 5}, {5000, II, 0.65, 200, 3}, {281, I, 0.10, 125, 0}, {500, I, 0.10, 125, 0}, {200, II, 2.5, 32, 2},
	} {
		plan := func(pick func(Plan) int) func() float64 {
			return func() float64 {
				p, err := ForLot(c.lot, c.level, c.aql, Normal)
				return cite.Or(float64(pick(p)), err)
			}
		}
		id := fmt.Sprintf("aql.plan.%d.%s.%g", c.lot, c.level, c.aql)
		what := fmt.Sprintf("lot of %d, level %s, AQL %g", c.lot, c.level, c.aql)
		out = append(out, cite.Check{
			ID: id + ".n", Case: "Sample for a " + what, Source: "MILSTD105E", Unit: "1", Published: float64(c.n), Allowed: 0, Mark: cite.Memory,
			Ours: plan(func(p Plan) int { return p.N }),
		}, cite.Check{
			ID: id + ".ac", Case: "Acceptance number for a " + what, Source: "MILSTD105E", Unit: "1", Published: float64(c.ac), Allowed: 0, Mark: cite.Memory,
			Ours: plan(func(p Plan) int { return p.Ac }),
		})
	}
	for _, c := range []struct {
		n, ac         int
		p, pa         float64
		p95, p50, p10 float64
	}{
		{13, 0, .05, .5133, .00394, .05192, .16232},
		{20, 0, .025, .6027, .00256, .03406, .10875},
		{32, 1, .05, .5200, .01122, .05190, .11620},
		{50, 2, .05, .5405, .01655, .05312, .10296},
		{80, 3, .025, .8594, .01726, .04571, .08160},
		{125, 3, .025, .6189, .01100, .02930, .05266},
		{125, 7, .05, .7117, .03224, .06119, .09237},
		{200, 5, .01, .9840, .01314, .02830, .04588},
		{315, 7, .025, .4690, .01270, .02432, .03709},
		{315, 0, .01, .0422, .00016, .00220, .00728},
	} {
		plan := Plan{N: c.n, Ac: c.ac, Re: c.ac + 1, AQL: 1}
		id := fmt.Sprintf("aql.oc.%d.%d", c.n, c.ac)
		out = append(out, cite.Check{
			ID: id, Case: fmt.Sprintf("Acceptance of %g %% nonconforming, sample %d, acceptance number %d", 100*c.p, c.n, c.ac), Source: "MILSTD105E", Unit: "1",
			Published: c.pa, Allowed: 0.00005001, Mark: cite.Independent, Note: "binomial by another program, four decimals", Ours: func() float64 { return cite.Or(plan.Acceptance(c.p)) },
		})
		for _, at := range []struct{ pa, p float64 }{{.95, c.p95}, {.5, c.p50}, {.1, c.p10}} {
			out = append(out, cite.Check{
				ID: fmt.Sprintf("%s.at%g", id, 100*at.pa), Case: fmt.Sprintf("Fraction accepted with %g %%, sample %d, acceptance number %d", 100*at.pa, c.n, c.ac), Source: "MILSTD105E", Unit: "1",
				Published: at.p, Allowed: 0.000005001, Mark: cite.Independent, Note: "binomial by another program, five decimals", Ours: func() float64 { return cite.Or(plan.FractionAt(at.pa)) },
			})
		}
	}
	for _, c := range []struct {
		letter string
		aql, k float64
	}{{"F", 2.5, 1.41}, {"G", 1.0, 1.79}, {"J", 1.0, 1.89}, {"M", 1.0, 2.00}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("aql.variables.%s.%g", c.letter, c.aql), Case: fmt.Sprintf("Acceptability constant, letter %s, AQL %g", c.letter, c.aql), Source: "MILSTD414", Unit: "1",
			Published: c.k, Allowed: 0.01, Mark: cite.Memory,
			Ours: func() float64 { p, err := Variables(c.letter, c.aql); return cite.Or(p.K, err) },
		})
	}
	return out
}
