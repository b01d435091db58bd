package hotfill

import (
	"math"

	"costrel/unit"
)

// Liquid is what the package asks of the drink: density [kg/m³] and pressure
// of water vapour [Pa] between 0 and 100 °C. A checked drink (drink.Liquid)
// is one.
type Liquid interface {
	Density(t unit.Temperature) float64
	VapourPressure(t unit.Temperature) float64
}

// carbonated is a liquid that knows its carbon dioxide [kg/m³].
type carbonated interface{ Content() float64 }

// Pack is a pack at the moment it is closed.
type Pack struct {
	Liquid   Liquid
	Overflow float64 // brimful volume of the bottle at closing [m³]
	Fill     float64 // volume of the liquid [m³] at the temperature FillAt
	// FillAt is the temperature at which Fill is stated: the filling
	// temperature for a filler's setting, 20 °C for a declared content.
	FillAt      unit.Temperature
	Temperature unit.Temperature // of the liquid at closing
	// Gas is the temperature of the headspace gas at closing, saturated with
	// steam; 0 = that of the liquid. Often some kelvin below it.
	Gas unit.Temperature
	// Steam is the share of the headspace air that steam has driven out:
	// 0 = air saturated with steam, 1 = steam alone.
	Steam     float64
	Nitrogen  float64          // mass of nitrogen captured by the closure [kg]
	Shrinkage float64          // of the bottle, share of Overflow, 0..0.2
	Panel     Panel            // what the wall gives
	Ambient   unit.AbsPressure // at closing; 0 = 101325 Pa
}

// Store is where the pack cools to.
type Store struct {
	Temperature unit.Temperature
	Ambient     unit.AbsPressure // 0 = 101325 Pa
}

// Budget splits the volume that cooling takes, by cause. All in m³; what is
// demanded equals what is met:
//
//	Liquid + Gas = Shrinkage + Panels
type Budget struct {
	Liquid    float64 // contraction of the liquid
	Gas       float64 // cooling of the air, condensation of steam, under the vacuum that is left
	Shrinkage float64 // of the bottle
	Panels    float64 // given inward by the wall
	// Nitrogen is the volume that the dose fills in the store: without it Gas
	// were so much more at the same vacuum. From Cool only.
	Nitrogen float64
	// Rest is the part of the demand that is not met, from the gas law and the
	// volumes independently: rounding alone.
	Rest float64
}

// State is the cooled pack.
type State struct {
	Pressure unit.AbsPressure
	Gauge    unit.GaugePressure
	Vacuum   float64 // below ambient [Pa]; negative for a pressure above it
	Vapour   float64 // pressure of water vapour [Pa]
	Dry      float64 // pressure of air and nitrogen [Pa]

	HotLiquid, HotHeadspace   float64 // at closing [m³]
	Liquid, Headspace, Bottle float64 // cooled [m³]
	Contraction               float64 // of the liquid, share of its volume at closing

	Budget Budget
	// PanelNeed is what the panels must give for no vacuum to remain at all
	// [m³]: more than Budget.Panels, for under vacuum the gas stays larger.
	PanelNeed float64
	// HotGauge is the gauge pressure right after closing with the dose of
	// nitrogen evaporated, in a rigid bottle: an upper bound.
	HotGauge unit.GaugePressure
	Warnings []string
}

// nitrogenMass is the molar mass of nitrogen [kg/mol].
const nitrogenMass = 28.0134e-3

// closed is a pack checked and worked out up to the pressure.
type closed struct {
	Pack
	store         Store
	hot, hotGas   float64 // liquid and headspace at closing [m³]
	cold          float64 // liquid in the store [m³]
	shrunk        float64 // bottle after shrinkage [m³]
	vapour        float64 // in the store [Pa]
	air, nitrogen float64 // dry gas in the headspace at closing [mol]
	warnings      []string
}

func (c *closed) rt() float64     { return unit.GasConstant * float64(c.store.Temperature) }
func (c *closed) amount() float64 { return c.air + c.nitrogen }

// state fills in everything from the pressure. headspace is the gas volume that
// the gas itself asks for at that pressure, free the one it would take with no
// vacuum left [m³].
func (c *closed) state(p, headspace, free float64) State {
	vacuum := float64(c.store.Ambient) - p
	panels := c.Panel.Volume(vacuum)
	s := State{
		Pressure: unit.AbsPressure(p), Gauge: unit.GaugePressure(-vacuum), Vacuum: vacuum,
		Vapour: c.vapour, Dry: p - c.vapour,
		HotLiquid: c.hot, HotHeadspace: c.hotGas,
		Liquid: c.cold, Headspace: headspace, Bottle: c.shrunk - panels,
		Contraction: 1 - c.cold/c.hot,
		HotGauge:    unit.GaugePressure(c.hotGauge()),
		Warnings:    c.warnings,
	}
	s.Budget = Budget{
		Liquid:    c.hot - c.cold,
		Gas:       c.hotGas - headspace,
		Shrinkage: c.Overflow - c.shrunk,
		Panels:    panels,
	}
	s.Budget.Rest = s.Budget.Liquid + s.Budget.Gas - s.Budget.Shrinkage - s.Budget.Panels
	s.PanelNeed = s.Budget.Liquid + c.hotGas - free - s.Budget.Shrinkage
	return s
}

func (c *closed) hotGauge() float64 {
	if c.nitrogen == 0 || !(c.hotGas > 0) {
		return 0
	}
	return c.nitrogen * unit.GasConstant * float64(c.Gas) / c.hotGas
}

func finite(x ...float64) bool {
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
