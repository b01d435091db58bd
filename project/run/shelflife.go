package run

import (
	"fmt"
	"slices"

	"costrel/physics/bottle"
	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/unit"
)

// shelfLife turns a computed life of the pack into figures, bands and plots.
type shelfLife struct {
	*pass
	life     *permeation.Life
	pc       permeation.Case
	end      float64
	warnings []string
}

// shelfValue is one number of a life: its figure, or why it is left out.
type shelfValue struct {
	key    string
	value  float64
	why    string // not empty: left out
	beyond bool   // a time carried on past the run
}

// reference is [LossReference] of the design.
func (s *shelfLife) reference() (permeation.Reference, string) { return LossReference(s.d) }

// LossReference returns what a design counts the loss from, and its name.
func LossReference(d *design.Design) (permeation.Reference, string) {
	switch d.Shelf.Reference {
	case "filler":
		return permeation.FillerSet, "the filler's set-point"
	case "24h":
		return permeation.FirstDay, "the reading after 24 hours"
	}
	return permeation.Sealed, "the sealed pack in balance"
}

// countedLosses are the figures that count from [LossReference]: under another
// reference they are another quantity.
var countedLosses = []string{"shelf.loss.end", "shelf.loss.wall", "shelf.loss.sorption", "shelf.loss.growth", "shelf.loss.closure", "shelf.loss.headspace", "shelf.loss.water", "shelf.life"}

// CountsFrom returns what a figure of a design is counted from, short and in
// full; both are empty for a figure that no reference of the design moves.
func CountsFrom(d *design.Design, key string) (short, full string) {
	if !slices.Contains(countedLosses, key) {
		return "", ""
	}
	_, full = LossReference(d)
	return shortReference(d), full
}

// shortReference names what a loss is counted from where there is little room.
func shortReference(d *design.Design) string {
	switch d.Shelf.Reference {
	case "filler":
		return "from filler"
	case "24h":
		return "from 24 h"
	}
	return "from sealed"
}

// values reads every number of the board off a life. It is pure, so that
// samples can share it.
func (s *shelfLife) values(life *permeation.Life) []shelfValue {
	var out []shelfValue
	add := func(key string, v float64) { out = append(out, shelfValue{key: key, value: v}) }
	leave := func(why string, keys ...string) {
		for _, k := range keys {
			out = append(out, shelfValue{key: k, why: why})
		}
	}
	ref, _ := s.reference()
	losses := []string{"shelf.loss.end", "shelf.loss.wall", "shelf.loss.sorption", "shelf.loss.growth", "shelf.loss.closure", "shelf.loss.headspace", "shelf.loss.water"}
	if !carbonated(s.d) {
		leave("does not apply: the drink is not carbonated", append(losses, "shelf.life")...)
	} else if x, err := life.Loss(s.end, ref); err != nil {
		leave(err.Error(), append(losses, "shelf.life")...)
	} else {
		add("shelf.loss.end", x.Total)
		add("shelf.loss.wall", x.Wall)
		add("shelf.loss.sorption", x.Sorption)
		add("shelf.loss.growth", x.Growth)
		add("shelf.loss.closure", x.Closure)
		add("shelf.loss.headspace", x.Headspace)
		add("shelf.loss.water", x.Water)
		out = append(out, s.lifeTo(life, ref, x))
	}
	p, err := life.At(s.end)
	if err != nil {
		leave(err.Error(), "shelf.oxygen.end", "shelf.water.end", "shelf.pressure.max", "shelf.vacuum.max", "shelf.panel.max", "growth.volume.day1", "fillpoint.drop.day1")
		return out
	}
	add("shelf.oxygen.end", p.Ingress/s.d.Brief.Nominal)
	if s.pc.Liquid.Law().Ideal {
		leave("the solubility law "+s.d.Drink.Solubility+" leaves out water vapour, and so the loss of water; choose another law", "shelf.water.end")
	} else {
		add("shelf.water.end", p.WaterLost)
	}
	if high, _ := life.Highest(s.end); high > 0 {
		add("shelf.pressure.max", float64(high))
	} else {
		leave("does not apply: the pack is under vacuum all along, see shelf.vacuum.max", "shelf.pressure.max")
	}
	low, _ := life.Lowest(s.end)
	switch {
	case low >= 0:
		leave("does not apply: the pack is under pressure all along", "shelf.vacuum.max", "shelf.panel.max")
	case !hotFilled(s.d):
		leave("does not apply: the pack is not hot-filled", "shelf.panel.max")
		add("shelf.vacuum.max", -float64(low))
	default:
		add("shelf.vacuum.max", -float64(low))
		add("shelf.panel.max", life.Panels(low))
	}
	a, b, err := s.firstDay(life)
	switch {
	case err != nil:
		leave("the life is not known after one day", "growth.volume.day1", "fillpoint.drop.day1")
	case b.Gauge < 0:
		leave("does not apply: the pack is under vacuum", "growth.volume.day1", "fillpoint.drop.day1")
	default:
		add("growth.volume.day1", b.Growth)
		from, to, err := s.levels(a, b)
		if err != nil {
			leave("the fill level is not known: "+err.Error(), "fillpoint.drop.day1")
		} else {
			add("fillpoint.drop.day1", from-to)
		}
	}
	return out
}

// firstDay returns the pack at closing and a day later, both at the mean
// temperature of the first day of its lane: whatever hour the day ends in.
func (s *shelfLife) firstDay(life *permeation.Life) (a, b permeation.Point, err error) {
	c, err := s.pc.Lane.Course()
	if err != nil {
		return a, b, err
	}
	t := c.MeanTo(day)
	if a, err = life.Brought(0, t); err != nil {
		return a, b, err
	}
	b, err = life.Brought(day, t)
	return a, b, err
}

// levels returns the heights of the drink [m] in the drawn bottle: as filled,
// and lower by what the pack has grown between two points beyond the drink, the
// inner profile followed: a taper is not as wide above as below.
func (s *shelfLife) levels(a, b permeation.Point) (from, to float64, err error) {
	inside, fill := fromInside(s.pass), s.d.Brief.Nominal
	high, err := inside.LevelOf(fill)
	if err != nil {
		return 0, 0, err
	}
	low, err := inside.LevelOf(fill - s.fallen(a, b))
	return high.Z, low.Z, err
}

// fallen returns the volume by which the drink falls short of its first level
// [m³]: from the unloaded bottle to the grown one, less what the drink gains.
func (s *shelfLife) fallen(a, b permeation.Point) float64 {
	return b.Bottle - s.pc.Fill.Brimful - (b.Liquid - a.Liquid)
}

func fromInside(c *pass) *bottle.Inside { return from[*Shape](c, "bottle").Inside }

// carriedOn is how many times the span of a drawn life its last rate may be
// carried on: chosen for this project.
const carriedOn = 3

// lifeTo returns the time at which the loss reaches its limit.
func (s *shelfLife) lifeTo(life *permeation.Life, ref permeation.Reference, end permeation.Loss) shelfValue {
	const key = "shelf.life"
	limit := LossLimit(s.d)
	if limit == 0 {
		return shelfValue{key: key, why: NoLossLimit(s.d)}
	}
	t, ok, err := life.TimeToLoss(limit, ref)
	switch {
	case err != nil:
		return shelfValue{key: key, why: err.Error()}
	case ok:
		return shelfValue{key: key, value: t}
	}
	// Beyond the run: carry on with the last rate, which hardly changes.
	times := life.Times()
	last := times[len(times)-1]
	a, errA := life.Loss(0.75*last, ref)
	b, errB := life.Loss(last, ref)
	rate := (b.Total - a.Total) / (0.25 * last)
	if errA != nil || errB != nil || rate <= 0 {
		return shelfValue{key: key, why: "the loss does not reach its limit of " + unit.Show(unit.Fraction, limit, unit.EU)}
	}
	t = last + (limit-b.Total)/rate
	if most := carriedOn * drawnUntil(s.pc.Lane, s.end); t > most {
		return shelfValue{key: key, why: fmt.Sprintf("the limit of %s is not reached within %.3g times the shelf life", unit.Show(unit.Fraction, limit, unit.EU), most/s.end)}
	}
	return shelfValue{key: key, value: t, beyond: true}
}
