package capping

import (
	"fmt"
	"math"

	"costrel/physics/finish"
	"costrel/unit"
)

// Stack is a stack of pallets of filled packs that stand on each other's
// closures.
type Stack struct {
	PackMass   float64 // kg of one filled pack with its share of film and pad
	Layers     int     // layers on a pallet
	Pallets    int     // pallets on top of each other
	PalletMass float64 // kg of an empty pallet with its boards
	PerLayer   int     // packs in a layer
	Factor     float64 // for creep and uneven sharing, 1.5 to 3; 1 = the bare load
}

// Load returns the load on the closure of the lowest pack [N]:
//
//	F = S g [m (n - 1 + n (k - 1)) + m_p (k - 1)/N]
//
// with n layers a pallet and k pallets. It holds where packs stand on closures
// and the load is shared evenly. Source: Brandau201304.
func (s Stack) Load() (float64, error) {
	if s.Layers < 1 || s.Pallets < 1 || s.PerLayer < 1 || s.Layers > 100 || s.Pallets > 20 {
		return 0, fmt.Errorf("capping: stack: %d layers, %d pallets, %d packs a layer: want at least one of each, at most 100 layers and 20 pallets", s.Layers, s.Pallets, s.PerLayer)
	}
	if err := notNegative("stack", "pack mass", s.PackMass, "pallet mass", s.PalletMass); err != nil {
		return 0, err
	}
	if !(s.Factor >= 1 && s.Factor <= 10) {
		return 0, fmt.Errorf("capping: stack: factor %g outside 1..10", s.Factor)
	}
	n, k := float64(s.Layers), float64(s.Pallets)
	m := s.PackMass*(n-1+n*(k-1)) + s.PalletMass*(k-1)/float64(s.PerLayer)
	return s.Factor * unit.Gravity * m, nil
}

// topTest is the weight of the top-load test of closures, 45.5 kg for 5 days
// after 24 h at 42 °C. Source: Brandau201610.
const topTest = 45.5 * unit.Gravity

// LandPressure returns the mean pressure between closure and seal land [Pa]
// under the force on the seal [N], and warns where the top weight [N] is above
// the usual test of 446 N. An oval or nicked land concentrates the pressure.
func LandPressure(f finish.Finish, seal, top float64) (float64, []string, error) {
	if err := notNegative("land", "seal force", seal, "top weight", top); err != nil {
		return 0, nil, err
	}
	a := f.LandArea()
	if !(a > 0) || math.IsInf(a, 0) {
		return 0, nil, fmt.Errorf("capping: land: %s has no land between bore and lip", f.Name)
	}
	var warn []string
	if top > topTest {
		warn = append(warn, fmt.Sprintf("top weight ‹%.0f N› above the ‹%.0f N› of the usual closure test", top, topTest))
	}
	return seal / a, warn, nil
}
