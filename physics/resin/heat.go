package resin

import (
	"fmt"

	"costrel/unit"
)

// Heat capacity of amorphous PET without crystallisation.
// Melt and rubber: Cp = 253.8 + 0.2556 T J/(mol K) over 192.17 g/mol of repeat
// unit; glass: straight line through 1170 J/(kg K) at 300.15 K. Both after the
// data bank ATHAS, from memory; the step at 342 K comes out as 0.46 J/(g K)
// where the bank gives 0.405.
const (
	repeatUnit  = 0.19217 // kg/mol
	heatLow     = 250.0   // K
	heatHigh    = 600.0   // K
	heatTg      = 342.0   // K, equilibrium calorimetry
	glassRef    = 300.15  // K
	glassCp     = 1170.0  // J/(kg K) at glassRef
	glassSlope  = 3.5     // J/(kg K²)
	rubberCp0   = 253.8 / repeatUnit
	rubberSlope = 0.2556 / repeatUnit
	coldCrystal = 393.15 // K: slow heating crystallises above about 120 °C
)

// HeatCapacity returns the heat capacity [J/(kg K)] of amorphous PET:
//
//	glass   cp = 1170 + 3.5 (T - 300.15)    below 342 K
//	rubber  cp = 1320.7 + 1.330 T           above
//
// in 250..600 K. It leaves out the heat of crystallising and melting.
// Source: ATHAS, from memory.
func HeatCapacity(t unit.Temperature) (float64, error) {
	if err := heatRange(t); err != nil {
		return 0, err
	}
	T := float64(t)
	if T < heatTg {
		return glassCp + glassSlope*(T-glassRef), nil
	}
	return rubberCp0 + rubberSlope*T, nil
}

// Enthalpy returns the heat [J/kg] that takes amorphous PET from one
// temperature to another without crystallising: the exact integral of
// [HeatCapacity]. 20 to 105 °C takes 125 kJ/kg. It warns when the path passes
// 120 °C, where a slow heating crystallises the resin and gives up to
// 30 kJ/kg back, and refuses outside 250..600 K. Source: ATHAS, from memory.
func Enthalpy(from, to unit.Temperature) (float64, []string, error) {
	for _, t := range []unit.Temperature{from, to} {
		if err := heatRange(t); err != nil {
			return 0, nil, err
		}
	}
	var warn []string
	if hot := max(from, to); float64(hot) > coldCrystal {
		warn = append(warn, fmt.Sprintf("heat to ‹%.0f °C› counts no crystallisation or melting, which begin above ‹%.0f °C›", hot.Celsius(), coldCrystal-273.15))
	}
	return heatAbove(float64(to)) - heatAbove(float64(from)), warn, nil
}

// heatAbove is the integral of the heat capacity from heatTg to T.
func heatAbove(T float64) float64 {
	if T < heatTg {
		mid := (T+heatTg)/2 - glassRef
		return (T - heatTg) * (glassCp + glassSlope*mid)
	}
	return (T - heatTg) * (rubberCp0 + rubberSlope*(T+heatTg)/2)
}

func heatRange(t unit.Temperature) error {
	if !(t >= heatLow && t <= heatHigh) {
		return fmt.Errorf("resin: heat capacity: temperature %g K outside %g..%g K", float64(t), heatLow, heatHigh)
	}
	return nil
}
