package permeation

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Zone is a part of the wall with one thickness and one material.
type Zone struct {
	Name         string
	Area         float64 // [m²]
	Thickness    float64 // [m]
	Permeability float64 // at the temperature asked [mol·m/(m²·s·Pa)]; of water [kg·m/(m²·s·Pa)]
}

// Conductance returns the flow through all zones per pascal of difference in
// partial pressure: mol/(s·Pa) for a gas, kg/(s·Pa) for water, as the
// permeability is.
//
//	K = sum of P A / L
//
// Zones stand side by side; the wall counts as flat, which overstates nothing
// for L/R below 1/20. Area 0..10 m², thickness 1 µm..50 mm, permeability not
// negative; no zone gives 0. The conductance of a closure adds to it.
func Conductance(zones []Zone) (float64, error) {
	var k float64
	for i, z := range zones {
		where := fmt.Sprintf("permeation: zone %d (%s)", i+1, z.Name)
		switch {
		case !(z.Area >= 0) || z.Area > 10:
			return 0, fmt.Errorf("%s: area ‹%g cm²› outside ‹0..100000 cm²›", where, z.Area*1e4)
		case !(z.Thickness >= 1e-6) || z.Thickness > 0.05:
			return 0, fmt.Errorf("%s: thickness ‹%g mm› outside ‹0.001..50 mm›", where, z.Thickness*1e3)
		case !(z.Permeability >= 0) || math.IsInf(z.Permeability, 0):
			return 0, fmt.Errorf("%s: permeability %g, want 0 or more", where, z.Permeability)
		}
		k += z.Permeability * z.Area / z.Thickness
	}
	return k, nil
}

// Arrhenius is a property that follows one activation energy.
type Arrhenius struct {
	Value     float64          // at Reference, in the SI unit of the property
	Energy    float64          // [J/mol]; negative where the property falls with temperature
	Reference unit.Temperature // [K]
}

// At returns the property at T.
//
//	P = P_ref exp(-E/R (1/T - 1/T_ref))
//
// For 0..60 °C, below the glass transition; [CheckTemperature] is the guard.
func (a Arrhenius) At(t unit.Temperature) float64 {
	return a.Value * math.Exp(-a.Energy/unit.GasConstant*(1/float64(t)-1/float64(a.Reference)))
}

// The temperatures between which the wall data answer [K]; the data were
// gathered at 5 to 55 °C.
const (
	LowT  unit.Temperature = 263.15 // -10 °C
	HighT unit.Temperature = 343.15 // 70 °C, below the glass transition
)

// CheckTemperature returns an error unless t lies in LowT..HighT.
func CheckTemperature(t unit.Temperature) error {
	if !(t >= LowT && t <= HighT) {
		return fmt.Errorf("permeation: temperature ‹%.6g °C› outside ‹%.6g..%.6g °C›, the glassy wall", t.Celsius(), LowT.Celsius(), HighT.Celsius())
	}
	return nil
}
