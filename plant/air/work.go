package air

import (
	"fmt"
	"math"

	"costrel/unit"
)

// MolarMass is the molar mass of dry air [kg/mol]. Source: USStandardAtmosphere1976.
const MolarMass = 28.9644e-3

// gas is the specific gas constant of dry air [J/(kg K)].
const gas = unit.GasConstant / MolarMass

// NormalDensity returns the density of dry air at 0 °C and 101325 Pa, as an
// ideal gas [kg/Nm³].
func NormalDensity() float64 {
	return float64(unit.Atm) / (gas * float64(unit.ZeroCelsius))
}

// PerNormalVolume turns a specific work [J/kg] into work per normal volume
// [J/Nm³].
func PerNormalVolume(work float64) float64 { return work * NormalDensity() }

func checkCompression(from, to unit.AbsPressure, t unit.Temperature) error {
	switch {
	case !(from >= 50e3) || from > 1000e3:
		return fmt.Errorf("air: compression: inlet ‹%g bar(a)› outside ‹0.5..10 bar(a)›", float64(from)/bar)
	case !(to >= from) || to > 61*bar:
		return fmt.Errorf("air: compression: outlet ‹%g bar(a)› outside ‹%g..61 bar(a)›", float64(to)/bar, float64(from)/bar)
	case !(t >= 253.15) || t > 333.15:
		return fmt.Errorf("air: compression: inlet temperature ‹%g °C› outside ‹-20..60 °C›", t.Celsius())
	}
	return nil
}

// Isothermal returns the least work of compression [J/kg]: reversible, at the
// inlet temperature.
//
//	w = (R/M) T ln(p2/p1)
//
// Absolute pressures, 0.5..10 bar(a) to at most 61 bar(a); T -20..60 °C.
func Isothermal(t unit.Temperature, from, to unit.AbsPressure) (float64, error) {
	if err := checkCompression(from, to, t); err != nil {
		return 0, err
	}
	return gas * float64(t) * math.Log(float64(to)/float64(from)), nil
}

// Compressor is a piston compressor with intercooling back to the inlet
// temperature and equal pressure ratios.
type Compressor struct {
	Stages     int
	Exponent   float64          // polytropic exponent, above 1 to 1.4
	Efficiency float64          // polytropic work over electric work, 0..1
	Inlet      unit.AbsPressure // [Pa]
	Cooled     unit.Temperature // at the inlet of every stage [K]
}

// Ideal returns the polytropic work of compression to the outlet pressure
// [J/kg].
//
//	w = z n/(n-1) (R/M) T [(p2/p1)^((n-1)/(z n)) - 1]
//
// z stages, n the exponent. As z grows it falls to [Isothermal].
func (c Compressor) Ideal(to unit.AbsPressure) (float64, error) {
	if err := checkCompression(c.Inlet, to, c.Cooled); err != nil {
		return 0, err
	}
	if c.Stages < 1 || c.Stages > 1000 {
		return 0, fmt.Errorf("air: compression: %d stages outside 1..1000", c.Stages)
	}
	if !(c.Exponent > 1) || c.Exponent > 1.4 {
		return 0, fmt.Errorf("air: compression: exponent %g outside 1..1.4 (1 is isothermal)", c.Exponent)
	}
	z, k := float64(c.Stages), (c.Exponent-1)/c.Exponent
	r := float64(to) / float64(c.Inlet)
	return z / k * gas * float64(c.Cooled) * math.Expm1(k/z*math.Log(r)), nil
}

// Electric returns the work at the motor's terminals [J/kg]: [Compressor.Ideal]
// over the efficiency.
func (c Compressor) Electric(to unit.AbsPressure) (float64, error) {
	w, err := c.Ideal(to)
	if err != nil {
		return 0, err
	}
	if !(c.Efficiency > 0) || c.Efficiency > 1 {
		return 0, fmt.Errorf("air: compression: efficiency %g outside 0..1", c.Efficiency)
	}
	return w / c.Efficiency, nil
}
