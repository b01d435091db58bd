package run

import (
	"costrel/figure"
	"costrel/project/design"
	"costrel/unit"
)

var stressStage = stage{
	name:  "stress",
	needs: []string{"wall", "pressure"},
	reads: func(*design.Design) any { return nil },
	keys:  []string{"pack.stress.hoop.store", "pack.stress.axial.store", "pack.stress.hoop.hot"},
	run: func(c *pass) (any, error) {
		w := from[*Wall](c, "wall")
		p := from[*Pressures](c, "pressure")
		r := w.PanelRadius - w.PanelMean
		inside := figure.Input{Key: "design:bottle.panel_diameter", Symbol: "r_i", Label: "Bottle: inner radius of the panel", Value: r, Kind: unit.Length, Origin: figure.Computed}
		origin := func(method, equation, pressure string) figure.Origin {
			return figure.Origin{
				Method: method, Equation: equation, Sources: []string{"Timoshenko1959"}, Theory: "stress",
				Inputs:   []figure.Input{c.input("p", pressure), inside, c.input("t", "wall.panel.mean")},
				Warnings: []string{w.note()},
			}
		}
		hoop := func(g unit.GaugePressure) float64 { return float64(g) * r / w.PanelMean }
		c.figure("pack.stress.hoop.store", hoop(p.Store), origin("Hoop stress of a thin closed cylinder, pressure on the inner face", "σ = p r_i / t", "pack.pressure.store"))
		c.figure("pack.stress.axial.store", float64(p.Store)*r*r/(2*(w.PanelRadius-w.PanelMean/2)*w.PanelMean), origin("Axial stress of a thin closed cylinder, pressure on the inner face", "σ = p r_i² / (2 (r_i + t / 2) t)", "pack.pressure.store"))
		c.figure("pack.stress.hoop.hot", hoop(p.Hot), origin("Hoop stress of a thin closed cylinder, pressure on the inner face", "σ = p r_i / t", "pack.pressure.hot"))
		return nil, nil
	},
}
