package resin

import (
	"fmt"
	"math"
)

// DensityPair is a pair of end points of the density scale on which
// crystallinity is read: all glass and all crystal, at 23 °C [kg/m³].
// Two pairs are in use; the same density reads about 2 points apart on them, so
// a crystallinity means nothing without its pair.
type DensityPair struct {
	Name               string
	Amorphous, Crystal float64
	Source             string
}

// Older is the pair of the older practice, 1335 and 1455 kg/m³, with the
// crystal density of the unit cell of DaubenyBunnBrown1954.
func Older() DensityPair {
	return DensityPair{Name: "older practice 1335/1455", Amorphous: 1335, Crystal: 1455, Source: "DaubenyBunnBrown1954"}
}

// Laboratory is the pair of a PET test laboratory's density gradient column
// (ASTM D1505), 1333.1 and 1452.34 kg/m³. Source: PTIMethods.
func Laboratory() DensityPair {
	return DensityPair{Name: "gradient column 1333.1/1452.3", Amorphous: 1333.1, Crystal: 1452.34, Source: "PTIMethods"}
}

// DensityPairs returns the pairs in use, the default first.
func DensityPairs() []DensityPair { return []DensityPair{Older(), Laboratory()} }

// VolumeFraction returns the crystallinity by volume of PET of density rho
// [kg/m³]:
//
//	phi = (rho - rho_a) / (rho_c - rho_a)
//
// It is exact for a mixture of two phases of fixed density. Orientation makes
// the glassy phase denser and heat setting makes it lighter, so the number of
// a stretched or heat-set wall is an index, not a count of crystals
// (Liu2004). Refuses a density outside rho_a..rho_c.
func (p DensityPair) VolumeFraction(rho float64) (float64, error) {
	if err := p.check(rho); err != nil {
		return 0, err
	}
	return (rho - p.Amorphous) / (p.Crystal - p.Amorphous), nil
}

// MassFraction returns the crystallinity by mass, w = phi rho_c / rho.
func (p DensityPair) MassFraction(rho float64) (float64, error) {
	phi, err := p.VolumeFraction(rho)
	if err != nil {
		return 0, err
	}
	return phi * p.Crystal / rho, nil
}

// DensityAtVolume returns the density [kg/m³] of PET that is crystalline to
// the volume fraction phi in 0..1.
func (p DensityPair) DensityAtVolume(phi float64) (float64, error) {
	if !(phi >= 0 && phi <= 1) {
		return 0, fmt.Errorf("resin: density: crystallinity %g outside 0..1", phi)
	}
	return p.Amorphous + phi*(p.Crystal-p.Amorphous), nil
}

// DensityAtMass returns the density [kg/m³] of PET that is crystalline to the
// mass fraction w in 0..1: 1/rho = w/rho_c + (1-w)/rho_a.
func (p DensityPair) DensityAtMass(w float64) (float64, error) {
	if !(w >= 0 && w <= 1) {
		return 0, fmt.Errorf("resin: density: crystallinity %g outside 0..1", w)
	}
	return 1 / (w/p.Crystal + (1-w)/p.Amorphous), nil
}

func (p DensityPair) check(rho float64) error {
	if !(p.Amorphous > 0 && p.Crystal > p.Amorphous) || math.IsInf(p.Crystal, 0) {
		return fmt.Errorf("resin: crystallinity: end points %g and %g kg/m³ are no scale", p.Amorphous, p.Crystal)
	}
	if !(rho >= p.Amorphous && rho <= p.Crystal) {
		return fmt.Errorf("resin: crystallinity: density %g kg/m³ outside %g..%g kg/m³ (%s)", rho, p.Amorphous, p.Crystal, p.Name)
	}
	return nil
}
