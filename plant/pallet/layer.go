package pallet

import (
	"fmt"
	"math"
)

// Layer returns how many round packs of the given diameter stand on a
// rectangular deck [m], in rows and columns (square) and in staggered rows
// (the better of the two directions). Neither counts overhang.
//
//	square     floor(L/d) floor(W/d)
//	staggered  rows 1 + floor((W-d) / (d sqrt(3)/2)); floor(L/d) and
//	           floor(L/d - 1/2) packs in turn
//
// Deck 0.1..3 m, diameter 10 mm to the shorter side.
func Layer(length, width, diameter float64) (square, staggered int, err error) {
	for _, d := range []float64{length, width} {
		if !(d >= 0.1) || d > 3 {
			return 0, 0, fmt.Errorf("pallet: layer: deck side ‹%g mm› outside ‹100..3000 mm›", d*1e3)
		}
	}
	if !(diameter >= 0.01) || diameter > min(length, width) {
		return 0, 0, fmt.Errorf("pallet: layer: diameter ‹%g mm› outside ‹10..%g mm›", diameter*1e3, min(length, width)*1e3)
	}
	square = fit(length/diameter) * fit(width/diameter)
	return square, max(stagger(length, width, diameter), stagger(width, length, diameter)), nil
}

// fit is floor with room for rounding: 12.0000 diameters hold 12.
func fit(x float64) int { return int(math.Floor(x + 1e-9)) }

// stagger counts staggered rows along the first side.
func stagger(along, across, d float64) int {
	rows := 1 + fit((across-d)/(d*math.Sqrt(3)/2))
	full, short := fit(along/d), fit(along/d-0.5)
	return (rows+1)/2*full + rows/2*short
}

// Use returns the share of the deck that the footprints of n round packs
// cover, 0..0.907 without overhang.
func Use(n int, length, width, diameter float64) float64 {
	return float64(n) * math.Pi / 4 * diameter * diameter / (length * width)
}
