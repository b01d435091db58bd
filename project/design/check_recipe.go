package design

import (
	"fmt"
	"strings"

	"costrel/figure"
	"costrel/unit"
)

// checkRecipe reports settings of oven and blow that contradict each other.
func (doc *Document) checkRecipe(add, warn faultFunc) {
	d := doc.Design
	if d.Blow.PreBlow > d.Blow.High {
		add("blow.pre_blow", "at most high_blow, "+show(unit.PressureGauge, float64(d.Blow.High)), "the pre-blow pressure of %s is above the high blow pressure", show(unit.PressureGauge, float64(d.Blow.PreBlow)))
	}
	seen := map[int]int{}
	for i, z := range d.Oven.Zones {
		if first, twice := seen[z.Zone]; twice {
			add(fmt.Sprintf("oven.zones[%d].zone", i), "each zone once", "zone %d stands in rows %d and %d", z.Zone, first+1, i+1)
			continue
		}
		seen[z.Zone] = i
	}
	if m := d.Oven.Mean; m < min(d.Oven.Inside, d.Oven.Outside)-10 || m > max(d.Oven.Inside, d.Oven.Outside)+10 {
		warn("oven.mean_temperature", "between inside and outside", "the mean of %s is far from inside and outside, %s and %s", show(unit.TemperaturePoint, float64(m)), show(unit.TemperaturePoint, float64(d.Oven.Inside)), show(unit.TemperaturePoint, float64(d.Oven.Outside)))
	}
	if d.Preform.InnerDiameter >= d.Finish.Bore {
		warn("preform.inner_diameter", "less than the bore of "+show(unit.Length, d.Finish.Bore), "the core of %s does not leave through the bore of the finish", show(unit.Length, d.Preform.InnerDiameter))
	}
	if d.Brief.Product == "hotfill" && d.HotFill.Headspace > d.Drink.FillTemperature+5 {
		warn("hotfill.headspace_temperature", "at most the fill temperature", "the headspace is hotter than the drink")
	}
	checkRecord(d.HotFill.Record, add)
	if len(d.Lab.Pulls) > 0 && (d.Drink.Carbonation == nil || *d.Drink.Carbonation == 0) {
		warn("lab.pulls", "pulls of a carbonated drink", "the drink is not carbonated: its pulls are shown nowhere")
	}
	if doc.Marks["bottle.profile"].Kind == figure.Assumed && d.Bottle.PanelFrom < d.Bottle.Base.Height {
		warn("bottle.panel_from", "at least the base height of "+show(unit.Length, d.Bottle.Base.Height), "the panel begins inside the base; the drawn profile lets it begin above")
	}
}

// checkRecord reports a record that is no course of the temperature.
func checkRecord(rows []RecordRow, add faultFunc) {
	if len(rows) == 1 {
		add("hotfill.record", "two readings or more, or none", "a record of one reading has no course")
	}
	for i := 1; i < len(rows); i++ {
		if !(rows[i].Time > rows[i-1].Time) {
			add(fmt.Sprintf("hotfill.record[%d].time", i), "more than "+minutes(rows[i-1].Time)+", the reading before", "the time of %s does not rise", minutes(rows[i].Time))
		}
	}
}

func minutes(t float64) string { return unit.Format(unit.Time, t, "min", 4) }

// checkMoney reports prices in another currency than that of the design:
// nothing is converted.
func (doc *Document) checkMoney(add, warn faultFunc) {
	code := doc.Design.Plant.Currency
	var silent []string
	for _, it := range Walk() {
		m := doc.Marks[it.Path]
		own, is := unit.Currency(m.Symbol)
		if !is || own == code || !isMoney(it.Field.Kind) {
			continue
		}
		if m.Kind == figure.Given {
			add(it.Path, "a price in "+code+", or plant.currency: "+own, "the price is in %s, the currency of the design is %s, and nothing is converted", own, code)
		} else if v, _, ok := doc.Design.Number(it.Path); ok && v != 0 {
			silent = append(silent, it.Field.Key)
		}
	}
	if len(silent) > 0 {
		warn("plant.currency", "prices of your own for these", "the default prices are meant in EUR and are taken as %s without conversion: %s", code, strings.Join(silent, ", "))
	}
}

// isMoney tells whether the units of a kind begin with a currency.
func isMoney(k unit.Kind) bool {
	switch k {
	case unit.Money, unit.PricePerMass, unit.PricePerEnergy, unit.PricePerThousand:
		return true
	}
	return false
}
