package drink

import (
	"fmt"

	"costrel/num/root"
	"costrel/unit"
)

// MaxSugar is the highest sugar mass fraction for which densities are given:
// beyond a saturated syrup at room temperature (0.67).
const MaxSugar = 0.75

// bookT is the temperature to which contents per litre are stated.
const bookT unit.Temperature = 293.15

// SucroseDensity returns the density of a sucrose solution [kg/m³] at 1 atm,
// with w the mass fraction of sucrose, 0..MaxSugar.
//
//	rho = rho_w(t) + Σ_k x^k Σ_j c_kj w^j,  x = (t - 20 °C)/100 °C
//
// The fit covers 0..80 °C and w to 0.75 (range from memory); up to 100 °C it is
// an extrapolation that stays exact at w = 0. The small table of water inside
// follows the temperature scale of 1990 and lies within 0.004 kg/m³ of
// WaterDensity. Source: ICUMSASPS4.
func SucroseDensity(t unit.Temperature, w float64) float64 {
	c := t.Celsius()
	water := (999.83952 + c*(16.952577+c*(-7.9905127e-3+c*(-46.241757e-6+c*(105.84601e-9-281.03006e-12*c))))) /
		(1 + 16.887236e-3*c)
	x := (c - 20) / 100
	p0 := w * (385.1761 + w*(135.3705+w*(40.9299+w*(-3.9643+w*(13.4853-17.2890*w)))))
	p1 := w * (-46.2720 + w*(-7.1720+w*(1.1597+w*(5.1126+17.5254*w))))
	p2 := w * (59.7712 + w*(7.2491+w*(12.3630-35.4791*w)))
	p3 := w * (-47.2207 + w*(-21.6977+27.6301*w))
	p4 := w * (18.3184 + 12.3081*w)
	return water + p0 + x*(p1+x*(p2+x*(p3+x*p4)))
}

// SugarConcentration returns the sucrose per volume of solution at 20 °C
// [kg/m³ = g/L] of the mass fraction w (degrees Brix/100).
func SugarConcentration(w float64) float64 { return w * SucroseDensity(bookT, w) }

// SugarFraction returns the mass fraction w (degrees Brix/100) of a solution
// with c kilograms of sucrose per cubic metre at 20 °C, the inverse of
// SugarConcentration. Error: c outside 0..SugarConcentration(MaxSugar).
func SugarFraction(c float64) (float64, error) {
	if err := within("sugar", c, 0, SugarConcentration(MaxSugar), "kg/m³"); err != nil {
		return 0, err
	}
	if c == 0 {
		return 0, nil
	}
	w, err := root.Newton(func(w float64) (float64, float64) {
		// The slope of w rho(w); that of rho is near 385 + 271 w, which is
		// good enough for Newton's rule.
		rho := SucroseDensity(bookT, w)
		return w*rho - c, rho + w*(385+271*w)
	}, 0, MaxSugar, 1e-14)
	if err != nil {
		return 0, fmt.Errorf("drink: sugar: %g kg/m³: %w", c, err)
	}
	return w, nil
}
