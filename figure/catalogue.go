package figure

import "costrel/unit"

// Entry is what is fixed about a figure: its key never changes its meaning.
type Entry struct {
	Key        string
	Label      string
	Kind       unit.Kind
	Definition string // for the reader, one or two sentences
	Unit       string // unit to show it in; empty: the preferred one of the kind
	UnitUS     string // the same for a reader of US units; empty: as Unit
}

// In returns the unit in which a reader of the given system sees the figure;
// empty means the preferred one of its kind.
func (e Entry) In(s unit.System) string {
	us := e.UnitUS
	if us == "" {
		us = e.Unit
	}
	return unit.Shown(e.Kind, e.Unit, us, s)
}

// Catalogue lists every figure that costrel can compute, in the order of the
// life of a bottle.
var catalogue = []Entry{
	{"preform.mass", "Preform mass", unit.Mass, "Finish, body and end cap, by revolution of the drawing and the solid density.", "", ""},
	{"preform.ratio.hoop.inner", "Hoop stretch, inside", unit.Ratio, "Inner diameter of the bottle panel over inner diameter of the preform.", "", ""},
	{"preform.ratio.hoop.mid", "Hoop stretch, mid wall", unit.Ratio, "Mid-wall diameter of the bottle panel over mid-wall diameter of the preform.", "", ""},
	{"preform.ratio.hoop.outer", "Hoop stretch, outside", unit.Ratio, "Outer diameter of the bottle panel over outer diameter of the preform.", "", ""},
	{"preform.ratio.axial", "Axial stretch at the panel", unit.Ratio, "Arc length of the bottle panel over the arc length of the preform that feeds it.", "", ""},
	{"preform.ratio.axial.overall", "Axial stretch, overall", unit.Ratio, "Arc length of the bottle from ledge to gate over that of the preform, on the mid wall.", "", ""},
	{"preform.ratio.planar", "Planar stretch at the panel", unit.Ratio, "Mid-wall hoop stretch times local axial stretch: preform wall over panel wall, corrected for density.", "", ""},
	{"preform.gate.ratio", "Gate wall to body wall", unit.Fraction, "Wall at the gate over wall of the body.", "", ""},
	{"inject.cooling.time", "Cooling time of the preform", unit.Time, "Body wall as a plate cooled from both faces, to a mean of ‹110 °C›.", "s", ""},
	{"inject.cycle", "Injection cycle", unit.Time, "Estimate: part of the cooling in the mould, the rest in the take-out, and the time in which nothing cools.", "s", ""},
	{"inject.fill.time", "Fill time", unit.Time, "Estimate: mass of the preform over the usual fill rate.", "s", ""},
	{"inject.clamp", "Clamp force", unit.Force, "Estimate: pressure in the cavity on the projected area of all ledges.", "kN", "tonf(US)"},
	{"inject.acetaldehyde", "Acetaldehyde in the preform", unit.Fraction, "Made in the melt; none is lost on the way.", "ppm", ""},
	{"inject.iv", "IV of the preform, lower bound", unit.IntrinsicViscosity, "Intrinsic viscosity when all the water left in the resin has cut chains; well dried resin loses 0.01 to 0.03 dL/g in practice.", "", ""},
	{"reheat.temperature.mean", "Preform temperature at blow", unit.TemperaturePoint, "Mean over the mass below the ledge.", "", ""},
	{"reheat.temperature.spread", "Temperature spread along the preform", unit.TemperatureChange, "Hottest less coldest slice, mean through the wall.", "", ""},
	{"reheat.temperature.step", "Outside over inside", unit.TemperatureChange, "Outer less inner face in the middle of the body at blow.", "", ""},
	{"reheat.haze", "Crystallised in the oven", unit.Fraction, "Largest relative crystallisation before the blow; above some per cent the wall turns hazy.", "", ""},
	{"reheat.coupling", "Light that arrives", unit.Ratio, "Light needed for the preform temperature over the light that the lamp data give.", "", ""},
	{"blow.fill.time", "Time to fill the mould", unit.Time, "From rod contact to the last part of the wall on the mould.", "ms", ""},
	{"blow.pressure.pre", "Peak of the pre-blow", unit.PressureGauge, "Highest pressure in the bubble before the high stage.", "", ""},
	{"blow.rod.force", "Rod force", unit.Force, "Highest force on the stretch rod.", "", ""},
	{"blow.eject.temperature", "Hottest wall at ejection", unit.TemperaturePoint, "Highest mean wall temperature when the bottle leaves the mould.", "", ""},
	{"blow.crystallinity.panel", "Crystallinity of the panel", unit.Fraction, "Mean over the label panel, by volume.", "", ""},
	{"blow.stretch.inner", "Largest planar stretch, inside", unit.Ratio, "Largest hoop times axial stretch of the inner face.", "", ""},
	{"blow.stretch.natural", "Natural planar stretch", unit.Ratio, "Planar stretch from which a balloon of the hot plastic evens itself out, at the preform temperature and 16 1/s; a wall below it stays uneven.", "", ""},
	{"blow.slack", "Network slack", unit.Ratio, "Smallest distance of the molecular network from its limit; below 0.05 the wall pearls.", "", ""},
	{"bottle.height", "Height", unit.Length, "From the standing plane to the top of the finish.", "", ""},
	{"bottle.diameter", "Largest diameter", unit.Length, "Twice the largest outer radius of the profile.", "", ""},
	{"bottle.volume.brimful", "Brimful capacity", unit.Volume, "Inside volume to the top of the finish at ‹20 °C›, with the nominal wall of the drawing.", "", ""},
	{"bottle.volume.blown", "Brimful capacity with the computed wall", unit.Volume, "Inside volume to the top of the finish with the wall along the bottle as computed.", "", ""},
	{"bottle.volume.fill", "Fill volume", unit.Volume, "Volume of drink at ‹20 °C›.", "", ""},
	{"bottle.fill.height", "Fill level below the top", unit.Length, "Distance from the top of the finish to the drink at ‹20 °C›.", "", ""},
	{"bottle.headspace", "Headspace", unit.Volume, "Brimful capacity less fill volume, at ‹20 °C›.", "", ""},
	{"bottle.area", "Outer area", unit.Area, "Outer surface of the wall below the support ledge, base included.", "", ""},
	{"bottle.mass", "Bottle mass", unit.Mass, "Wall along the bottle and finish.", "", ""},
	{"bottle.tip.empty", "Tip angle, empty", unit.Angle, "Tilt at which the empty bottle falls over its standing edge.", "", ""},
	{"bottle.tip.filled", "Tip angle, filled", unit.Angle, "Tilt at which the filled and closed pack falls over its standing edge; the drink is taken as frozen.", "", ""},
	{"wall.min", "Thinnest wall", unit.Length, "Smallest wall along the bottle, end zones included.", "", "mil"},
	{"wall.panel.mean", "Mean wall of the panel", unit.Length, "Mean wall, by area, of the panel between the planes of the section targets, else those of bottle.parts, else the cut planes; a cut plane that is moved on the drawing weighs anew and leaves it.", "", "mil"},
	{"section.shoulder.mass", "Shoulder section with finish", unit.Mass, "Above the upper cut plane, finish included.", "", ""},
	{"section.panel.mass", "Panel section", unit.Mass, "Between the cut planes.", "", ""},
	{"section.base.mass", "Base section", unit.Mass, "Below the lower cut plane.", "", ""},
	{"pack.pressure.fill", "Pressure at fill temperature", unit.PressureGauge, "Pressure of the closed pack at the fill temperature, above the ambient of the filling site.", "", ""},
	{"pack.pressure.store", "Pressure in store", unit.PressureGauge, "Pressure of the closed pack at store temperature, above the ambient of the place of sale.", "", ""},
	{"pack.pressure.hot", "Pressure on the hot lane", unit.PressureGauge, "Pressure of the closed pack at the hottest stretch, above the ambient of the place of sale.", "", ""},
	{"pack.stress.hoop.store", "Hoop stress in store, panel mean", unit.Stress, "Membrane hoop stress at the mean wall of the panel, at store pressure.", "", ""},
	{"pack.stress.axial.store", "Axial stress in store, panel mean", unit.Stress, "Membrane axial stress at the same place.", "", ""},
	{"pack.stress.hoop.hot", "Hoop stress on the hot lane, panel mean", unit.Stress, "Membrane hoop stress at the mean wall of the panel, at the hottest stretch.", "", ""},
	{"shelf.loss.end", "Carbonation loss at best-before", unit.Fraction, "Share of the carbonation that has left the drink at the end of the shelf life, counted from the reference that the design names.", "", ""},
	{"shelf.loss.wall", "Carbonation loss through the wall", unit.Fraction, "Share of the carbonation that has left through the wall.", "", ""},
	{"shelf.loss.sorption", "Carbonation taken up by the wall", unit.Fraction, "Share of the carbonation that the plastic itself holds more than at the reference.", "", ""},
	{"shelf.loss.growth", "Carbonation into the grown volume", unit.Fraction, "Share of the carbonation that stands as gas in the volume by which the bottle has grown since the reference.", "", ""},
	{"shelf.loss.closure", "Carbonation loss through the closure", unit.Fraction, "Share of the carbonation that has left through closure and seal.", "", ""},
	{"shelf.loss.headspace", "Carbonation into the headspace", unit.Fraction, "Share of the carbonation that stands as gas in the headspace more than at the reference, the grown volume apart; negative where the headspace gives gas back to the drink as its pressure falls.", "", ""},
	{"shelf.loss.water", "Carbonation regained by loss of water", unit.Fraction, "Change of the carbonation because water leaves the drink and what is left is more concentrated; negative, as it makes up for a part of the loss.", "", ""},
	{"shelf.life", "Time to the loss limit", unit.Time, "Time at which the loss reaches its limit.", "weeks", ""},
	{"shelf.pressure.max", "Highest pressure on the lane", unit.PressureGauge, "Highest pressure of the pack from closing to best-before along its lane, warm hours included.", "", ""},
	{"shelf.vacuum.max", "Deepest vacuum on the lane", unit.PressureChange, "Deepest vacuum of the pack from closing to best-before along its lane, cold hours included.", "kPa", "inHg"},
	{"shelf.panel.max", "Most the panels give on the lane", unit.Volume, "Volume the panels of a hot-filled pack give at the deepest vacuum from closing to best-before along its lane: gas shared, oxygen consumed, water lost, air come in.", "", ""},
	{"shelf.oxygen.end", "Oxygen ingress at best-before", unit.Concentration, "Oxygen that has come in through wall and closure, per volume of drink, what the drink has consumed included.", "mg/L", ""},
	{"shelf.water.end", "Water lost at best-before", unit.Mass, "Water that has left through wall and closure.", "", ""},
	{"growth.volume.day1", "Growth of volume in the first day", unit.Fraction, "Growth of the bottle from the empty volume to 24 hours after closing, elastic and creep, read at the mean temperature of the first day of the lane.", "", ""},
	{"fillpoint.drop.day1", "Fill-point drop in the first day", unit.Length, "How far the drink stands lower 24 hours after closing than at the moment of closing, both read at the mean temperature of the first day of the lane.", "", ""},
	{"hotfill.contraction", "Contraction of the drink", unit.Fraction, "Volume of drink lost from fill to end temperature, over the volume at fill.", "", ""},
	{"hotfill.vacuum", "Vacuum after cooling", unit.PressureChange, "Pressure below ambient in the cooled pack.", "kPa", "inHg"},
	{"hotfill.vacuum.settled", "Vacuum after days", unit.PressureChange, "Pressure below ambient in the cooled pack when the headspace gas has come to balance with the drink; no gas has crossed the wall and the drink has consumed no oxygen.", "kPa", "inHg"},
	{"hotfill.pressure", "Overpressure after cooling", unit.PressureGauge, "Pressure above ambient in the cooled pack, where a dose of nitrogen or a place of sale high above the filler leaves no vacuum; nothing has dissolved yet.", "", ""},
	{"hotfill.pressure.closing", "Pressure right after closing, dosed", unit.PressureGauge, "Pressure above ambient with the whole nitrogen dose in the hot headspace, in a bottle that gives nothing: an upper bound.", "", ""},
	{"hotfill.budget.drink", "Volume the drink gives up", unit.Volume, "Contraction of the drink from fill to end temperature.", "", ""},
	{"hotfill.budget.gas", "Volume the headspace gives up", unit.Volume, "Cooling of the air closed in and condensation of its steam, at the computed vacuum, a dose of nitrogen not counted.", "", ""},
	{"hotfill.budget.nitrogen", "Volume the nitrogen dose fills", unit.Volume, "Volume of the dosed nitrogen in the cooled pack at the computed vacuum; so much less is asked of wall and panels.", "", ""},
	{"hotfill.budget.shrinkage", "Volume the bottle shrinks by", unit.Volume, "Loss of bottle volume by the heat of filling.", "", ""},
	{"hotfill.panel.need", "Volume the panels give", unit.Volume, "Volume the panels give at the computed vacuum of the first day; negative where pressure pushes the wall outward.", "", ""},
	{"hotfill.panel.need.settled", "Volume the panels give after days", unit.Volume, "Volume the panels give when drink and headspace have shared their gas; negative where pressure pushes the wall outward.", "", ""},
	{"pasteur.units", "Pasteurisation units", unit.Time, "Time at the reference temperature of the design that does as much to germs as hold and cooling of the closed pack; minutes are the units. What the drink went through before the filler is not counted.", "min", ""},
	{"pasteur.f93", "F-value, scale of acidified foods", unit.Time, "The same on the scale of acidified foods: ‹93.33 °C›, z = ‹8.89 K›. It says nothing for a low-acid drink, which hot filling does not make safe.", "min", ""},
	{"growth.diameter", "Growth of diameter, thermal stability", unit.Fraction, "Growth of the outer diameter at half height of the panel after the stability test, measured after cooling.", "", ""},
	{"growth.height", "Growth of height, thermal stability", unit.Length, "Growth from the standing ring to the top after the stability test, measured after cooling.", "", ""},
	{"fillpoint.drop", "Fill-point drop, thermal stability", unit.Length, "How far the drink stands lower after the stability test than in the pack just closed, under its pressure at filling temperature.", "", ""},
	{"base.clearance", "Base clearance, thermal stability", unit.Length, "Height of the gate above the standing plane after the stability test.", "", ""},
	{"perpendicularity.growth", "Further lean by uneven feet, thermal stability", unit.Length, "How much further the finish moves off the axis when the feet of a petaloid base sag unevenly in the stability test; an estimate.", "", ""},
	{"base.rollout", "Roll-out of the base", unit.PressureGauge, "Pressure at which the push-up of a round base snaps out on the hot lane, by arc length.", "", ""},
	{"base.crack.index", "Stress-crack index of the base", unit.Ratio, "Stress of the hardly stretched wall round the gate in the caustic bath over the stress below which it does not craze; a ranking, not a prediction.", "", ""},
	{"altitude.pressure", "Pressure at altitude", unit.PressureGauge, "Gauge pressure of the closed pack at the altitude of the test and laboratory temperature.", "", ""},
	{"altitude.growth", "Growth of volume to altitude", unit.Fraction, "Volume that the closed pack gains on the way up.", "", ""},
	{"burst.pressure", "Burst pressure", unit.PressureGauge, "Internal pressure at which the wall reaches its strength or the pressure falls for good, pumped with water.", "", ""},
	{"burst.expansion", "Volume expansion at burst", unit.Fraction, "Gain of inner volume at the burst pressure, pumped with water.", "", ""},
	{"topload.empty", "Top load, empty and vented", unit.Force, "Load to expect within the stroke of the test: halfway between the perfect shell and the lower bound of tests.", "", ""},
	{"topload.sealed", "Top load, empty and sealed", unit.Force, "The same with the air shut in.", "", ""},
	{"topload.filled", "Top load, filled and capped", unit.Force, "The same filled and capped, within its own stroke.", "", ""},
	{"vacuum.collapse", "Vacuum to collapse", unit.PressureChange, "Pressure below ambient at which the empty bottle collapses, with its knock-down.", "kPa", "inHg"},
	{"panel.compliance", "Compliance of the round wall under vacuum, without panels", unit.Compliance, "Volume given inward per vacuum by the round wall; flat panels come on top.", "", ""},
	{"stack.capacity", "Stack capacity", unit.Force, "Top load of the filled pack, the lower of that at laboratory and that at hot-lane temperature; short-time: creep in store comes in by plant.stack_factor, which is in stack.load.", "", ""},
	{"drop.index", "Drop index", unit.Ratio, "Stress of the worst zone in a drop over what it bears; a ranking, not a prediction.", "", ""},
	{"drop.height.half", "Half-failure height, up and down", unit.Length, "Height at which half of the filled packs fail, from the up-and-down drops of the laboratory.", "", ""},
	{"stress.max", "Largest hoop stress, thermal stability", unit.Stress, "Largest mean hoop stress along the wall after the stability test.", "", ""},
	{"softening.temperature", "Softening temperature", unit.TemperaturePoint, "Temperature at which the pack leaves its limits of growth when warmed.", "", ""},
	{"material.glass.wall", "Wall of a glass bottle for the same drink", unit.Length, "Wall that soda-lime glass would need in this shape for the hot pressure.", "", ""},
	{"material.glass.mass", "Mass of a glass bottle for the same drink", unit.Mass, "Mass of this shape in soda-lime glass with that wall.", "", ""},
	{"material.hdpe.growth", "Growth of the same bottle in HDPE", unit.Fraction, "Growth in diameter at half height of the panel, at once after filling, of this bottle with this wall in high-density polyethylene.", "", ""},
	{"closure.lift", "Lift on the closure", unit.Force, "Force of the hot-lane pressure on the seal circle.", "", ""},
	{"pack.mass", "Filled pack", unit.Mass, "Bottle, closure and drink.", "", "lb"},
	{"stack.load", "Stack load", unit.Force, "Load on the lowest pack with the safety factor.", "", ""},
	{"air.volume", "Blowing air", unit.NormalVolume, "Normal volume of blowing air a bottle, before recovery; trade convention: volume times gauge pressure in bar.", "NL", "scf"},
	{"air.volume.net", "Blowing air after recovery", unit.NormalVolume, "Normal volume of blowing air a bottle that the compressor must supply.", "NL", "scf"},
	{"air.volume.strict", "Blowing air, strict normal volume", unit.NormalVolume, "Normal volume at ‹0 °C› and ‹1.01325 bar› of the air that fills the inside of the bottle and the dead volume at ‹27 °C›, as the blow takes it.", "NL", "scf"},
	{"air.energy.ideal", "Ideal compression energy", unit.Energy, "Isothermal work to compress the net air of one bottle.", "", ""},
	{"air.energy", "Compression energy", unit.Energy, "Electricity at the compressor for the net air of one bottle.", "", ""},
	{"oven.heat", "Heat into the preform", unit.Energy, "Enthalpy of the heated part from inlet to blow temperature.", "", ""},
	{"oven.energy", "Oven electricity", unit.Energy, "Electricity of the oven for one preform.", "", ""},
	{"cost.resin", "Resin", unit.PricePerThousand, "Resin of 1000 bottles; that of the scrap is in the total.", "", ""},
	{"cost.air", "Air", unit.PricePerThousand, "Electricity of the blowing air of 1000 bottles.", "", ""},
	{"cost.oven", "Oven", unit.PricePerThousand, "Electricity of the oven for 1000 bottles.", "", ""},
	{"cost.total", "Cost of 1000 packs", unit.PricePerThousand, "Resin, preform making, blowing, air, oven, closure, label, scrap and tooling.", "", ""},
	{"footprint.total", "Footprint of 1000 packs", unit.Emission, "Resin, closure and electricity of oven and air; cradle to the gate of the blower.", "", ""},
}

// Entries returns the catalogue in the order of the life of a bottle.
func Entries() []Entry { return catalogue }

// Find returns the entry with the given key.
func Find(key string) (Entry, bool) {
	for _, e := range catalogue {
		if e.Key == key {
			return e, true
		}
	}
	return Entry{}, false
}
