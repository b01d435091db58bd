package run

import (
	"costrel/figure"
	"costrel/physics/preform"
	"costrel/project/design"
)

// Preform is the preform as drawn.
type Preform struct {
	Body *preform.Preform
	Mass float64 // kg, with finish
}

var preformStage = stage{
	name: "preform",
	reads: func(d *design.Design) any {
		return []any{withoutTargets(d.Preform), d.Finish.Mass, d.Resin.DensityPreform}
	},
	keys: []string{"preform.mass", "preform.gate.ratio"},
	run: func(c *pass) (any, error) {
		d := c.d
		p, err := preform.New(preformSpec(d))
		if err != nil {
			return nil, err
		}
		c.figure("preform.mass", p.Mass(), figure.Origin{
			Method: "Solid of revolution: tube, taper and hemispherical end cap with the gate wall, plus the finish", Equation: "m = ρ (V_body + V_cap) + m_finish",
			Sources: []string{"Bronshtein2015", "CommonPractice"}, Theory: "preform",
			Inputs: []figure.Input{
				c.given("ρ", "resin.density_preform"), c.given("m_finish", "finish.mass"),
				{Key: "design:preform.body_length", Symbol: "V_body", Label: "Preform: volume of body and taper", Value: (p.BodyMass() + p.TransitionMass()) / d.Resin.DensityPreform, Kind: "volume", Origin: figure.Computed},
				{Key: "design:preform.gate", Symbol: "V_cap", Label: "Preform: volume of the end cap", Value: p.CapMass() / d.Resin.DensityPreform, Kind: "volume", Origin: figure.Computed},
				c.given("d_i", "preform.inner_diameter"), c.given("w", "preform.wall"), c.given("L", "preform.body_length"), c.given("g", "preform.gate"),
			},
		})
		c.figure("preform.gate.ratio", d.Preform.Gate/d.Preform.Wall, figure.Origin{
			Method: "Wall at the gate over wall of the body", Equation: "q = g / w", Sources: []string{"CommonPractice"}, Theory: "preform",
			Inputs: []figure.Input{c.given("g", "preform.gate"), c.given("w", "preform.wall")},
		})
		return &Preform{Body: p, Mass: p.Mass()}, nil
	},
}

// preformSpec is the drawing of the preform.
func preformSpec(d *design.Design) preform.Spec {
	spec := preform.Spec{
		InnerDiameter: d.Preform.InnerDiameter, Wall: d.Preform.Wall, BodyLength: d.Preform.Body - d.Preform.Taper, GateWall: d.Preform.Gate,
		FinishMass: d.Finish.Mass, Density: d.Resin.DensityPreform,
	}
	if d.Preform.Taper > 0 {
		spec.Transition = preform.Transition{Length: d.Preform.Taper, LedgeWall: d.Preform.NeckWall}
	}
	return spec
}

// withoutTargets leaves the section targets to the wall stage, which reads
// them.
func withoutTargets(p design.Preform) design.Preform {
	p.Targets = nil
	return p
}
