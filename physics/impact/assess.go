package impact

import (
	"fmt"
	"slices"

	"costrel/cite"
	"costrel/physics/bottle"
	"costrel/unit"
)

// Zone is a ring of wall whose hoop is judged.
type Zone struct {
	Name string
	Tube // hoop modulus at 23 °C
	// Yield is the hoop yield stress of a slow tensile test at 23 °C [Pa],
	// 1e6..1e9.
	Yield float64
	// StaticGain is the hoop stress for each pascal in the pack, as a shell
	// model gives it; 0 takes R/h.
	StaticGain float64
}

// Piece is a piece of the wall, for the energy that it takes elastically; the
// limits are those of [Capacity].
type Piece struct {
	Yield, Modulus float64 // of the hoop at 23 °C [Pa]
	Volume         float64 // m³
}

// Gate is the unoriented disc round the gate.
type Gate struct {
	// Gain is the largest stress of the disc for each pascal on it, as for a
	// clamped plate 3/4 (r/h)²; 0.1..1e4.
	Gain               float64
	Modulus            float64 // Pa, 1e6..3e11
	Yield              float64 // Pa at 23 °C, slow, 1e6..1e9
	IntrinsicViscosity float64 // m³/kg, 0.04..0.12; 0 not known
}

// Closure is what the pressure can lift.
type Closure struct {
	SealDiameter float64 // m, outer, 5e-3..0.15
	Hold         float64 // N, force at which the thread lets go, 1..1e5
}

// Input is a pack and its drop. The zone next to the base comes first: its
// wave loads the gate.
type Input struct {
	Height       float64 // m, 0.01..10
	Mass         float64 // kg, filled pack
	Liquid       Liquid
	LiquidHeight float64 // m, floor to liquid level
	Base         bottle.BaseKind
	Zones        []Zone
	Wall         []Piece  // the whole of it; nil: its energy is not judged
	Gate         *Gate    // nil: not judged
	Closure      *Closure // nil: not judged
	Conditions   []Condition
}

// AtZone is a zone in one condition.
type AtZone struct {
	Name       string
	WaveSpeed  float64 // m/s
	Hammer     float64 // Pa, full Joukowsky pressure
	Duration   float64 // s
	Static     float64 // Pa, hoop stress of the pressure in the pack
	Dynamic    float64 // Pa, hoop stress of the hammer, base factor included
	StrainRate float64 // 1/s
	Strength   float64 // Pa, yield at this temperature and rate
	Index      Index
}

// AtGate is the gate in one condition.
type AtGate struct {
	Static, Dynamic float64 // Pa; the base factor is in Dynamic
	StrainRate      float64 // 1/s
	Strength        float64 // Pa, with cold and viscosity
	Index           Index
}

// AtClosure is the closure in one condition: the hammer pressure of the body
// taken to reach the seal, as after a drop on the side. On the base the liquid
// has a free surface and much less arrives; upside down the floor presses the
// closure on.
type AtClosure struct {
	Lift  float64 // N
	Ratio float64 // lift over holding force; stays on below 1
	Label string  // always [Ranking]
}

// Worst names the place with the largest index.
type Worst struct {
	Condition, Place string
	Index            Index
}

// AtCondition is the pack in one condition.
type AtCondition struct {
	Condition
	Zones   []AtZone
	Gate    *AtGate
	Closure *AtClosure
}

// Result is the whole answer.
type Result struct {
	Speed      float64 // m/s at the floor
	Energy     float64 // J of the filled pack
	Capacity   float64 // J, elastic, of the whole wall; an upper bound, 0 where no wall is given
	Unconfined Peak    // for information
	BaseFactor cite.Datum
	Conditions []AtCondition
	Worst      Worst // of walls and gate
	Label      string
	Warnings   []string
}

// Assess returns the hammer pressure, the stresses and the indices of a
// dropped pack:
//
//	I = (sigma_static + k_b rho c v R/h) / (sigma_y f_rate f_T)
//
// for each zone, with the wave speed of its own wall, and for the gate with
// its gain in place of R/h and its ductility and viscosity in the strength.
// The strain rate is the strain of the hammer in the time L/c. All indices are
// estimates: ranking only. It refuses values outside the ranges at the fields,
// no zone, no condition, and names that stand twice.
func Assess(in Input) (Result, error) {
	v, err := Speed(in.Height)
	if err != nil {
		return Result{}, err
	}
	r := Result{Speed: v, Label: Ranking}
	if r.Energy, err = Energy(in.Mass, in.Height); err != nil {
		return Result{}, err
	}
	if r.BaseFactor, err = BaseFactor(in.Base); err != nil {
		return Result{}, err
	}
	if err := in.check(); err != nil {
		return Result{}, err
	}
	if r.Unconfined, err = UnconfinedPeak(in.Liquid, in.Zones[0].Radius, v); err != nil {
		return Result{}, err
	}
	for i, p := range in.Wall {
		u, err := Capacity(p.Yield, p.Modulus, p.Volume)
		if err != nil {
			return Result{}, fmt.Errorf("%w (piece %d of the wall)", err, i+1)
		}
		r.Capacity += u
	}
	for _, c := range in.Conditions {
		at, err := in.at(c, v, r.BaseFactor)
		if err != nil {
			return Result{}, err
		}
		r.Conditions = append(r.Conditions, at)
		r.consider(at)
	}
	r.Warnings = in.warnings(r)
	return r, nil
}

// consider keeps the largest index.
func (r *Result) consider(at AtCondition) {
	put := func(place string, i Index) {
		if r.Worst.Place == "" || i.Value > r.Worst.Index.Value {
			r.Worst = Worst{at.Name, place, i}
		}
	}
	for _, z := range at.Zones {
		put(z.Name, z.Index)
	}
	if at.Gate != nil {
		put("gate", at.Gate.Index)
	}
}

// at judges one condition.
func (in Input) at(c Condition, v float64, k cite.Datum) (AtCondition, error) {
	fail := func(err error) (AtCondition, error) {
		return AtCondition{}, fmt.Errorf("%w (%s)", err, c.Name)
	}
	if err := c.check(); err != nil {
		return AtCondition{}, err
	}
	modulus, err := atTemperature("modulus", c.Temperature)
	if err != nil {
		return fail(err)
	}
	yield, err := atTemperature("yield", c.Temperature)
	if err != nil {
		return fail(err)
	}
	ductility, err := atTemperature("ductility", c.Temperature)
	if err != nil {
		return fail(err)
	}
	p := float64(c.Pressure)
	out := AtCondition{Condition: c}
	var hammer float64 // largest
	for _, z := range in.Zones {
		z.Modulus *= modulus.value
		a := AtZone{Name: z.Name}
		if a.WaveSpeed, err = WaveSpeed(in.Liquid, z.Tube); err != nil {
			return AtCondition{}, fmt.Errorf("%w (zone %s)", err, z.Name)
		}
		if a.Hammer, err = Joukowsky(in.Liquid.Density, a.WaveSpeed, v); err != nil {
			return fail(err)
		}
		if a.Duration, err = Duration(in.LiquidHeight, a.WaveSpeed); err != nil {
			return fail(err)
		}
		gain := z.StaticGain
		if gain == 0 {
			gain = z.Radius / z.Wall
		}
		full := a.Hammer * z.Radius / z.Wall
		a.Static, a.Dynamic = p*gain, k.Value*full
		a.StrainRate = a.Dynamic / z.Modulus / (a.Duration / 4)
		strength := span{z.Yield, z.Yield, z.Yield}.times(rateFactor(a.StrainRate)).times(yield)
		a.Strength = strength.value
		a.Index = indexOf(a.Static, full, k, strength)
		out.Zones = append(out.Zones, a)
		hammer = max(hammer, a.Hammer)
	}
	if g := in.Gate; g != nil {
		first := out.Zones[0]
		a := AtGate{Static: g.Gain * p, Dynamic: g.Gain * k.Value * first.Hammer}
		a.StrainRate = a.Dynamic / (g.Modulus * modulus.value) / (first.Duration / 4)
		strength := span{g.Yield, g.Yield, g.Yield}.times(rateFactor(a.StrainRate)).times(yield).
			times(ductility).times(viscosityFactor(g.IntrinsicViscosity))
		a.Strength = strength.value
		a.Index = indexOf(a.Static, g.Gain*first.Hammer, k, strength)
		out.Gate = &a
	}
	if cl := in.Closure; cl != nil {
		f, err := Lift(unit.GaugePressure(p), hammer, cl.SealDiameter)
		if err != nil {
			return fail(err)
		}
		out.Closure = &AtClosure{Lift: f, Ratio: f / cl.Hold, Label: Ranking}
	}
	return out, nil
}

// check refuses what the formulas do not refuse themselves.
func (in Input) check() error {
	if len(in.Zones) == 0 {
		return fmt.Errorf("impact: no zone: give at least the wall next to the base")
	}
	if len(in.Conditions) == 0 {
		return fmt.Errorf("impact: no condition: give temperature and pressure of the drop")
	}
	var zones, states []string
	for _, z := range in.Zones {
		switch {
		case z.Name == "" || z.Name == "gate" || slices.Contains(zones, z.Name):
			return fmt.Errorf("impact: zone %q: want a name of its own, not \"gate\"", z.Name)
		case !(z.Yield >= 1e6 && z.Yield <= 1e9):
			return fmt.Errorf("impact: zone %s: yield stress ‹%g Pa› outside ‹1e6..1e9 Pa›", z.Name, z.Yield)
		case !(z.StaticGain >= 0 && z.StaticGain <= 1e4):
			return fmt.Errorf("impact: zone %s: static gain %g outside 0..1e4", z.Name, z.StaticGain)
		}
		if err := z.Tube.check(); err != nil {
			return fmt.Errorf("%w (zone %s)", err, z.Name)
		}
		zones = append(zones, z.Name)
	}
	for _, c := range in.Conditions {
		if c.Name == "" || slices.Contains(states, c.Name) {
			return fmt.Errorf("impact: condition %q: want a name of its own", c.Name)
		}
		states = append(states, c.Name)
	}
	if g := in.Gate; g != nil {
		switch {
		case !(g.Gain >= 0.1 && g.Gain <= 1e4):
			return fmt.Errorf("impact: gate: stress per pressure %g outside 0.1..1e4", g.Gain)
		case !(g.Modulus >= 1e6 && g.Modulus <= 3e11):
			return fmt.Errorf("impact: gate: modulus ‹%g Pa› outside ‹1e6..3e11 Pa›", g.Modulus)
		case !(g.Yield >= 1e6 && g.Yield <= 1e9):
			return fmt.Errorf("impact: gate: yield stress ‹%g Pa› outside ‹1e6..1e9 Pa›", g.Yield)
		case g.IntrinsicViscosity != 0 && !(g.IntrinsicViscosity >= 0.04 && g.IntrinsicViscosity <= 0.12):
			return fmt.Errorf("impact: gate: intrinsic viscosity %g m³/kg outside 0.04..0.12 m³/kg (0.4..1.2 dL/g)", g.IntrinsicViscosity)
		}
	}
	if c := in.Closure; c != nil && !(c.Hold >= 1 && c.Hold <= 1e5) {
		return fmt.Errorf("impact: closure: holding force ‹%g N› outside ‹1..1e5 N›", c.Hold)
	}
	return nil
}

// warnings names what the answer leaves out.
func (in Input) warnings(r Result) []string {
	out := []string{"the drop indices are estimates: they rank designs, they promise no height; set heights by an up-and-down test"}
	for _, z := range in.Zones {
		if z.Radius/z.Wall < thin {
			out = append(out, fmt.Sprintf("zone %s: radius over wall %.3g is below %d: the wave speed holds for thin walls", z.Name, z.Radius/z.Wall, thin))
		}
	}
	if in.Gate == nil {
		out = append(out, "the gate is not judged: give its stress per pressure")
	} else if in.Gate.IntrinsicViscosity == 0 {
		out = append(out, "gate: intrinsic viscosity not given; taken as high enough")
	}
	if r.Capacity > 0 && r.Energy > r.Capacity {
		out = append(out, "the drop brings "+unit.Quote(unit.Energy, r.Energy, 3, "J", "ft·lb")+", more than the "+unit.Quote(unit.Energy, r.Capacity, 3, "J", "ft·lb")+" the whole wall can take elastically, all of it at the yield of its hoop")
	}
	for _, c := range r.Conditions {
		if c.Closure != nil && c.Closure.Ratio >= 1 {
			out = append(out, c.Name+": the hammer pressure on the seal lifts with "+unit.Quote(unit.Force, c.Closure.Lift, 3)+", the closure holds "+unit.Quote(unit.Force, in.Closure.Hold, 3))
		}
	}
	return out
}
