package capping

import (
	"fmt"
	"math"

	"costrel/physics/finish"
)

// HoldingForce estimates the axial force at which the engaged thread lets go
// of the finish [N]:
//
//	F = sigma_h pi d2 (n lead) (1 - v)
//
// sigma_h is the holding stress of the closure [Pa], n the turns still engaged
// of each start, v the share of the thread cut away by vents. The skirt
// widens and the thread bends long before the roots shear, so sigma_h is an
// effective value, a tenth of the shear strength; low confidence. Linear in
// the engaged turns.
func HoldingForce(f finish.Finish, stress, turns float64) (float64, error) {
	if err := notNegative("holding force", "stress", stress, "turns", turns); err != nil {
		return 0, err
	}
	if turns > f.Turns()*(1+1e-9) {
		return 0, fmt.Errorf("capping: holding force: %g turns above the %g of %s", turns, f.Turns(), f.Name)
	}
	return stress * math.Pi * f.MeanThread() * turns * f.Lead() * (1 - f.VentShare()), nil
}

// BridgeTorque returns the torque that breaks the bridges of the tamper band
// together [N·m]:
//
//	T = N A tau r
//
// for n bridges of the section area [m²], shear strength tau [Pa] at the
// radius r [m]. Bridges break one after another when the band has a ramp; the
// torque is then lower.
func BridgeTorque(n int, area, tau, r float64) (float64, error) {
	if n < 0 {
		return 0, fmt.Errorf("capping: bridges: number %d below 0", n)
	}
	if err := notNegative("bridges", "section", area, "shear strength", tau, "radius", r); err != nil {
		return 0, err
	}
	return float64(n) * area * tau * r, nil
}
