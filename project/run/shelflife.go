package run

import (
	"fmt"
	"math"
	"runtime"

	"costrel/figure"
	"costrel/num/sample"
	"costrel/physics/bottle"
	"costrel/physics/permeation"
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

// reference returns what the loss is counted from, and its name.
func (s *shelfLife) reference() (permeation.Reference, string) {
	switch s.d.Shelf.Reference {
	case "filler":
		return permeation.FillerSet, "the filler's set-point"
	case "24h":
		return permeation.FirstDay, "the reading after 24 hours"
	}
	return permeation.Sealed, "the sealed pack in balance"
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
		leave(err.Error(), "shelf.oxygen.end", "shelf.water.end", "shelf.pressure.max", "shelf.vacuum.max", "growth.volume.day1", "fillpoint.drop.day1")
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
	if low, _ := life.Lowest(s.end); low < 0 {
		add("shelf.vacuum.max", -float64(low))
	} else {
		leave("does not apply: the pack is under pressure all along", "shelf.vacuum.max")
	}
	a, errA := life.At(0)
	b, errB := life.At(day)
	switch {
	case errA != nil || errB != nil:
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
	if limit <= 0 || limit >= 1 {
		return shelfValue{key: key, why: "no limit on shelf.loss.end is set, so no time to it"}
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

// samples of the band of a full check, and the seed that makes them the same
// every time.
const (
	shelfSamples = 512
	shelfSeed    = 20261125
)

// sampled gives the figures of the life bands of their own: the inputs of the
// barrier cards drawn together, quasi-randomly, and ranked by what they cause.
func (s *shelfLife) sampled(until float64) {
	inputs := s.pc.Uncertainties()
	z, err := sample.Normal(shelfSamples, len(inputs), shelfSeed)
	if err != nil {
		s.problem("shelf", "no sampled band: %v", err)
		return
	}
	var keys []string
	for _, v := range s.values(s.life) {
		if v.why == "" {
			keys = append(keys, v.key)
		}
	}
	options := permeation.Options{Cells: 6, Tolerance: 1e-4}
	out, err := sample.Evaluate(z, runtime.GOMAXPROCS(0), func(z []float64) ([]float64, error) {
		if err := s.work.ctx.Err(); err != nil {
			return nil, err
		}
		moved, err := s.pc.Moved(inputs, z)
		if err != nil {
			return nil, err
		}
		life, err := moved.Run(until, options)
		if err != nil {
			return nil, err
		}
		row := make([]float64, len(keys))
		values := s.values(life)
		for i, k := range keys {
			row[i] = math.NaN()
			for _, v := range values {
				if v.key == k && v.why == "" {
					row[i] = v.value
				}
			}
		}
		return row, nil
	})
	if err != nil || s.work.ctx.Err() != nil {
		s.problem("shelf", "no sampled band: %v", err)
		return
	}
	for i, k := range keys {
		for j := range s.figures {
			if f := &s.figures[j]; f.Key == k {
				s.band(f, inputs, out, i)
			}
		}
	}
}

// band sets the band of one figure from its column of the sample.
func (s *shelfLife) band(f *figure.Figure, inputs []permeation.Uncertain, out sample.Outcome, column int) {
	var z [][]float64
	var y []float64
	for i, row := range out.Y {
		if !math.IsNaN(row[column]) {
			z, y = append(z, out.Z[i]), append(y, row[column])
		}
	}
	if len(y) < shelfSamples*9/10 {
		f.Origin.Warnings = append(append([]string{}, f.Origin.Warnings...), incomplete+"its inputs")
	}
	lo, _, hi, err := sample.Band(y, 0.95)
	if err != nil {
		return
	}
	// The sample takes coarser steps; the band goes round the finer value.
	f.Lo, f.Hi = math.Min(lo, f.Value), math.Max(hi, f.Value)
	f.Effects = []figure.Effect{}
	ranked, _, err := sample.Contributions(z, y)
	if err != nil {
		return
	}
	for _, c := range ranked {
		if c.Share < 0.002 {
			continue
		}
		move := 1.96 * c.Slope
		f.Effects = append(f.Effects, figure.Effect{Path: inputs[c.Input].Key, Label: inputs[c.Input].Label, Low: -move, High: move, Basis: inputs[c.Input].Basis})
	}
}

// plots draws the life over time.
func (s *shelfLife) plots() {
	times := s.life.Times()
	var at, pressure, oxygen, cap, water, carbonation, temperature []float64
	var total, wall, sorption, growth, closing []float64
	ref, counted := s.reference()
	for _, t := range s.plotTimes(times) {
		p, err := s.life.At(t)
		if err != nil {
			break
		}
		at = append(at, t)
		pressure = append(pressure, float64(p.Gauge))
		oxygen = append(oxygen, p.Ingress/s.d.Brief.Nominal)
		cap = append(cap, p.IngressCap/s.d.Brief.Nominal)
		water = append(water, p.WaterLost)
		carbonation = append(carbonation, p.Carbonation)
		temperature = append(temperature, float64(p.Temperature))
		if carbonated(s.d) {
			l, err := s.life.Loss(t, ref)
			if err != nil {
				l = permeation.Loss{Total: math.NaN()}
			}
			total, wall, sorption = append(total, l.Total), append(wall, l.Wall), append(sorption, l.Sorption)
			growth, closing = append(growth, l.Growth+l.Headspace), append(closing, l.Closure)
		}
	}
	axis := Axis{Label: "time", Kind: unit.Time, Unit: "weeks"}
	marks := []Mark{{At: s.end, Label: "best before"}}
	if carbonated(s.d) {
		s.plot(Plot{Key: "shelf.carbonation", Title: "Carbonation", X: axis, Y: Axis{Label: "carbonation", Kind: unit.Carbonation, Unit: "vol"}, Marks: marks, Series: []Series{{Name: "drink", X: at, Y: carbonation}}})
		s.plot(Plot{
			Key: "shelf.loss", Title: "Where the carbonation goes", X: axis, Y: Axis{Label: "loss from " + counted, Kind: unit.Fraction, Unit: "%"}, Marks: marks,
			Series: []Series{
				{Name: "total", X: at, Y: total},
				{Name: "through the wall", X: at, Y: wall},
				{Name: "taken up by the wall", X: at, Y: sorption},
				{Name: "growth and headspace", X: at, Y: growth},
				{Name: "closure", X: at, Y: closing, Dashed: true},
			},
		})
	}
	s.plot(Plot{Key: "shelf.pressure", Title: "Pressure along the lane", X: axis, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Marks: marks, Series: []Series{{Name: "pack", X: at, Y: pressure}}})
	s.plot(Plot{Key: "shelf.oxygen", Title: "Oxygen ingress", X: axis, Y: Axis{Label: "oxygen in the drink", Kind: unit.Concentration, Unit: "mg/L"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: oxygen}, {Name: "closure", X: at, Y: cap, Dashed: true}}})
	if !s.pc.Liquid.Law().Ideal {
		s.plot(Plot{Key: "shelf.water", Title: "Water lost", X: axis, Y: Axis{Label: "water", Kind: unit.Mass, Unit: "g"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: water}}})
	}
	s.plot(Plot{Key: "shelf.lane", Title: "Climate lane", X: axis, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Marks: marks, Series: []Series{{Name: "lane", X: at, Y: temperature}}})
}
