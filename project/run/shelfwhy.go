package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/drink"
	"costrel/physics/permeation"
	"costrel/unit"
)

const lifeMethod = "Transient diffusion through every wall zone (dual-mode sorption for CO2, Henry's law for O2 and N2), closure, balance of drink and headspace, growth of the bottle, along the climate lane"

// show puts a number of the life on the board.
func (s *shelfLife) show(v shelfValue) {
	if v.why != "" {
		s.problem(v.key, "%s", v.why)
		return
	}
	if !s.work.drawn {
		s.figure(v.key, v.value, figure.Origin{}) // for the ends of bands, which nobody asks why
		return
	}
	equation, first := s.reason(v.key)
	o := s.origin(equation)
	if v.key == "growth.volume.day1" || v.key == "fillpoint.drop.day1" {
		o.Inputs = o.Inputs[1:] // the shelf life has no part in them
	}
	o.Inputs = append(first, o.Inputs...)
	if _, from := CountsFrom(s.d, v.key); from != "" {
		o.Method = "Loss from " + from + ". " + o.Method
	}
	if v.key == "shelf.oxygen.end" && v.value < 0 {
		o.Warnings = append(append([]string{}, o.Warnings...), s.oxygenGone())
	}
	if v.key == "shelf.oxygen.end" {
		if note := s.thirsty(v.value); note != "" {
			o.Warnings = append(append([]string{}, o.Warnings...), note)
		}
	}
	if v.key == "shelf.vacuum.max" && s.pc.Growth.Panel == nil {
		o.Warnings = append(append([]string{}, o.Warnings...), rigidWall)
	}
	if v.beyond {
		o.Warnings = append(append([]string{}, o.Warnings...), "the limit lies beyond the computed life; the last rate was carried on")
	}
	s.figure(v.key, v.value, o)
	if v.key == "shelf.loss.end" && len(s.figures) > 0 { // what a loss is counted from matters as much as the material
		f := &s.figures[len(s.figures)-1]
		f.Label += ", " + shortReference(s.d)
	}
}

// oxygenGone says why more oxygen leaves a pack than comes in.
func (s *shelfLife) oxygenGone() string {
	const more = "negative: more oxygen leaves the pack than comes in, for "
	for _, z := range s.pc.Zones {
		if z.Scavenger.Capacity > 0 {
			return more + "the scavenger of the wall (shelf.scavenger) binds that of the pack too, not only what comes from outside: less is left in it than was closed in"
		}
	}
	return more + "it was closed with more than the air outside holds: see drink.headspace_air, drink.oxygen_dissolved and the altitudes of filling and sale"
}

// reason returns the equation of a figure of the life and the inputs that are
// its own. Integrals over the life stand as what they came to.
func (s *shelfLife) reason(key string) (string, []figure.Input) {
	switch key {
	case "shelf.loss.end", "shelf.loss.wall", "shelf.loss.sorption", "shelf.loss.growth", "shelf.loss.closure", "shelf.loss.headspace", "shelf.loss.water":
		return s.lossReason(key)
	case "shelf.life":
		return "x(t) = x_limit", []figure.Input{
			{Key: "design:limits", Symbol: "x_limit", Label: "Limits: shelf.loss.end", Value: LossLimit(s.d), Kind: unit.Fraction, Origin: figure.Given},
			s.given("c_0", "drink.carbonation"),
		}
	}
	now, err := s.life.At(s.end)
	if err != nil {
		return "", nil // no figure of this kind is shown then
	}
	switch key {
	case "shelf.oxygen.end":
		return s.oxygenReason(now)
	case "shelf.water.end":
		t := s.d.Climate.Store
		return "m = ∫ (Σ A P_w / L + K_w) (a_w p_sat - RH p_sat) dt", append([]figure.Input{
			s.given("RH", "climate.humidity"), s.given("K_w", "closure.water"),
			computed("climate.store", "p_sat", "Pressure of water vapour over pure water at store temperature", float64(drink.VapourPressure(t)), unit.PressureAbs),
			computed("drink.sugar", "a_w", "Drink: activity of its water", s.pc.Liquid.VapourPressure(t)/float64(drink.VapourPressure(t)), unit.Ratio),
		}, s.walls(func(m permeation.Material) figure.Input {
			return computed("shelf.material", "P_"+m.Name, m.Title+": permeability of water at store temperature", m.Water.At(t), unit.VapourPermeability)
		})...)
	case "shelf.pressure.max":
		return s.extremeReason(s.life.Highest(s.end))
	case "shelf.vacuum.max":
		return s.extremeReason(s.life.Lowest(s.end))
	case "shelf.panel.max":
		low, _ := s.life.Lowest(s.end)
		return "V_panel = C vacuum", []figure.Input{
			computed("hotfill.panel_compliance", "C", "Panels: volume over vacuum at the deepest vacuum", s.life.Panels(low)/-float64(low), unit.Compliance), s.input("vacuum", "shelf.vacuum.max"),
		}
	}
	return s.firstDayReason(key)
}

// lossReason is that of the loss and its parts: amounts of carbon dioxide over
// what was dissolved at the reference.
func (s *shelfLife) lossReason(key string) (string, []figure.Input) {
	ref, _ := s.reference()
	x, err := s.life.Loss(s.end, ref)
	if err != nil {
		return "", nil // no loss is shown then
	}
	n0 := computed("drink.carbonation", "n_0", "Carbon dioxide dissolved at the reference", x.Counted, unit.Amount)
	amount := func(symbol, label string, share float64) []figure.Input {
		return []figure.Input{computed("brief.shelf_life", symbol, label, share*x.Counted, unit.Amount), n0}
	}
	switch key {
	case "shelf.loss.end":
		part := func(symbol, key string, v float64) figure.Input {
			e, _ := figure.Find(key)
			return figure.Input{Key: key, Symbol: symbol, Label: e.Label, Value: v, Kind: unit.Fraction, Origin: figure.Computed}
		}
		return "x = x_wall + x_sorption + x_growth + x_closure + x_headspace + x_water", []figure.Input{
			part("x_wall", "shelf.loss.wall", x.Wall), part("x_sorption", "shelf.loss.sorption", x.Sorption), part("x_growth", "shelf.loss.growth", x.Growth),
			part("x_closure", "shelf.loss.closure", x.Closure), part("x_headspace", "shelf.loss.headspace", x.Headspace), part("x_water", "shelf.loss.water", x.Water),
			s.given("c_0", "drink.carbonation"),
		}
	case "shelf.loss.wall":
		return s.wallReason(amount("n_wall", "Carbon dioxide passed through the wall", x.Wall))
	case "shelf.loss.sorption":
		return "x_sorption = Δn_held / n_0", amount("Δn_held", "Carbon dioxide the wall holds more than at the reference", x.Sorption)
	case "shelf.loss.closure":
		return "x_closure = n_closure / n_0, n_closure = ∫ K p_CO2 dt, K = K_CO2 exp(-E / R (1 / T - 1 / T_ref))", append(amount("n_closure", "Carbon dioxide passed through the closure", x.Closure), s.closing()...)
	case "shelf.loss.headspace":
		return "x_headspace = Δn_head / n_0", amount("Δn_head", "Carbon dioxide in the headspace more than at the reference, grown volume apart", x.Headspace)
	case "shelf.loss.water":
		return "x_water = n / n_0 (1 - m_0 / m)", []figure.Input{
			computed("brief.shelf_life", "n", "Carbon dioxide dissolved at best-before", x.Dissolved, unit.Amount), n0,
			computed("drink.sugar", "m_0", "Water of the drink at the reference", x.WaterThen, unit.Mass), computed("drink.sugar", "m", "Water of the drink at best-before", x.WaterNow, unit.Mass),
		}
	}
	// shelf.loss.growth: the gas as the pressure an ideal one would have.
	t := s.pc.Read
	if t == 0 {
		t = s.pc.Fill.ReferenceT
	}
	return "x_growth = p ΔV / (R T_0 n_0)", []figure.Input{
		computed("drink.reference_temperature", "p", "Carbon dioxide in the headspace as an ideal gas, mean of reference and best-before", x.Density*unit.GasConstant*float64(t), unit.PressureAbs),
		computed("shelf.modulus", "ΔV", "Growth of the bottle since the reference", x.Grown, unit.Volume),
		computed("drink.reference_temperature", "T_0", "Temperature at which the carbonation is read", float64(t), unit.TemperaturePoint), n0,
	}
}

// closing lists what the flow through the closure rests on: its conductance at
// the store and at the warmest of the lane, and how it moves with temperature.
func (s *shelfLife) closing() []figure.Input {
	c := s.pc.Cap
	law := permeation.Arrhenius{Value: c.CO2, Energy: c.Energy, Reference: c.Reference}
	in := []figure.Input{
		assumed("closure.type", "E", "Closure: activation energy of its gas conductances", c.Energy, unit.MolarEnergy, ""),
		assumed("closure.type", "T_ref", "Closure: temperature that its conductance belongs to", float64(c.Reference), unit.TemperaturePoint, ""),
		computed("climate.store", "K_store", "Closure: conductance to carbon dioxide at store temperature", law.At(s.d.Climate.Store), unit.GasConductance),
	}
	if hot, _ := hottest(s.d); hot > s.d.Climate.Store {
		in = append(in, computed("climate.hot", "K_hot", "Closure: the same at the hottest stretch, "+unit.Quote(unit.TemperaturePoint, float64(hot), 4), law.At(hot), unit.GasConductance))
	}
	if start, err := s.life.At(0); err == nil {
		in = append(in, computed("drink.carbonation", "p_start", "Carbon dioxide: partial pressure at the start", start.Partial[permeation.CO2], unit.PressureAbs))
	}
	if end, err := s.life.At(s.end); err == nil {
		in = append(in, computed("brief.shelf_life", "p_end", "Carbon dioxide: partial pressure at best-before", end.Partial[permeation.CO2], unit.PressureAbs))
	}
	if c.Leak > 0 {
		in = append(in, s.given("K_leak", "closure.leak"))
	}
	return in
}

// walls lists the thickness of every zone and what of shows of each material
// that passes anything.
func (s *shelfLife) walls(of func(m permeation.Material) figure.Input) []figure.Input {
	var out []figure.Input
	seen := map[string]bool{}
	for _, z := range s.pc.Zones {
		out = append(out, computed("bottle.profile", "L_"+z.Name, "Wall zone "+z.Name+": thickness, "+z.Material.Title, z.Thickness, unit.Length))
		if !z.Material.Tight && !seen[z.Material.Name] {
			seen[z.Material.Name] = true
			out = append(out, of(z.Material))
		}
	}
	return out
}

// barrier lists what the flow through the wall rests on: of every material
// permeability, diffusion coefficient and solubility at the store, of every
// zone the thickness.
func (s *shelfLife) barrier() []figure.Input {
	var out []figure.Input
	start, err := s.life.At(0)
	if err != nil {
		return nil
	}
	p, t := start.Partial[permeation.CO2], s.d.Climate.Store
	out = append(out, computed("drink.carbonation", "p_start", "Carbon dioxide: partial pressure at the start", p, unit.PressureAbs))
	seen := map[string]bool{}
	for _, z := range s.pc.Zones {
		out = append(out, computed("bottle.profile", "L_"+z.Name, "Wall zone "+z.Name+": thickness, "+z.Material.Title, z.Thickness, unit.Length))
		if z.Stretch > 0 {
			out = append(out,
				computed("oven.mean_temperature", "φ_"+z.Name, "Wall zone "+z.Name+": crystals by volume, from the blow", z.Crystals, unit.Fraction),
				computed("preform.inner_diameter", "λ_"+z.Name, "Wall zone "+z.Name+": stretch in area, from the blow", z.Stretch, unit.Ratio))
		}
		if z.Material.Tight || seen[z.Material.Name] {
			continue
		}
		seen[z.Material.Name] = true
		q := z.Material.CO2.At(t)
		at := fmt.Sprintf("%s: ", z.Material.Title)
		on := " of carbon dioxide at store temperature and that pressure"
		out = append(out,
			computed("shelf.material", "P_"+z.Material.Name, at+"permeability"+on+", barrier factor counted", q.Permeability(p), unit.Permeability),
			computed("shelf.material", "D_"+z.Material.Name, at+"diffusion coefficient at store temperature", q.Diffusivity, unit.Diffusivity),
			computed("shelf.material", "S_"+z.Material.Name, at+"solubility"+on, q.Concentration(p)/math.Max(p, 1), unit.GasSolubility))
	}
	return out
}

// extremeReason is that of the highest pressure or the deepest vacuum, with when
// it stands.
func (s *shelfLife) extremeReason(g unit.GaugePressure, when float64) (string, []figure.Input) {
	at, err := s.life.At(when)
	if err != nil {
		return "", nil
	}
	ambient := float64(at.Pressure) - float64(at.Gauge)
	word, equation, t := "Highest", "p_max = P_max - p_ambient", at.Temperature
	if g < 0 {
		word, equation = "Lowest", "vacuum = p_ambient - P_min"
	}
	symbol := map[bool]string{true: "min", false: "max"}[g < 0]
	switch { // the hour of the day that it belongs to
	case at.WarmGauge > at.Gauge && g >= at.WarmGauge*(1-1e-9) && g > 0:
		t = at.Warm
	case at.CoolGauge < at.Gauge && g < 0:
		t = at.Cool
	}
	return equation, []figure.Input{
		computed("climate.lane", "P_"+symbol, word+" pressure of the pack", float64(g)+ambient, unit.PressureAbs),
		computed("climate.altitude_sale", "p_ambient", "Ambient pressure there", ambient, unit.PressureAbs),
		computed("climate.lane", "t_"+symbol, "When it stands, from closing", when, unit.Time),
		computed("climate.lane", "T_"+symbol, "Temperature then", float64(t), unit.TemperaturePoint),
	}
}

// firstDayReason is that of the growth in the first day and of the level that
// falls with it.
func (s *shelfLife) firstDayReason(key string) (string, []figure.Input) {
	a, b, err := s.firstDay(s.life)
	if err != nil {
		return "", nil
	}
	time := assumed("brief.shelf_life", "t_1", "Time of reading", day, unit.Time, "")
	read := computed("climate.lane", "T_1", "Temperature of reading: mean of the first day of the lane", float64(b.Temperature), unit.TemperaturePoint)
	if key == "fillpoint.drop.day1" {
		high, low, err := s.levels(a, b)
		if err != nil {
			return "", nil // not shown then
		}
		return "Δh = h_0 - h_1, V(h_1) = V(h_0) - ΔV_bottle + ΔV_drink", []figure.Input{
			computed("bottle.profile", "h_0", "Height of the drink as filled, in the drawn bottle", high, unit.Length),
			computed("bottle.profile", "h_1", "Height of the drink after a day, the inner profile followed", low, unit.Length),
			computed("shelf.modulus", "ΔV_bottle", "Bottle after a day less the empty one", b.Bottle-s.pc.Fill.Brimful, unit.Volume),
			computed("drink.carbonation", "ΔV_drink", "Drink after a day less that at closing", b.Liquid-a.Liquid, unit.Volume), time, read,
		}
	}
	elastic := s.pc.Growth.Elastic
	if len(s.pc.Growth.Terms) == 0 {
		return "g = g_0 p", []figure.Input{
			computed("shelf.modulus", "g_0", "Elastic growth of the volume with pressure", elastic, unit.Compressibility),
			computed("drink.carbonation", "p", "Gauge pressure after 24 hours", float64(b.Gauge), unit.PressureGauge), time, read, s.modulus(),
		}
	}
	creep := 0.0
	if elastic*float64(b.Gauge) > 0 {
		creep = b.Growth/(elastic*float64(b.Gauge)) - 1
	}
	in := []figure.Input{
		computed("shelf.modulus", "g_0", "Elastic growth of the volume with pressure", elastic, unit.Compressibility),
		computed("drink.carbonation", "p", "Gauge pressure after 24 hours", float64(b.Gauge), unit.PressureGauge),
		computed("shelf.creep", "r", "Creep of the first 24 hours over the elastic growth, the terms r_k followed along the lane", creep, unit.Ratio), time, read,
	}
	for i, k := range s.pc.Growth.Terms {
		in = append(in,
			assumed("shelf.creep", fmt.Sprintf("r_%d", i+1), "Creep term: end over the elastic growth", k.Ratio, unit.Ratio, ""),
			assumed("shelf.creep", fmt.Sprintf("τ_%d", i+1), "Creep term: time at ‹22 °C›", k.Time, unit.Time, ""))
	}
	return "g = g_0 p (1 + r)", append(in, s.modulus())
}

// origin returns the origin of a figure of the life.
func (s *shelfLife) origin(equation string) figure.Origin {
	inputs := append([]figure.Input{s.given("t", "brief.shelf_life")}, s.way()...)
	inputs = append(inputs, s.given("f", "shelf.barrier_factor"))
	if p, ok := permeation.Presets().Get(s.d.Shelf.Preset); ok && p.Value != 1 {
		inputs = append(inputs, assumed("shelf.preset", "f_preset", "Barrier preset: "+p.Label, p.Value, unit.Ratio, p.Source))
	}
	inputs = append(inputs,
		s.input("t_wall", "wall.panel.mean"), s.given("K_CO2", "closure.co2"), s.given("K_O2", "closure.o2"), s.given("V", "brief.nominal"))
	for _, z := range s.pc.Zones {
		inputs = append(inputs, computed("bottle.profile", "A_"+z.Name, "Wall zone "+z.Name+": area", z.Area, unit.Area))
	}
	return figure.Origin{
		Method: lifeMethod, Equation: equation, Theory: "permeation", Inputs: inputs, Warnings: s.warnings,
		Sources: []string{"KorosPaul1978", "BiosystemsPackaging", s.pc.Liquid.Law().Source},
	}
}

// way lists what stands for the lane: the store with its hot stretch, or of rows
// and of a named lane what they come to.
func (s *shelfLife) way() []figure.Input {
	if !hasLane(s.d) {
		return []figure.Input{s.given("T", "climate.store"), s.given("T_hot", "climate.hot"), s.given("t_hot", "climate.hot_time")}
	}
	path := "climate.lane"
	if len(s.d.Climate.Lane) == 0 {
		path = "climate.named_lane"
	}
	c, err := s.pc.Lane.Course()
	if err != nil {
		return nil // the run has told
	}
	energy := oxygenEnergy
	if carbonated(s.d) {
		energy = carbonationEnergy
	}
	kinetic, err := c.MeanKinetic(energy)
	if err != nil {
		return nil
	}
	return []figure.Input{
		computed(path, "T_lane", "Lane: mean kinetic temperature over all of it, at "+unit.Quote(unit.MolarEnergy, energy, 4), float64(kinetic), unit.TemperaturePoint),
		computed(path, "T_warmest", "Lane: warmest hour", float64(c.Warmest().Temperature), unit.TemperaturePoint),
	}
}
