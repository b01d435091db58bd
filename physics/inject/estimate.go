package inject

import (
	"errors"
	"fmt"

	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/unit"
)

// Spec is how a preform is moulded.
type Spec struct {
	Ledge        float64          // largest diameter of the finish [m]
	Cavities     int              // in the mould
	GateDiameter float64          // m; 0: 2.4 mm
	Melt         unit.Temperature // 0: 280 °C
	Face         unit.Temperature // of cavity and core; 0: 12 °C
	Residence    float64          // in the melt [s]; 0: 90 s
	IV           float64          // of the resin as fed [m³/kg]; 0: the grade's
	Water        float64          // mass fraction into the melt; 0: 50 ppm. Bone dry is 1e-9.
	Aldehyde     float64          // resin factor of acetaldehyde; 0: 0.4
	StillWater   bool             // fills the bottle, and tastes of what a carbonated drink hides
	Simulate     bool             // the cooling by finite volumes as well, which takes milliseconds
}

// Result is the estimate of the moulding of one preform.
type Result struct {
	Mean75, Mean110, Middle110 float64 // cooling of the body wall as a plate, to these temperatures [s]
	Simulated                  float64 // to a mean of 110 °C by finite volumes with the resin's heat [s]; with Simulate
	Gate110                    float64 // of the gate wall, middle to 110 °C [s]
	Cycle                      Range   // s
	Fill                       Range   // s
	Clamp                      Range   // N
	Output                     Range   // preforms/s of the mould
	Aldehyde                   float64 // mass fraction
	IV                         Range   // m³/kg in the preform
	Warnings                   []string
}

// Estimate returns the estimate of the moulding of a preform of a grade.
// Missing values of the spec are those of the cards. It warns about the gate
// (diameter, thicker than the body), the melt, acetaldehyde and viscosity, and
// refuses dimensions out of range, every fault reported.
func Estimate(p *preform.Preform, g resin.Grade, s Spec) (Result, error) {
	if p == nil {
		return Result{}, fmt.Errorf("inject: estimate: no preform")
	}
	fill := func(v *float64, card, key string) {
		if *v == 0 {
			*v = datum(card, key).Value
		}
	}
	melt, face := float64(s.Melt), float64(s.Face)
	fill(&s.GateDiameter, "gate", "diameter")
	fill(&melt, "cooling", "melt")
	fill(&face, "cooling", "wall")
	fill(&s.Residence, "aldehyde", "residence")
	fill(&s.Aldehyde, "aldehyde", "resin")
	if s.IV == 0 {
		s.IV = g.IV
	}
	if s.Water == 0 {
		s.Water = g.MoistureLimit
	}
	s.Melt, s.Face = unit.Temperature(melt), unit.Temperature(face)

	spec := p.Spec()
	var r Result
	var faults []error
	keep := func(v float64, err error) float64 {
		if err != nil {
			faults = append(faults, err)
		}
		return v
	}
	span := func(v Range, err error) Range {
		if err != nil {
			faults = append(faults, err)
		}
		return v
	}
	cool := DefaultCooling(spec.Wall)
	cool.Melt, cool.Face = s.Melt, s.Face
	gate := cool
	gate.Wall = spec.GateWall
	r.Mean75 = keep(cool.ToMean(unit.Celsius(75)))
	r.Mean110 = keep(cool.ToMean(unit.Celsius(110)))
	r.Middle110 = keep(cool.ToMiddle(unit.Celsius(110)))
	r.Gate110 = keep(gate.ToMiddle(unit.Celsius(110)))
	var err error
	if s.Simulate {
		var sim Profile
		sim, err = cool.SimulateResin(g, unit.Celsius(110))
		r.Simulated = keep(sim.Time, err)
	}
	r.Cycle = span(cycle(r.Mean110), within("estimate", "wall", spec.Wall, 1e-3, 8e-3, 1e3, "mm"))
	r.Fill = span(Fill(p.Mass(), spec.Wall))
	r.Clamp = span(Clamp(s.Ledge, s.Cavities))
	if err := within("estimate", "gate diameter", s.GateDiameter, 0.3e-3, 10e-3, 1e3, "mm"); err != nil {
		faults = append(faults, err)
	}
	var warn, more []string
	r.Aldehyde, warn, err = Aldehyde([]Stay{{s.Melt, s.Residence}}, s.Aldehyde, s.StillWater)
	keep(0, err)
	r.IV, more, err = Viscosity(g, s.IV, s.Water)
	keep(0, err)
	if faults != nil {
		return Result{}, errors.Join(faults...)
	}
	n := float64(s.Cavities)
	r.Output = Range{n / r.Cycle.High, n / r.Cycle.Value, n / r.Cycle.Low}

	r.Warnings = append(warn, more...)
	note := func(format string, args ...any) {
		r.Warnings = append(r.Warnings, "inject: "+fmt.Sprintf(format, args...))
	}
	if d := datum("gate", "diameter"); s.GateDiameter < d.Low*(1-1e-9) || s.GateDiameter > d.High*(1+1e-9) {
		note("gate diameter ‹%.3g mm› outside the usual ‹%.3g to %.3g mm›: a small gate shears the melt and freezes before packing, a large one stays hot and strings", s.GateDiameter*1e3, d.Low*1e3, d.High*1e3)
	}
	if spec.GateWall > spec.Wall {
		note("gate wall ‹%.3g mm› thicker than the body wall ‹%.3g mm›: the gate cools last, turns hazy and sets the cycle", spec.GateWall*1e3, spec.Wall*1e3)
	}
	if m := datum("cooling", "melt"); melt < m.Low-1e-9 || melt > m.High+1e-9 {
		note("melt ‹%.4g °C› outside the usual ‹%.4g to %.4g °C›: unmolten crystals below, acetaldehyde and loss of viscosity above", melt-273.15, m.Low-273.15, m.High-273.15)
	}
	return r, nil
}

// cycle returns the cycle for a cooling time to a mean of 110 °C.
func cycle(mean110 float64) Range {
	s, d := datum("cooling", "share"), datum("cooling", "dry")
	return Range{mean110*s.Low + d.Low, mean110*s.Value + d.Value, mean110*s.High + d.High}
}
