package run

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/figure"
	"costrel/physics/resin"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// glassLeast is the least wall that glass is blown to [m]: common practice, its
// range from memory.
const glassLeast, glassLeastLow, glassLeastHigh = 1.6e-3, 1.4e-3, 2.0e-3

// glassShare is the share of its handled strength that a glass wall may bear
// for long: chosen for this project, static fatigue about halves it.
const glassShare = 0.5

// otherMaterials answers "why not glass or a milk-jug plastic" for the same
// shape and the same drink: the wall and mass of glass, the growth of HDPE.
func (t *strengthTests) otherMaterials() {
	keys := []string{"material.glass.wall", "material.glass.mass", "material.hdpe.growth"}
	if t.pressures == nil {
		t.lacking(t.noPressure(), keys...)
		return
	}
	t.glass()
	t.hdpe()
}

func (t *strengthTests) glass() {
	card, err := resin.Card("glass")
	if err != nil {
		t.problem("material.glass.mass", "%v", err)
		return
	}
	from := func(symbol, key string) (figure.Input, cite.Datum) {
		d, _ := card.Get(key)
		return figure.Input{Key: "card:glass." + key, Symbol: symbol, Label: "Glass: " + d.Label, Value: d.Value, Kind: d.Kind, Origin: figure.Practice, Source: d.Source}, d
	}
	strength, s := from("σ_g", "strength")
	density, rho := from("ρ_g", "density")
	p := math.Max(float64(t.pressures.Hot), 0)
	r, area := t.d.Bottle.Diameter/2, t.shape.Bottle.OuterArea()
	wall := func(strength, least float64) float64 {
		return math.Max(p*r/(glassShare*strength+p), least) // p (r - t) / t = σ
	}
	warnings := []string{quality.EstimatePrefix + ": strength of handled glass from memory, half of it borne for long; at least " + unit.Quote(unit.Length, glassLeast, 3) + " by common practice; bending at heel and shoulder left out"}
	inputs := []figure.Input{t.input("p", "pack.pressure.hot"), t.given("D", "bottle.diameter"), strength}
	show := func(key, equation string, of func(wall float64) float64, in ...figure.Input) {
		t.figure(key, of(wall(s.Value, glassLeast)), figure.Origin{
			Method: "Thin closed cylinder, hoop stress of the hot pressure at half of the strength of handled glass", Equation: equation, Sources: []string{"Timoshenko1959", "CommonPractice"},
			Theory: "strength", Inputs: append(append([]figure.Input{}, inputs...), in...), Warnings: warnings,
		})
		if f := t.last(key); f != nil {
			f.Effects, f.Lo, f.Hi = []figure.Effect{}, f.Value, f.Value
			band := func(low, high float64) (float64, float64) { return of(low) - f.Value, of(high) - f.Value }
			strong := figure.Effect{Path: "bottle", Label: "Strength of handled glass", Basis: fmt.Sprintf("‹%.0f .. %.0f MPa›, from memory", s.Low/1e6, s.High/1e6)}
			strong.Low, strong.High = band(wall(s.High, glassLeast), wall(s.Low, glassLeast))
			least := figure.Effect{Path: "bottle.wall", Label: "Least wall of glass", Basis: fmt.Sprintf("‹%.1f .. %.1f mm›, from memory", glassLeastLow*1e3, glassLeastHigh*1e3)}
			least.Low, least.High = band(wall(s.Value, glassLeastLow), wall(s.Value, glassLeastHigh))
			for _, e := range []figure.Effect{strong, least} {
				if e.Low != 0 || e.High != 0 { // one of the two plays no part far from where both meet
					widen(f, e)
				}
			}
		}
	}
	equation := "t = p D / 2 / (σ_g / 2 + p)"
	if wall(s.Value, glassLeast) <= glassLeast {
		equation = "t = t_min"
	}
	show("material.glass.wall", equation, func(w float64) float64 { return w }, assumed("bottle.wall", "t_min", "Glass: least wall", glassLeast, unit.Length, "CommonPractice"))
	show("material.glass.mass", "m = ρ_g A t", func(w float64) float64 { return rho.Value * area * w }, density, t.input("A", "bottle.area"), t.input("t", "material.glass.wall"))
}

func (t *strengthTests) hdpe() {
	const key = "material.hdpe.growth"
	card, err := resin.Card("hdpe")
	if err != nil {
		t.problem(key, "%v", err)
		return
	}
	e, _ := card.Get("modulus")
	sealed, err := t.standing(t.d.Handling.Lab, t.labSoft) // softer than PET, it collapses before
	if err != nil {
		t.problem(key, "%v", err)
		return
	}
	grow := func(modulus float64) (float64, error) {
		b := t.b
		b.Quick, b.Creep = true, nil
		b.Stations = append([]shell.Station{}, b.Stations...)
		for i := range b.Stations {
			b.Stations[i].Ply = shell.Even(shell.Ply{Es: modulus, Eh: modulus, Nu: card.Value("poisson")})
		}
		r, err := shell.Grow(shell.GrowInput{Bottle: b, Stages: []shell.Stage{{Name: "filled", Sealed: sealed}}, GaugeZ: (t.shape.Panel[0] + t.shape.Panel[1]) / 2})
		return r.AtOnce.Gauge, err
	}
	v, err := grow(e.Value)
	if err != nil {
		t.problem(key, "an HDPE wall as thin finds no balance under the pressure of this drink: %v", err)
		return
	}
	stress := float64(t.pressures.Store) * t.d.Bottle.PanelDiameter / 2 / t.wall.PanelMean
	t.figure(key, v, figure.Origin{
		Method: "The same bottle and wall with the short-time modulus of HDPE, shell of revolution, large displacement, closed pack at laboratory temperature", Equation: "g = D_1 / D_0 - 1",
		Sources: []string{"CommonPractice"}, Theory: "strength",
		Inputs:   []figure.Input{t.given("D_0", "bottle.panel_diameter"), computed("bottle.panel_diameter", "D_1", "Bottle: that diameter in the HDPE bottle under pressure", t.d.Bottle.PanelDiameter*(1+v), unit.Length), {Key: "card:hdpe.modulus", Symbol: "E", Label: "HDPE: " + e.Label, Value: e.Value, Kind: e.Kind, Origin: figure.Practice, Source: e.Source}, t.input("t", "wall.panel.mean"), t.given("T", "handling.lab_temperature")},
		Warnings: []string{quality.EstimatePrefix + ": elastic and at once; creep comes on top, and " + againstYield(stress, card.Value("strength"))},
	})
	if f := t.last(key); f != nil {
		f.Effects, f.Lo, f.Hi = []figure.Effect{}, v, v
		low, err1 := grow(e.High)
		high, err2 := grow(e.Low)
		if err1 == nil && err2 == nil {
			widen(f, figure.Effect{Path: "handling.lab_temperature", Label: "Modulus of HDPE", Low: low - v, High: high - v, Basis: "‹0.6 .. 1.3 GPa›, from memory"})
		}
	}
}

// againstYield says where a hoop stress lies against the yield, both in Pa.
func againstYield(stress, yield float64) string {
	if stress > yield {
		return fmt.Sprintf("%s of hoop stress is above the yield of %s: such a bottle does not hold this drink", unit.Quote(unit.Stress, stress, 3), unit.Quote(unit.Stress, yield, 3))
	}
	return fmt.Sprintf("%s of hoop stress is %.0f %% below the short-time yield of %s", unit.Quote(unit.Stress, stress, 3), 100*(1-stress/yield), unit.Quote(unit.Stress, yield, 3))
}
