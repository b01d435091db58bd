package run

import (
	"fmt"

	"costrel/figure"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/quality"
	"costrel/unit"
)

// density is the density of the drink as an input, with the temperature it is
// taken at.
func (h *hotCase) density(symbol, path string, t unit.Temperature) figure.Input {
	return figure.Input{Key: "design:" + path, Symbol: symbol, Label: "Drink: density at " + unit.Quote(unit.TemperaturePoint, float64(t), 4), Value: h.liquid.Density(t), Kind: unit.Density, Origin: figure.Computed, Source: "ICUMSASPS4"}
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
	warn := append(h.pushedOut(st), st.Warnings...)
	warn = append(warn, "gas that dissolves into the drink in the days after filling moves the vacuum: see hotfill.vacuum.settled", h.panel)
	h.figure("hotfill.vacuum", st.Vacuum, figure.Origin{
		Method: "Capped balance of liquid, vapour and gas in closed form, with shrinkage and linear panels", Equation: "(P - p_w) (V (1 - s) - C (p_a - P) - V_liquid) = n R T_end, vacuum = p_a - P, n = a (p_0 - p_wg) (V - V_hot) / (R T_gas) + m_N2 / M",
		Sources: []string{"MoranShapiro2006", "WagnerPruss1993", "Kell1975"}, Theory: "hotfill", Inputs: h.balance(st), Warnings: warn,
	})
}

// overpressure shows what a dose of nitrogen, or a place of sale high above the
// filler, makes of the pack: pressure instead of vacuum.
func (h *hotCase) overpressure(st hotfill.State) {
	if st.Vacuum < 0 {
		h.figure("hotfill.pressure", -st.Vacuum, figure.Origin{
			Method: "The same balance, above ambient", Equation: "p = P - p_a", Sources: []string{"MoranShapiro2006", "WagnerPruss1993", "Kell1975"}, Theory: "hotfill", Inputs: h.balance(st),
			Warnings: append(h.pushedOut(st), "gas that dissolves into the drink lowers it in the days after filling: see hotfill.vacuum.settled"),
		})
	} else {
		h.problem("hotfill.pressure", "does not apply: the cooled pack is under vacuum, see hotfill.vacuum")
	}
	if st.HotGauge <= 0 {
		h.problem("hotfill.pressure.closing", "does not apply: no nitrogen is dosed")
		return
	}
	h.figure("hotfill.pressure.closing", float64(st.HotGauge), figure.Origin{
		Method: "Ideal gas: the whole dose in the headspace at its temperature at closing, in a bottle that gives nothing", Equation: "p = (m_N2 / M) R T_gas / (V - V_hot)", Sources: []string{"MoranShapiro2006"}, Theory: "hotfill",
		Inputs: []figure.Input{
			h.given("m_N2", "drink.nitrogen"), h.molarMass(), h.given("T_gas", "hotfill.headspace_temperature"), h.input("V", "bottle.volume.brimful"),
			computed("drink.fill_temperature", "V_hot", "Drink at the fill temperature", st.HotLiquid, unit.Volume),
		},
		Warnings: []string{quality.EstimatePrefix + ": an upper bound, for the bottle gives way and some gas dissolves; but the wall is hot then, and near its glass transition it is soft and grows for good: try the dose on bottles behind a guard"},
	})
}

// pushedOut marks a pack that stands above ambient: what its wall gives outward
// is no panel.
func (h *hotCase) pushedOut(st hotfill.State) []string {
	if st.Vacuum >= 0 {
		return nil
	}
	how := "outward the wall is taken as the round one, which grows by " + unit.Quote(unit.Compliance, h.pack.Panel.Outward, 4) + " (modulus and mean wall of the panel, as over the life), not as the panels, which give " + unit.Quote(unit.Compliance, h.pack.Panel.Volume(1e3)/1e3, 4) + " inward"
	if h.pack.Panel.Outward == 0 {
		how = "outward the wall is taken as rigid, for its growth is not known"
	}
	return []string{fmt.Sprintf("%s: no vacuum but an overpressure of %s; %s. Panels first bulge until they stand on the round, so that a measured pressure lies below", quality.EstimatePrefix, unit.Quote(unit.PressureGauge, -st.Vacuum, 4), how)}
}

// settled shows the vacuum once the headspace gas is in balance with the drink,
// and what the panels give then. A pack for which there is none loses these
// figures alone.
func (h *hotCase) settled() {
	a := h.air()
	st, err := hotfill.Settle(h.pack, h.store, a)
	if err != nil {
		h.problem("hotfill.vacuum.settled", "%s", err)
		h.problem("hotfill.panel.need.settled", "%s", err)
		return
	}
	warn := append(h.pushedOut(st), st.Warnings...)
	warn = append(warn, "oxygen that the drink consumes and water that it loses deepen the vacuum further, gas that comes through wall and closure softens it: see shelf.vacuum.max and shelf.panel.max of the life", h.panel)
	inputs := append(h.shared(st, a), h.balance(st)...)
	h.figure("hotfill.vacuum.settled", st.Vacuum, figure.Origin{
		Method:   "The capped balance with oxygen and nitrogen shared between headspace and drink by Henry's law, one root in P",
		Equation: "vacuum = p_a - p_w - n_O2 / (k_O2 V_liquid + V_gas / (R T_end)) - n_N2 / (k_N2 V_liquid + V_gas / (R T_end)), V_gas = V (1 - s) - C vacuum - V_liquid",
		Sources:  []string{"MoranShapiro2006", "IAPWSG704", "WagnerPruss1993"}, Theory: "hotfill", Inputs: inputs, Warnings: warn,
	})
	h.figure("hotfill.panel.need.settled", st.Budget.Panels, figure.Origin{
		Method: "Volume the panels give at the settled vacuum", Equation: "V_panel = C vacuum", Sources: []string{"MoranShapiro2006"}, Theory: "hotfill",
		Inputs: append([]figure.Input{h.compliance(st.Vacuum), h.input("vacuum", "hotfill.vacuum.settled")}, inputs...), Warnings: warn,
	})
}

// shared lists the gas that headspace and drink share.
func (h *hotCase) shared(st hotfill.State, a hotfill.Air) []figure.Input {
	oxygen, nitrogen, err := hotfill.Amounts(h.pack, a)
	if err != nil {
		return nil // Settle has told
	}
	water := a.Water * h.pack.Fill * h.liquid.Density(h.pack.FillAt)
	return []figure.Input{
		computed("drink.oxygen_dissolved", "n_O2", "Oxygen closed in, in headspace and drink", oxygen, unit.Amount),
		computed("drink.nitrogen_dissolved", "n_N2", "Nitrogen closed in, in headspace and drink, a dose counted", nitrogen, unit.Amount),
		computed("hotfill.end_temperature", "k_O2", "Drink: solubility of oxygen at the end temperature", a.OxygenSolubility*water/st.Liquid, unit.DrinkSolubility),
		computed("hotfill.end_temperature", "k_N2", "Drink: solubility of nitrogen at the end temperature", a.NitrogenSolubility*water/st.Liquid, unit.DrinkSolubility),
		computed("brief.nominal", "V_gas", "Headspace of the settled pack", st.Headspace, unit.Volume),
		h.given("c_O2", "drink.oxygen_dissolved"), h.given("c_N2", "drink.nitrogen_dissolved"), h.given("c_s", "drink.sugar"),
	}
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
	more := append(append(h.pushedOut(st), st.Warnings...), "this is the first day: see hotfill.panel.need.settled for the days after it, once drink and headspace have shared their gas, and shelf.panel.max for the life", h.panel)
	show("hotfill.panel.need", b.Panels, "Volume the panels give at the computed vacuum: contraction and gas less nitrogen and shrinkage", "V_panel = V_drink + V_gas - V_N2 - V_shrink = C vacuum", []figure.Input{
		h.input("V_drink", "hotfill.budget.drink"), h.input("V_gas", "hotfill.budget.gas"), h.input("V_N2", "hotfill.budget.nitrogen"), h.input("V_shrink", "hotfill.budget.shrinkage"),
		h.compliance(st.Vacuum), h.input("vacuum", "hotfill.vacuum"),
	}, more...)
}
