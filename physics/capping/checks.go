package capping

import (
	"math"

	"costrel/cite"
	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/unit"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	lift := func(pressure string, d float64) func() float64 {
		return func() float64 {
			p, err := unit.Parse(unit.PressureGauge, pressure)
			if err != nil {
				return math.NaN()
			}
			return cite.Or(Lift(unit.GaugePressure(p.SI), d))
		}
	}
	return []cite.Check{
		{
			ID: "capping.lift.100psi.21.8mm", Case: "lift on 21.8 mm at 100 psi(g)", Source: "CommonPractice",
			Unit: "N", Ours: lift("100 psi(g)", 21.8e-3), Published: 257, Allowed: 0.5, Mark: cite.Regression,
		},
		{
			ID: "capping.lift.100psi.24.94mm", Case: "lift on 24.94 mm at 100 psi(g)", Source: "CommonPractice",
			Unit: "N", Ours: lift("100 psi(g)", 24.94e-3), Published: 337, Allowed: 0.5, Mark: cite.Regression,
		},
		{
			ID: "capping.lift.1207kPa.24.94mm", Case: "lift on 24.94 mm in the blow-off test, 1207 kPa", Source: "GBT17876",
			Unit: "N", Ours: lift("1207 kPa(g)", 24.94e-3), Published: 590, Allowed: 0.5, Mark: cite.Regression,
			Note: "pressure published, product ours",
		},
		{
			ID: "capping.lift.690kPa.21.74mm", Case: "lift on 21.74 mm in the pressure hold, 0.69 MPa", Source: "GBT17876",
			Unit: "N", Ours: lift("690 kPa(g)", 21.74e-3), Published: 256, Allowed: 0.5, Mark: cite.Regression,
			Note: "pressure published, product ours",
		},
		{
			ID: "capping.lift.900kPa.21.74mm", Case: "lift on 21.74 mm at 0.9 MPa", Source: "CommonPractice",
			Unit: "N", Ours: lift("900 kPa(g)", 21.74e-3), Published: 334, Allowed: 0.5, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.application", Case: "application torque over force, short 28 mm neck, flank 10°, friction 0.15, seal radius 11.7 mm", Source: "Shigley1989",
			Unit: "mm", Ours: func() float64 { return 1e3 * cite.Or(reference(0.15).ApplicationLever()) }, Published: 4.162, Allowed: 0.001, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.removal", Case: "removal torque over force, same", Source: "Shigley1989",
			Unit: "mm", Ours: func() float64 { return 1e3 * cite.Or(reference(0.15).RemovalLever()) }, Published: 3.282, Allowed: 0.001, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.ratio.010", Case: "removal over application torque, same, friction 0.10", Source: "Shigley1989",
			Unit: "1", Ours: ratio(0.10), Published: 0.702, Allowed: 0.001, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.ratio.015", Case: "removal over application torque, same, friction 0.15", Source: "Shigley1989",
			Unit: "1", Ours: ratio(0.15), Published: 0.789, Allowed: 0.001, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.ratio.020", Case: "removal over application torque, same, friction 0.20", Source: "Shigley1989",
			Unit: "1", Ours: ratio(0.20), Published: 0.835, Allowed: 0.001, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.force", Case: "seal force of 1.7 N·m, same, friction 0.15", Source: "Shigley1989",
			Unit: "N", Ours: func() float64 { return cite.Or(reference(0.15).SealForce(1.7, 0)) }, Published: 408, Allowed: 0.6, Mark: cite.Regression,
		},
		{
			ID: "capping.torque.lines", Case: "removal over application torque of the short one-piece closure after relaxation, against 0.5 to 0.7 on lines", Source: "CommonPractice",
			Unit: "1", Ours: func() float64 { return short().Ratio }, Published: 0.6, Allowed: 0.1, Mark: cite.Practice,
			Note: "the middle of what lines see and half its width, from memory; the card's relaxation was set from it",
		},
		{
			ID: "capping.bridges", Case: "torque of 10 bridges of 0.4 mm² at 20 MPa and 14.5 mm", Source: "CommonPractice",
			Unit: "N·m", Ours: func() float64 { return cite.Or(BridgeTorque(10, 0.4e-6, 20e6, 14.5e-3)) }, Published: 1.16, Allowed: 0.001, Mark: cite.Regression,
			Note: "typical 0.6 to 1.5, remembered",
		},
		{
			ID: "capping.stack", Case: "load on the lowest closure, 1.852 kg packs, 5 layers, 2 pallets of 25 kg, 84 a layer, factor 1.5", Source: "Brandau201304",
			Unit: "N", Ours: func() float64 {
				return cite.Or(Stack{PackMass: 1.852, Layers: 5, Pallets: 2, PalletMass: 25, PerLayer: 84, Factor: 1.5}.Load())
			}, Published: 250, Allowed: 1, Mark: cite.Regression,
			Note: "method published, case ours",
		},
		{
			ID: "capping.orifice", Case: "choked flow of air from 9 bar(a) and 300 K through 8 mm²", Source: "MoranShapiro2006",
			Unit: "g/s", Ours: func() float64 { return 1e3 * 8e-6 * Air().flux(9e5, float64(unit.Atm), 300) }, Published: 16.8, Allowed: 0.05, Mark: cite.Regression,
			Note: "the formula is published, its arithmetic is ours: p A sqrt(gamma/(R T)) (2/(gamma+1))^((gamma+1)/(2(gamma-1))) by hand",
		},
	}
}

// reference is the thread for which the torque rows were worked out.
func reference(friction float64) Thread {
	return Thread{Diameter: 25.8e-3, Lead: 2.70e-3, Flank: 10 * math.Pi / 180, Friction: friction, SealFriction: friction, SealRadius: 11.7e-3}
}

func ratio(friction float64) func() float64 {
	return func() float64 {
		t := reference(friction)
		return cite.Or(t.RemovalLever()) / cite.Or(t.ApplicationLever())
	}
}

// short is the short one-piece closure on its neck at its card torque.
func short() Result {
	f, err := finish.Find("28-short-csd")
	if err != nil {
		return Result{Ratio: math.NaN()}
	}
	c, err := closure.Find("hdpe-28-short")
	if err != nil {
		return Result{Ratio: math.NaN()}
	}
	r, err := Assess(Input{Finish: f, Closure: c, Torque: c.Application.Value})
	if err != nil {
		return Result{Ratio: math.NaN()}
	}
	return r
}
