package pallet

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Drop returns the energy [J] and the impact speed [m/s] of a body that falls
// freely, without air resistance.
//
//	E = m g h,  v = sqrt(2 g h)
//
// mass 0..2000 kg, height 0..20 m.
func Drop(mass, height float64) (energy, speed float64, err error) {
	if !(mass > 0) || mass > 2000 {
		return 0, 0, fmt.Errorf("pallet: drop: mass %g kg outside 0..2000 kg", mass)
	}
	if !(height >= 0) || height > 20 {
		return 0, 0, fmt.Errorf("pallet: drop: height ‹%g m› outside ‹0..20 m›", height)
	}
	return mass * unit.Gravity * height, math.Sqrt(2 * unit.Gravity * height), nil
}
