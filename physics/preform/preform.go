package preform

import (
	"errors"
	"fmt"
	"math"
)

// Cap says how the wall runs in the end cap, a hemisphere of the mid radius of
// the body.
type Cap string

// The models of the end cap.
const (
	// CapUniform has the gate wall everywhere: the hand calculation of the
	// trade. The wall steps to that of the body where the cylinder begins.
	CapUniform Cap = "uniform"
	// CapTapered grows from the gate wall on the axis to the body wall at the
	// cylinder, in proportion to the angle.
	CapTapered Cap = "tapered"
)

// Transition is the tapered part between body and ledge. Zero length is none.
type Transition struct {
	Length        float64 // along the axis [m]
	LedgeWall     float64 // wall at the ledge [m]; 0: that of the body
	LedgeDiameter float64 // inner diameter at the ledge [m]; 0: that of the body
}

// Spec is what describes a preform. Lengths in m.
type Spec struct {
	InnerDiameter float64
	Wall          float64 // of the body
	BodyLength    float64 // of the cylinder below the ledge (or below the transition)
	GateWall      float64
	Cap           Cap // empty is CapUniform
	Transition    Transition
	FinishMass    float64 // with the ledge [kg]
	Density       float64 // amorphous, solid [kg/m³]
}

// Preform is a preform of revolution. Build it with [New]; it is immutable.
type Preform struct {
	spec               Spec
	rMid               float64 // mid radius of the body
	sCap, sBody, sAll  float64 // arc lengths where cap, body and transition end
	mCap, mBody, below float64 // masses up to there [kg]
	slope              float64 // of the transition: mid-line arc over axial length
}

// New builds a preform. It fails on dimensions that are not positive and
// finite, and on a gate wall thicker than the hollow it closes; every fault is
// reported.
func New(spec Spec) (*Preform, error) {
	var faults []error
	fault := func(format string, args ...any) { faults = append(faults, fmt.Errorf("preform: "+format, args...)) }
	check := func(name, unit string, v float64, zero bool) {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			fault("%s %v: want a number", name, v)
		case v < 0 || (v == 0 && !zero):
			fault("%s %v %s: want a positive value", name, v, unit)
		}
	}
	check("inner diameter", "m", spec.InnerDiameter, false)
	check("wall", "m", spec.Wall, false)
	check("body length", "m", spec.BodyLength, false)
	check("gate wall", "m", spec.GateWall, false)
	check("finish mass", "kg", spec.FinishMass, true)
	check("density", "kg/m³", spec.Density, false)
	check("transition length", "m", spec.Transition.Length, true)
	check("wall at the ledge", "m", spec.Transition.LedgeWall, true)
	check("inner diameter at the ledge", "m", spec.Transition.LedgeDiameter, true)
	switch spec.Cap {
	case "":
		spec.Cap = CapUniform
	case CapUniform, CapTapered:
	default:
		fault("end cap %q is not uniform or tapered", spec.Cap)
	}
	if faults != nil {
		return nil, errors.Join(faults...)
	}
	t := &spec.Transition
	if t.Length == 0 && (t.LedgeWall != 0 || t.LedgeDiameter != 0) {
		return nil, fmt.Errorf("preform: wall or diameter at the ledge without a transition: give the transition a length")
	}
	if t.LedgeWall == 0 {
		t.LedgeWall = spec.Wall
	}
	if t.LedgeDiameter == 0 {
		t.LedgeDiameter = spec.InnerDiameter
	}
	p := &Preform{spec: spec, rMid: (spec.InnerDiameter + spec.Wall) / 2}
	if spec.GateWall >= 2*p.rMid {
		return nil, fmt.Errorf("preform: gate wall ‹%.4g mm› fills the end cap of mid radius ‹%.4g mm›: make it thinner", spec.GateWall*1e3, p.rMid*1e3)
	}
	p.sCap = math.Pi / 2 * p.rMid
	p.sBody = p.sCap + spec.BodyLength
	p.sAll = p.sBody
	p.slope = 1
	if t.Length > 0 {
		dr := (t.LedgeDiameter+t.LedgeWall)/2 - p.rMid
		p.slope = math.Hypot(t.Length, dr) / t.Length
		p.sAll += math.Hypot(t.Length, dr)
	}
	p.mCap = p.capMass(math.Pi / 2)
	p.mBody = p.mCap + spec.BodyLength*p.tubeRate(0)
	p.below = p.mBody + p.transitionMass(1)
	return p, nil
}

// Spec returns the description the preform was built from, with the transition
// filled in.
func (p *Preform) Spec() Spec { return p.spec }

// Mass returns the mass with the finish [kg].
func (p *Preform) Mass() float64 { return p.below + p.spec.FinishMass }

// MassBelowLedge returns the mass that is stretched [kg].
func (p *Preform) MassBelowLedge() float64 { return p.below }

// CapMass, BodyMass and TransitionMass return the mass of the parts below the
// ledge [kg].
func (p *Preform) CapMass() float64 { return p.mCap }

// BodyMass returns the mass of the cylinder [kg].
func (p *Preform) BodyMass() float64 { return p.mBody - p.mCap }

// TransitionMass returns the mass between body and ledge [kg].
func (p *Preform) TransitionMass() float64 { return p.below - p.mBody }

// VolumeBelowLedge returns the volume of PET below the ledge [m³].
func (p *Preform) VolumeBelowLedge() float64 { return p.below / p.spec.Density }

// OuterDiameter returns the outer diameter of the body [m].
func (p *Preform) OuterDiameter() float64 { return p.spec.InnerDiameter + 2*p.spec.Wall }

// MidRadius returns the mid radius of the body [m].
func (p *Preform) MidRadius() float64 { return p.rMid }

// ArcLength returns the length of the mid-line from gate to ledge [m].
func (p *Preform) ArcLength() float64 { return p.sAll }

// CapArc returns the part of ArcLength that lies in the end cap [m].
func (p *Preform) CapArc() float64 { return p.sCap }

// LengthBelowLedge returns the axial length from the ledge to the outside of
// the gate [m].
func (p *Preform) LengthBelowLedge() float64 {
	return p.spec.Transition.Length + p.spec.BodyLength + p.rMid + p.spec.GateWall/2
}
