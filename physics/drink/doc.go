// Package drink holds the filled liquid: how much carbon dioxide, oxygen and
// nitrogen it takes up, what it weighs, what vapour stands over it, and so the
// pressure in a pack at any temperature.
//
// [Drink] is the description a designer writes. [Drink.Liquid] checks it once
// and returns a [Liquid], whose methods are cheap:
//
//	Open         pressure over a liquid held at its carbonation (the chart)
//	Pack         a closed bottle: fill, brimful, air, wall growth
//	Equilibrium  pressure of given amounts of gas in a given bottle
//
// The solubility laws of carbon dioxide stand in one catalogue, [Laws].
//
// The correlations (WaterDensity, SucroseDensity, VapourPressure, HenryCO2,
// HenryOxygen, HenryNitrogen, SecondVirialCO2 ...) are plain functions without
// allocation or checks, for solvers that call them many times. They are
// defined for finite temperatures between [LowT] and [HighT] and give finite
// numbers there; [CheckTemperature] is the guard to call once before.
package drink

import (
	"fmt"
	"math"

	"costrel/unit"
)

// The temperatures between which this package answers [K]: liquid drinks from
// a little under 0 °C (a sugared drink freezes below) to 100 °C.
const (
	LowT  unit.Temperature = 268.15
	HighT unit.Temperature = 373.15
)

// CheckTemperature returns an error unless t lies in LowT..HighT.
func CheckTemperature(t unit.Temperature) error { return checkT("temperature", t) }

func checkT(item string, t unit.Temperature) error {
	if !(t >= LowT && t <= HighT) {
		return fmt.Errorf("drink: %s: %.6g K outside %g..%g K", item, float64(t), float64(LowT), float64(HighT))
	}
	return nil
}

// within refuses x outside low..high, NaN included.
func within(item string, x, low, high float64, symbol string) error {
	if !(x >= low && x <= high) {
		return fmt.Errorf("drink: %s: ‹%.6g %s› outside ‹%g..%g %s›", item, x, symbol, low, high, symbol)
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
