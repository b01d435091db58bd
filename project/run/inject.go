package run

import (
	"costrel/figure"
	"costrel/physics/finish"
	"costrel/physics/inject"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/quality"
)

// ledgeDiameter stands for the ledge of a finish whose card gives none.
const ledgeDiameter = 33e-3 // m, of the 28 mm necks

// cavities of a mould, for clamp and output; chosen for this project.
const cavities = 72

var injectStage = stage{
	name: "inject", needs: []string{"preform"},
	reads: func(d *design.Design) any { return []any{d.Resin, d.Finish.Type, d.Preform.Wall} },
	keys:  []string{"inject.cooling.time", "inject.cycle", "inject.fill.time", "inject.acetaldehyde", "inject.iv"},
	run: func(c *pass) (any, error) {
		d := c.d
		pre := from[*Preform](c, "preform")
		grade, err := resin.Find(d.Resin.Grade)
		if err != nil {
			return nil, err
		}
		ledge := ledgeDiameter
		if f, err := finish.Find(d.Finish.Type); err == nil && f.LedgeOD > 0 {
			ledge = f.LedgeOD
		}
		r, err := inject.Estimate(pre.Body, grade, inject.Spec{Ledge: ledge, Cavities: cavities, IV: d.Resin.IV})
		if err != nil {
			return nil, err
		}
		estimate := []string{quality.EstimatePrefix + ": moulding by rules of thumb; melt 280 °C, faces 12 °C, 90 s in the melt, 50 ppm of water"}
		wall := c.given("w", "preform.wall")
		add := func(key string, v float64, method, equation string, sources []string, inputs ...figure.Input) {
			c.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: sources, Inputs: inputs, Warnings: append(append([]string{}, estimate...), r.Warnings...), Theory: "inject"})
		}
		add("inject.cooling.time", r.Mean110, "Plate cooled from both faces, first term of the series", "t = w² / (π² α) ln(8 / π² (T_melt - T_face) / (T - T_face))", []string{"BallmanShusman1959"}, wall)
		add("inject.cycle", r.Cycle.Value, "0.6 to 0.8 of the cooling in the mould and 2 to 3 s besides", "t_cycle = 0.7 t + 2.5 s", []string{"BallmanShusman1959", "BrandauCycles"}, c.input("t", "inject.cooling.time"))
		add("inject.fill.time", r.Fill.Value, "8 to 12 g/s a cavity up to a wall of 4 mm", "t_fill = m / q", []string{"BrandauCycles"}, c.input("m", "preform.mass"), wall)
		add("inject.acetaldehyde", r.Aldehyde, "Zero-order rate in the melt, times the factor of today's resins", "C = f A exp(-E / (R T)) t", []string{"Halek1986"}, c.given("IV", "resin.iv"))
		add("inject.iv", r.IV.Value, "Hydrolysis by the water of the dried resin, at least 0.02 dL/g in practice", "1 / M = 1 / M_0 + w / 18", []string{"Billmeyer1949", "CommonPractice"}, c.given("IV", "resin.iv"))
		return &r, nil
	},
}
