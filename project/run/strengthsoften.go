package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// softLimit is the growth in diameter at which a warmed pack has left its
// limits: common practice.
const softLimit = 0.03

const softKey = "softening.temperature"

// softEnd is the end of the search, 79 °C.
const softEnd = unit.Temperature(273.15 + 79)

func (t *strengthTests) softening() {
	if t.unfilled != "" {
		t.problem(softKey, "%s", t.unfilled)
		return
	}
	coarse := t.b
	coarse.Sizing.Factor = 2 * sizing
	in := shell.SoftenInput{Bottle: coarse, Warmth: t.warm, Growth: softLimit * math.Max(1.2, stiffnessLaw(t.d).high), GaugeZ: (t.shape.Panel[0] + t.shape.Panel[1]) / 2}
	if t.pressures != nil {
		in.Pressure = func(q unit.Temperature) float64 {
			p, err := t.pressures.at(q)
			if err != nil {
				return math.NaN()
			}
			return float64(p)
		}
	} else {
		in.TopLoad = 1 // it must still stand
	}
	if b := t.d.Bottle.Base; b.Type != "petaloid" && b.Type != "hemisphere" { // feet sag by factors, see base.clearance
		in.Sag = math.Max(1.2, stiffnessLaw(t.d).high)
	}
	in.To = softEnd
	r, err := shell.Soften(in)
	if err != nil {
		t.problem(softKey, "%v", err)
		return
	}
	// The search goes on beyond the limits, for the bands.
	temperature := r.Temperature
	if r.Growth > softLimit {
		r.Limit, temperature = "growth", r.At(softLimit)
	}
	if touch := r.AtSag(1); r.Sag > 1 && touch < temperature {
		r.Limit, temperature = "clearance", touch
	}
	if r.Limit == "none" {
		t.problem(softKey, "the pack keeps its limits up to %s, the end of the search", unit.Quote(unit.TemperaturePoint, float64(in.To), 3))
		return
	}
	if t.pressures != nil && temperature < t.d.Handling.Stability {
		t.problem(softKey, "as computed the pack %s in the stability test already: calibrate stiffness and creep first", leaving(r.Limit))
		return
	}
	warnings := append([]string{quality.EstimatePrefix + ": stiffness by temperature is from memory, and a wall that shrinks back is not part of it", "the pack " + leaving(r.Limit) + " there"}, r.Warnings...)
	if r.Limit == "no equilibrium" {
		t.lost(r, in.Pressure, warnings)
		return
	}
	limit, at := softLimit, r.At
	method, equation := "The pack is warmed until it leaves its limit of growth; growth is straight between the two last temperatures", "g(T) = g_limit, g_limit = g_T"
	inputs := []figure.Input{
		assumed("handling.stability_temperature", "g_limit", "Limit of growth in diameter, elastic and at once", softLimit, unit.Fraction, "CommonPractice"),
		computed("handling.modulus_factor", "g_T", "Growth at the softening temperature", math.Min(softLimit, r.Growth), unit.Fraction),
	}
	if r.Limit == "clearance" {
		limit, at = 1, r.AtSag
		method, equation = "The pack is warmed until its gate has sagged down to the standing ring, elastic and at once; sag is straight between the two last temperatures", "s(T) = c_0"
		inputs = []figure.Input{t.given("c_0", "bottle.base.push_up")}
	}
	f := t.show(result{key: softKey, value: float64(temperature), method: method, equation: equation, follows: influence{}, inputs: inputs, warnings: warnings})
	// A softer or stiffer wall leaves its limit earlier or later, as growth and sag
	// go with 1/E and 1/t.
	for _, e := range []factorRange{stiffnessLaw(t.d), t.wallRange()} {
		move := func(factor float64) float64 { return float64(at(limit*factor) - temperature) }
		widen(f, figure.Effect{Path: e.path, Label: e.label, Low: move(e.low), High: move(e.high), Basis: e.basis})
	}
}

// lost shows the temperature at which the wall finds no state that carries the
// pressure: what it carries goes with its stiffness by temperature, E and t².
func (t *strengthTests) lost(r shell.SoftenResult, pressure func(unit.Temperature) float64, warnings []string) {
	carried := func(q unit.Temperature) float64 { // pressure over stiffness
		soft, _, _, err := t.warm.Factors(q)
		if err != nil {
			return math.Inf(1)
		}
		return pressure(q) / soft
	}
	most := carried(r.Temperature)
	soft, _, _, _ := t.warm.Factors(r.Temperature)
	f := t.show(result{
		key: softKey, value: float64(r.Temperature), method: "The pack is warmed until its wall finds no state that carries the pressure: the base rolls out or the wall flows on", equation: "p(T) = f(T) p_most, f(T) = f_s", follows: influence{},
		inputs: []figure.Input{
			computed("drink.carbonation", "p", "Pack: pressure there", pressure(r.Temperature), unit.PressureGauge),
			computed("handling.modulus_factor", "f_s", "Stiffness there over that at ‹23 °C›", soft, unit.Ratio),
		},
		warnings: warnings,
	})
	for _, e := range []struct {
		factorRange
		power float64
	}{{stiffnessLaw(t.d), 1}, {t.wallRange(), 2}} {
		at := func(factor float64) float64 {
			want := most * math.Pow(factor, e.power)
			lo, hi := unit.Celsius(0), softEnd
			for range 60 {
				if mid := (lo + hi) / 2; carried(mid) < want {
					lo = mid
				} else {
					hi = mid
				}
			}
			return float64(lo - r.Temperature)
		}
		widen(f, figure.Effect{Path: e.path, Label: e.label, Low: at(e.low), High: at(e.high), Basis: e.basis})
	}
}

// leaving tells what a warmed pack does at its end.
func leaving(limit string) string {
	switch limit {
	case "growth":
		return fmt.Sprintf("leaves its limit of growth, %.3g %%,", 100*softLimit)
	case "no equilibrium":
		return "no longer finds a state that carries its pressure"
	}
	return "rocks: its gate is down at the standing ring"
}
