package run

import (
	"math"

	"costrel/figure"
	"costrel/physics/climate"
	"costrel/physics/permeation"
	"costrel/unit"
)

// shelfLife turns a computed life of the pack into figures and plots.
type shelfLife struct {
	*pass
	life     *permeation.Life
	pack     permeation.Pack
	lane     climate.Course
	end      float64
	warnings []string
}

// reference returns what the loss is counted from.
func (s *shelfLife) reference() permeation.Reference {
	switch s.d.Shelf.Reference {
	case "filler":
		return permeation.FillerSet
	case "24h":
		return permeation.FirstDay
	}
	return permeation.Sealed
}

const lifeMethod = "Transient diffusion through every wall zone (dual-mode sorption for CO2, Henry's law for O2 and N2), closure, balance of drink and headspace, growth of the bottle, along the climate lane"

// origin returns the origin of a figure of the life.
func (s *shelfLife) origin(equation string, inputs ...figure.Input) figure.Origin {
	all := []figure.Input{
		s.given("t", "brief.shelf_life"), s.given("T", "climate.store"), s.given("T_hot", "climate.hot"), s.given("t_hot", "climate.hot_time"), s.given("f", "shelf.barrier_factor"), s.input("t_wall", "wall.panel.mean"),
		s.given("K_CO2", "closure.co2"), s.given("K_O2", "closure.o2"),
	}
	for _, z := range s.pack.Zones {
		all = append(all, figure.Input{Key: "wall.panel.mean", Symbol: "A_" + z.Name, Label: "Wall zone " + z.Name + ": area", Value: z.Area, Kind: unit.Area, Origin: figure.Computed})
	}
	return figure.Origin{
		Method: lifeMethod, Equation: equation, Theory: "permeation", Inputs: append(inputs, all...), Warnings: s.warnings,
		Sources: []string{"KorosPaul1978", "BiosystemsPackaging", s.pack.Liquid.Law().Source},
	}
}

func (s *shelfLife) figures() {
	if carbonated(s.d) {
		s.losses()
	} else {
		for _, k := range []string{"shelf.loss.end", "shelf.loss.wall", "shelf.loss.sorption", "shelf.loss.growth", "shelf.loss.closure", "shelf.life"} {
			s.problem(k, "does not apply: the drink is not carbonated")
		}
	}
	p, err := s.life.At(s.end)
	if err != nil {
		s.problem("shelf.oxygen.end", "%v", err)
		s.problem("shelf.water.end", "%v", err)
		return
	}
	drinkVolume := s.given("V", "brief.nominal")
	s.figure("shelf.oxygen.end", p.Ingress/s.d.Brief.Nominal, s.origin("c = ∫ J_O2 dt / V", drinkVolume))
	if s.pack.Liquid.Law().Ideal {
		s.problem("shelf.water.end", "the solubility law %q leaves out water vapour, and so the loss of water; choose another law", s.d.Drink.Solubility)
	} else {
		s.figure("shelf.water.end", p.WaterLost, s.origin("m = ∫ J_w dt", s.given("RH", "climate.humidity")))
	}
	s.figure("shelf.pressure.max", float64(s.life.MaxPressure), s.origin("p_max = max p(t)", s.given("V_fill", "brief.nominal")))
	s.firstDay()
}

// firstDay gives growth and fill-point drop after 24 hours.
func (s *shelfLife) firstDay() {
	a, errA := s.life.At(0)
	b, errB := s.life.At(day)
	if errA != nil || errB != nil {
		s.problem("growth.volume.day1", "the life is not known after one day")
		s.problem("fillpoint.drop", "the life is not known after one day")
		return
	}
	if b.Gauge < 0 {
		s.problem("growth.volume.day1", "does not apply: the pack is under vacuum")
		s.problem("fillpoint.drop", "does not apply: the pack is under vacuum")
		return
	}
	modulus := s.given("E", "shelf.modulus")
	s.figure("growth.volume.day1", b.Growth, s.origin("g = g_0 p (1 + Σ r_k (1 - exp(-t / τ_k)))", modulus))
	shape := from[*Shape](s.pass, "bottle")
	if neck := shape.Level.FreeArea; neck > 0 {
		// From the drawing's fill level, the unloaded bottle, to the grown one.
		drop := (b.Bottle - s.pack.Volume - (b.Liquid - a.Liquid)) / neck
		o := s.origin("Δh = (ΔV_bottle - ΔV_drink) / A_level", modulus,
			figure.Input{Key: "bottle.fill.height", Symbol: "A_level", Label: "Bottle: free surface at the fill level", Value: neck, Kind: unit.Area, Origin: figure.Computed})
		s.figure("fillpoint.drop", drop, o)
	} else {
		s.problem("fillpoint.drop", "the fill level is not known")
	}
}

// losses gives the loss of carbonation, its parts, and the time to its limit.
func (s *shelfLife) losses() {
	ref := s.reference()
	x, err := s.life.Loss(s.end, ref)
	if err != nil {
		s.problem("shelf.loss.end", "%v", err)
		return
	}
	from := map[permeation.Reference]string{permeation.Sealed: "the sealed pack in balance", permeation.FillerSet: "the filler's set-point", permeation.FirstDay: "the reading after 24 hours"}[ref]
	o := s.origin("x = 1 - c(t) / c_0 = x_wall + x_sorption + x_closure + x_growth + x_rest", s.given("c_0", "drink.carbonation"))
	o.Method += "; loss counted from " + from
	s.figure("shelf.loss.end", x.Total, o)
	part := func(key, equation string, v float64) {
		p := s.origin(equation)
		p.Method += "; loss counted from " + from
		s.figure(key, v, p)
	}
	part("shelf.loss.wall", "x_wall = ∫ J_wall dt / n_0", x.Wall)
	part("shelf.loss.sorption", "x_sorption = Δ ∫ C dV_wall / n_0", x.Sorption)
	part("shelf.loss.growth", "x_growth = p ΔV / (R T n_0)", x.Growth)
	part("shelf.loss.closure", "x_closure = ∫ K p dt / n_0", x.Closure)
	limit := lossLimit(s.d)
	if limit <= 0 || limit >= 1 {
		s.problem("shelf.life", "no limit on shelf.loss.end is set, so no time to it")
		return
	}
	bound := figure.Input{Key: "design:limits", Symbol: "x_limit", Label: "Limits: shelf.loss.end", Value: limit, Kind: unit.Fraction, Origin: figure.Given}
	life, ok, err := s.life.TimeToLoss(limit, ref)
	switch {
	case err != nil:
		s.problem("shelf.life", "%v", err)
	case ok:
		s.figure("shelf.life", life, s.origin("x(t) = x_limit", bound))
	default:
		// Beyond the run: carry on with the last rate, which hardly changes.
		last, errL := s.life.Loss(s.end, ref)
		before, errB := s.life.Loss(0.75*s.end, ref)
		rate := (last.Total - before.Total) / (0.25 * s.end)
		if errL != nil || errB != nil || rate <= 0 {
			s.problem("shelf.life", "the loss does not reach its limit of %s", unit.Show(unit.Fraction, limit, unit.EU))
			return
		}
		o := s.origin("x(t) = x_limit", bound)
		o.Warnings = append(append([]string{}, o.Warnings...), "the limit lies beyond the computed life; the last rate was carried on")
		s.figure("shelf.life", s.end+(limit-last.Total)/rate, o)
	}
}

// plots draws the life over time.
func (s *shelfLife) plots() {
	times := s.life.Times()
	last := times[len(times)-1]
	t := make([]float64, 0, 61)
	for i := range 61 {
		x := float64(i) / 60
		t = append(t, last*x*x) // dense at the start, where it is fast
	}
	var at, pressure, oxygen, cap, water, carbonation, temperature []float64
	var total, wall, sorption, growth, closing []float64
	ref := s.reference()
	for _, x := range t {
		p, err := s.life.At(x)
		if err != nil {
			break
		}
		at = append(at, x)
		pressure = append(pressure, float64(p.Gauge))
		oxygen = append(oxygen, p.Ingress/s.d.Brief.Nominal)
		cap = append(cap, p.IngressCap/s.d.Brief.Nominal)
		water = append(water, p.WaterLost)
		carbonation = append(carbonation, p.Carbonation)
		temperature = append(temperature, float64(p.Temperature))
		if carbonated(s.d) {
			l, err := s.life.Loss(x, ref)
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
			Key: "shelf.loss", Title: "Where the carbonation goes", X: axis, Y: Axis{Label: "loss", Kind: unit.Fraction, Unit: "%"}, Marks: marks,
			Series: []Series{
				{Name: "total", X: at, Y: total}, {Name: "through the wall", X: at, Y: wall}, {Name: "taken up by the wall", X: at, Y: sorption},
				{Name: "growth and headspace", X: at, Y: growth}, {Name: "closure", X: at, Y: closing, Dashed: true},
			},
		})
	}
	s.plot(Plot{Key: "shelf.pressure", Title: "Pressure along the lane", X: axis, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Marks: marks, Series: []Series{{Name: "pack", X: at, Y: pressure}}})
	s.plot(Plot{Key: "shelf.oxygen", Title: "Oxygen ingress", X: axis, Y: Axis{Label: "oxygen in the drink", Kind: unit.Concentration, Unit: "mg/L"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: oxygen}, {Name: "closure", X: at, Y: cap, Dashed: true}}})
	if s.pack.Liquid.Law().Ideal {
		water = nil
	}
	s.plot(Plot{Key: "shelf.water", Title: "Water lost", X: axis, Y: Axis{Label: "water", Kind: unit.Mass, Unit: "g"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: water}}})
	if len(s.d.Climate.Lane) > 0 {
		s.plot(Plot{Key: "shelf.lane", Title: "Climate lane", X: axis, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Marks: marks, Series: []Series{{Name: "lane", X: at, Y: temperature}}})
	}
}
