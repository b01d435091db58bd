package report

import (
	"costrel/figure"
	"costrel/physics/permeation"
	"costrel/unit"
)

// valid returns where the method of a figure holds, after its page under
// docs/theory; empty for what no method computes. What lies outside is
// refused or warned of with value and limit beside the figure.
func valid(f figure.Figure) string {
	if f.Origin.Kind != figure.Computed {
		return ""
	}
	if text, ok := validKeys[f.Key]; ok {
		return text
	}
	return validPages[f.Origin.Theory]
}

func celsius(c float64) string { return unit.Quote(unit.TemperaturePoint, c+273.15, 3) }

// validKeys are figures whose method differs from the others of its page.
var validKeys = map[string]string{
	"inject.cooling.time": "While the mean, less the face, is below 0.6 of the melt, less the face; above it is refused. A tube is taken as a plate.",
	"drop.index":          "From " + celsius(0) + " to " + celsius(40) + ". To compare two designs; a height only after drops of one of them.",
	"pasteur.units":       "For one hold and one cooling, or a record of temperatures; what is enough is for whoever answers for the process.",
	"pasteur.f93":         "For one hold and one cooling, or a record of temperatures; what is enough is for whoever answers for the process.",
	"bottle.mass":         "Blowing takes and adds nothing: it is the mass of the preform.",
	"air.energy":          "Dry air as an ideal gas: within 2 % of the density at ‹40 bar›.",
	"stack.load":          "Every pack of a layer carries its share; creep, dynamics and uneven share are in the safety factor.",
}

// validPages are the ranges by page of the theory.
var validPages = map[string]string{
	"preform":    "For the drawing of the preform, round about its axis; stretch by mean walls of the panel.",
	"inject":     "Estimates for walls up to " + unit.Quote(unit.Length, 8.5e-3, 2) + "; no simulation of the filling.",
	"oven":       "Mean of every slice from " + celsius(90) + " to " + celsius(118) + ", warned outside; refused below " + celsius(78) + " and where a face melts. Round about the axis.",
	"blow":       "Wall from " + celsius(80) + " to " + celsius(118) + ", rates from 1 to 128 1/s, held at the edge with a warning outside. Averaged round the axis: no feet, panels, offset gate.",
	"hotlaws":    "From " + celsius(80) + " to " + celsius(118) + ", rates from 1 to 128 1/s, held at the edge with a warning outside.",
	"drawdown":   "By mass alone: the mean of a section is as good as its weight, a place within it within some 20 %. No temperature, pressure or time.",
	"bottle":     "For the profile averaged round the axis, at " + celsius(20) + "; feet and ribs as a height over it.",
	"drink":      "Solubility in the range of its law: plummer-busenberg " + celsius(0) + " to " + celsius(90) + ", weiss to " + celsius(40) + ", carroll to " + celsius(160) + ", iapws " + celsius(1) + " to " + celsius(370) + ", vant-hoff " + celsius(10) + " to " + celsius(40) + "; up to ‹16 bar(a)›.",
	"stress":     "Radius over wall above 10, away from ribs, base and shoulder, where the wall bends.",
	"permeation": "Walls from " + celsius(5) + " to " + celsius(55) + ", where bottles were measured; warmer is carried on with a warning. Lanes from " + celsius(permeation.LowT.Celsius()) + " to " + celsius(permeation.HighT.Celsius()) + ", day and season included.",
	"strength":   "Radius over wall above 10, strains to 20 %. Ribs, panels, feet and threads are no part of a shell round about its axis; residual stress, ageing and moisture are not in it.",
	"capping":    "For gas that presses on the diameter given; where a plug alone seals, on the bore.",
	"pallet":     "For whole layers on a flat deck, without overhang.",
	"air":        "As counted by the convention named; the strict count takes air as an ideal gas, within 2 % at ‹40 bar›.",
	"energy":     "Sums of consumers with the range of each; ranges as if independent.",
	"cost":       "For the prices of the design; those of the card are an order of magnitude for Europe.",
	"footprint":  "Resin, closure and label from cradle to gate, electricity of making and blowing, scrap; no life cycle assessment and no basis for a public claim.",
	"hotfill":    "From " + celsius(0) + " to " + celsius(100) + "; fill outside " + celsius(82) + " to " + celsius(96) + ", vacuum beyond the panel curve and pressure above ambient are warned of.",
}
