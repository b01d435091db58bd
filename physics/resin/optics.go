package resin

import (
	"fmt"
	"math"
)

// StressOptical is the stress-optical coefficient of rubbery PET at low
// orientation [1/Pa]. Source: StressOptical2014.
const StressOptical = 5.8e-9

// index points: wavelength [m], refractive index. Source: Zhang2020.
var indexPoints = [...][2]float64{{0.58e-6, 1.5755}, {1.5e-6, 1.543}, {2e-6, 1.54}, {3e-6, 1.53}}

// RefractiveIndex returns the refractive index of unstretched PET at a
// wavelength [m] in 0.58e-6..3e-6: 1.5755, 1.543, 1.54, 1.53 at 0.58, 1.5, 2
// and 3 µm, straight between. Source: Zhang2020.
func RefractiveIndex(wavelength float64) (float64, error) {
	last := len(indexPoints) - 1
	if !(wavelength >= indexPoints[0][0] && wavelength <= indexPoints[last][0]) {
		return 0, fmt.Errorf("resin: refractive index: wavelength ‹%g m› outside ‹%g..%g m›", wavelength, indexPoints[0][0], indexPoints[last][0])
	}
	for i := 1; i <= last; i++ {
		a, b := indexPoints[i-1], indexPoints[i]
		if wavelength <= b[0] {
			return a[1] + (b[1]-a[1])*(wavelength-a[0])/(b[0]-a[0]), nil
		}
	}
	return indexPoints[last][1], nil
}

// Reflectance returns the share of light that one face reflects at normal
// incidence, ((n-1)/(n+1))², for a refractive index n >= 1 against air.
func Reflectance(n float64) (float64, error) {
	if !(n >= 1) || math.IsInf(n, 0) {
		return 0, fmt.Errorf("resin: reflectance: refractive index %g below 1", n)
	}
	r := (n - 1) / (n + 1)
	return r * r, nil
}

// Birefringence returns the difference of refractive index that a difference
// of principal stress [Pa] leaves in rubbery PET:
//
//	dn = 5.8e-9 (sigma1 - sigma2)
//
// Holds at low orientation, up to where the curve of stress over birefringence
// turns (dn about 0.03); beyond it warns. Source: StressOptical2014.
func Birefringence(stress float64) (float64, []string, error) {
	if math.IsNaN(stress) || math.IsInf(stress, 0) {
		return 0, nil, fmt.Errorf("resin: birefringence: stress ‹%g Pa› is not finite", stress)
	}
	dn := StressOptical * stress
	var warn []string
	if math.Abs(dn) > 0.035 {
		warn = append(warn, fmt.Sprintf("birefringence %.3f above 0.035: beyond the straight part of the stress-optical curve", dn))
	}
	return dn, warn, nil
}
