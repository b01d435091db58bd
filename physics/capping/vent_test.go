package capping

import (
	"math"
	"testing"

	"costrel/unit"
)

// venting is a 22 mL headspace at 40 bar, so that the flow stays choked for
// the exact solutions below.
func venting() Venting {
	return Venting{
		Pressure: 4e6, Ambient: unit.Atm, Headspace: 22e-6, Temperature: 295, Gas: CarbonDioxide(),
		Diameter: 25e-3, Lead: 2.7e-3, Slots: 10e-6, Engaged: 1.5, Speed: 2 * math.Pi, Coefficient: 0.6, Until: 2e4,
	}
}

// choked returns the emptying rate of an area, 1/(s m²): p' = -rate A p.
func choked(v Venting) float64 {
	g := v.Gas.Gamma
	rt := unit.GasConstant * float64(v.Temperature) / v.Gas.MolarMass
	return v.Coefficient / v.Headspace * math.Sqrt(g*rt) * math.Pow(2/(g+1), (g+1)/(2*(g-1)))
}

// With wide slots only the gap counts, and p = p0 exp(-rate G t²/2) while
// choked, where the gap grows by G = pi d lead n/s. End the thread there.
func TestVentGrowingGap(t *testing.T) {
	v := venting()
	v.Slots, v.Engaged = 1e-3, 0.02 // 20 ms at one turn a second
	out, err := Vent(v)
	if err != nil {
		t.Fatal(err)
	}
	growth := math.Pi * v.Diameter * v.Lead // m²/s at one turn a second
	p0 := float64(v.Pressure.Abs(v.Ambient))
	want := p0*math.Exp(-choked(v)*growth*0.02*0.02/2) - float64(unit.Atm)
	if math.Abs(float64(out.Pressure)/want-1) > 1e-5 || out.Reached {
		t.Errorf("%g Pa(g) left, reached %v; exact %g", float64(out.Pressure), out.Reached, want)
	}
	if len(out.Warnings) != 1 {
		t.Errorf("warnings %q, want one about the pressure left", out.Warnings)
	}
}

// With narrow slots and a fast gap the area is steady and p = p0 exp(-rate A t).
func TestVentSteadySlots(t *testing.T) {
	v := venting()
	v.Lead, v.Slots, v.Engaged = 0.1, 1e-6, 0.1
	out, err := Vent(v)
	if err != nil {
		t.Fatal(err)
	}
	want := float64(v.Pressure.Abs(v.Ambient))*math.Exp(-choked(v)*v.Slots*0.1) - float64(unit.Atm)
	if math.Abs(float64(out.Pressure)/want-1) > 1e-3 { // the gap takes 0.13 ms of the 100
		t.Errorf("%g Pa(g) left, exact %g", float64(out.Pressure), want)
	}
}

func TestVentEmpties(t *testing.T) {
	v := venting()
	v.Pressure = 4e5
	out, err := Vent(v)
	if err != nil || !out.Reached || out.Turns <= 0 || out.Turns > 0.2 || float64(out.Pressure) > 1 || len(out.Warnings) != 0 {
		t.Errorf("4 bar: %+v (%v), want it empty within a fifth of a turn", out, err)
	}
	v.Pressure = 0
	if out, err := Vent(v); err != nil || !out.Reached || out.Turns != 0 || out.Pressure != 0 {
		t.Errorf("no pressure: %+v (%v)", out, err)
	}
	v.Pressure, v.Slots = 4e5, 0
	out, err = Vent(v)
	if err != nil || out.Reached || math.Abs(float64(out.Pressure)-4e5) > 1e-6 || len(out.Warnings) != 2 {
		t.Errorf("no slots: %+v (%v), want the pressure kept and two warnings", out, err)
	}
	// Twice the headspace takes longer.
	v.Slots = 10e-6
	a, _ := Vent(v)
	v.Headspace *= 2
	b, _ := Vent(v)
	if b.Turns <= a.Turns {
		t.Errorf("22 mL take %g turns, 44 mL %g", a.Turns, b.Turns)
	}
}

func TestVentRefuses(t *testing.T) {
	for i, change := range []func(*Venting){
		func(v *Venting) { v.Pressure = -1 },
		func(v *Venting) { v.Ambient = 0 },
		func(v *Venting) { v.Headspace = 0 },
		func(v *Venting) { v.Headspace = math.NaN() },
		func(v *Venting) { v.Temperature = 20 },
		func(v *Venting) { v.Gas = Gas{} },
		func(v *Venting) { v.Gas.Gamma = 1 },
		func(v *Venting) { v.Diameter = 0 },
		func(v *Venting) { v.Lead = 0 },
		func(v *Venting) { v.Slots = -1 },
		func(v *Venting) { v.Engaged = math.NaN() },
		func(v *Venting) { v.Speed = 0 },
		func(v *Venting) { v.Coefficient = 2 },
		func(v *Venting) { v.Until = 0 },
		func(v *Venting) { v.Headspace = 1e-9; v.Engaged = 10 },
	} {
		v := venting()
		change(&v)
		if out, err := Vent(v); err == nil {
			t.Errorf("case %d answered %+v", i, out)
		}
	}
}

// Subsonic flow is continuous with choked flow and ends at the ambient.
func TestFlux(t *testing.T) {
	g := Air()
	critical := math.Pow(2/(g.Gamma+1), g.Gamma/(g.Gamma-1))
	if math.Abs(critical-0.52828) > 1e-5 {
		t.Errorf("critical ratio %g, want 0.52828", critical)
	}
	a, b := g.flux(1e5/critical*(1-1e-6), 1e5, 300), g.flux(1e5/critical*(1+1e-6), 1e5, 300)
	if math.Abs(a/b-1) > 1e-5 {
		t.Errorf("flux jumps from %g to %g at the critical ratio", a, b)
	}
	if f := g.flux(1e5, 1e5, 300); f != 0 {
		t.Errorf("flux %g without a difference", f)
	}
}
