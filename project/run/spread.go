package run

import (
	"fmt"
	"math"

	"costrel/project/design"
	"costrel/unit"
)

// spread is one uncertain number of the design: how far it may lie from what
// is written, at the ends of its 95 % range.
type spread struct {
	path  string
	by    float64 // half width: absolute SI, or a factor (1+by) when rel, or e^±by when log
	rel   bool
	log   bool
	basis string
	blown bool // only where the wall was blown
	// mirror: the range is so small against the number that what the high end
	// does, turned round, is what the low end does, to about a hundredth of it.
	mirror bool
	when   func(d *design.Design) bool
	// of gives half width and basis where they depend on the design; set moves
	// what is no single number of it, from 0.
	of  func(d *design.Design) (by float64, basis string)
	set func(d *design.Design, by float64)
}

// spreads is the list of uncertain numbers. All are habits of the trade or
// choices of this project; a calibrated design narrows them.
var spreads = []spread{
	{path: "preform.wall", by: 0.04e-3, mirror: true, basis: "injection tolerance ± ‹0.04 mm›, common practice"},
	{path: "preform.body_length", by: 0.2e-3, mirror: true, basis: "injection tolerance ± ‹0.2 mm›, common practice"},
	{path: "preform.inner_diameter", by: 0.05e-3, mirror: true, basis: "injection tolerance ± ‹0.05 mm›, common practice"},
	{path: "finish.mass", by: 0.03e-3, mirror: true, basis: "neck mass ± 0.03 g, common practice"},
	{path: "resin.density_wall", by: 5, mirror: true, basis: "wall density ± 5 kg/m³ (crystallinity ± 4 points), common practice"},
	{path: "bottle.wall", by: 0.03e-3, basis: "nominal wall ± ‹0.03 mm›, common practice"},
	{path: "bottle.panel_diameter", by: 0.3e-3, mirror: true, basis: "shrinkage of the blown diameter ± ‹0.3 mm›, common practice"},
	{path: "preform.section_targets.panel", by: 0.4e-3, basis: "section weight ± 0.4 g, common practice", when: hasTargets},
	{path: "preform.section_targets.base", by: 0.5e-3, basis: "section weight ± 0.5 g, common practice", when: hasTargets},
	{path: "brief.nominal", by: 0.005, rel: true, basis: "fill volume ± 0.5 %, chosen for this project"},
	{path: "drink.nitrogen", by: 0.3, rel: true, basis: "nitrogen kept at closing ± 30 %, from memory"},
	{path: "drink.nitrogen_dissolved", by: 0.5, rel: true, basis: "dissolved nitrogen ± 50 %, chosen for this project", when: still},
	{path: "drink.carbonation", by: 0.2, basis: "carbonation ± 0.1 vol at the filler, common practice", when: carbonated},
	{path: "drink.fill_temperature", by: 2, basis: "fill temperature ± ‹2 K›, common practice"},
	{path: "drink.headspace_air", by: 0.2, basis: "air left in the headspace ± 20 points, chosen for this project"},
	{path: "climate.store", by: 2, basis: "mean store temperature ± ‹2 K›, chosen for this project"},
	{path: "climate.hot", by: 2, basis: "hot lane ± ‹2 K›, chosen for this project"},
	{path: "climate.lane", by: 2, basis: "temperatures of the lane ± ‹2 K›, chosen for this project", when: hasLane, set: shiftLane},
	{path: "shelf.barrier_factor", log: true, of: barrierSpread},
	{path: "closure.co2", by: 0.47, log: true, basis: "closure conductance times or divided by 1.6, chosen for this project", when: notFitted},
	{path: "closure.o2", by: 0.47, basis: "conductance of oxygen, nitrogen and water together times or divided by 1.6, chosen for this project", set: scaleAirOfClosure},
	{path: "drink.oxygen_dissolved", by: 0.5, rel: true, basis: "dissolved oxygen ± 50 %, chosen for this project", when: still},
	{path: "hotfill.air_share", by: 0.1, basis: "air left in the headspace ± 10 points, chosen for this project", when: hotFilled},
	{path: "hotfill.end_temperature", by: 1, basis: "temperature of reading ± ‹1 K›, chosen for this project", when: hotFilled},
	{path: "hotfill.shrinkage", by: 0.002, basis: "shrinkage ± 0.2 points, common practice", when: hotFilled},
	{path: "hotfill.panel_compliance", by: 0.15, rel: true, basis: "panel compliance ± 15 %, estimate until computed or measured", when: hotFilled},
	{path: "hotfill.headspace_temperature", by: 4, basis: "headspace gas ± ‹4 K›, chosen for this project", when: hotFilled},
	{path: "hotfill.hold_time", by: 0.2, rel: true, basis: "hold ± 20 %, chosen for this project", when: hotFilled},
	{path: "hotfill.record", by: 0.5, basis: "temperatures of a recorder ± ‹0.5 K›, common practice", when: hasRecord, set: shiftRecord},
	{path: "hotfill.cooling_time", by: 0.3, rel: true, basis: "time constant of the cooling ± 30 %, chosen for this project", when: hotFilled},
	{path: "blow.wall_factor", by: 0.15, rel: true, basis: "section weights by the rule of thumb ± 15 %, chosen for this project", when: noTargets},
	{path: "blow.wall_factor", rel: true, of: computedPanel, blown: true},
	{path: "blow.high_blow", by: 0.5e5, basis: "regulator ± ‹0.5 bar›, common practice"},
	{path: "blow.dead_volume", by: 0.15, rel: true, basis: "dead volume ± 15 %, common practice"},
	{path: "blow.air_recovery", by: 0.05, basis: "recovery ± 5 points, common practice"},
	{path: "plant.air_energy", by: 0.12, rel: true, basis: "compressor 0.20 to 0.25 kWh/Nm³, from memory"},
	{path: "oven.mean_temperature", by: 3, basis: "preform temperature ± ‹3 K›, common practice"},
	{path: "oven.energy", by: 0.3, rel: true, basis: "oven 0.10 to 0.25 kWh/kg, from memory"},
	{path: "plant.resin_price", by: 0.15, rel: true, basis: "resin price ± 15 %, chosen for this project"},
	{path: "plant.preform_making", by: 0.2, rel: true, basis: "± 20 %, chosen for this project"},
	{path: "plant.blowing", by: 0.2, rel: true, basis: "± 20 %, chosen for this project"},
	{path: "plant.virgin_emission", by: 0.15, rel: true, basis: "one study of one producer, ± 15 % chosen for this project"},
}

// spreadsOf returns the uncertain numbers that count for a design, each with its
// width; blown adds those of a computed wall.
func spreadsOf(d *design.Design, blown bool) []spread {
	var out []spread
	for _, s := range spreads {
		if s.when != nil && !s.when(d) || s.blown && !blown {
			continue
		}
		if s.of != nil {
			if s.by, s.basis = s.of(d); s.by == 0 {
				continue
			}
		}
		out = append(out, s)
	}
	return out
}

// barrierSpread is how far the barrier factor may be off: as little as a fit to
// pulls has left, where there was one.
func barrierSpread(d *design.Design) (by float64, basis string) {
	sigma := d.Shelf.FactorSD
	basis = fmt.Sprintf("barrier of the wall, lognormal with σ = %.3g", sigma)
	if fittedOn(d, false) {
		return two95 * sigma, basis + ", fitted to pulls at " + unit.Quote(unit.TemperaturePoint, float64(*d.Shelf.FittedAt), 4) + ": it holds wall and closure together"
	}
	return two95 * sigma, basis + ", chosen for this project until it is fitted to pulls"
}

// two95 is the score at the ends of a 95 % range.
const two95 = 1.959963984540054

// fittedOn tells whether the barrier factor was fitted to pulls on that wall: of
// the blow, or of the preview.
func fittedOn(d *design.Design, blown bool) bool {
	return d.Shelf.FittedAt != nil && (d.Shelf.FittedWall == "blown") == blown
}

// notFitted is of the preview, which stands behind every silent run.
func notFitted(d *design.Design) bool { return !fittedOn(d, false) }

// hasLane tells whether the pack goes along rows or a named lane: the store does
// not move them.
func hasLane(d *design.Design) bool {
	return len(d.Climate.Lane) > 0 || d.Climate.Named != "store"
}

// shiftLane moves every temperature of the lane; a named lane becomes rows of
// its own for it.
func shiftLane(d *design.Design, by float64) {
	if len(d.Climate.Lane) == 0 {
		d.Climate.Lane = rowsOf(d)
	}
	for i := range d.Climate.Lane {
		d.Climate.Lane[i].Temperature += unit.Temperature(by)
	}
}

// scaleAirOfClosure scales what the closure passes of air and water by e^by.
func scaleAirOfClosure(d *design.Design, by float64) {
	f := math.Exp(by)
	d.Closure.O2, d.Closure.N2, d.Closure.Water = d.Closure.O2*f, d.Closure.N2*f, d.Closure.Water*f
}

func hasRecord(d *design.Design) bool { return len(d.HotFill.Record) > 0 }

// shiftRecord moves every temperature of the record.
func shiftRecord(d *design.Design, by float64) {
	for i := range d.HotFill.Record {
		d.HotFill.Record[i].Temperature += unit.Temperature(by)
	}
}

func noTargets(d *design.Design) bool { return d.Preform.Targets == nil }

func still(d *design.Design) bool { return !carbonated(d) }

func hasTargets(d *design.Design) bool { return d.Preform.Targets != nil }

func carbonated(d *design.Design) bool {
	return d.Drink.Carbonation != nil && *d.Drink.Carbonation > 0
}

// ends returns the two ends of the range of a number.
func (s spread) ends(v float64) (lo, hi float64) {
	switch {
	case s.log:
		return v * math.Exp(-s.by), v * math.Exp(s.by)
	case s.rel:
		return v * (1 - s.by), v * (1 + s.by)
	}
	return v - s.by, v + s.by
}
