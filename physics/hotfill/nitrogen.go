package hotfill

import (
	"fmt"

	"costrel/unit"
)

// LiquidNitrogen is the density of liquid nitrogen at its boiling point at
// 1 atm [kg/m³]. From memory.
const LiquidNitrogen = 807.0

// Dose returns the mass of nitrogen that must be captured [kg] so that the pack
// shows the given gauge pressure in the store (0 = no vacuum).
//
//	m = M [ (pa + pg - pw) Vg(pg)/(R T) - n_air ]
//
// Vg with shrinkage and panels as in [Cool]; nothing dissolves, so that a
// deaerated drink wants more. p.Nitrogen is not read. A pressure that the air
// alone exceeds, and a gas space that is not left, are refused. Look at
// State.HotGauge of the dosed pack: the hot bottle bears more.
func Dose(p Pack, st Store, gauge unit.GaugePressure) (float64, error) {
	p.Nitrogen = 0
	c, err := p.close(st)
	if err != nil {
		return 0, err
	}
	if !(gauge > -unit.GaugePressure(float64(c.store.Ambient)-c.vapour)) || gauge > 1e6 {
		return 0, refuse("dose", "gauge pressure", float64(gauge)/1e3, "kPa(g)", fmt.Sprintf("‹%.6g..1000 kPa(g)›", -(float64(c.store.Ambient)-c.vapour)/1e3), "aim at a pressure above the vapour of the liquid")
	}
	space := c.shrunk - c.cold - c.Panel.Volume(-float64(gauge))
	if !(space > 0) {
		return 0, refuse("dose", "gas space", space*1e6, "mL", "‹0 mL›", "shrinkage leaves no headspace: fill less")
	}
	n := (float64(c.store.Ambient)+float64(gauge)-c.vapour)*space/c.rt() - c.air
	if n < 0 {
		return 0, refuse("dose", "nitrogen", n*nitrogenMass*1e6, "mg", "0 mg", "the air in the headspace alone gives more pressure: no dose is needed")
	}
	return n * nitrogenMass, nil
}

// SettledDose is [Dose] for the pack days after filling, when gas and liquid
// have come to equilibrium: the mass of nitrogen captured [kg] so that it then
// shows the gauge pressure. With the gas space Vg of that pressure,
//
//	pO = n_O/(m_w k_O + Vg/(R T)),  n_N = (P - pw - pO)(m_w k_N + Vg/(R T))
//
// less the nitrogen that is there already. Refusals as in Dose and [Settle].
func SettledDose(p Pack, st Store, gauge unit.GaugePressure, a Air) (float64, error) {
	p.Nitrogen = 0
	c, err := p.close(st)
	if err != nil {
		return 0, err
	}
	m, err := c.mixture(a)
	if err != nil {
		return 0, err
	}
	total := float64(c.store.Ambient) + float64(gauge)
	if !(total > c.vapour) || gauge > 1e6 {
		return 0, refuse("dose", "gauge pressure", float64(gauge)/1e3, "kPa(g)", fmt.Sprintf("‹%.6g..1000 kPa(g)›", -(float64(c.store.Ambient)-c.vapour)/1e3), "aim at a pressure above the vapour of the liquid")
	}
	space := c.shrunk - c.cold - c.Panel.Volume(-float64(gauge))
	if !(space > 0) {
		return 0, refuse("dose", "gas space", space*1e6, "mL", "‹0 mL›", "shrinkage leaves no headspace: fill less")
	}
	oxygen := m.partial(0, space)
	n := (total-c.vapour-oxygen)*(m.water*m.gas[1].k+space/m.rt) - m.gas[1].n
	if n < 0 {
		return 0, refuse("dose", "nitrogen", n*nitrogenMass*1e6, "mg", "0 mg", "the gas in the pack alone gives more pressure: no dose is needed")
	}
	return n * nitrogenMass, nil
}

// StillDose returns the nitrogen for a still drink filled cold: the mass that
// raises the pressure of the headspace [kg], and the further mass that
// dissolves if the drink holds none yet [kg].
//
//	gas        dp V M/(R T)
//	dissolved  dp m_w k M
//
// headspace V [m³] at the pressure reached, water m_w [kg], solubility k of
// nitrogen [mol/(kg Pa)] at t, rise dp [Pa] 0..1 MPa.
func StillDose(headspace, water, solubility float64, t unit.Temperature, rise float64) (gas, dissolved float64, err error) {
	if err := temperature("dose", t); err != nil {
		return 0, 0, err
	}
	for _, r := range [...]struct {
		item   string
		x, max float64
		symbol string
	}{
		{"headspace", headspace, 0.01, "m³"},
		{"water", water, 100, "kg"},
		{"solubility", solubility, 1e-6, "mol/(kg Pa)"},
		{"rise of pressure", rise, 1e6, "Pa"},
	} {
		if !(r.x >= 0) || r.x > r.max {
			return 0, 0, refuse("dose", r.item, r.x, r.symbol, fmt.Sprintf("‹0..%g %s›", r.max, r.symbol), "check the unit")
		}
	}
	gas = rise * headspace / (unit.GasConstant * float64(t)) * nitrogenMass
	return gas, rise * water * solubility * nitrogenMass, nil
}

// Drop returns what the doser must drop for a captured mass [kg]: the mass and
// the volume of liquid nitrogen [m³], with the captured share 0..1. The rest
// boils off before the closure is on.
func Drop(captured, share float64) (mass, volume float64, err error) {
	if !(captured >= 0) || captured > 1e-2 {
		return 0, 0, refuse("dose", "captured nitrogen", captured*1e6, "mg", "0..10000 mg", "check the unit")
	}
	if !(share > 0) || share > 1 {
		return 0, 0, refuse("dose", "captured share", share, "", "0..1", "30 to 60 % is usual (from memory)")
	}
	mass = captured / share
	return mass, mass / LiquidNitrogen, nil
}
