package lab

import "strings"

// Caution is what to beware of when a test is run.
type Caution struct {
	Title string `json:"title"`
	Text  string `json:"text"`
}

// cautions are tied to the beginning of a quantity's key.
var cautions = []struct {
	prefix string
	Caution
}{
	{"burst.", Caution{"Burst test", "Fill with water, not gas, where possible: stored gas energy is far higher. Closed guard, remote start; expect fragments and the base to fly off."}},
	{"stresscrack.", Caution{"Caustic bath", "Dilute caustic and pressurised bottles: goggles, gloves and a shield. A bottle may rupture without warning."}},
	{"drink.carbonation", Caution{"Filled packs", "A warm carbonated pack is a charged vessel. Chill it, vent it slowly and keep the face away from the closure."}},
	{"growth.", Caution{"Filled packs in heat", "Pressure at 40 °C is about twice that at 20 °C. Keep packs behind a guard while warm and chill them before opening."}},
	{"stability.", Caution{"Filled packs in heat", "Pressure at 40 °C is about twice that at 20 °C. Keep packs behind a guard while warm and chill them before opening."}},
	{"base.clearance", Caution{"Filled packs in heat", "Pressure at 40 °C is about twice that at 20 °C. Keep packs behind a guard while warm and chill them before opening."}},
	{"torque.", Caution{"Filled packs", "A closure may leave violently when it is opened under pressure. Point it away and vent it slowly."}},
	{"opening.", Caution{"Filled packs", "A closure may leave violently when it is opened under pressure. Point it away and vent it slowly."}},
	{"closure.", Caution{"Filled packs in heat", "Packs cycled to 60 °C are under high pressure: guard, remote reading, cool before handling."}},
	{"hotfill.", Caution{"Hot filling", "Liquid at 80 to 95 °C scalds, inverted packs may leak. Wear protection and mind hot water on cold glass."}},
	{"topload.filled", Caution{"Filled packs under load", "A filled pack may burst or throw its closure under load. Guard the frame."}},
}

// CautionsFor returns the cautions of the tests in a table, each once.
// Tested packs go to quarantine and are marked not for consumption.
func CautionsFor(t *Table) []Caution {
	var out []Caution
	seen := map[string]bool{}
	for _, s := range t.Series() {
		for _, c := range cautions {
			if strings.HasPrefix(s.Key, c.prefix) && !seen[c.Title] {
				seen[c.Title] = true
				out = append(out, c.Caution)
			}
		}
	}
	if out != nil {
		out = append(out, Caution{"Tested packs", "Quarantine tested packs and mark them not for consumption."})
	}
	return out
}
