package run

import (
	"errors"
	"fmt"
	"math"

	"costrel/physics/climate"
	"costrel/physics/closure"
	"costrel/physics/drink"
	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// orientedFrom is the planar stretch above which the wall counts as oriented.
// Permeability falls abruptly at a moderate stretch of about 2 to 3 and hardly
// changes beyond it (SwaroopGordon1980); 3 is chosen for this project.
const orientedFrom = 3

const day = 86400.0

var shelfStage = stage{
	name: "shelf", sampled: true,
	needs: []string{"bottle", "preform", "wall"},
	also:  panelStages,
	reads: func(d *design.Design) any {
		return []any{d.Brief.Product, d.Brief.Nominal, d.Brief.ShelfLife, d.Drink, d.Climate, d.Shelf, d.Closure, d.HotFill, d.Lab, d.Finish, d.Resin.DensityWall, LossLimit(d), NoLossLimit(d)}
	},
	keys: []string{
		"shelf.loss.end", "shelf.loss.wall", "shelf.loss.sorption", "shelf.loss.growth", "shelf.loss.closure", "shelf.loss.headspace", "shelf.loss.water", "shelf.life",
		"shelf.pressure.max", "shelf.vacuum.max", "shelf.panel.max", "shelf.oxygen.end", "shelf.water.end", "growth.volume.day1", "fillpoint.drop.day1",
	},
	run: func(c *pass) (any, error) {
		pc, warnings, err := shelfCase(c)
		if err != nil {
			return nil, err
		}
		if hotFilled(c.d) {
			warnings = append(warnings, "the life begins when the pack has cooled to the first temperature of the lane")
		}
		warnings = append(warnings, laneRange(pc)...)
		if tight(c.d) && c.d.Shelf.Coating != "none" {
			c.problem("shelf.coating", "%s", uselessCoating(c.d))
		}
		end := c.d.Brief.ShelfLife
		until := math.Max(end, 1.0001*day)
		if c.work.drawn {
			until = drawnUntil(pc.Lane, until) // as far as the limit may lie
		}
		options := permeation.Options{}
		if !c.work.drawn {
			options = silentLife
		}
		life, err := pc.Run(until, options)
		if err != nil {
			return nil, err
		}
		warnings = append(warnings, fullNote(life, end)...)
		s := &shelfLife{pass: c, life: life, pc: pc, end: end, warnings: warnings}
		for _, v := range s.values(life) {
			s.show(v)
		}
		if c.work.drawn {
			s.plots()
			if err := s.barrierPlot(); err != nil {
				c.problem("shelf.barrier", "the barrier along the wall is not drawn: %v", err)
			}
			if c.work.full {
				s.sampled(until)
			}
		}
		return life, nil
	},
}

// fullNote warns of a bottle that its liquid fills: under vacuum the wall follows
// the liquid, under pressure it is stretched by it.
func fullNote(life *permeation.Life, end float64) []string {
	t, full := life.Full(end)
	if !full {
		return nil
	}
	if high, _ := life.Highest(end); high > 0 {
		return []string{fmt.Sprintf("%s: on day %.3g the liquid fills the bottle: without a gas space the wall alone takes what the liquid expands by, and a pack warmed further bursts; leave more headspace", quality.EstimatePrefix, t/day)}
	}
	return []string{fmt.Sprintf("from day %.3g on the liquid fills the bottle: no gas space is left, and the wall sets the vacuum until gas comes in", t/day)}
}

// laneRange warns where a lane leaves the range of the solubility or of the
// wall, or passes freezing.
func laneRange(pc permeation.Case) []string {
	course, err := pc.Lane.Course()
	if err != nil {
		return nil // the run says so
	}
	var out []string
	for _, t := range []unit.Temperature{course.Coldest().Temperature, course.Warmest().Temperature} {
		if w, _ := pc.Liquid.Law().Check(t); w != "" && pc.Liquid.Drink().Carbonation > 0 {
			out = append(out, "on the lane: "+w)
		}
		if t.Celsius() < 0 {
			out = append(out, fmt.Sprintf("the lane reaches %s: the drink may freeze, swell and burst the pack", unit.Quote(unit.TemperaturePoint, float64(t), 3)))
		}
	}
	return append(out, wallRange(pc, course.Warmest())...)
}

// wallRange marks a life that comes where the constants of its wall are carried
// on beyond what they rest on.
func wallRange(pc permeation.Case, top climate.Extreme) []string {
	for _, z := range pc.Zones {
		if warm := z.Material.Warm(); top.Temperature >= warm {
			why := fmt.Sprintf("activation energies of PET bottles were measured from %s to %s", unit.Quote(unit.TemperaturePoint, float64(unit.Celsius(5)), 3), unit.Quote(unit.TemperaturePoint, float64(unit.Celsius(55)), 3))
			if warm < permeation.WarmEnd {
				why = fmt.Sprintf("its glass transition stands at %s", unit.Quote(unit.TemperaturePoint, float64(z.Material.CO2.Glass), 3))
			}
			return []string{fmt.Sprintf("%s: on day %.3g the lane reaches %s, and from %s on the barrier of %s is carried on beyond what it rests on (%s); near the glass transition the wall passes more and grows faster than this says",
				quality.EstimatePrefix, top.Time/day, unit.Quote(unit.TemperaturePoint, float64(top.Temperature), 3), unit.Quote(unit.TemperaturePoint, float64(warm), 3), z.Material.Title, why)}
		}
	}
	return nil
}

// drawnUntil is how far a life is followed where it is drawn [s].
func drawnUntil(l climate.Lane, end float64) float64 { return math.Min(duration(l), 1.5*end) }

// shelfCase returns the pack before it is filled, with its lane; hot-filled, as
// it is closed, in the bottle that has shrunk.
func shelfCase(c *pass) (permeation.Case, []string, error) {
	d := c.d
	var none permeation.Case
	w, shape := from[*Wall](c, "wall"), from[*Shape](c, "bottle")
	if why := overfull(d, shape.Brimful); why != "" {
		return none, nil, errors.New(why)
	}
	growth, err := packGrowth(d, w)
	if err != nil {
		return none, nil, err
	}
	liquid, err := drinkWithAir(d).Liquid()
	if err != nil {
		return none, nil, err
	}
	ambient, err := climate.Pressure(d.Climate.AltitudeFill)
	if err != nil {
		return none, nil, err
	}
	air := d.Drink.Air
	if !carbonated(d) {
		air = 1
	}
	out := permeation.Case{
		Liquid: liquid, Growth: growth, Uptake: uptake(d),
		Fill: drink.Pack{
			Fill: d.Brief.Nominal * liquid.Density(unit.Celsius(20)) / liquid.Density(d.Drink.FillTemperature), Brimful: shape.Brimful,
			FillT: d.Drink.FillTemperature, ReferenceT: d.Drink.Reference, Ambient: ambient, Air: air,
			NitrogenDose: d.Drink.Nitrogen / drink.MolarMassNitrogen, Growth: growth.Elastic, Stated: drink.Sealed,
		},
	}
	if !d.Shelf.Creep {
		out.Growth.Terms = nil
	}
	out.Growth.Age = d.Shelf.Age
	if hotFilled(d) {
		h, err := c.hotPack()
		if err == nil {
			err = h.start(&out)
		}
		if err != nil {
			return none, nil, err
		}
	}
	out.Known = permeation.Known{Set: true, Factor: d.Shelf.FactorSD, Thickness: &d.Shelf.Spread}
	if fittedOn(d, w.Blown != nil) {
		out.Known.At = *d.Shelf.FittedAt
	}
	if out.Zones, err = wallZones(d, w, shape); err != nil {
		return none, nil, err
	}
	if out.Lane, err = laneOf(d); err != nil {
		return none, nil, err
	}
	card, err := closure.Find(d.Closure.Type)
	if err != nil {
		return none, nil, err
	}
	out.Cap = permeation.Cap{
		CO2: d.Closure.CO2, Oxygen: d.Closure.O2, Nitrogen: d.Closure.N2, Water: d.Closure.Water, Reference: card.Reference, Energy: card.ActivationEnergy, Leak: d.Closure.Leak,
		Scavenger: permeation.Scavenger{Capacity: d.Closure.Scavenge / drink.MolarMassOxygen, Share: d.Closure.Share},
	}
	notes := append(wallNotes(d, w), materialNotes(d)...)
	notes = append(notes, barrierNotes(d)...)
	return out, append(notes, laneNotes(d, out.Lane)...), nil
}

// ascorbicMass is the molar mass of ascorbic acid [kg/mol].
const ascorbicMass = 176.12e-3

// uptake is the oxygen that the drink consumes: two moles of ascorbic acid for
// each of oxygen, where it has any.
func uptake(d *design.Design) permeation.Uptake {
	out := permeation.Uptake{Rate: d.Drink.OxygenUse}
	if d.Drink.Ascorbic > 0 {
		out.Acid, out.Stoichiometry = d.Drink.Ascorbic*d.Brief.Nominal/ascorbicMass, 2
	}
	return out
}

// drinkWithAir is the drink with the air it holds when it is closed.
func drinkWithAir(d *design.Design) drink.Drink {
	out := drinkOf(d)
	out.Oxygen, out.Nitrogen = d.Drink.Oxygen, d.Drink.NitrogenIn
	return out
}

// LossLimit returns the tightest maximum on the carbonation loss to which there
// is a time; 0 when there is none, see [NoLossLimit].
func LossLimit(d *design.Design) float64 {
	limit, set := lossLimit(d)
	if !set || !(limit > 0 && limit < 1) {
		return 0
	}
	return limit
}

// NoLossLimit says why a design has no limit on the carbonation loss to which
// there is a time.
func NoLossLimit(d *design.Design) string {
	if limit, set := lossLimit(d); set {
		return "the limit on shelf.loss.end is " + unit.Show(unit.Fraction, limit, unit.EU) + ": there is a time only to one between 0 and 100 %"
	}
	return "no limit on shelf.loss.end is set, so no time to it"
}

// lossLimit returns the tightest maximum on the carbonation loss, where one is
// set.
func lossLimit(d *design.Design) (limit float64, set bool) {
	for _, l := range d.Limits {
		if l.Figure != "shelf.loss.end" || l.Side != string(quality.Max) {
			continue
		}
		if v, err := unit.Parse(unit.Fraction, l.Value); err == nil && (!set || v.SI < limit) {
			limit, set = v.SI, true
		}
	}
	return limit, set
}
