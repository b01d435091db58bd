package climate

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Pressure returns the ambient pressure of the standard atmosphere [Pa].
//
//	p = p0 (1 - L h/T0)^(g M/(R L))
//
// p0 101325 Pa, T0 288.15 K, L 6.5 K/km, exponent 5.25588. h is the
// geopotential altitude [m], within 0.1 % of the geometric one below 6 km;
// -500..11000 m. Weather moves the true pressure by a few percent.
// Source: USStandardAtmosphere1976.
func Pressure(h float64) (unit.AbsPressure, error) {
	if !(h >= LowH) || h > HighH {
		return 0, fmt.Errorf("climate: atmosphere: altitude ‹%g m› outside ‹%g..%g m›", h, LowH, HighH)
	}
	const (
		t0   = 288.15
		rate = 6.5e-3     // K/m
		r    = 8.31432    // J/(mol K), the value of that standard
		mass = 28.9644e-3 // kg/mol
	)
	x := unit.Gravity * mass / (r * rate)
	return unit.AbsPressure(float64(unit.Atm) * math.Pow(1-rate*h/t0, x)), nil
}

// AltitudeGauge returns the gauge pressure [Pa] that a rigid pack shows at the
// second altitude when it was closed at ambient pressure and the same
// temperature at the first: negative where it was filled high and sold low.
// A pack that gives way shows less.
//
//	p(fill) - p(sale)
func AltitudeGauge(fill, sale float64) (unit.GaugePressure, error) {
	a, err := Pressure(fill)
	if err != nil {
		return 0, err
	}
	b, err := Pressure(sale)
	if err != nil {
		return 0, err
	}
	return a.Gauge(b), nil
}
