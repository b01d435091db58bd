package pallet

import (
	"fmt"

	"costrel/unit"
)

// Stack is a stack of loaded pallets.
type Stack struct {
	Pack     float64 // mass of one filled pack [kg]
	PerLayer int     // packs in a layer
	Layers   int     // layers on a pallet
	Pallets  int     // pallets on top of each other
	Pallet   float64 // mass of one empty pallet with its layer pads [kg]
	Safety   float64 // factor on the load for creep, dynamics, uneven share; 1.5 to 3 in practice
}

// Load is what the lowest pack of a stack bears.
type Load struct {
	PacksAbove int     // packs standing over it
	Force      float64 // [N]
	Required   float64 // force times safety factor [N]
}

// Bottom returns the load on one pack of the lowest layer.
//
//	F = g [m (L P - 1) + m_p (P - 1) / N]
//
// m pack, L layers a pallet, P pallets, m_p pallet, N packs a layer: every
// pack carries its share. Compare it with the top load of the filled, capped
// pack, not of the empty bottle. Counts 1..1000, pack 0..50 kg, pallet
// 0..200 kg, safety factor 1..10.
// Source: Brandau201304.
func (s Stack) Bottom() (Load, error) {
	switch {
	case !(s.Pack > 0) || s.Pack > 50:
		return Load{}, fmt.Errorf("pallet: stack: pack %g kg outside 0..50 kg", s.Pack)
	case s.PerLayer < 1 || s.PerLayer > 1000:
		return Load{}, fmt.Errorf("pallet: stack: %d packs a layer outside 1..1000", s.PerLayer)
	case s.Layers < 1 || s.Layers > 1000:
		return Load{}, fmt.Errorf("pallet: stack: %d layers outside 1..1000", s.Layers)
	case s.Pallets < 1 || s.Pallets > 1000:
		return Load{}, fmt.Errorf("pallet: stack: %d pallets outside 1..1000", s.Pallets)
	case !(s.Pallet >= 0) || s.Pallet > 200:
		return Load{}, fmt.Errorf("pallet: stack: pallet %g kg outside 0..200 kg", s.Pallet)
	case !(s.Safety >= 1) || s.Safety > 10:
		return Load{}, fmt.Errorf("pallet: stack: safety factor %g outside 1..10", s.Safety)
	}
	above := s.Layers*s.Pallets - 1
	mass := s.Pack*float64(above) + s.Pallet*float64(s.Pallets-1)/float64(s.PerLayer)
	f := mass * unit.Gravity
	return Load{PacksAbove: above, Force: f, Required: f * s.Safety}, nil
}
