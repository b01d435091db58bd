package run

import (
	"fmt"
	"slices"

	"costrel/figure"
	"costrel/physics/blow"
	"costrel/physics/resin"
	"costrel/unit"
)

const blowMethod = "Layered shell of revolution with inertia, rate-dependent hot plastic, air by mass, rod and mould contact"

// blowOrigin says how a figure of the blow came about: the numbers of its own
// equation first, then everything that the blow reads.
func blowOrigin(c *pass, equation string, r *blow.Result, own ...figure.Input) figure.Origin {
	method, sources := blowMethod, []string{}
	if law, err := resin.FindHotLaw(c.d.Blow.Law); err == nil {
		method += "; " + law.Title()
		sources = append(sources, law.Source())
	}
	return figure.Origin{
		Method: method, Equation: equation, Sources: sources, Theory: "blow", Warnings: blowWarnings(r),
		Inputs: append(own, blowInputs(c)...),
	}
}

// blowInputs returns the numbers that a blow reads: preform, its temperature, the
// process card.
func blowInputs(c *pass) []figure.Input {
	d := c.d
	out := []figure.Input{c.input("m", "preform.mass")}
	add := func(symbol, path string) { out = append(out, c.given(symbol, path)) }
	add("d_i", "preform.inner_diameter")
	add("w", "preform.wall")
	add("L", "preform.body_length")
	add("g", "preform.gate")
	switch d.Oven.Lamps {
	case "card":
		add("T", "oven.mean_temperature")
		add("T_in", "oven.inside_temperature")
		add("T_out", "oven.outside_temperature")
		add("ΔT_tilt", "oven.tilt")
		add("ΔT_bow", "oven.bow")
		add("ΔT_skew", "oven.skew")
	default:
		if d.Oven.Lamps == "lamps" {
			add("T", "oven.mean_temperature")
		}
		add("P", "oven.overall")
		add("q_air", "oven.ventilation")
		add("t_heat", "oven.heat_time")
		add("t_soak", "oven.soak_time")
		add("T_0", "oven.inlet_temperature")
	}
	add("v_rod", "blow.rod_speed")
	add("d_rod", "blow.rod_diameter")
	add("c_rod", "blow.rod_gap")
	add("p_pre", "blow.pre_blow")
	add("s_pre", "blow.pre_start")
	add("A_pre", "blow.pre_orifice")
	add("V_dead", "blow.dead_volume")
	if d.Blow.Free {
		return out
	}
	add("p_high", "blow.high_blow")
	add("A_high", "blow.high_orifice")
	if d.Blow.HighDelay > 0 {
		add("t_delay", "blow.high_delay")
	} else {
		add("s_high", "blow.high_start")
	}
	add("t_hold", "blow.high_time")
	add("t_exhaust", "blow.exhaust_time")
	add("T_body", "blow.body_temperature")
	add("T_base", "blow.base_temperature")
	add("h", "blow.contact")
	add("µ", "blow.friction")
	return out
}

// blowWarnings gathers what a reader of the blow must know.
func blowWarnings(r *blow.Result) []string {
	out := append([]string{}, r.Warnings...)
	for _, f := range r.Flags {
		out = append(out, string(f.Kind)+": "+f.Text)
	}
	return out
}

// at names a place of the wall.
func at(p *blow.Place) string {
	return fmt.Sprintf("at depth ‹%.0f mm›, radius ‹%.0f mm›", p.Z*1e3, p.R*1e3)
}

func fillOrigin(c *pass, _ *Shape, r *blow.Result) figure.Origin {
	last := "all lies on the mould or within ‹0.5 mm› of it"
	for _, o := range slices.Backward(r.Order) {
		if o.Time <= r.FillTime {
			last += fmt.Sprintf("; the last touch is at depth ‹%.0f mm›, radius ‹%.0f mm›", o.Z*1e3, o.R*1e3)
			break
		}
	}
	if r.HighAt == 0 || r.FillTime <= r.HighAt {
		return blowOrigin(c, "the pre-blow alone fills the mould", r, computed("blow.pre_blow", "t", "Blow: time until "+last, r.FillTime, unit.Time))
	}
	return blowOrigin(c, "t = t_high + Δt", r,
		computed("blow.high_start", "t_high", "Blow: the high stage opens, after the rod touched the gate", r.HighAt, unit.Time),
		computed("blow.high_orifice", "Δt", "Blow: from there until "+last, r.FillTime-r.HighAt, unit.Time))
}

// moment returns the line of the course at a time.
func moment(r *blow.Result, is func(m blow.Moment) bool) blow.Moment {
	for _, m := range r.History {
		if is(m) {
			return m
		}
	}
	return blow.Moment{}
}

func preOrigin(c *pass, r *blow.Result) figure.Origin {
	m := moment(r, func(m blow.Moment) bool { return m.Time == r.PeakPreAt && m.Pressure == r.PeakPre })
	return blowOrigin(c, "p = m_air R T_air / (V + V_dead) - p_0", r,
		computed("blow.pre_orifice", "m_air", fmt.Sprintf("Blow: air inside at the peak, %.1f ms after the rod touched", m.Time*1e3), m.Air, unit.Mass),
		assumed("blow.pre_blow", "R", "Air: specific gas constant", blow.AirConstant, unit.HeatCapacity, "CompressibleFlow"),
		assumed("blow.pre_blow", "T_air", "Air in the bubble", m.AirT, unit.TemperaturePoint, ""),
		computed("blow.pre_start", "V", "Blow: volume of the bubble then", m.Volume, unit.Volume),
		assumed("blow.pre_blow", "p_0", "Air: pressure outside the wall", float64(unit.Atm), unit.PressureAbs, ""))
}

func rodOrigin(c *pass, r *blow.Result) figure.Origin {
	m := moment(r, func(m blow.Moment) bool { return m.RodForce == r.PeakRod })
	return blowOrigin(c, "greatest push of the wall on the tip of the rod, from the balance of forces in every step", r,
		computed("blow.rod_speed", "t_F", "Blow: when", m.Time, unit.Time),
		computed("blow.rod_speed", "z_F", "Blow: depth of the tip below the ledge then", m.RodTip, unit.Length),
		computed("blow.pre_blow", "p_F", "Blow: pressure inside then, which helps the rod", m.Pressure, unit.PressureGauge))
}

func ejectOrigin(c *pass, _ *Shape, r *blow.Result) figure.Origin {
	p := worst(r, hotBelowNeck)
	own := []figure.Input{
		computed("blow.high_time", "z", "Blow: depth of the hottest place below the ledge", p.Z, unit.Length),
		computed("blow.high_time", "w_z", "Blow: wall there", p.Wall, unit.Length),
		computed("blow.high_time", "T_blow", "Blow: temperature there when the bottle was full, work of stretching included", p.BlowT, unit.TemperaturePoint),
	}
	if p.Touched >= 0 {
		own = append(own, computed("blow.high_time", "t_z", "Blow: time on the mould there", r.End-p.Touched, unit.Time))
	}
	return blowOrigin(c, "hottest place of the wall at ejection, mean through the wall; the first ‹10 mm› below the ledge do not count", r, own...)
}

func crystalOrigin(c *pass, shape *Shape, r *blow.Result) figure.Origin {
	weighted, mass := panelCrystals(shape, r)
	return blowOrigin(c, "φ = X_m / m_panel", r,
		computed("bottle.panel_from", "X_m", "Blow: plastic of the panel, each place times its crystallinity", weighted, unit.Mass),
		computed("bottle.panel_from", "m_panel", "Blow: plastic of the panel", mass, unit.Mass))
}

func innerOrigin(c *pass, _ *Shape, r *blow.Result) figure.Origin {
	p := worst(r, func(p *blow.Place) float64 { return p.HoopIn * p.Axial })
	return blowOrigin(c, "λ = λ_h λ_a", r,
		computed("preform.inner_diameter", "λ_h", "Blow: hoop stretch of the inner face "+at(p), p.HoopIn, unit.Ratio),
		computed("preform.body_length", "λ_a", "Blow: axial stretch there", p.Axial, unit.Ratio))
}

func slackOrigin(c *pass, _ *Shape, r *blow.Result) figure.Origin {
	p := worst(r, func(p *blow.Place) float64 { return -p.Slack })
	return blowOrigin(c, "least 1 - α² I_1 of the network, over layers and time", r,
		computed("blow.law", "λ_net", "Blow: greatest stretch of the network "+at(p), p.Net, unit.Ratio))
}
