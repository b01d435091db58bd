package run

import (
	"math"

	"costrel/figure"
	"costrel/physics/climate"
	"costrel/physics/hotfill"
	"costrel/project/design"
	"costrel/unit"
)

var hotfillStage = stage{
	name:  "hotfill",
	needs: []string{"bottle"},
	reads: func(d *design.Design) any {
		return []any{d.Brief.Product, d.Brief.Nominal, d.Drink, d.HotFill, d.Climate.AltitudeFill, d.Climate.AltitudeSale}
	},
	keys: []string{"hotfill.contraction", "hotfill.vacuum", "hotfill.panel.need"},
	run: func(c *pass) (any, error) {
		d := c.d
		if !hotFilled(d) {
			return nil, skip("the pack is not hot-filled")
		}
		shape := from[*Shape](c, "bottle")
		liquid, err := drinkOf(d).Liquid()
		if err != nil {
			return nil, err
		}
		fill, err := climate.Pressure(d.Climate.AltitudeFill)
		if err != nil {
			return nil, err
		}
		sale, err := climate.Pressure(d.Climate.AltitudeSale)
		if err != nil {
			return nil, err
		}
		st, err := hotfill.Cool(hotfill.Pack{
			Liquid: liquid, Overflow: shape.Brimful, Fill: d.Brief.Nominal, FillAt: unit.Celsius(20), Temperature: d.Drink.FillTemperature, Gas: d.HotFill.Headspace,
			Steam: 1 - d.HotFill.Steam, Nitrogen: d.Drink.Nitrogen, Shrinkage: d.HotFill.Shrinkage, Panel: hotfill.Panel{Compliance: d.HotFill.Compliance}, Ambient: fill,
		}, hotfill.Store{Temperature: d.HotFill.End, Ambient: sale})
		if err != nil {
			return nil, err
		}
		density := func(symbol string, path string, t unit.Temperature) figure.Input {
			return figure.Input{Key: "design:" + path, Symbol: symbol, Label: "Drink: density at " + unit.Show(unit.TemperaturePoint, float64(t), unit.EU), Value: liquid.Density(t), Kind: unit.Density, Origin: figure.Computed, Source: "ICUMSASPS4"}
		}
		c.figure("hotfill.contraction", st.Contraction, figure.Origin{
			Method: "Density of the drink at both temperatures", Equation: "x = 1 - ρ_hot / ρ_cold", Sources: []string{"Kell1975", "ICUMSASPS4"}, Theory: "hotfill",
			Inputs: []figure.Input{density("ρ_hot", "drink.fill_temperature", d.Drink.FillTemperature), density("ρ_cold", "hotfill.end_temperature", d.HotFill.End), c.given("T_fill", "drink.fill_temperature"), c.given("T_end", "hotfill.end_temperature")},
		})
		balance := []figure.Input{
			c.input("V", "bottle.volume.brimful"), c.given("V_fill", "brief.nominal"), c.given("T_fill", "drink.fill_temperature"), c.given("T_gas", "hotfill.headspace_temperature"),
			c.given("T_end", "hotfill.end_temperature"), c.given("s", "hotfill.shrinkage"), c.given("C", "hotfill.panel_compliance"),
			c.input("x", "hotfill.contraction"),
		}
		warn := st.Warnings
		warn = append(warn, "gas that dissolves into the drink in the days after filling deepens the vacuum; it is left out here")
		c.figure("hotfill.vacuum", st.Vacuum, figure.Origin{
			Method: "Capped balance of liquid, vapour and gas in closed form, with shrinkage and linear panels", Equation: "(P - p_w) (V (1 - s) - C (p_a - P) - V_liquid) = n R T_end, vacuum = p_a - P",
			Sources: []string{"MoranShapiro2006", "WagnerPruss1993", "Kell1975"}, Theory: "hotfill", Inputs: balance, Warnings: warn,
		})
		c.figure("hotfill.panel.need", st.Budget.Panels, figure.Origin{
			Method: "Volume the panels give at the computed vacuum: contraction and gas less shrinkage", Equation: "V_panel = C vacuum", Sources: []string{"MoranShapiro2006"}, Theory: "hotfill",
			Inputs: []figure.Input{c.given("C", "hotfill.panel_compliance"), c.input("vacuum", "hotfill.vacuum")}, Warnings: st.Warnings,
		})
		budgetPlot(c, shape, liquid, fill, sale)
		return &st, nil
	},
}

// budgetPlot draws the vacuum over the compliance of the panels.
func budgetPlot(c *pass, shape *Shape, liquid hotfill.Liquid, fill, sale unit.AbsPressure) {
	if !c.work.drawn {
		return
	}
	d := c.d
	x := span(0, math.Max(2.5*d.HotFill.Compliance, 1e-9), 31)
	vacuum, given := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		st, err := hotfill.Cool(hotfill.Pack{
			Liquid: liquid, Overflow: shape.Brimful, Fill: d.Brief.Nominal, FillAt: unit.Celsius(20), Temperature: d.Drink.FillTemperature, Gas: d.HotFill.Headspace,
			Steam: 1 - d.HotFill.Steam, Nitrogen: d.Drink.Nitrogen, Shrinkage: d.HotFill.Shrinkage, Panel: hotfill.Panel{Compliance: x[i]}, Ambient: fill,
		}, hotfill.Store{Temperature: d.HotFill.End, Ambient: sale})
		if err != nil {
			return
		}
		vacuum[i], given[i] = st.Vacuum, st.Budget.Panels
	}
	compliance := Axis{Label: "panel compliance", Kind: unit.Compliance, Unit: "mL/kPa"}
	c.plot(Plot{
		Key: "hotfill.vacuum", Title: "Vacuum after cooling", X: compliance, Y: Axis{Label: "vacuum", Kind: unit.PressureChange, Unit: "kPa"},
		Series: []Series{{Name: "vacuum", X: x, Y: vacuum}}, Marks: []Mark{{At: d.HotFill.Compliance, Label: "design"}},
	})
	c.plot(Plot{
		Key: "hotfill.panels", Title: "Volume the panels give", X: compliance, Y: Axis{Label: "volume", Kind: unit.Volume, Unit: "mL"},
		Series: []Series{{Name: "panels", X: x, Y: given}}, Marks: []Mark{{At: d.HotFill.Compliance, Label: "design"}},
	})
}
