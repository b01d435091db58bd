package drink

import (
	"math"

	"costrel/num/root"
	"costrel/unit"
)

// PK1 returns -log10 of the first dissociation constant of carbonic acid
// [mol/kg], dissolved CO2 and H2CO3 taken together. Data 0..90 °C.
// Source: PlummerBusenberg1982.
func PK1(t unit.Temperature) float64 {
	T := float64(t)
	return -(-356.3094 - 0.06091964*T + 21834.37/T + 126.8339*math.Log10(T) - 1684915/(T*T))
}

// CarbonicPH returns the pH of pure water that holds m moles of carbon dioxide
// per kilogram and nothing else.
//
//	h² gamma² = K1 (m - h), pH = -log10(gamma h), log10 gamma = -0.51 (√h/(1+√h) - 0.3 h)
//
// 3.55 at 4 volumes and 25 °C. A real drink is acidified and buffered to 2.4 to
// 3.4, where this does not apply. m = 1e-4..1 mol/kg: below, the water's own
// ions count. Errors: m or t outside its range.
func CarbonicPH(m float64, t unit.Temperature) (float64, error) {
	if err := checkT("pH: temperature", t); err != nil {
		return 0, err
	}
	if err := within("pH: carbon dioxide", m, 1e-4, 1, "mol/kg"); err != nil {
		return 0, err
	}
	k1 := math.Pow(10, -PK1(t))
	h, err := root.Brent(func(h float64) float64 {
		g := activity(h)
		return h*h*g*g - k1*(m-h)
	}, 0, m, 1e-15)
	if err != nil {
		return 0, err
	}
	return -math.Log10(activity(h) * h), nil
}

// activity is the coefficient of a single-charged ion at the ionic strength h
// by the Davies rule, from memory.
func activity(h float64) float64 {
	s := math.Sqrt(h)
	return math.Pow(10, -0.51*(s/(1+s)-0.3*h))
}
