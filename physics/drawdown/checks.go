package drawdown

import (
	"math"

	"costrel/cite"
	"costrel/num/curve"
	"costrel/physics/bottle"
	"costrel/physics/preform"
)

// lime is the preform and bottle of a hand calculation: 1.75 L CSD, 38.8 g,
// cut at 60 and 190 mm.
func lime() (*preform.Preform, *bottle.Bottle, error) {
	b, err := bottle.New(bottle.Example())
	if err != nil {
		return nil, nil, err
	}
	p, err := preform.New(preform.Example())
	return p, b, err
}

// tube is a preform blown evenly to a cylinder on a hemisphere of its own
// shape, scaled by k: there hoop and axial stretch are k everywhere.
func tube(k float64) (Input, error) {
	p, err := preform.New(preform.Spec{InnerDiameter: 0.020, Wall: 0.0002, BodyLength: 0.080, GateWall: 0.0002, Density: 1335})
	if err != nil {
		return Input{}, err
	}
	// the outer face of a thin bottle whose middle is k times the mid-line
	r := k * 0.0101
	b, err := bottle.New(bottle.Spec{
		Rows: []curve.Row{{Z: r, R: r}, {Z: r + k*0.080, R: r}}, Base: bottle.Base{Kind: bottle.Hemisphere},
		BoreDiameter: 0.015, BoreHeight: 0.015, Wall: 1e-5, Planes: []float64{0.5 * k * 0.080, 0.8 * k * 0.080},
	})
	return Input{Preform: p, Bottle: b, Density: 1335, Uniform: true}, err
}

// Checks returns the table of published checks of this package. A computation
// that fails gives NaN, which fails its row.
func Checks() []cite.Check {
	run := func(edit func(*Input), f func(*Result) float64) func() float64 {
		return func() float64 {
			p, b, err := lime()
			if err != nil {
				return math.NaN()
			}
			in := Input{Preform: p, Bottle: b, Density: 1360}
			edit(&in)
			r, err := Solve(in)
			if err != nil {
				return math.NaN()
			}
			return f(r)
		}
	}
	targets := func(in *Input) { in.Targets = []float64{0.0102, 0.0155, 0.0131} }
	rule := func(*Input) {}
	hand := func(id, text, unit string, f func(*Result) float64, want, allowed float64) cite.Check {
		return cite.Check{
			ID: id, Case: text, Source: "CommonPractice", Unit: unit, Ours: run(targets, f), Published: want, Allowed: allowed,
			Mark: cite.Regression, Note: "hand calculation",
		}
	}
	share := func(i, j int) func(*Result) float64 {
		return func(r *Result) float64 {
			return r.Sections[i].Wall / r.Sections[i].Area / (r.Sections[j].Wall / r.Sections[j].Area)
		}
	}
	const k = 3.0
	scaled := func(f func(*Result) float64) func() float64 {
		return func() float64 {
			in, err := tube(k)
			if err != nil {
				return math.NaN()
			}
			r, err := Solve(in)
			if err != nil {
				return math.NaN()
			}
			return f(r)
		}
	}
	return []cite.Check{
		{
			ID: "drawdown.scaled.wall", Case: "thin preform blown to its own shape, three times as large: wall", Source: "Bronshtein2015", Unit: "mm",
			Ours:      scaled(func(r *Result) float64 { return r.Mean * 1e3 }),
			Published: 0.2 / (k * k), Allowed: 0.002, Relative: true, Mark: cite.Independent, Note: "similar bodies: wall w/k²; 0.1 % from the thickness against the radius",
		},
		{
			ID: "drawdown.scaled.hoop", Case: "the same: hoop stretch at mid-wall in the cap", Source: "Bronshtein2015", Unit: "1",
			Ours:      scaled(func(r *Result) float64 { return r.HoopMid[20] }),
			Published: k, Allowed: 0.003, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "drawdown.scaled.axial", Case: "the same: axial stretch in the cap", Source: "Bronshtein2015", Unit: "1",
			Ours:      scaled(func(r *Result) float64 { return r.Axial[20] }),
			Published: k, Allowed: 0.003, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "drawdown.rule.shoulder", Case: "rule of thumb: material of the shoulder over that of the panel, a surface", Source: "Brandau201307", Unit: "1",
			Ours:      run(rule, share(2, 1)),
			Published: 1.2, Allowed: 1e-9, Mark: cite.Regression, Note: "the published rule, as it comes out of the finished map",
		},
		{
			ID: "drawdown.rule.base", Case: "rule of thumb: material of the base over that of the shoulder, a surface", Source: "Brandau201307", Unit: "1",
			Ours:      run(rule, share(0, 2)),
			Published: 1.5, Allowed: 1e-9, Mark: cite.Regression, Note: "the published rule, as it comes out of the finished map",
		},
		hand("drawdown.lime.panel", "1.75 L CSD, sections 13.1/15.5/10.2 g: mean wall of the panel", "mm", func(r *Result) float64 { return r.Panel * 1e3 }, 0.281, 0.0015),
		hand("drawdown.lime.planar", "the same: planar stretch of the panel by thickness", "1", func(r *Result) float64 { return r.Sections[1].Planar }, 12.58, 0.06),
		hand("drawdown.lime.axial", "the same: axial stretch of the panel by arcs", "1", func(r *Result) float64 { return r.Sections[1].Axial }, 2.96, 0.03),
		hand("drawdown.lime.base", "the same: base section", "g", func(r *Result) float64 { return r.Sections[0].Mass * 1e3 }, 10.2, 0.02),
		hand("drawdown.lime.shoulder", "the same: shoulder section with the finish", "g", func(r *Result) float64 { return r.Sections[2].Mass * 1e3 }, 13.1, 0.02),
		hand("drawdown.lime.shoulder.wall", "the same: material of the shoulder over its surface", "mm", func(r *Result) float64 { return r.Sections[2].Wall / r.Sections[2].Area / 1.36 }, 0.295, 0.001),
		hand("drawdown.lime.base.wall", "the same: material of the base over its surface", "mm", func(r *Result) float64 { return r.Sections[0].Wall / r.Sections[0].Area / 1.36 }, 0.357, 0.001),
	}
}
