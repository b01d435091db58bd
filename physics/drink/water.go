package drink

import (
	"math"

	"costrel/unit"
)

// Critical point of water: temperature [K], pressure [Pa].
const (
	waterTc = 647.096
	waterPc = 22.064e6
)

// WaterDensity returns the density of air-free water [kg/m³] at 1 atm.
//
// Holds for 0..150 °C (above 100 °C as liquid under pressure); within
// 0.012 kg/m³ of IAPWS95 over 0..95 °C. Source: Kell1975.
func WaterDensity(t unit.Temperature) float64 {
	c := t.Celsius()
	return (999.83952 + c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+c*(105.56302e-9-280.54253e-12*c))))) /
		(1 + 16.879850e-3*c)
}

// VapourPressure returns the saturation pressure of water [Pa].
//
//	ln(p/pc) = (Tc/T)(a1 τ + a2 τ^1.5 + a3 τ³ + a4 τ^3.5 + a5 τ⁴ + a6 τ^7.5), τ = 1 - T/Tc
//
// Holds for 273.16..647 K; below it is the vapour pressure of supercooled
// water. Source: WagnerPruss1993.
func VapourPressure(t unit.Temperature) unit.AbsPressure {
	T := float64(t)
	x := 1 - T/waterTc
	s := math.Sqrt(x)
	x3 := x * x * x
	return unit.AbsPressure(waterPc * math.Exp(waterTc/T*(-7.85951783*x+1.84408259*x*s-11.7866497*x3+
		22.6807411*x3*s-15.9618719*x3*x+1.80122502*x3*x3*x*s)))
}

// WaterActivity returns the ratio of the vapour pressure over a drink with the
// mass fraction w of sugar to that over water.
//
//	a = 1 - 0.08 w        (0.0008 for each degree Brix)
//
// Chosen for this project as a rounded straight line for w up to about 0.2;
// it follows neither acid nor salt. Source: CommonPractice.
func WaterActivity(w float64) float64 { return 1 - 0.08*w }

// WaterViscosity returns the dynamic viscosity of water [Pa s] at 1 atm.
//
//	η = 280.68 x^-1.9 + 511.45 x^-7.7 + 61.131 x^-19.6 + 0.45903 x^-40 [µPa s], x = T/300 K
//
// Holds for 253..383 K. Coefficients from memory, checked against values of
// the reference equation. Source: Patek2009.
func WaterViscosity(t unit.Temperature) float64 {
	l := -math.Log(float64(t) / 300)
	return 1e-6 * (280.68*math.Exp(1.9*l) + 511.45*math.Exp(7.7*l) + 61.131*math.Exp(19.6*l) + 0.45903*math.Exp(40*l))
}

// Contraction returns the fraction by which a liquid of the sugar mass
// fraction w shrinks between two temperatures, of the volume at from.
//
//	1 - rho(from)/rho(to)
//
// 0.0296 for water from 85 to 20 °C.
func Contraction(w float64, from, to unit.Temperature) float64 {
	return 1 - SucroseDensity(from, w)/SucroseDensity(to, w)
}
