package resin

import (
	"fmt"
	"math"
)

// Viscosity laws, phenol/tetrachloroethane; IV in dL/g, M in g/mol.
// Number average: PolymerHandbook1999 type, from memory, medium confidence.
// Weight average: Berkowitz1984 type, from memory, medium confidence.
const (
	mnK, mnA = 2.1e-4, 0.82
	mwK, mwA = 7.44e-4, 0.648

	ivLow, ivHigh = 0.03, 0.15 // m³/kg: 0.3 to 1.5 dL/g
	waterMolar    = 18.015e-3  // kg/mol
)

// NumberMass returns the number-average molar mass [kg/mol] of PET of the
// intrinsic viscosity iv [m³/kg] (0.80 dL/g = 0.080 m³/kg):
//
//	IV = 2.1e-4 Mn^0.82    (dL/g, g/mol)
//
// for 0.3..1.5 dL/g. The law belongs to phenol/tetrachloroethane; other
// solvents read differently. Source: PolymerHandbook1999, from memory.
func NumberMass(iv float64) (float64, error) {
	if err := ivRange("number-average molar mass", iv); err != nil {
		return 0, err
	}
	return math.Pow(iv*10/mnK, 1/mnA) / 1000, nil
}

// ViscosityFromNumber returns the intrinsic viscosity [m³/kg] of PET of the
// number-average molar mass mn [kg/mol]; the inverse of [NumberMass].
func ViscosityFromNumber(mn float64) (float64, error) {
	return viscosity("number-average", mn, mnK, mnA)
}

// WeightMass returns the weight-average molar mass [kg/mol] of PET of the
// intrinsic viscosity iv [m³/kg]:
//
//	IV = 7.44e-4 Mw^0.648    (dL/g, g/mol)
//
// for 0.3..1.5 dL/g. Source: Berkowitz1984, coefficients from memory.
func WeightMass(iv float64) (float64, error) {
	if err := ivRange("weight-average molar mass", iv); err != nil {
		return 0, err
	}
	return math.Pow(iv*10/mwK, 1/mwA) / 1000, nil
}

// ViscosityFromWeight returns the intrinsic viscosity [m³/kg] of PET of the
// weight-average molar mass mw [kg/mol]; the inverse of [WeightMass].
func ViscosityFromWeight(mw float64) (float64, error) {
	return viscosity("weight-average", mw, mwK, mwA)
}

// Billmeyer returns the intrinsic viscosity [m³/kg] from one measured relative
// viscosity at the concentration c [kg/m³] (0.5 g/dL = 5 kg/m³):
//
//	IV = 0.25 (eta_r - 1 + 3 ln eta_r) / c
//
// for eta_r in 1..3. Source: Billmeyer1949; the test is ASTMD4603.
func Billmeyer(etaRel, c float64) (float64, error) {
	if !(etaRel >= 1 && etaRel <= 3) {
		return 0, fmt.Errorf("resin: intrinsic viscosity: relative viscosity %g outside 1..3", etaRel)
	}
	if !(c > 0 && c <= 20) {
		return 0, fmt.Errorf("resin: intrinsic viscosity: concentration %g kg/m³ outside 0..20 kg/m³", c)
	}
	return 0.25 * (etaRel - 1 + 3*math.Log(etaRel)) / c, nil
}

// Hydrolysis returns the intrinsic viscosity [m³/kg] that is left after the
// melt has used up the water mass fraction w (50 ppm = 50e-6): every water
// molecule cuts one chain,
//
//	1/Mn = 1/Mn0 + w/M_water
//
// with the number-average law of [NumberMass]. It is the largest drop that the
// water can cause; heat and oxygen add to it, and a vented or short melt uses
// less. For w in 0..500 ppm. The stoichiometry is exact; the law is from
// memory.
func Hydrolysis(iv, w float64) (float64, error) {
	if !(w >= 0 && w <= 500e-6) {
		return 0, fmt.Errorf("resin: hydrolysis: water %g ppm outside 0..500 ppm", w*1e6)
	}
	mn, err := NumberMass(iv)
	if err != nil {
		return 0, err
	}
	return ViscosityFromNumber(1 / (1/mn + w/waterMolar))
}

// Part is a share of a blend of resins.
type Part struct {
	Share float64 // mass fraction
	IV    float64 // m³/kg
}

// BlendViscosity returns the intrinsic viscosity [m³/kg] of a blend before
// the melt evens out the chain lengths: the mass average,
//
//	IV = sum w_i IV_i
//
// which is exact because intrinsic viscosity is the limit of no interaction
// between chains. Exchange reactions in the melt then move it a little; the
// shares must sum to 1.
func BlendViscosity(parts []Part) (float64, error) {
	var sum, iv float64
	for _, p := range parts {
		if !(p.Share >= 0 && p.Share <= 1) {
			return 0, fmt.Errorf("resin: blend: share %g outside 0..1", p.Share)
		}
		if err := ivRange("blend", p.IV); err != nil {
			return 0, err
		}
		sum += p.Share
		iv += p.Share * p.IV
	}
	if math.Abs(sum-1) > 1e-9 {
		return 0, fmt.Errorf("resin: blend: shares sum to %g, not 1", sum)
	}
	return iv, nil
}

func viscosity(op string, m, k, a float64) (float64, error) {
	if !(m > 0) || math.IsInf(m, 0) {
		return 0, fmt.Errorf("resin: intrinsic viscosity: %s molar mass %g kg/mol not above 0", op, m)
	}
	iv := k * math.Pow(m*1000, a) / 10
	if err := ivRange("intrinsic viscosity", iv); err != nil {
		return 0, err
	}
	return iv, nil
}

func ivRange(op string, iv float64) error {
	if !(iv >= ivLow && iv <= ivHigh) {
		return fmt.Errorf("resin: %s: intrinsic viscosity %.3g dL/g outside %g..%g dL/g", op, iv*10, ivLow*10, ivHigh*10)
	}
	return nil
}
