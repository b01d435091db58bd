package capping

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Gas is the gas of the headspace.
type Gas struct {
	MolarMass float64 // kg/mol
	Gamma     float64 // ratio of heat capacities
}

// CarbonDioxide returns CO2 near room temperature.
func CarbonDioxide() Gas { return Gas{MolarMass: 44.0095e-3, Gamma: 1.29} }

// Air returns air near room temperature; also good for nitrogen.
func Air() Gas { return Gas{MolarMass: 28.965e-3, Gamma: 1.40} }

// Venting is a closure being turned off at a steady speed.
type Venting struct {
	Pressure    unit.GaugePressure // in the pack at first gas
	Ambient     unit.AbsPressure
	Headspace   float64 // m³ of gas
	Temperature unit.Temperature
	Gas         Gas
	Diameter    float64 // m, of the seal gap
	Lead        float64 // m, rise in one turn
	Slots       float64 // m², area of the vent slots
	Engaged     float64 // turns left at first gas
	Speed       float64 // rad/s of turning
	Coefficient float64 // of discharge, about 0.6
	Until       unit.GaugePressure
}

// Vented is what is left when the thread ends.
type Vented struct {
	Pressure unit.GaugePressure // when the thread disengages
	Lift     float64            // N, on the seal diameter, at that moment
	Turns    float64            // turned to reach Until; 0 where it is not reached
	Reached  bool
	Warnings []string
}

// maxSteps bounds the work of one venting.
const maxSteps = 400_000

// Vent follows the headspace pressure from first gas until the thread ends.
// The gas leaves through the smaller of the growing seal gap and the slots,
//
//	A = min(slots, pi d lead theta/(2 pi))      dp/dt = -(R T/(M V)) mdot
//
// as an isentropic orifice with the discharge coefficient, choked or not; the
// headspace stays at its temperature. Gas that a drink gives off on opening is
// not counted and slows the venting, most when the bottle was shaken. The time
// step follows the emptying time, so the answer is good to about 1e-4.
// Source of the flow law: MoranShapiro2006.
func Vent(v Venting) (Vented, error) {
	if err := v.check(); err != nil {
		return Vented{}, err
	}
	area, err := sealArea(v.Diameter)
	if err != nil {
		return Vented{}, err
	}
	var out Vented
	end := v.Engaged * 2 * math.Pi / v.Speed
	open := math.Pi * v.Diameter * v.Lead * v.Speed / (2 * math.Pi) // m²/s, growth of the gap
	pa, p := float64(v.Ambient), float64(v.Pressure.Abs(v.Ambient))
	goal := float64(v.Until.Abs(v.Ambient))
	k := unit.GasConstant * float64(v.Temperature) / (v.Gas.MolarMass * v.Headspace)
	rate := func(t, p float64) float64 {
		return -k * v.Coefficient * math.Min(v.Slots, open*t) * v.Gas.flux(p, pa, v.Temperature)
	}
	if v.Slots > 0 && end > 0 {
		// Time to empty through the slots at the first, choked rate.
		tau := p / -rate(math.Inf(1), p)
		n := int(math.Ceil(math.Max(1000, math.Min(100*end/tau, maxSteps+1))))
		if n > maxSteps {
			return Vented{}, fmt.Errorf("capping: vent: headspace ‹%g m³› empties in %g s, too short a time for a turn of %g s", v.Headspace, tau, end)
		}
		dt := end / float64(n)
		for i := range n {
			if p <= goal && !out.Reached {
				out.Reached = true
				out.Turns = float64(i) * dt * v.Speed / (2 * math.Pi)
			}
			if p <= pa*(1+1e-7) {
				p = pa
				break
			}
			t := float64(i) * dt
			k1 := rate(t, p)
			k2 := rate(t+dt/2, math.Max(pa, p+dt/2*k1))
			k3 := rate(t+dt/2, math.Max(pa, p+dt/2*k2))
			k4 := rate(t+dt, math.Max(pa, p+dt*k3))
			p = math.Max(pa, p+dt/6*(k1+2*k2+2*k3+k4))
		}
		if p <= goal && !out.Reached {
			out.Reached, out.Turns = true, v.Engaged
		}
	} else if p <= goal {
		out.Reached = true
	}
	out.Pressure = unit.AbsPressure(p).Gauge(v.Ambient)
	out.Lift = float64(out.Pressure) * area
	if v.Slots == 0 {
		out.Warnings = append(out.Warnings, "no vent slots known: the headspace is taken to keep its pressure until the thread ends")
	}
	if !out.Reached {
		out.Warnings = append(out.Warnings, fmt.Sprintf("‹%.2f bar(g)› left when the thread ends, above ‹%.2f bar(g)›: the closure leaves under a force of ‹%.0f N›", float64(out.Pressure)/1e5, float64(v.Until)/1e5, out.Lift))
	}
	return out, nil
}

// flux returns the mass flow through an ideal orifice over its area
// [kg/(m² s)] from the absolute pressure p to pa at the temperature t.
func (g Gas) flux(p, pa float64, t unit.Temperature) float64 {
	if p <= pa {
		return 0
	}
	rt := unit.GasConstant * float64(t) / g.MolarMass
	critical := math.Pow(2/(g.Gamma+1), g.Gamma/(g.Gamma-1))
	r := math.Max(pa/p, critical)
	return p * math.Sqrt(2*g.Gamma/((g.Gamma-1)*rt)*(math.Pow(r, 2/g.Gamma)-math.Pow(r, (g.Gamma+1)/g.Gamma)))
}

func (v Venting) check() error {
	fail := func(what string, value float64, limit string) error {
		return fmt.Errorf("capping: vent: %s %g outside %s", what, value, limit)
	}
	switch {
	case !(v.Pressure >= 0 && v.Pressure <= pressureHigh):
		return fail("pressure", float64(v.Pressure), "0..5e6 Pa(g)")
	case !(v.Ambient >= 2e4 && v.Ambient <= 1.2e5):
		return fail("ambient pressure", float64(v.Ambient), "2e4..1.2e5 Pa(a)")
	case !(v.Headspace > 0 && v.Headspace <= 0.1):
		return fail("headspace", v.Headspace, "‹0..0.1 m³›")
	case !(v.Temperature >= 250 && v.Temperature <= 400):
		return fail("temperature", float64(v.Temperature), "250..400 K")
	case !(v.Gas.MolarMass > 1e-3 && v.Gas.MolarMass < 0.5):
		return fail("molar mass", v.Gas.MolarMass, "1e-3..0.5 kg/mol")
	case !(v.Gas.Gamma > 1.01 && v.Gas.Gamma < 1.7):
		return fail("ratio of heat capacities", v.Gas.Gamma, "1.01..1.7")
	case !(v.Lead > 0 && v.Lead <= 0.1):
		return fail("lead", v.Lead, "‹0..0.1 m›")
	case !(v.Slots >= 0 && v.Slots <= 0.01):
		return fail("slot area", v.Slots, "‹0..0.01 m²›")
	case !(v.Engaged >= 0 && v.Engaged <= 10):
		return fail("engaged turns", v.Engaged, "0..10")
	case !(v.Speed >= 0.01 && v.Speed <= 1000):
		return fail("speed", v.Speed, "0.01..1000 rad/s")
	case !(v.Coefficient > 0 && v.Coefficient <= 1):
		return fail("discharge coefficient", v.Coefficient, "0..1")
	case !(v.Until > 0 && v.Until <= pressureHigh):
		return fail("final pressure", float64(v.Until), "0..5e6 Pa(g)")
	}
	return nil
}
