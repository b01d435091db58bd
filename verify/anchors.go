package verify

// firstAnchor is the number of the first row of [Anchors]; those before it are
// in the barrier chapter.
const firstAnchor = 5

// Anchors returns the list of hand-worked values of pack, laboratory and plant,
// J5 to J20, in order. Every id is that of a check; a test walks the list and
// fails on a gap.
func Anchors() []Item {
	list := []struct {
		what string
		ids  []string
	}{
		{"contraction of water to 20 °C", each("drink.contraction.hand.%sC%s", []string{"80", "85", "88", "90", "95"}, "")},
		{"water vapour in a hot headspace", each("drink.vapour.headspace.%sC%s", []string{"80", "85", "90"}, "")},
		{"crystallinity from density", each("resin.crystallinity.%s%s", []string{"1360", "1365", "1375", "1380"}, "")},
		{"air of a blow station", []string{"air.inside", "air.dead.gauge", "air.dead.gauge.divided", "air.dead.absolute"}},
		{"isothermal compression", each("air.isothermal.%sbar%s", []string{"26", "36", "41"}, "")},
		{"lift on a closure", []string{"capping.lift.100psi.21.8mm", "capping.lift.100psi.24.94mm", "capping.lift.1207kPa.24.94mm"}},
		{"turns of a thread", each("finish.turns.%s%s", []string{"650", "680", "720"}, "")},
		{"one-sided tolerance factors, 95/95", each("stat.k1.%s.95.95%s", []string{"5", "6", "8", "10", "12", "15", "20", "24", "30", "35", "60"}, "")},
		{"tests without failure", []string{"stat.zero.95.95", "stat.zero.99.95", "stat.zero.95.90", "stat.zero.90.90", "stat.zero.95.99"}},
		{"upper limit on the failing fraction", each("stat.fraction.%s%s", []string{"0.24", "1.24", "0.60"}, "")},
		{"standard atmosphere", append(each("climate.atmosphere.%sm%s", []string{"1000", "1500", "2240", "3000", "4267", "5791"}, ""), "climate.altitude.2240m")},
		{"energy of a drop", []string{"pallet.drop.ball", "impact.energy.twolitre"}},
		{"mass balance of a 1.75 L preform", []string{"preform.lime.body", "preform.lime.cap", "preform.lime.mass", "preform.lime.planar", "drawdown.lime.panel"}},
		{"hoop stress at burst", []string{"shell.cylinder.burst"}},
		{"a pair of values for cola bottles that is not for use", each("permeation.film.trap%s%s", []string{"", ".week", ".right", ".lag"}, "")},
		{"one cc·mil of the trade", []string{"unit.permeability.us", "permeation.unit.mil"}},
	}
	out := make([]Item, len(list))
	for i, r := range list {
		out[i] = Item{i + firstAnchor, r.what, r.ids}
	}
	return out
}
