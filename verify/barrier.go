package verify

// Item is a row of the list of checks of the barrier chapter: the packs over
// their life, from the density of water to the stability test.
type Item struct {
	Number int
	What   string
	IDs    []string // of the checks that show it
}

// Barrier returns the list, in order. Every id is that of a check; a test walks
// the list and fails on a gap.
func Barrier() []Item {
	list := []struct {
		what string
		ids  []string
	}{
		{"density of water", []string{"drink.kell.4C", "drink.kell.20C", "drink.kell.85C", "drink.kell.4C.iapws95", "drink.kell.20C.iapws95", "drink.kell.85C.iapws95"}},
		{"vapour pressure of water", []string{"drink.vapour.25C", "drink.vapour.85C", "drink.vapour.100C"}},
		{"density of sucrose solutions", []string{"drink.sucrose.10Bx.20C", "drink.sucrose.50Bx.20C", "drink.sucrose.65Bx.20C"}},
		{"solubility of CO2 by three laws", []string{"drink.co2.plummer-busenberg.25C", "drink.co2.weiss.25C", "drink.co2.carroll.25C"}},
		{"molar volume of CO2", []string{"drink.molar-volume.0C", "drink.molar-volume.25C"}},
		{"one volume in grams", []string{"drink.volume.grams"}},
		{"pressure over a carbonated drink", []string{"drink.chart.4vol.5C", "drink.chart.4vol.20C", "drink.chart.4vol.38C"}},
		{"the rule of 60 °F", []string{"drink.co2.rule60F"}},
		{"chart of beer", []string{"drink.brewing.delange.40F", "drink.brewing.delange.70F"}},
		{"acidity of carbonated water", []string{"drink.acid.4vol.25C"}},
		{"air-saturated oxygen", []string{"drink.oxygen.air.20C", "drink.oxygen.air.20C.tables"}},
		{"contraction of hot drinks", []string{"drink.contraction.water.85C.iapws95", "drink.contraction.11Bx.85C"}},
		{"hot fill, rigid", []string{"hotfill.rigid.85C"}},
		{"hot fill, panels", []string{"hotfill.compliance.2.shrink0", "hotfill.compliance.2.volume"}},
		{"pasteurisation units", []string{"hotfill.lethal.pu.62", "hotfill.lethal.pu.62.z7"}},
		{"time lag of a film, Henry", []string{"permeation.film.lag", "permeation.film.series", "permeation.film.series.value"}},
		{"half sorption from both sides", []string{"permeation.film.half"}},
		{"steady flux, dual mode", []string{"permeation.film.steady"}},
		{"time lag, dual mode", []string{"permeation.film.dual.lag", "permeation.film.dual.integral", "permeation.film.dual.90"}},
		{"lumped limit of the transient model", []string{"permeation.loss.lumped", "permeation.life.lumped"}},
		{"balance of every gas", []string{"permeation.life.balance", "permeation.full.balance"}},
		{"mesh and steps of the wall", []string{"permeation.life.mesh.8", "permeation.life.mesh.16", "permeation.life.mesh.32", "permeation.life.step.0.0001", "permeation.life.step.1e-05", "permeation.life.step.1e-06"}},
		{"units of permeation", []string{"unit.permeability.barrer", "unit.permeability.barrer.cc", "permeation.unit.mil", "permeation.unit.pascal", "permeation.unit.si"}},
		{"platelets", []string{"permeation.nielsen.25.4", "permeation.blend.5.27"}},
		{"70 psi of a closed bottle", []string{"drink.closed.500mL.70psi", "drink.closed.2L.70psi"}},
		{"the trade's statement on a two-litre bottle, a fit of one number", []string{"permeation.life.trade.20C", "permeation.life.trade.loss"}},
		{"120 days at 23 °C", []string{"permeation.life.120d.2L"}},
		{"oxygen into a half-litre bottle", []string{"permeation.oxygen.wall", "permeation.oxygen.closure"}},
		{"water out of a thin bottle", []string{"permeation.water.bottle", "permeation.water.model"}},
		{"mean kinetic temperature", []string{"climate.kinetic.45kJ", "climate.kinetic.33kJ"}},
		{"which way the loss goes, and what a tight wall leaves", []string{
			"permeation.limit.rises.temperature", "permeation.limit.rises.closure", "permeation.limit.rises.factor", "permeation.limit.rises.area", "permeation.limit.rises.thickness", "permeation.life.thin",
			"permeation.limit.glass", "permeation.limit.glass.exponential", "permeation.limit.thick",
		}},
		{"a day at 38 °C", []string{"permeation.life.hot.pressure", "permeation.life.hot.growth", "permeation.life.hot.diameter"}},
	}
	out := make([]Item, len(list))
	for i, r := range list {
		out[i] = Item{i + 1, r.what, r.ids}
	}
	return out
}

// numbers returns the number in a list by the id of a check.
func numbers(list []Item) map[string]int {
	out := map[string]int{}
	for _, it := range list {
		for _, id := range it.IDs {
			out[id] = it.Number
		}
	}
	return out
}
