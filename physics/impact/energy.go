package impact

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Energy returns what a filled pack brings to the floor [J]:
//
//	E = m g H
//
// m is the mass of the pack [kg], in 1e-3..50; H the height [m], in 0.01..10.
func Energy(mass, height float64) (float64, error) {
	if !(mass >= 1e-3 && mass <= 50) {
		return 0, fmt.Errorf("impact: energy: mass %g kg outside 1e-3..50 kg", mass)
	}
	if !(height >= heightLow && height <= heightHigh) {
		return 0, fmt.Errorf("impact: energy: height ‹%g m› outside ‹%g..%g m›", height, heightLow, heightHigh)
	}
	return mass * unit.Gravity * height, nil
}

// Capacity returns the elastic energy a wall takes up to its yield [J]:
//
//	U = 1/2 sigma_y²/E V
//
// in one direction, the whole volume V [m³] at yield at once: an upper bound,
// since a wave loads the wall from the base up. Yield in 1e5..1e9 Pa, modulus
// in 1e6..3e11 Pa, volume in 0..0.01 m³.
func Capacity(yield, modulus, volume float64) (float64, error) {
	switch {
	case !(yield >= 1e5 && yield <= 1e9):
		return 0, fmt.Errorf("impact: capacity: yield stress ‹%g Pa› outside ‹1e5..1e9 Pa›", yield)
	case !(modulus >= 1e6 && modulus <= 3e11):
		return 0, fmt.Errorf("impact: capacity: modulus ‹%g Pa› outside ‹1e6..3e11 Pa›", modulus)
	case !(volume >= 0 && volume <= 0.01):
		return 0, fmt.Errorf("impact: capacity: wall volume ‹%g m³› outside ‹0..0.01 m³›", volume)
	}
	return yield * yield / (2 * modulus) * volume, nil
}

// Lift returns the force with which static and hammer pressure lift a closure
// [N]:
//
//	F = (p + dp) pi d²/4
//
// p is the gauge pressure of the pack, dp the hammer pressure that reaches the
// seal [Pa], d the outer diameter of the seal [m], in 5e-3..0.15.
func Lift(p unit.GaugePressure, hammer, d float64) (float64, error) {
	switch {
	case !(p >= pressureLow && p <= pressureHigh):
		return 0, fmt.Errorf("impact: closure: pressure %g Pa(g) outside %g..%g Pa(g)", float64(p), pressureLow, pressureHigh)
	case !(hammer >= 0 && hammer <= 1e8):
		return 0, fmt.Errorf("impact: closure: hammer pressure ‹%g Pa› outside ‹0..1e8 Pa›", hammer)
	case !(d >= 5e-3 && d <= 0.15):
		return 0, fmt.Errorf("impact: closure: seal diameter ‹%g m› outside ‹5e-3..0.15 m›", d)
	}
	return (float64(p) + hammer) * math.Pi / 4 * d * d, nil
}
