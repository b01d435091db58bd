package drink

import (
	"math"

	"costrel/unit"
)

// Liquid is a checked drink. Make it with [Drink.Liquid]; the zero value is
// not usable. It is a value and safe to share.
type Liquid struct {
	drink Drink
	law   Law
	w     float64 // mass fraction of sugar
	water float64 // kg of water per m³ of drink at 20 °C
	scale float64 // solubility per kilogram of water in this drink over Law.Henry
	unit  float64 // mol CO2 per kilogram of water for 1 kg/m³ of carbonation
}

func newLiquid(d Drink, law Law, w float64) Liquid {
	l := Liquid{drink: d, law: law, w: w}
	rho, pure := SucroseDensity(bookT, w), SucroseDensity(bookT, 0)
	l.water = rho * (1 - w)
	// Solubility per kilogram of water, relative to pure water.
	switch d.Rule {
	case Linear:
		l.scale = pure * (1 - d.SugarSlope*d.Sugar) / l.water
	case NoEffect:
		l.scale = pure / l.water
	default:
		l.scale = 1
	}
	sucrose := w / ((1 - w) * MolarMassSucrose)
	l.scale *= math.Pow(10, -d.SaltingOut*sucrose)
	if d.Basis == Mass {
		l.unit = 1 / (MolarMassCO2 * l.water)
		if law.Ideal { // per litre of solution, not per kilogram
			l.scale *= 1000 / pure
		}
		return l
	}
	// The chart is that of water: what lowers the solubility lowers the content
	// and leaves the pressure.
	l.unit = l.scale / (MolarMassCO2 * 1000)
	return l
}

// Drink returns the drink with its defaults filled in.
func (l Liquid) Drink() Drink { return l.drink }

// Law returns the solubility law in use.
func (l Liquid) Law() Law { return l.law }

// MassFraction returns the mass fraction of sugar (degrees Brix/100).
func (l Liquid) MassFraction() float64 { return l.w }

// WaterContent returns the water per volume of drink at 20 °C [kg/m³].
func (l Liquid) WaterContent() float64 { return l.water }

// Density returns the density [kg/m³] of the liquid without its gas.
func (l Liquid) Density(t unit.Temperature) float64 { return SucroseDensity(t, l.w) }

// VapourPressure returns the pressure of water vapour over the drink [Pa]; it
// is 0 under an ideal law, which leaves it out.
func (l Liquid) VapourPressure(t unit.Temperature) float64 {
	if l.law.Ideal {
		return 0
	}
	return WaterActivity(l.w) * float64(VapourPressure(t))
}

// Molality returns the dissolved carbon dioxide at the stated carbonation
// [mol/kg of water].
func (l Liquid) Molality() float64 { return l.unit * l.drink.Carbonation }

// Carbonation returns the carbonation [kg/m³, on the drink's basis] of a
// liquid that holds m moles of carbon dioxide per kilogram of water.
func (l Liquid) Carbonation(m float64) float64 {
	if l.unit == 0 { // the zero Liquid
		return 0
	}
	return m / l.unit
}

// Content returns the carbon dioxide truly held per volume of drink at 20 °C
// [kg/m³] at the stated carbonation. The swelling of the liquid by its own gas
// (0.6 % at 4 volumes) is left out, as the chart does.
func (l Liquid) Content() float64 { return l.Molality() * l.water * MolarMassCO2 }

// HenryCO2 returns the solubility of carbon dioxide in this drink [mol/(kg of
// water and Pa of fugacity)] at 1 atm total pressure, by the drink's law and
// sugar rule.
func (l Liquid) HenryCO2(t unit.Temperature) float64 { return l.scale * l.law.Henry(t) }

// gas holds what the law says of the gas phase at one temperature: the excess
// a of the exponent per pascal of total pressure, so that the dissolved amount
// per pascal of partial pressure and kilogram of water is
//
//	k exp(-a (P - p0)), a = (v - B)/(R T), p0 chosen so that phi = 1 at P = 0
//
// and the virial coefficient b of the gas space.
type gas struct {
	k, a, b, rt float64
}

func (l Liquid) gasAt(t unit.Temperature) gas {
	rt := gasR * float64(t)
	k := l.HenryCO2(t)
	if l.law.Ideal {
		return gas{k: k, rt: rt}
	}
	b := SecondVirialCO2(t)
	return gas{k: k * math.Exp(PartialVolumeCO2*atm/rt), a: (PartialVolumeCO2 - b) / rt, b: b, rt: rt}
}

// solubility returns mol/(kg Pa of partial pressure) at the total pressure p:
// K phi(p) Poynting(p).
func (g gas) solubility(p float64) float64 { return g.k * math.Exp(-g.a*p) }
