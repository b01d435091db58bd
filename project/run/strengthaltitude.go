package run

import (
	"fmt"
	"math"
	"slices"

	"costrel/figure"
	"costrel/num/root"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// altitude takes the closed pack up. A pack without gas in its drink gains the
// fall of the air pressure as well, from its headspace.
func (t *strengthTests) altitude() {
	keys := []string{"altitude.pressure", "altitude.growth"}
	if t.unfilled != "" {
		t.lacking(t.unfilled, keys...)
		return
	}
	h := t.d.Handling
	if h.Altitude <= t.d.Climate.AltitudeSale {
		t.lacking("does not apply: the test is not above the altitude of sale", keys...)
		return
	}
	up, err := climate.Pressure(h.Altitude)
	if err != nil {
		t.lacking("altitude: "+err.Error(), keys...)
		return
	}
	if hotFilled(t.d) {
		t.hotAltitude(up, keys)
		return
	}
	gauge, sale, err := t.shut(h.Lab)
	if err != nil {
		t.lacking("altitude: the pressure is not known: "+err.Error(), keys...)
		return
	}
	if t.rigid {
		widen(t.rigidAscent(sale, up, gauge), t.closing(gauge, sale))
		return
	}
	in := shell.RiseInput{Bottle: t.b, Soft: t.labSoft, From: sale, To: up, Headspace: t.shape.Brimful - t.d.Brief.Nominal}
	if t.pressures == nil {
		in.Inside = gauge.Abs(sale)
	} else if in.Sealed, err = t.pressures.sealed(h.Lab); err != nil {
		t.lacking("altitude: "+err.Error(), keys...)
		return
	}
	in.Quick, in.Sizing.Factor = true, 2*sizing // the swelling hardly depends on the mesh
	r, err := shell.Rise(in)
	if err == nil {
		err = t.collapsed(float64(r.Before), t.labSoft)
	}
	if err != nil {
		t.lacking("altitude: "+err.Error(), keys...)
		return
	}
	e := t.closing(r.Before, in.From)
	a := ascent{from: in.From, to: up, before: r.Before, after: r.After, swell: r.Swell, gas: r.Gas, path: e.Path, warnings: r.Warnings, follows: influence{stiffness: -1, wall: -1}, method: "The gas of the headspace swells with the wall at constant temperature; no gas leaves the drink on so short a way"}
	// The band of the pressure in store is not known while the tests are worked out.
	widen(t.showAscent(keys, a), e)
}

// closing is what is not known of the pressure in a closed pack before its way up: its
// carbonation, or the temperature of the air that was shut in at some ambient pressure.
func (t *strengthTests) closing(before unit.GaugePressure, ambient unit.AbsPressure) figure.Effect {
	e, half := figure.Effect{Path: "drink.carbonation", Label: "Carbonation", Basis: "± 5 % of the pressure, chosen for this project"}, 0.05*math.Abs(float64(before))
	if t.pressures == nil {
		e = figure.Effect{Path: "drink.fill_temperature", Label: "Temperature at closing", Basis: "± ‹5 K›, chosen for this project: the shut air follows the absolute temperature"}
		half = 5 * float64(before.Abs(ambient)) / float64(t.d.Handling.Lab)
	}
	e.Low, e.High = -half, half
	return e
}

// shut returns the gauge pressure of the closed pack at a temperature, at the
// altitude of sale, while its bottle has not grown, and the air pressure there. It
// is that of a pack that was closed under every drink.pressure_model, as in the
// other tests of a filled pack: the open chart knows no headspace that could swell.
func (t *strengthTests) shut(at unit.Temperature) (unit.GaugePressure, unit.AbsPressure, error) {
	if t.pressures != nil {
		sealed, err := t.pressures.sealed(at)
		if err != nil {
			return 0, 0, err
		}
		p, _ := sealed(0)
		return unit.GaugePressure(p), t.pressures.SaleAmbient, nil
	}
	d := t.d
	sale, err := climate.Pressure(d.Climate.AltitudeSale)
	if err != nil {
		return 0, 0, err
	}
	fill, err := climate.Pressure(d.Climate.AltitudeFill)
	if err != nil {
		return 0, 0, err
	}
	liquid, err := drinkWithAir(d).Liquid()
	if err != nil {
		return 0, 0, err
	}
	st, err := closed(liquid, drink.Pack{
		Fill: d.Brief.Nominal * liquid.Density(unit.Celsius(20)) / liquid.Density(d.Drink.FillTemperature), Brimful: t.shape.Brimful,
		FillT: d.Drink.FillTemperature, ReferenceT: d.Drink.Reference, Ambient: fill, Air: 1, Growth: t.wall.Growth, Stated: drink.Sealed,
	}, at, sale)
	return st.Gauge, sale, err
}

// hotAltitude takes a settled hot-filled pack up: its panels come out first.
func (t *strengthTests) hotAltitude(up unit.AbsPressure, keys []string) {
	h, err := t.hotTests()
	var low, high hotfill.State
	if err == nil {
		h.store.Temperature = t.d.Handling.Lab
		low, high, err = h.risen(h.pack.Panel, up)
	}
	if err != nil {
		err = fmt.Errorf("the vacuum of the cooled pack is not known: %w", err)
	} else {
		err = t.pulledIn(vacuum{below: low.Vacuum}, t.labSoft)
	}
	if err != nil {
		t.lacking("altitude: "+err.Error(), keys...)
		return
	}
	a := ascent{
		from: h.store.Ambient, to: up, before: unit.GaugePressure(-low.Vacuum), after: unit.GaugePressure(-high.Vacuum), swell: high.Headspace - low.Headspace, path: "hotfill.panel_compliance",
		method: "The air of the settled headspace swells with panels and wall, in balance with the drink", inputs: []figure.Input{h.compliance(low.Vacuum)},
		growth: t.hotGrowth(h, up, low, high),
	}
	if high.Vacuum < 0 && low.Vacuum > 0 {
		a.warnings = []string{quality.EstimatePrefix + ": up there the pack is under pressure, not under vacuum: its panels stand out"}
	}
	half := vacuumShare * math.Abs(low.Vacuum)
	widen(t.showAscent(keys, a), figure.Effect{Path: "hotfill.panel_compliance", Label: "Vacuum of the cooled pack", Low: -half, High: half, Basis: vacuumBasis()})
}

// hotGrowth is what is not known of the swelling of a settled hot-filled pack, as
// shares of the volume: its panels, the round wall on which they stand under pressure,
// and the vacuum that it begins with.
func (t *strengthTests) hotGrowth(h *hotCase, up unit.AbsPressure, low, high hotfill.State) []figure.Effect {
	type end struct{ inward, outward float64 }
	var out []figure.Effect
	add := func(path, label, basis string, a, b end) {
		e := figure.Effect{Path: path, Label: label, Basis: basis}
		for _, q := range []struct {
			end
			to *float64
		}{{a, &e.Low}, {b, &e.High}} {
			if l, u, err := h.risen(scaledPanel(h.pack.Panel, q.inward, q.outward), up); err == nil {
				*q.to = (u.Headspace - l.Headspace - high.Headspace + low.Headspace) / t.shape.Brimful
			}
		}
		if e.Low != 0 || e.High != 0 {
			out = append(out, e)
		}
	}
	wall := t.wallRange()
	if h.pack.Panel.Curve == nil {
		c := spreads[slices.IndexFunc(spreads, func(s spread) bool { return s.path == "hotfill.panel_compliance" })]
		add(c.path, "Compliance of the panels", c.basis, end{1 - c.by, 1}, end{1 + c.by, 1})
		add(wall.path, wall.label, wall.basis, end{1, 1 / wall.low}, end{1, 1 / wall.high})
	} else { // that of the round wall, which goes with 1/E and 1/t
		law := stiffnessLaw(t.d)
		add(law.path, law.label, law.basis, end{1 / law.low, 1}, end{1 / law.high, 1})
		add(wall.path, wall.label, wall.basis, end{1 / wall.low, 1 / wall.low}, end{1 / wall.high, 1 / wall.high})
	}
	swell := func(factor float64) float64 { return h.boyle(low, factor*low.Vacuum, up) / t.shape.Brimful }
	here := swell(1)
	return append(out, figure.Effect{Path: "hotfill.panel_compliance", Label: "Vacuum of the cooled pack", Low: swell(1-vacuumShare) - here, High: swell(1+vacuumShare) - here, Basis: vacuumBasis()})
}

// risen returns a pack days after filling at the altitude of sale, and up from there.
func (h *hotCase) risen(panel hotfill.Panel, up unit.AbsPressure) (low, high hotfill.State, err error) {
	pack, top := h.pack, h.store
	pack.Panel, top.Ambient = panel, up
	if low, err = hotfill.Settle(pack, h.store, h.air()); err == nil {
		high, err = hotfill.Settle(pack, top, h.air())
	}
	return low, high, err
}

// boyle returns what the headspace of a pack gains on the way up from a vacuum, by
// the gas that is in it alone [m³].
func (h *hotCase) boyle(low hotfill.State, vacuum float64, up unit.AbsPressure) float64 {
	from, panel := float64(h.store.Ambient), h.pack.Panel
	gain := func(v float64) float64 { return panel.Volume(vacuum) - panel.Volume(v) }
	dry := from - vacuum - low.Vapour
	v, err := root.Brent(func(v float64) float64 {
		return dry*low.Headspace/(low.Headspace+gain(v)) + low.Vapour - float64(up) + v
	}, vacuum-from+float64(up), vacuum, 0)
	if err != nil || low.Headspace <= 0 {
		return 0
	}
	return gain(v)
}

// scaledPanel returns panels that give more or less, inward and outward.
func scaledPanel(p hotfill.Panel, inward, outward float64) hotfill.Panel {
	p.Compliance, p.Outward, p.Curve = p.Compliance*inward, p.Outward*outward, slices.Clone(p.Curve)
	for i := range p.Curve {
		p.Curve[i].Volume *= inward
	}
	return p
}

// rigidAscent is the pressure of a pack whose wall is not known: without the room
// that swelling gives, an upper bound.
func (t *strengthTests) rigidAscent(from, to unit.AbsPressure, before unit.GaugePressure) *figure.Figure {
	return t.show(result{
		key: "altitude.pressure", value: float64(before) + float64(from-to), method: "The closed pack keeps its room on the way up", equation: "p_g = p + p_0 - p_1",
		inputs: []figure.Input{
			t.given("H", "handling.altitude"), vent{"climate.altitude_sale", from}.input("p_0"), vent{"handling.altitude", to}.input("p_1"),
			computed("drink.carbonation", "p", "Pack: gauge pressure before", float64(before), unit.PressureGauge),
		},
		warnings: []string{quality.EstimatePrefix + ": an upper bound: no wall is known that could swell"},
	})
}

// ascent is a closed pack before and after its way up.
type ascent struct {
	from, to      unit.AbsPressure
	before, after unit.GaugePressure
	swell         float64 // volume gained [m³]
	gas           float64 // before [m³]; 0 where it is not told
	path          string  // what sets the pressure before
	method        string
	warnings      []string
	inputs        []figure.Input
	follows       influence       // of the growth
	growth        []figure.Effect // on it
}

// showAscent puts an ascent on the board and returns the figure of the pressure.
func (t *strengthTests) showAscent(keys []string, a ascent) *figure.Figure {
	inputs := []figure.Input{
		t.given("H", "handling.altitude"), vent{"climate.altitude_sale", a.from}.input("p_0"), vent{"handling.altitude", a.to}.input("p_1"),
		computed(a.path, "p", "Pack: gauge pressure before", float64(a.before), unit.PressureGauge),
		computed("bottle.wall", "Δp_s", "Pack: pressure given up by swelling", float64(a.before)+float64(a.from-a.to)-float64(a.after), unit.PressureChange),
	}
	if a.gas > 0 {
		inputs = append(inputs, computed("brief.nominal", "V_gas", "Pack: gas before, in the headspace of the bottle as it has grown", a.gas, unit.Volume))
	}
	inputs = append(inputs, a.inputs...)
	f := t.show(result{
		key: keys[1], value: a.swell / t.shape.Brimful, method: a.method, equation: "g = ΔV / V", follows: a.follows,
		inputs:   append([]figure.Input{computed("bottle.panel_diameter", "ΔV", "Pack: volume gained on the way", a.swell, unit.Volume), t.input("V", "bottle.volume.brimful")}, inputs...),
		warnings: a.warnings,
	})
	for _, e := range a.growth {
		widen(f, e)
	}
	return t.show(result{key: keys[0], value: float64(a.after), method: a.method, equation: "p_g = p + p_0 - p_1 - Δp_s", inputs: inputs, warnings: a.warnings})
}
