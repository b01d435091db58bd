package run

import (
	"fmt"

	"costrel/physics/inject"
	"costrel/physics/oven"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// reheatSheets is the oven as set and where the heat of one preform goes.
func reheatSheets(d *design.Design, done map[string]*entry) []Sheet {
	card := Sheet{Title: "Process card of the oven"}
	card.ovenCard(d)
	card.card(d, "oven.inlet_temperature")
	out := []Sheet{card}
	if done["reheat"].err != nil {
		return out
	}
	hot := done["reheat"].out.(*Reheated)
	heat := Sheet{Title: "Heat of one preform below the ledge"}
	joule := func(label string, v float64) {
		heat.Rows = append(heat.Rows, SheetRow{Label: label, Kind: unit.Energy, Unit: "kJ", Value: v})
	}
	need, mass := stored(hot.Field, d.Oven.Inlet)
	if r := hot.Run; r != nil {
		e := r.Energy
		joule("electricity of the lamps, computed from their power", e.Electric)
		if p := done["preform"]; p != nil && p.err == nil {
			joule("board and cost count, by oven.energy per kilogram", (p.out.(*Preform).Mass-d.Finish.Mass)*d.Oven.Energy)
		}
		joule("light that falls on it", e.Falls)
		joule("reflected", -e.Reflected)
		joule("escaped through it", -e.Escaped)
		joule("absorbed", e.Absorbed)
		joule("to the air outside", -e.LostConvection)
		joule("radiated", -e.LostRadiation)
		joule("to the air inside", -e.Inner)
		joule("stored", e.Stored)
		heat.Rows = append(heat.Rows,
			SheetRow{Label: "absorbed less lost less stored, over absorbed", Text: fmt.Sprintf("%.1e", e.Residual)},
			SheetRow{Label: "stored over electricity", Kind: unit.Fraction, Unit: "%", Value: e.Efficiency()})
	} else {
		heat.Rows = append(heat.Rows, SheetRow{Label: "lamps", Text: "not reckoned: the temperatures are those of the card, so that there is no balance to close"})
	}
	joule("enthalpy from the inlet to the temperatures at blow", need)
	heat.Rows = append(heat.Rows, SheetRow{Label: "plastic heated", Kind: unit.Mass, Unit: "g", Value: mass})
	return append(out, heat)
}

// stored is the heat that brings the slices of a field from the inlet to their
// mean temperature [J], and their mass [kg].
func stored(f *oven.Field, inlet unit.Temperature) (heat, mass float64) {
	for i, m := range f.Mass {
		if h, _, err := resin.Enthalpy(inlet, unit.Temperature(f.Mean[i])); err == nil {
			heat += h * m
		}
		mass += m
	}
	return heat, mass
}

// injectSheets is the moulding as set, what it makes, and the preform held
// against the rules of the trade.
func injectSheets(d *design.Design, done map[string]*entry) []Sheet {
	r := done["inject"].out.(*inject.Result)
	card := Sheet{Title: "Moulding"}
	card.card(d, "inject.cavities", "inject.melt_temperature", "inject.mould_temperature", "inject.residence", "resin.iv", "preform.wall", "preform.gate")
	card.Rows = append(card.Rows, SheetRow{Label: "Moisture", Kind: unit.Fraction, Unit: "ppm", Value: d.Inject.Moisture})
	made := Sheet{Title: "Estimates"}
	row := func(label string, kind unit.Kind, u string, v float64) {
		made.Rows = append(made.Rows, SheetRow{Label: label, Kind: kind, Unit: u, Value: v})
	}
	row("body wall to a mean of ‹110 °C›, as it leaves the mould", unit.Time, "s", r.Mean110)
	row("to a mean of ‹75 °C›, when it is firm", unit.Time, "s", r.Mean75)
	row("middle of the body wall to ‹110 °C›", unit.Time, "s", r.Middle110)
	row("middle of the gate to ‹110 °C›", unit.Time, "s", r.Gate110)
	made.Rows = append(made.Rows, SheetRow{Label: "preforms an hour, all cavities", Text: fmt.Sprintf("%.0f, %.0f to %.0f", r.Output.Value*3600, r.Output.Low*3600, r.Output.High*3600)})
	out := []Sheet{card, made}
	if w := done["wall"]; w != nil && w.err == nil {
		if s, ok := ruleSheet(d, done["preform"].out.(*Preform).Body, done["bottle"].out.(*Shape), w.out.(*Wall)); ok {
			out = append(out, s)
		}
	}
	return out
}

// classOf is the class of preform rules by the product.
var classOf = map[string]preform.Class{"still": preform.Still, "carbonated": preform.CSD, "hotfill": preform.HotFill, "aseptic": preform.Still, "returnable": preform.Refillable}

func ruleSheet(d *design.Design, p *preform.Preform, shape *Shape, w *Wall) (Sheet, bool) {
	s, err := p.Stretch(preform.Aim{Diameter: d.Bottle.PanelDiameter, Wall: w.PanelMean, Arc: shape.Bottle.ArcLength(), Density: d.Resin.DensityWall})
	if err != nil {
		return Sheet{}, false
	}
	found, err := p.Review(classOf[d.Brief.Product], &s)
	if err != nil {
		return Sheet{}, false
	}
	out := Sheet{Title: "Preform held against the rules of the trade, stretch by the draw-down preview"}
	if w.Blown != nil {
		out.Title = "Preform held against the rules of the trade, stretch by the blown wall"
	}
	for _, f := range found {
		out.Rows = append(out.Rows, SheetRow{Label: string(f.Place), Text: f.Text})
	}
	return out, true
}
