package resin

import "math"

// HeatContent returns the heat [J/kg] of amorphous PET at T [K] over that at
// 342 K, the integral behind [Enthalpy] without its checks: for inner loops
// that stay within 250..600 K.
func HeatContent(T float64) float64 { return heatAbove(T) }

// TemperatureOf returns the temperature [K] at which amorphous PET has the
// heat content h [J/kg]: the inverse of [HeatContent].
func TemperatureOf(h float64) float64 {
	a, b := rubberCp0+rubberSlope*heatTg, rubberSlope
	if h < 0 {
		a, b = glassCp+glassSlope*(heatTg-glassRef), glassSlope
	}
	// h = a x + b x²/2 for x = T - Tg, in a form that is exact near zero
	root := a*a + 2*b*h
	if root < 0 {
		root = 0
	}
	return heatTg + 2*h/(a+math.Sqrt(root))
}

// HeatSlope returns the heat capacity [J/(kg K)] at T [K] without checks.
func HeatSlope(T float64) float64 {
	if T < heatTg {
		return glassCp + glassSlope*(T-glassRef)
	}
	return rubberCp0 + rubberSlope*T
}
