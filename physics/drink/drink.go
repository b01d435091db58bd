package drink

import (
	"fmt"

	"costrel/unit"
)

// Basis says what a carbonation refers to.
type Basis string

const (
	// Chart is the reading of the trade: pressure and temperature of the
	// shaken pack looked up on the chart of carbonated water. The same volumes
	// give the same pressure whatever the sugar. It counts volumes per litre
	// of water of 1.000 g/cm³, as ASTMF1115 does, so it does not move with
	// temperature. What the litre of drink truly holds is Liquid.Content.
	Chart Basis = "chart"
	// Mass is the true content: kilograms of carbon dioxide per cubic metre of
	// drink at 20 °C.
	Mass Basis = "mass"
)

// Rule says how sugar changes the solubility of carbon dioxide in a litre of
// drink. On the chart basis it leaves the pressure alone and changes the
// content.
type Rule string

const (
	// PerWater keeps the solubility per kilogram of water; the sugar only
	// takes its place. About -7 % per litre at 11 °Brix. The default.
	PerWater Rule = "water"
	// Linear lowers the solubility per litre by Drink.SugarSlope for each
	// kg/m³ of sugar, the rule of hand calculations.
	Linear Rule = "linear"
	// NoEffect keeps the solubility per litre.
	NoEffect Rule = "none"
)

// Habitual values [m³/kg], [kg/mol].
const (
	// HandSugarSlope is 0.06 % for each g/L. No published source.
	HandSugarSlope = 0.0006
	// SaltingOutLow and SaltingOutHigh bound the salting-out coefficient of
	// sucrose. From memory, low confidence.
	SaltingOutLow, SaltingOutHigh = 0.01, 0.02
)

// MaxCarbonation is the highest carbonation accepted [kg/m³], about 10
// volumes; sodas stay below half of it.
const MaxCarbonation = 20

// Drink describes a liquid as filled. The zero value is still water.
type Drink struct {
	// Carbonation is the carbon dioxide [kg/m³] on the given Basis; 0 is a
	// still drink. 0..MaxCarbonation.
	Carbonation float64
	// Basis of Carbonation; empty is Chart.
	Basis Basis
	// Sugar is the dissolved solids counted as sucrose [kg/m³ at 20 °C].
	Sugar float64
	// Law is the name of a solubility law; empty is DefaultLaw.
	Law string
	// Rule of sugar; empty is PerWater.
	Rule Rule
	// SugarSlope of the rule Linear [m³/kg], 0..0.005; HandSugarSlope is the
	// habit. Must be 0 with another rule.
	SugarSlope float64
	// SaltingOut is a further decrease of the solubility per kilogram of
	// water, by 10^(-k m) for m moles of sucrose per kilogram of water
	// [kg/mol]; 0 is none.
	SaltingOut float64
	// Oxygen and Nitrogen are what the liquid holds dissolved at filling
	// [kg/m³]; 0 is fully deaerated.
	Oxygen, Nitrogen float64
}

// Liquid checks a drink and returns it ready for evaluation. Errors name the
// field, the value and the limit.
func (d Drink) Liquid() (Liquid, error) {
	law, err := LawNamed(d.Law)
	if err != nil {
		return Liquid{}, err
	}
	if d.Basis == "" {
		d.Basis = Chart
	}
	if d.Rule == "" {
		d.Rule = PerWater
	}
	if d.Basis != Chart && d.Basis != Mass {
		return Liquid{}, fmt.Errorf("drink: basis: %q, want %s or %s", d.Basis, Chart, Mass)
	}
	if d.Rule != PerWater && d.Rule != Linear && d.Rule != NoEffect {
		return Liquid{}, fmt.Errorf("drink: sugar rule: %q, want %s, %s or %s", d.Rule, PerWater, Linear, NoEffect)
	}
	if d.Rule != Linear && d.SugarSlope != 0 {
		return Liquid{}, fmt.Errorf("drink: sugar slope: %g m³/kg given, but the sugar rule is %s", d.SugarSlope, d.Rule)
	}
	for _, c := range [...]struct {
		item         string
		x, low, high float64
		symbol       string
	}{
		{"carbonation", d.Carbonation, 0, MaxCarbonation, "kg/m³"},
		{"sugar slope", d.SugarSlope, 0, 0.005, "m³/kg"},
		{"salting-out", d.SaltingOut, -0.2, 0.2, "kg/mol"},
		{"oxygen", d.Oxygen, 0, 0.1, "kg/m³"},
		{"nitrogen", d.Nitrogen, 0, 0.1, "kg/m³"},
	} {
		if err := within(c.item, c.x, c.low, c.high, c.symbol); err != nil {
			return Liquid{}, err
		}
	}
	if d.SugarSlope*d.Sugar > 0.5 {
		return Liquid{}, fmt.Errorf("drink: sugar slope: %g m³/kg times %g kg/m³ of sugar lowers the solubility by %.3g, more than 0.5",
			d.SugarSlope, d.Sugar, d.SugarSlope*d.Sugar)
	}
	w, err := SugarFraction(d.Sugar)
	if err != nil {
		return Liquid{}, err
	}
	return newLiquid(d, law, w), nil
}

// Open returns the pressure over the drink held at its carbonation; see
// [Liquid.Open].
func (d Drink) Open(t unit.Temperature, ambient unit.AbsPressure) (Pressure, error) {
	l, err := d.Liquid()
	if err != nil {
		return Pressure{}, err
	}
	return l.Open(t, ambient)
}
