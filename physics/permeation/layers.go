package permeation

import (
	"fmt"
	"math"
)

// Layer is one layer of a wall.
type Layer struct {
	Thickness    float64 // [m]
	Permeability float64 // [mol·m/(m²·s·Pa)], more than 0
}

// Permeance returns what passes layers in series [mol/(m²·s·Pa)].
//
//	1/Pi = sum of L_i/P_i + 1/Pi_coat
//
// coat is the permeance of a thin coating [mol/(m²·s·Pa)]; +Inf is none.
func Permeance(layers []Layer, coat float64) (float64, error) {
	if len(layers) == 0 {
		return 0, fmt.Errorf("permeation: layers: none given")
	}
	if !(coat > 0) {
		return 0, fmt.Errorf("permeation: layers: permeance %g of the coating, want more than 0", coat)
	}
	resistance := 1 / coat
	for i, l := range layers {
		if !(l.Thickness > 0) || l.Thickness > 0.05 {
			return 0, fmt.Errorf("permeation: layer %d: thickness ‹%g mm› outside ‹0..50 mm›", i+1, l.Thickness*1e3)
		}
		if !(l.Permeability > 0) || math.IsInf(l.Permeability, 0) {
			return 0, fmt.Errorf("permeation: layer %d: permeability %g, want more than 0", i+1, l.Permeability)
		}
		resistance += l.Thickness / l.Permeability
	}
	return 1 / resistance, nil
}

// Equivalent returns the permeability [mol·m/(m²·s·Pa)] of one layer as thick
// as all of them that passes as much: for a [Zone].
func Equivalent(layers []Layer, coat float64) (float64, error) {
	p, err := Permeance(layers, coat)
	if err != nil {
		return 0, err
	}
	var l float64
	for _, x := range layers {
		l += x.Thickness
	}
	return p * l, nil
}

// CoatingFor returns the permeance that a coating must have [mol/(m²·s·Pa)] so
// that the coated wall passes improvement times less.
//
//	Pi_coat = (P/L)/(BIF - 1)
//
// permeability and thickness are those of the bare wall; improvement above 1.
// Closure, finish and gate stay bare: the bottle gains less than the wall.
func CoatingFor(permeability, thickness, improvement float64) (float64, error) {
	if _, err := Permeance([]Layer{{thickness, permeability}}, math.Inf(1)); err != nil {
		return 0, err
	}
	if !(improvement > 1) || improvement > 1e6 {
		return 0, fmt.Errorf("permeation: coating: improvement factor %g outside 1..1e6", improvement)
	}
	return permeability / thickness / (improvement - 1), nil
}

// Nielsen returns the factor by which impermeable platelets of volume fraction
// phi and aspect ratio alpha slow permeation, P/P0.
//
//	(1 - phi)/(1 + alpha phi/2)
//
// Crystals of PET alpha 3 to 4; platelets of an aromatic polyamide in a blown
// wall about 27. phi 0..0.7, alpha 1..1000. Source: Nielsen1967; that it holds
// for crystallised PET, Sekelik1999.
func Nielsen(phi, alpha float64) (float64, error) {
	if !(phi >= 0) || phi > 0.7 {
		return 0, fmt.Errorf("permeation: Nielsen: volume fraction %g outside 0..0.7", phi)
	}
	if !(alpha >= 1) || alpha > 1000 {
		return 0, fmt.Errorf("permeation: Nielsen: aspect ratio %g outside 1..1000", alpha)
	}
	return (1 - phi) / (1 + alpha*phi/2), nil
}

// VolumeFraction turns the mass fraction w of a filler into its volume
// fraction, from the densities of filler and matrix [kg/m³].
func VolumeFraction(w, filler, matrix float64) (float64, error) {
	if !(w >= 0) || w > 1 {
		return 0, fmt.Errorf("permeation: blend: mass fraction %g outside 0..1", w)
	}
	for _, d := range []float64{filler, matrix} {
		if !(d >= 100) || d > 20000 {
			return 0, fmt.Errorf("permeation: blend: density %g kg/m³ outside 100..20000 kg/m³", d)
		}
	}
	v := w / filler
	return v / (v + (1-w)/matrix), nil
}
