package blow

import (
	"costrel/physics/resin"
	"costrel/unit"
)

// Case is the whole input of a run. Start from [DefaultCase].
type Case struct {
	Preform Preform
	Heat    Heat
	Mould   *Mould // nil: free blow
	Recipe  Recipe
	Law     resin.HotLaw
	Crystal resin.StrainCrystal
	Numbers Numbers
}

// Heat is the temperature of the preform when the blow begins: Uniform, or a
// table over the distance along the mid-line from the ledge and the place in
// the wall, 0 inside to 1 outside, straight between and constant beyond.
type Heat struct {
	Uniform unit.Temperature
	S       []float64   // along the mid-line from the ledge [m], rising
	X       []float64   // through the wall, rising, 0..1
	T       [][]float64 // [K], T[i][j] at S[i], X[j]
}

// Start says when something begins: at a time, or when the rod has travelled.
// The clock starts when the rod touches the gate.
type Start struct {
	Time   float64 // [s]
	Travel float64 // [m]; counts when ByRod
	ByRod  bool
}

// Stage is one stage of blowing air: a supply behind an orifice.
type Stage struct {
	Pressure  unit.GaugePressure // of the supply
	Area      float64            // of the orifice [m²]
	Discharge float64            // C_d
	Start     Start
}

// Rod is the stretch rod.
type Rod struct {
	Speed  float64 // [m/s]; 0: no rod
	Stop   float64 // depth of the tip at the end of its travel [m]
	Radius float64 // of tip and shaft [m]
	// Fits says that the tip is shaped to the inside of the end cap: what lies over
	// it moves with it and stays as it was injected. Otherwise the tip is a round
	// one on which the wall slides freely.
	Fits bool
}

// Recipe is the process.
type Recipe struct {
	Pre, High Stage // High with Area 0: none
	Rod       Rod

	DeadVolume float64          // behind the neck, neck included [m³]
	Ambient    unit.AbsPressure // outside the wall
	AirSupply  unit.Temperature // of the supply
	GasEnergy  bool             // balance the heat of the air; otherwise it stays at AirSupply
	GasHeat    float64          // film coefficient air to wall in the gas balance [W/(m² K)]

	Hold     float64 // from the start of the high stage to the exhaust [s]
	Exhaust  float64 // from the opening of the exhaust to ejection [s]
	VentArea float64 // of the exhaust [m²]
	Duration float64 // of a free blow [s]

	Contact     float64 // film coefficient to the mould at 30 bar(g) and above [W/(m² K)]
	ContactLow  float64 // the same without pressure
	InsideHeat  float64 // film coefficient wall to air inside
	OutsideHeat float64 // film coefficient wall to air outside before contact
	RodContact  float64 // film coefficient to the rod
	RodHeat     unit.Temperature
	Outside     unit.Temperature // air in the mould

	// Friction of the wall on the mould; 0 is sticking at first touch.
	Friction float64
	// EjectBelow is the mean wall temperature wanted at ejection.
	EjectBelow unit.Temperature
}

// Rate says which rate drives slip and critical stretch of the law.
type Rate string

// The rates.
const (
	// RateNominal is the greatest eigenvalue of the rate of the left stretch.
	RateNominal Rate = "nominal"
	// RateNetwork is the greatest in-plane true rate times the greatest network
	// stretch, an approximation of it.
	RateNetwork Rate = "network"
)

// Numbers are the choices of the numerical method.
type Numbers struct {
	Elements, Layers int
	StepFirst        float64 // [s]
	StepMost         float64 // while the wall moves [s]
	StepLeast        float64 // [s]
	// Theta is where in a step the forces balance: 1 at its end (backward
	// Euler), 0.5 in its middle (second order, undamped).
	Theta        float64
	StrainMost   float64 // wanted largest increment of strain in a step; 0: steps by time only
	StepsMost    int     // limit of the number of steps
	FrameEvery   float64 // time between frames of playback [s]; 0: none
	Isothermal   bool    // no self-heating, no conduction, no crystallisation
	MidContact   bool    // mould and rod touch the mid-line
	Rate         Rate
	RodStiffness float64 // of rod contact [N/m]
	Density      float64 // for inertia and weight [kg/m³]
	Conductivity float64 // [W/(m K)]
	FusionHeat   float64 // of the crystals [J/kg]; 0: left out
}

// DefaultCase returns a case that lacks only preform and mould: default law
// and crystallisation, 60 elements of 5 layers, and a common process.
func DefaultCase() Case {
	law := resin.SetA()
	c := Case{
		Heat: Heat{Uniform: unit.Celsius(105)},
		Law:  &law,
		Recipe: Recipe{
			Pre:        Stage{Pressure: 8e5, Area: 6e-6, Discharge: 1, Start: Start{ByRod: true, Travel: 0.015}},
			High:       Stage{Pressure: 34e5, Area: 20e-6, Discharge: 1, Start: Start{Time: 0.16}},
			Rod:        Rod{Speed: 1.5, Radius: 6e-3, Fits: true},
			DeadVolume: 40e-6, Ambient: unit.Atm, AirSupply: 300, GasHeat: 250,
			Hold: 0.95, Exhaust: 0.27, VentArea: 30e-6, Duration: 0.2,
			Contact: 500, ContactLow: 200, InsideHeat: 100, OutsideHeat: 20, RodContact: 300, RodHeat: unit.Celsius(40), Outside: unit.Celsius(30),
			EjectBelow: unit.Celsius(70),
		},
		Numbers: Numbers{
			Elements: 60, Layers: 5, StepFirst: 5e-4, StepMost: 5e-4, StepLeast: 1e-7, StepsMost: 20000, FrameEvery: 5e-3, Theta: 0.55, StrainMost: 0.05,
			Rate: RateNominal, RodStiffness: 5e6, Density: 1340, Conductivity: 0.24, FusionHeat: 140e3,
		},
	}
	if g, err := resin.Find("pet-carbonated"); err == nil {
		if q, err := resin.NewQuiescent(g); err == nil {
			c.Crystal = resin.DefaultStrainCrystal(q)
		}
	}
	return c
}
