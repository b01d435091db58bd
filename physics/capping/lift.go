package capping

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Limits of the inputs.
const (
	pressureLow  unit.GaugePressure = -101325
	pressureHigh unit.GaugePressure = 5e6
	diameterLow                     = 5e-3   // m
	diameterHigh                    = 150e-3 // m
)

// Lift returns the force with which the gas lifts a closure [N]:
//
//	F = p pi d²/4
//
// p is the gauge pressure in the pack (negative under vacuum, when the force
// holds the closure down), d the diameter the gas presses on [m], in
// 5e-3..150e-3. Take the outer diameter of the seal to be safe.
func Lift(p unit.GaugePressure, d float64) (float64, error) {
	if !(p >= pressureLow && p <= pressureHigh) {
		return 0, fmt.Errorf("capping: lift: pressure %g Pa(g) outside %g..%g Pa(g)", float64(p), float64(pressureLow), float64(pressureHigh))
	}
	a, err := sealArea(d)
	if err != nil {
		return 0, err
	}
	return float64(p) * a, nil
}

func sealArea(d float64) (float64, error) {
	if !(d >= diameterLow && d <= diameterHigh) {
		return 0, fmt.Errorf("capping: lift: diameter ‹%g m› outside ‹%g..%g m›", d, diameterLow, diameterHigh)
	}
	return math.Pi / 4 * d * d, nil
}
