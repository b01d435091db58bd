package run

import (
	"math"

	"costrel/figure"
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
		t.rigidAscent(sale, up, gauge)
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
	if err != nil {
		t.lacking("altitude: "+err.Error(), keys...)
		return
	}
	path, label, basis, half := "drink.carbonation", "Carbonation", "± 5 % of the pressure, chosen for this project", 0.05*math.Abs(float64(r.Before))
	if t.pressures == nil {
		path, label, basis, half = "drink.fill_temperature", "Temperature at closing", "± ‹5 K›, chosen for this project: the shut air follows the absolute temperature", 5*float64(in.Inside)/float64(h.Lab)
	}
	a := ascent{from: in.From, to: up, before: r.Before, after: r.After, swell: r.Swell, gas: r.Gas, path: path, warnings: r.Warnings, method: "The gas of the headspace swells with the wall at constant temperature; no gas leaves the drink on so short a way"}
	f := t.showAscent(keys, a)
	// The band of the pressure in store is not known while the tests are worked out.
	widen(f, figure.Effect{Path: path, Label: label, Low: -half, High: half, Basis: basis})
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
	h, err := t.hotPack()
	var low, high hotfill.State
	if err == nil {
		h.store.Ambient, err = climate.Pressure(t.d.Climate.AltitudeSale)
	}
	if err == nil {
		h.store.Temperature = t.d.Handling.Lab
		if low, err = hotfill.Settle(h.pack, h.store, h.air()); err == nil {
			top := h.store
			top.Ambient = up
			high, err = hotfill.Settle(h.pack, top, h.air())
		}
	}
	if err != nil {
		t.lacking("altitude: the vacuum of the cooled pack is not known: "+err.Error(), keys...)
		return
	}
	a := ascent{from: h.store.Ambient, to: up, before: unit.GaugePressure(-low.Vacuum), after: unit.GaugePressure(-high.Vacuum), swell: high.Headspace - low.Headspace, path: "hotfill.panel_compliance", method: "The air of the settled headspace swells with panels and wall, in balance with the drink"}
	if high.Vacuum < 0 && low.Vacuum > 0 {
		a.warnings = []string{quality.EstimatePrefix + ": up there the pack is under pressure, not under vacuum: its panels stand out"}
	}
	half := vacuumShare * math.Abs(low.Vacuum)
	widen(t.showAscent(keys, a), figure.Effect{Path: "hotfill.panel_compliance", Label: "Vacuum of the cooled pack", Low: -half, High: half, Basis: "± 20 % of the vacuum, chosen for this project"})
}

// rigidAscent is the pressure of a pack whose wall is not known: without the room
// that swelling gives, an upper bound.
func (t *strengthTests) rigidAscent(from, to unit.AbsPressure, before unit.GaugePressure) {
	t.show(result{
		key: "altitude.pressure", value: float64(before) + float64(from-to), method: "The closed pack keeps its room on the way up", equation: "p_g = p + p_0 - p_1",
		inputs: []figure.Input{
			t.given("H", "handling.altitude"), vent{"climate.altitude_sale", from}.input("p_0"), vent{"handling.altitude", to}.input("p_1"),
			computed("drink.carbonation", "p", "Pack: gauge pressure before", float64(before), unit.PressureGauge),
		},
		warnings: []string{quality.EstimatePrefix + ": an upper bound: there is no blown wall that could swell"},
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
	t.show(result{
		key: keys[1], value: a.swell / t.shape.Brimful, method: a.method, equation: "g = ΔV / V", follows: influence{stiffness: -1, wall: -1},
		inputs:   append([]figure.Input{computed("bottle.panel_diameter", "ΔV", "Pack: volume gained on the way", a.swell, unit.Volume), t.input("V", "bottle.volume.brimful")}, inputs...),
		warnings: a.warnings,
	})
	return t.show(result{key: keys[0], value: float64(a.after), method: a.method, equation: "p_g = p + p_0 - p_1 - Δp_s", inputs: inputs, warnings: a.warnings})
}
