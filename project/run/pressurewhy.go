package run

import (
	"costrel/figure"
	"costrel/physics/drink"
	"costrel/unit"
)

// waterMass is the water of a cubic metre by which the solubility of the law,
// per kilogram of water, is shown per volume [kg/m³].
const waterMass = 1000

// computed returns an input that is an intermediate result, with the place in
// the design that it follows from.
func computed(path, symbol, label string, value float64, kind unit.Kind) figure.Input {
	return figure.Input{Key: "design:" + path, Symbol: symbol, Label: label, Value: value, Kind: kind, Origin: figure.Computed}
}

// assumed returns an input that the program chose or that is a constant.
func assumed(path, symbol, label string, value float64, kind unit.Kind, source string) figure.Input {
	return figure.Input{Key: "design:" + path, Symbol: symbol, Label: label, Value: value, Kind: kind, Origin: figure.Assumed, Source: source}
}

// vent names the altitude in the design that an ambient pressure belongs to.
type vent struct {
	path    string
	ambient unit.AbsPressure
}

func (v vent) input(symbol string) figure.Input {
	label := "Ambient pressure at the altitude"
	switch v.path {
	case "climate.altitude_fill":
		label += " of filling"
	case "climate.altitude_sale":
		label += " of sale"
	case "handling.altitude":
		label += " of the test"
	}
	return computed(v.path, symbol, label, float64(v.ambient), unit.PressureAbs)
}

// openWhy returns the equation of the open chart with what goes into it. The
// hand calculation leaves out water vapour and the correction of the gas.
func openWhy(l drink.Liquid, t unit.Temperature, out vent, p drink.Pressure) (string, []figure.Input) {
	c, k := l.Drink().Carbonation, waterMass*l.Law().Henry(t)
	share := c * l.HenryCO2(t) / (drink.MolarMassCO2 * k * l.Molality())
	in := []figure.Input{
		assumed("drink.carbonation", "M", "Carbon dioxide: molar mass", drink.MolarMassCO2, unit.MolarMass, ""),
		computed("drink.solubility", "K", "Solubility of carbon dioxide in water at T, per litre of water", k, unit.DrinkSolubility),
		computed("drink.sugar", "s", shareLabel(l), share, unit.Ratio),
		out.input("p_ambient"),
	}
	if l.Law().Ideal {
		return "p = c / (M K s) - p_ambient", in
	}
	gamma := c / (drink.MolarMassCO2 * k * share * p.CO2)
	return "p = c / (M K s γ) + p_w - p_ambient", append(in,
		computed("drink.solubility", "γ", "Fugacity and Poynting factor at the total pressure", gamma, unit.Ratio),
		computed("drink.sugar", "p_w", "Water vapour over the drink at T", p.Water, unit.PressureAbs))
}

// shareLabel says what the solubility of the open chart is a share of. On the
// basis of the chart the content is that of water at the same pressure, so that
// sugar takes nothing off.
func shareLabel(l drink.Liquid) string {
	if l.Drink().Basis == drink.Chart {
		return "Share of it that counts: drink.basis is chart, so c is read on the chart of water, and sugar does not move the pressure"
	}
	return "Share of it that the drink holds, with its sugar"
}

// closedWhy is the same of the closed pack: the gases and how each is shared
// between drink and headspace.
func closedWhy(l drink.Liquid, pack drink.Pack, t unit.Temperature, out vent, st drink.State) (string, []figure.Input) {
	n, err := pack.Contents(l)
	if err != nil {
		return "", nil // the state comes of the same contents
	}
	equation, balance := "p = ", ""
	var in []figure.Input
	amount := func(path, gas, name string, partial, n float64) {
		equation += "p_" + gas + " + "
		in = append(in,
			computed(path, "p_"+gas, name+": partial pressure", partial, unit.PressureAbs),
			computed(path, "n_"+gas, name+" in the pack", n, unit.Amount))
	}
	if st.CO2 > 0 {
		amount("drink.carbonation", "CO2", "Carbon dioxide", st.CO2, n.CO2)
		k := waterMass * l.Law().Henry(t)
		share := l.HenryCO2(t) * l.WaterContent() / k
		in = append(in,
			computed("drink.solubility", "K", "Solubility of carbon dioxide in water at T, per litre of water", k, unit.DrinkSolubility),
			computed("drink.sugar", "s", "Share of it that the drink holds, with its sugar", share, unit.Ratio))
		balance += ", n_CO2 = p_CO2 (V_fill K s"
		if !l.Law().Ideal {
			balance += " γ"
			fill := n.Liquid * (1 - l.MassFraction()) / l.WaterContent() // at 20 °C
			in = append(in,
				computed("drink.solubility", "γ", "Fugacity and Poynting factor at the total pressure", st.Dissolved/(st.CO2*fill*k*share), unit.Ratio),
				computed("drink.solubility", "Z", "Compressibility of carbon dioxide at the total pressure", 1+drink.SecondVirialCO2(t)*float64(st.Total)/(unit.GasConstant*float64(t)), unit.Ratio))
			balance += " + V_gas / (Z R T))"
		} else {
			balance += " + V_gas / (R T))"
		}
	}
	for _, g := range []struct {
		gas, name     string
		partial, n, k float64
	}{{"O2", "Oxygen", st.Oxygen, n.Oxygen, drink.HenryOxygen(t)}, {"N2", "Nitrogen, argon counted with it", st.Nitrogen, n.Nitrogen, drink.HenryNitrogen(t)}} {
		if g.n > 0 {
			amount("drink.headspace_air", g.gas, g.name, g.partial, g.n)
			in = append(in, computed("drink.sugar", "K_"+g.gas, g.name+": solubility in the drink at T", g.k*l.WaterContent(), unit.DrinkSolubility))
			balance += ", n_" + g.gas + " = p_" + g.gas + " (V_fill K_" + g.gas + " + V_gas / (R T))"
		}
	}
	if st.Water > 0 {
		equation += "p_w + "
		in = append(in, computed("drink.sugar", "p_w", "Water vapour over the drink at T", st.Water, unit.PressureAbs))
	}
	in = append(in, out.input("p_ambient"), computed("brief.nominal", "V_gas", "Headspace of the pressurised pack", st.Headspace, unit.Volume))
	return equation[:len(equation)-2] + "- p_ambient" + balance, in
}
