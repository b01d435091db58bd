package run

import (
	"costrel/figure"
	"costrel/physics/bottle"
	"costrel/plant/pallet"
	"costrel/project/design"
	"costrel/unit"
)

var stackStage = stage{
	name:  "stack",
	needs: []string{"bottle", "preform", "wall"},
	reads: func(d *design.Design) any {
		return []any{d.Resin.DensityWall, d.Finish.Mass, d.Drink, d.Brief.Nominal, d.Closure.Mass, d.Plant.PerLayer, d.Plant.Layers, d.Plant.Pallets, d.Plant.PalletMass, d.Plant.StackFactor}
	},
	keys: []string{"bottle.tip.empty", "bottle.tip.filled", "pack.mass", "stack.load"},
	run: func(c *pass) (any, error) {
		d := c.d
		liquid, err := drinkOf(d).Liquid()
		if err != nil {
			return nil, err
		}
		rho := liquid.Density(unit.Celsius(20))
		mass := from[*Preform](c, "preform").Mass + d.Closure.Mass + rho*d.Brief.Nominal
		c.figure("pack.mass", mass, figure.Origin{
			Method: "Preform, closure and drink at ‹20 °C›", Equation: "m = m_preform + m_closure + ρ V_fill", Sources: []string{"ICUMSASPS4"}, Theory: "drink",
			Inputs: []figure.Input{
				c.input("m_preform", "preform.mass"), c.given("m_closure", "closure.mass"), c.given("V_fill", "brief.nominal"),
				{Key: "design:drink.sugar", Symbol: "ρ", Label: "Drink: density at ‹20 °C›", Value: rho, Kind: unit.Density, Origin: figure.Computed},
			},
		})
		shape, wall := from[*Shape](c, "bottle"), from[*Wall](c, "wall")
		if b, err := shape.Bottle.Balance(bottle.Load{Wall: wall.Along, Inside: wall.Inside, Density: d.Resin.DensityWall, FinishMass: d.Finish.Mass, Closure: d.Closure.Mass, Fill: d.Brief.Nominal, Liquid: rho}); err != nil {
			c.problem("bottle.tip.empty", "%v", err)
			c.problem("bottle.tip.filled", "%v", err)
		} else {
			tip := func(key string, v, z float64) {
				c.figure(key, v, figure.Origin{
					Method: "Standing edge over the height of the centre of gravity; feet stand on the line between two of them; the drink is taken as frozen", Equation: "α = atan(ρ / z)", Sources: []string{"Bronshtein2015"}, Theory: "bottle", Warnings: []string{wall.note()},
					Inputs: []figure.Input{
						{Key: "design:bottle.base.standing_diameter", Symbol: "ρ", Label: "Bottle: distance of the standing edge from the axis", Value: b.TipRadius, Kind: unit.Length, Origin: figure.Computed},
						{Key: "wall.panel.mean", Symbol: "z", Label: "Pack: height of the centre of gravity", Value: z, Kind: unit.Length, Origin: figure.Computed},
					},
				})
			}
			tip("bottle.tip.empty", b.EmptyTip, b.EmptyZ)
			tip("bottle.tip.filled", b.FilledTip, b.FilledZ)
		}
		load, err := pallet.Stack{Pack: mass, PerLayer: d.Plant.PerLayer, Layers: d.Plant.Layers, Pallets: d.Plant.Pallets, Pallet: d.Plant.PalletMass, Safety: d.Plant.StackFactor}.Bottom()
		if err != nil {
			return nil, err
		}
		c.figure("stack.load", load.Required, figure.Origin{
			Method: "Static load on the lowest pack, every pack of a layer carrying its share, times the safety factor", Equation: "F = SF 9.80665 m/s² (m (L P - 1) + m_pallet (P - 1) / N)",
			Sources: []string{"Brandau201304"}, Theory: "pallet",
			Inputs: []figure.Input{
				c.given("SF", "plant.stack_factor"), c.input("m", "pack.mass"), c.given("L", "plant.layers"), c.given("P", "plant.pallets_high"),
				c.given("m_pallet", "plant.pallet_mass"), c.given("N", "plant.per_layer"),
			},
			Warnings: []string{"held against stack.capacity, the top load of the filled and closed pack, in the full run; not against that of the empty bottle"},
		})
		return mass, nil
	},
}
