package closure

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Range of temperature for the conductances.
const (
	gasLow  unit.Temperature = 253.1 // -20 °C with its rounding
	gasHigh unit.Temperature = 343.2
)

// Gas is a gas that passes through a closure.
type Gas string

// The gases with a conductance on the cards.
const (
	CO2 Gas = "CO2"
	O2  Gas = "O2"
	N2  Gas = "N2"
)

// Conductance returns the conductance of the whole closure for a gas at a
// temperature [mol/(s Pa)]:
//
//	K(T) = K_ref exp(-E/R (1/T - 1/T_ref))
//
// The flow is K times the difference of the gas's partial pressures. It counts
// what permeates; a leak past the seal is not in it. For -20..70 °C. The
// values and the activation energy are low confidence (see the card).
func (c Closure) Conductance(g Gas, t unit.Temperature) (float64, error) {
	if !(t >= gasLow && t <= gasHigh) {
		return 0, fmt.Errorf("closure: %s: temperature ‹%.1f °C› outside ‹%.0f..%.0f °C›", c.Name, t.Celsius(), gasLow.Celsius(), gasHigh.Celsius())
	}
	var k float64
	switch g {
	case CO2:
		k = c.CO2
	case O2:
		k = c.O2
	case N2:
		k = c.N2
	default:
		return 0, fmt.Errorf("closure: %s: no conductance for gas %q; there are CO2, O2, N2", c.Name, string(g))
	}
	return k * math.Exp(-c.ActivationEnergy/unit.GasConstant*(1/float64(t)-1/float64(c.Reference))), nil
}

// BoreScale returns the factor by which a conductance measured on one bore
// goes over to another, the ratio of the areas. Diameters in m. Holds while
// the gas passes the top panel; a longer skirt or plug path changes it.
func BoreScale(from, to float64) (float64, error) {
	if !(from > 0 && to > 0) || math.IsInf(from, 0) || math.IsInf(to, 0) {
		return 0, fmt.Errorf("closure: bore: diameters ‹%g and %g m› not above 0", from, to)
	}
	r := to / from
	return r * r, nil
}

// Disc returns the conductance [mol/(s Pa)] of a closure estimated as a disc
// of a film of permeability P [mol·m/(m²·s·Pa)], diameter d and thickness h
// [m], with the factor by which skirt and plug add to it (1.5 for a one-piece
// closure):
//
//	K = factor P pi d²/4 / h
//
// With HDPE at 138 to 236 cc·mm/(m²·d·atm) (BiosystemsPackaging), 25 mm and
// 1.25 mm it gives 0.08 to 0.14 cm³/(d·atm) of CO2.
func Disc(P, d, h, factor float64) (float64, error) {
	if !(P >= 0 && d > 0 && h > 0 && factor >= 1) || math.IsInf(P*d*factor, 0) {
		return 0, fmt.Errorf("closure: disc: permeability %g, diameter ‹%g m›, thickness ‹%g m›, factor %g: want P >= 0, d > 0, h > 0, factor >= 1", P, d, h, factor)
	}
	return factor * P * math.Pi / 4 * d * d / h, nil
}
