package run

import (
	"costrel/cite"
	"costrel/figure"
	"costrel/plant/cost"
	"costrel/plant/footprint"
	"costrel/project/design"
)

var costStage = stage{
	name:  "cost",
	needs: []string{"preform", "air", "ovenheat"},
	reads: func(d *design.Design) any { return []any{d.Plant, d.Resin.Recycled, d.Closure.Mass} },
	keys:  []string{"cost.resin", "cost.air", "cost.oven", "cost.total"},
	run: func(c *pass) (any, error) {
		d := c.d
		q := cost.Quantities{
			Preform: from[*Preform](c, "preform").Mass, Recycled: d.Resin.Recycled, Closure: d.Closure.Mass, Labels: 1,
			AirEnergy: from[*Air](c, "air").Energy, OvenEnergy: from[*OvenHeat](c, "ovenheat").Energy,
			Tooling: d.Plant.Tooling, Life: d.Plant.ToolingBottles,
		}
		if q.Tooling == 0 {
			q.Life = 0
		}
		prices := priced(cost.Prices(), map[string]float64{
			"resin.virgin": d.Plant.ResinPrice, "resin.recycled": d.Plant.ResinPrice, "conversion": d.Plant.PreformMaking, "blowing": d.Plant.Blowing,
			"closure": 0, "closure.piece": d.Plant.ClosurePrice, "label": d.Plant.LabelPrice, "electricity": d.Plant.Electricity, "scrap.share": d.Plant.Scrap, "scrap.value": 0,
		})
		sheet, err := cost.PerThousand(q, prices)
		if err != nil {
			return nil, err
		}
		var resin, air, oven float64
		for _, l := range sheet.Lines {
			switch l.Key {
			case "resin.virgin", "resin.recycled":
				resin += l.Amount
			case "air":
				air += l.Amount
			case "oven":
				oven += l.Amount
			}
		}
		c.figure("cost.resin", resin, figure.Origin{
			Method: "Preform mass times resin price", Equation: "c = 1000 m price", Sources: []string{"BeverageDaily2010"}, Theory: "cost",
			Inputs: []figure.Input{c.input("m", "preform.mass"), c.given("price", "plant.resin_price")},
		})
		c.figure("cost.air", air, figure.Origin{
			Method: "Compressor electricity times its price", Equation: "c = 1000 E price", Sources: []string{"CommonPractice"}, Theory: "cost",
			Inputs: []figure.Input{c.input("E", "air.energy"), c.given("price", "plant.electricity")},
		})
		c.figure("cost.oven", oven, figure.Origin{
			Method: "Oven electricity times its price", Equation: "c = 1000 E price", Sources: []string{"CommonPractice"}, Theory: "cost",
			Inputs: []figure.Input{c.input("E", "oven.energy"), c.given("price", "plant.electricity")},
		})
		// Closure and tooling are priced where there are any.
		equation := "c = (resin + making + blowing + air + oven) / (1 - scrap)"
		inputs := []figure.Input{
			c.input("resin", "cost.resin"), c.given("making", "plant.preform_making"), c.given("blowing", "plant.blowing"), c.input("air", "cost.air"), c.input("oven", "cost.oven"),
			c.given("scrap", "plant.scrap"),
		}
		if q.Closure > 0 {
			equation += " + closure"
			inputs = append(inputs, c.given("closure", "plant.closure_price"))
		}
		equation += " + label"
		inputs = append(inputs, c.given("label", "plant.label_price"))
		if q.Tooling > 0 {
			equation += " + 1000 tooling / bottles"
			inputs = append(inputs, c.given("tooling", "plant.tooling"), c.given("bottles", "plant.tooling_bottles"))
		}
		c.figure("cost.total", sheet.Amount, figure.Origin{
			Method: "Sum of the lines for 1000 good bottles; scrap carries resin, conversion, blowing, air and oven of the bottles lost", Equation: equation,
			Sources: []string{"BeverageDaily2010", "CommonPractice"}, Theory: "cost", Inputs: inputs,
		})
		return &sheet, nil
	},
}

// priced returns a card with the design's values in place of the card's.
func priced(card cite.Card, values map[string]float64) cite.Card {
	for i := range card.Data {
		if v, ok := values[card.Data[i].Key]; ok {
			card.Data[i].Value, card.Data[i].Low, card.Data[i].High = v, v, v
		}
	}
	return card
}

var footprintStage = stage{
	name:  "footprint",
	needs: []string{"preform", "air", "ovenheat"},
	reads: func(d *design.Design) any {
		return []any{d.Resin.Recycled, d.Closure.Mass, d.Plant.GridEmission, d.Plant.VirginEmission, d.Plant.RecycledEmission, d.Plant.ClosureEmission, d.Plant.Scrap}
	},
	keys: []string{"footprint.total"},
	run: func(c *pass) (any, error) {
		d := c.d
		q := footprint.Quantities{
			Preform: from[*Preform](c, "preform").Mass, Recycled: d.Resin.Recycled, Closure: d.Closure.Mass,
			Blowing: from[*Air](c, "air").Energy + from[*OvenHeat](c, "ovenheat").Energy,
		}
		sheet, err := footprint.PerThousand(q, priced(footprint.Factors(), map[string]float64{
			"resin.virgin": d.Plant.VirginEmission, "resin.recycled": d.Plant.RecycledEmission, "closure": d.Plant.ClosureEmission, "electricity": d.Plant.GridEmission, "scrap.share": d.Plant.Scrap,
		}))
		if err != nil {
			return nil, err
		}
		c.figure("footprint.total", sheet.Amount, figure.Origin{
			Method: "Masses and energies times emission factors. " + sheet.Boundary, Equation: "e = 1000 ((m ((1 - r) f_v + r f_r) + (E_air + E_oven) f_e) / (1 - scrap) + m_c f_c)",
			Sources: []string{"Denkstatt2017", "CommonPractice"}, Theory: "footprint",
			Inputs: []figure.Input{
				c.input("m", "preform.mass"), c.given("r", "resin.recycled"), c.given("f_v", "plant.virgin_emission"), c.given("f_r", "plant.recycled_emission"),
				c.given("m_c", "closure.mass"), c.given("f_c", "plant.closure_emission"), c.input("E_air", "air.energy"), c.input("E_oven", "oven.energy"), c.given("f_e", "plant.grid_emission"), c.given("scrap", "plant.scrap"),
			},
		})
		return &sheet, nil
	},
}
