package run

import (
	"fmt"
	"math"
	"strings"

	"costrel/project/design"
	"costrel/unit"
)

// Caution is a safety text that a value of the design calls for.
type Caution struct {
	Key     string `json:"key"`
	Title   string `json:"title"`
	Text    string `json:"text"`
	Trigger string `json:"trigger"` // what in the design calls for it
	Path    string `json:"path"`
}

// In returns the caution with its words in the units of a system.
func (c Caution) In(s unit.System) Caution {
	c.Text, c.Trigger = unit.Spell(c.Text, s), unit.Spell(c.Trigger, s)
	return c
}

// Note is printed under every board, report and export.
const Note = "Engineering estimate. It does not replace qualified laboratory validation on production tooling, material and filler. " +
	"Limits marked example are examples until your specification is entered. Local codes and licensed practice apply."

// Cautions returns the safety texts that the design calls for. The texts state
// the usual cautions of the trade and defer to local codes.
func Cautions(d *design.Design) []Caution {
	var out []Caution
	add := func(key, title, path, trigger, text string) {
		out = append(out, Caution{Key: key, Title: title, Text: text, Trigger: trigger, Path: path})
	}
	bar := float64(d.Blow.High) / 1e5
	if bar > 0 {
		add("air", "High-pressure air", "blow.high_blow", fmt.Sprintf("blow pressure ‹%.1f bar(g)›", bar),
			"Compressed air at this pressure stores lethal energy. Blow only in guarded machines, follow the local rules for pressure equipment, wear hearing and eye protection, and keep away from a bottle under pressure.")
	}
	if why, path := burstTested(d); why != "" {
		add("burst", "Burst tests", path, why,
			"Burst with water, not with gas, wherever possible: compressed gas stores far more energy. Full enclosure, remote start, two persons. Expect fragments and a flying base; plastic tears and rockets where glass shatters, so do not swap rigs or guards.")
	}
	if c := d.Drink.Carbonation; c != nil && *c > 0 {
		vol := *c / unit.VolumeCO2
		add("charged", "A filled pack is a charged vessel", "drink.carbonation", fmt.Sprintf("carbonation %.1f vol", vol),
			"The pressure near ‹40 °C› is about twice that at ‹20 °C›. Chill, vent slowly and degas before cutting. A closure can fly off: keep faces away and use a shield; eye injuries, often of children, are documented (Willhoft 1996).")
	}
	if why, path := overpressure(d); len(why) > 0 {
		text := "Keep the goods below ‹30 °C› and out of the sun, check the date code, and make fermentation part of the hazard analysis."
		if c := d.Drink.Carbonation; c != nil && *c > 0 {
			pounds := func(v float64) string { return unit.Quote(unit.PressureChange, v*6894.757, 2) }
			text += fmt.Sprintf(" Published advice to consumers counts with %s in a soft drink at %s and %s at %s (Fraser and Lackey 2004).",
				pounds(50), unit.Quote(unit.TemperaturePoint, 297.04, 2), pounds(75), unit.Quote(unit.TemperaturePoint, 310.93, 3))
		}
		add("overpressure", "Overpressure and fermentation", path, strings.Join(why, "; "), text)
	}
	if d.Drink.Nitrogen > 0 {
		add("dosed", "A dosed pack is under pressure", "drink.nitrogen", "nitrogen is closed in",
			"Open dosed packs slowly and away from faces, and vent before cutting: a closure can fly off.")
		add("nitrogen", "Liquid nitrogen", "drink.nitrogen", fmt.Sprintf("nitrogen dose %.0f mg", d.Drink.Nitrogen*1e6),
			"Danger of suffocation and cold burns: ventilate and monitor oxygen. An overdose bursts a light pack; never assume that every pack gets the same dose.")
	}
	if d.Drink.FillTemperature.Celsius() > 60 {
		add("hot", "Hot liquid", "drink.fill_temperature", fmt.Sprintf("fill temperature ‹%.0f °C›", d.Drink.FillTemperature.Celsius()),
			"Scalds, also from inverted packs with loose closures. Hot water breaks cold glass. Keep the limits of the neck temperature and wear protection in the laboratory.")
	}
	if d.Drink.Carbonation != nil && (d.Bottle.Base.Type == "petaloid" || d.Brief.Product == "returnable") {
		add("caustic", "Caustic stress-crack bath", "bottle.base.type", "base and wall need a stress-crack or wash test",
			"Dilute caustic at 0.1 to 0.2 % on a pressurised bottle: goggles, gloves, shield. The bottle can rupture without warning.")
	}
	if d.Brief.Nominal > 0 {
		const height = 2  // m
		density := 1000.0 // kg/m³, where the drink has none
		if liquid, err := drinkOf(d).Liquid(); err == nil {
			density = liquid.Density(unit.Celsius(20))
		}
		e := (d.Brief.Nominal*density + 0.05) * unit.Gravity * height // bottle and closure 50 g
		add("drop", "Drop test", "brief.nominal", fmt.Sprintf("a drop from ‹%d m› releases %s and ends at ‹%.1f m/s›", height, unit.Quote(unit.Energy, e, 2, "J", "ft·lb"), math.Sqrt(2*unit.Gravity*height)),
			"Fence the area of the drop test off; packs can burst on impact.")
	}
	add("food", "Food contact", "resin.recycled", "the pack holds a drink",
		"Compliance is a legal duty (in the EU regulations 10/2011, 2022/1616 and 2023/2006, in the US 21 CFR 177.1630, elsewhere others): supplier declaration, migration tests, traceability. A prediction is not compliance.")
	add("rights", "Rights in neck and base", "bottle.base.type", "neck and base are chosen",
		"Bases and necks are often protected: check patents and registered designs and agree the neck with the closure supplier.")
	add("reuse", "No reuse under pressure", "bottle", "any pack",
		"Nothing here is validated for reuse of a bottle under pressure, for water rockets or for home use. Quarantine tested packs and label them not for consumption.")
	return out
}

// overpressure returns everything in a design that calls for the caution of
// that name, and where the first of it stands. A still drink ferments too.
func overpressure(d *design.Design) (why []string, path string) {
	add := func(at, format string, args ...any) {
		if path == "" {
			path = at
		}
		why = append(why, fmt.Sprintf(format, args...))
	}
	if c := d.Drink.Carbonation; c != nil && *c/unit.VolumeCO2 > 4.2 {
		add("drink.carbonation", "carbonation above 4.2 vol")
	}
	if warmest, _ := hottest(d); warmest.Celsius() > 45+1e-6 {
		add("climate.hot", "hottest stretch of the lane ‹%.0f °C›, above ‹45 °C›", warmest.Celsius())
	}
	if d.Drink.Sugar > 0 && !d.Drink.Preservative {
		add("drink.sugar", "sugar without preservative")
	}
	return why, path
}

// burstTested returns why the pack is burst in the laboratory, and where that
// stands: a limit asks for it, or the pack holds pressure. Empty when neither.
func burstTested(d *design.Design) (why, path string) {
	for i, l := range d.Limits {
		if strings.HasPrefix(l.Figure, "burst.") {
			return "a limit on " + l.Figure, fmt.Sprintf("limits[%d]", i)
		}
	}
	if c := d.Drink.Carbonation; c != nil && *c > 0 {
		return fmt.Sprintf("the pack holds pressure, carbonation %.1f vol", *c/unit.VolumeCO2), "drink.carbonation"
	}
	return "", ""
}
