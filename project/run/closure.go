package run

import (
	"costrel/figure"
	"costrel/physics/capping"
	"costrel/project/design"
)

var closureStage = stage{
	name:  "closure",
	needs: []string{"pressure"},
	reads: func(d *design.Design) any { return []any{d.Finish.Seal, d.Closure.Type} },
	keys:  []string{"closure.lift"},
	run: func(c *pass) (any, error) {
		p := from[*Pressures](c, "pressure")
		lift, err := capping.Lift(p.Hot, c.d.Finish.Seal)
		if err != nil {
			return nil, err
		}
		c.figure("closure.lift", lift, figure.Origin{
			Method: "Pressure on the seal circle", Equation: "F = p π d² / 4", Sources: []string{"CommonPractice"}, Theory: "capping",
			Inputs: []figure.Input{c.input("p", "pack.pressure.hot"), c.given("d", "finish.seal_diameter")},
		})
		return nil, nil
	},
}
