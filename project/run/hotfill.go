package run

import (
	"costrel/figure"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/project/design"
	"costrel/unit"
)

var hotfillStage = stage{
	name:  "hotfill",
	needs: []string{"bottle"},
	also:  panelStages,
	reads: func(d *design.Design) any {
		return []any{d.Brief.Product, d.Brief.Nominal, d.Drink, d.HotFill, d.Climate.AltitudeFill, d.Climate.AltitudeSale}
	},
	keys: []string{
		"hotfill.contraction", "hotfill.vacuum", "hotfill.vacuum.settled", "hotfill.budget.drink", "hotfill.budget.gas", "hotfill.budget.nitrogen",
		"hotfill.budget.shrinkage", "hotfill.panel.need", "pasteur.units", "pasteur.f93",
	},
	run: func(c *pass) (any, error) {
		if !hotFilled(c.d) {
			if len(c.d.HotFill.Record) > 0 {
				c.pasteur() // a pack pasteurised closed, by its record
			}
			return nil, skip("the pack is not hot-filled")
		}
		c.pasteur() // asks nothing of the bottle
		h, err := c.hotPack()
		if err != nil {
			return nil, err
		}
		st, err := hotfill.Cool(h.pack, h.store)
		if err != nil {
			return nil, err
		}
		h.vacuum(st)
		h.settled()
		h.budget(st)
		h.plots(st)
		return &st, nil
	},
}

// hotCase is the hot-filled pack at closing, and where it cools to.
type hotCase struct {
	*pass
	liquid drink.Liquid
	pack   hotfill.Pack
	store  hotfill.Store
	panel  string // where the panels come from
	// settledPanels is what the panels give once the gas is shared; 0 where that
	// is not known [m³].
	settledPanels float64
	// dissolved is a factor on the air dissolved at closing, for bands.
	dissolved float64
}

// hotPack gathers the pack from the design and the drawn bottle.
func (c *pass) hotPack() (*hotCase, error) {
	d := c.d
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
	panel, source := c.panels()
	return &hotCase{
		pass: c, liquid: liquid, panel: source, dissolved: 1,
		pack: hotfill.Pack{
			Liquid: liquid, Overflow: from[*Shape](c, "bottle").Brimful, Fill: d.Brief.Nominal, FillAt: unit.Celsius(20), Temperature: d.Drink.FillTemperature,
			Gas: d.HotFill.Headspace, Steam: 1 - d.HotFill.Steam, Nitrogen: d.Drink.Nitrogen, Shrinkage: d.HotFill.Shrinkage,
			Panel: panel, Ambient: fill,
		},
		store: hotfill.Store{Temperature: d.HotFill.End, Ambient: sale},
	}, nil
}

// density is the density of the drink as an input, with the temperature it is
// taken at.
func (h *hotCase) density(symbol, path string, t unit.Temperature) figure.Input {
	return figure.Input{Key: "design:" + path, Symbol: symbol, Label: "Drink: density at " + unit.Show(unit.TemperaturePoint, float64(t), unit.EU), Value: h.liquid.Density(t), Kind: unit.Density, Origin: figure.Computed, Source: "ICUMSASPS4"}
}

// balance lists what every figure of the cooled pack follows from.
func (h *hotCase) balance(st hotfill.State) []figure.Input {
	p := h.pack
	gas := p.Gas
	if gas == 0 {
		gas = p.Temperature
	}
	steam := h.liquid.VapourPressure(gas)
	air := (1 - p.Steam) * (float64(p.Ambient) - steam) * st.HotHeadspace / (unit.GasConstant * float64(gas))
	return []figure.Input{
		computed("hotfill.panel_compliance", "P", "Pressure in the cooled pack, the root of the balance", float64(st.Pressure), unit.PressureAbs),
		computed("hotfill.end_temperature", "p_w", "Water vapour in the cooled pack", st.Vapour, unit.PressureAbs),
		computed("climate.altitude_sale", "p_a", "Ambient pressure in the store", float64(h.store.Ambient), unit.PressureAbs),
		computed("brief.nominal", "V_liquid", "Drink at the end temperature", st.Liquid, unit.Volume),
		computed("drink.nitrogen", "n", "Dry gas closed in, air and nitrogen", air+p.Nitrogen/drink.MolarMassNitrogen, unit.Amount),
		computed("hotfill.air_share", "n_air", "Air closed in", air, unit.Amount),
		computed("climate.altitude_fill", "p_0", "Ambient pressure at the filler", float64(p.Ambient), unit.PressureAbs),
		computed("hotfill.headspace_temperature", "p_wg", "Water vapour in the headspace at closing", steam, unit.PressureAbs),
		computed("drink.fill_temperature", "V_hot", "Drink at the fill temperature", st.HotLiquid, unit.Volume),
		h.molarMass(),
		h.input("V", "bottle.volume.brimful"), h.given("V_fill", "brief.nominal"), h.given("T_fill", "drink.fill_temperature"), h.given("T_gas", "hotfill.headspace_temperature"),
		h.given("a", "hotfill.air_share"), h.given("m_N2", "drink.nitrogen"), h.given("T_end", "hotfill.end_temperature"), h.given("s", "hotfill.shrinkage"),
		h.compliance(st.Vacuum), h.input("x", "hotfill.contraction"),
	}
}

func (h *hotCase) molarMass() figure.Input {
	return assumed("drink.nitrogen", "M", "Nitrogen: molar mass", drink.MolarMassNitrogen, unit.MolarMass, "")
}

// vacuum shows contraction and vacuum of the cooled pack, nothing dissolved.
func (h *hotCase) vacuum(st hotfill.State) {
	d := h.d
	h.figure("hotfill.contraction", st.Contraction, figure.Origin{
		Method: "Density of the drink at both temperatures", Equation: "x = 1 - ρ_hot / ρ_cold", Sources: []string{"Kell1975", "ICUMSASPS4"}, Theory: "hotfill",
		Inputs: []figure.Input{h.density("ρ_hot", "drink.fill_temperature", d.Drink.FillTemperature), h.density("ρ_cold", "hotfill.end_temperature", d.HotFill.End), h.given("T_fill", "drink.fill_temperature"), h.given("T_end", "hotfill.end_temperature")},
	})
	warn := append([]string{}, st.Warnings...)
	warn = append(warn, "gas that dissolves into the drink in the days after filling moves the vacuum: see hotfill.vacuum.settled", h.panel)
	h.figure("hotfill.vacuum", st.Vacuum, figure.Origin{
		Method: "Capped balance of liquid, vapour and gas in closed form, with shrinkage and linear panels", Equation: "(P - p_w) (V (1 - s) - C (p_a - P) - V_liquid) = n R T_end, vacuum = p_a - P, n = a (p_0 - p_wg) (V - V_hot) / (R T_gas) + m_N2 / M",
		Sources: []string{"MoranShapiro2006", "WagnerPruss1993", "Kell1975"}, Theory: "hotfill", Inputs: h.balance(st), Warnings: warn,
	})
}

// settled shows the vacuum once the headspace gas is in balance with the drink.
// A pack for which there is none loses this figure alone.
func (h *hotCase) settled() {
	st, err := hotfill.Settle(h.pack, h.store, h.air())
	if err != nil {
		h.problem("hotfill.vacuum.settled", "%s", err)
		return
	}
	h.settledPanels = st.Budget.Panels
	warn := append([]string{}, st.Warnings...)
	warn = append(warn,
		"the panels then give "+unit.Show(unit.Volume, st.Budget.Panels, unit.EU),
		"oxygen that the drink consumes deepens the vacuum further, gas that comes through wall and closure softens it: see the pressure along the lane of the shelf life",
		h.panel)
	h.figure("hotfill.vacuum.settled", st.Vacuum, figure.Origin{
		Method: "The capped balance with oxygen and nitrogen shared between headspace and drink by Henry's law, one root in P", Equation: "P = p_w + Σ n_i / (m_w k_i + V_gas(P) / (R T_end)), vacuum = p_a - P",
		Sources: []string{"MoranShapiro2006", "IAPWSG704", "WagnerPruss1993"}, Theory: "hotfill",
		Inputs:   append(h.balance(st), h.given("c_O2", "drink.oxygen_dissolved"), h.given("c_N2", "drink.nitrogen_dissolved"), h.given("c_s", "drink.sugar")),
		Warnings: warn,
	})
}

// budget shows the volume that cooling takes and who gives it, by cause.
func (h *hotCase) budget(st hotfill.State) {
	show := func(key string, v float64, method, equation string, inputs []figure.Input, warnings ...string) {
		h.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: []string{"MoranShapiro2006"}, Theory: "hotfill", Inputs: inputs, Warnings: warnings})
	}
	b := st.Budget
	show("hotfill.budget.drink", b.Liquid, "Hot volume of the drink less its cold one", "V_drink = V_fill (ρ_20 / ρ_hot) x", []figure.Input{
		h.given("V_fill", "brief.nominal"), h.density("ρ_20", "drink.sugar", unit.Celsius(20)), h.density("ρ_hot", "drink.fill_temperature", h.d.Drink.FillTemperature), h.input("x", "hotfill.contraction"),
	})
	show("hotfill.budget.gas", b.Gas+b.Nitrogen, "Headspace at closing less the room that the air of then takes at the computed vacuum", "V_gas = V - V_hot - n_air R T_end / (P - p_w)", append(h.balance(st), h.input("vacuum", "hotfill.vacuum")), st.Warnings...)
	show("hotfill.budget.nitrogen", b.Nitrogen, "Ideal gas at the computed vacuum; none of it dissolved", "V_N2 = (m_N2 / M) R T_end / (P - p_w)", []figure.Input{
		h.given("m_N2", "drink.nitrogen"), h.given("T_end", "hotfill.end_temperature"), h.input("vacuum", "hotfill.vacuum"), h.molarMass(),
		computed("hotfill.panel_compliance", "P", "Pressure in the cooled pack, the root of the balance", float64(st.Pressure), unit.PressureAbs),
		computed("hotfill.end_temperature", "p_w", "Water vapour in the cooled pack", st.Vapour, unit.PressureAbs),
	})
	show("hotfill.budget.shrinkage", b.Shrinkage, "Share of the brimful volume", "V_shrink = s V", []figure.Input{h.given("s", "hotfill.shrinkage"), h.input("V", "bottle.volume.brimful")})
	more := append(append([]string{}, st.Warnings...), h.panel)
	if h.settledPanels > 1.02*b.Panels {
		more = append(more, "this is the first day: once the drink has taken up gas of the headspace the panels must give "+unit.Show(unit.Volume, h.settledPanels, unit.EU)+", see hotfill.vacuum.settled")
	}
	show("hotfill.panel.need", b.Panels, "Volume the panels give at the computed vacuum: contraction and gas less nitrogen and shrinkage", "V_panel = V_drink + V_gas - V_N2 - V_shrink = C vacuum", []figure.Input{
		h.input("V_drink", "hotfill.budget.drink"), h.input("V_gas", "hotfill.budget.gas"), h.input("V_N2", "hotfill.budget.nitrogen"), h.input("V_shrink", "hotfill.budget.shrinkage"),
		h.compliance(st.Vacuum), h.input("vacuum", "hotfill.vacuum"),
	}, more...)
}
