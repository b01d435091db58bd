package inject

import (
	"fmt"

	"costrel/physics/resin"
)

// rounding is half of the last digit in which viscosities are compared [m³/kg].
const rounding = 5e-5

// Viscosity returns the intrinsic viscosity of the preform [m³/kg] of a resin
// of iv [m³/kg] that goes into the melt with a mass fraction of water:
//
//	Low    all water cuts chains: the bound of [resin.Hydrolysis]
//	High   what well dried resin loses at least, 0.01 dL/g
//	Value  the hydrolysis, but no less than 0.02 dL/g lost in practice
//
// It warns above the drying limit of 50 ppm and where the value falls below
// the least that the grade's bottles take. Hydrolysis is the larger part,
// heat and oxygen the rest; a vented melt uses less water.
func Viscosity(g resin.Grade, iv, water float64) (Range, []string, error) {
	low, err := resin.Hydrolysis(iv, water)
	if err != nil {
		return Range{}, nil, fmt.Errorf("inject: %w", err)
	}
	d := datum("viscosity", "drop")
	r := Range{Low: min(low, iv-d.High), Value: min(low, iv-d.Value), High: iv - d.Low}
	if r.Low <= 0.01 {
		return Range{}, nil, fmt.Errorf("inject: viscosity: %.3g dL/g leaves nothing after %g ppm of water", iv*10, water*1e6)
	}
	var warn []string
	if water > g.MoistureLimit*(1+1e-9) {
		warn = append(warn, fmt.Sprintf("inject: water %.3g ppm above the drying limit %.3g ppm: dry at ‹%.0f °C› for %.0f to %.0f h", water*1e6, g.MoistureLimit*1e6, datum("drying", "temperature").Value-273.15, datum("drying", "time").Low/3600, datum("drying", "time").High/3600))
	}
	if r.Value < g.IVPreformMin-rounding {
		warn = append(warn, fmt.Sprintf("inject: intrinsic viscosity of the preform %.3f dL/g below %.3f dL/g for %s: drier or higher resin", r.Value*10, g.IVPreformMin*10, g.Title))
	}
	return r, warn, nil
}
