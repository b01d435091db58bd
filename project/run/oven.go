package run

import (
	"costrel/figure"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// OvenHeat is the heat and the electricity of one preform [J].
type OvenHeat struct{ Heat, Energy float64 }

var ovenHeatStage = stage{
	name:  "ovenheat",
	needs: []string{"preform"},
	reads: func(d *design.Design) any { return []any{d.Oven.Inlet, d.Oven.Mean, d.Oven.Energy, d.Finish.Mass} },
	keys:  []string{"oven.heat", "oven.energy"},
	run: func(c *pass) (any, error) {
		d := c.d
		p := from[*Preform](c, "preform")
		dh, warn, err := resin.Enthalpy(d.Oven.Inlet, d.Oven.Mean)
		if err != nil {
			return nil, err
		}
		heated := p.Mass - d.Finish.Mass
		out := &OvenHeat{Heat: heated * dh, Energy: heated * d.Oven.Energy}
		c.figure("oven.heat", out.Heat, figure.Origin{
			Method: "Enthalpy of amorphous PET from inlet to blow temperature, preform without finish", Equation: "Q = (m - m_finish) Δh", Sources: []string{"ATHAS"}, Theory: "energy", Warnings: warn,
			Inputs: []figure.Input{
				c.input("m", "preform.mass"), c.given("m_finish", "finish.mass"), c.given("T_in", "oven.inlet_temperature"), c.given("T", "oven.mean_temperature"),
				{Key: "design:oven.mean_temperature", Symbol: "Δh", Label: "PET: enthalpy difference", Value: dh, Kind: unit.SpecificEnergy, Origin: figure.Computed, Source: "ATHAS"},
			},
		})
		o := figure.Origin{
			Method: "Electricity of the oven per kilogram heated", Equation: "E = (m - m_finish) e", Sources: []string{"CommonPractice"}, Theory: "energy",
			Inputs: []figure.Input{c.input("m", "preform.mass"), c.given("m_finish", "finish.mass"), c.given("e", "oven.energy")},
		}
		if out.Energy < out.Heat {
			o.Warnings = append(o.Warnings, "the oven energy given is below the heat that the preform takes; check oven.energy")
		}
		c.figure("oven.energy", out.Energy, o)
		return out, nil
	},
}
