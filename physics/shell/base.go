package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// PushUpInput is a base under pressure and time: the history of [Grow].
type PushUpInput struct {
	GrowInput
	// Feet of a petaloid base: its sag is that of the round base times the foot
	// factor of the data card. 0 feet is a round base.
	Feet int
	// Share of the circle that the valleys between the feet take, 0..1. With the
	// Edge of the bottle given, the feet are taken to hang from there, and the
	// gate sags as the round dome does times 1/√Share: between the dome, 1, and
	// bare straps that carry the pressure on the whole base, 1/Share.
	Share float64
}

// PushUpResult is the clearance of the gate above the plane it stands on.
type PushUpResult struct {
	Start    float64 // before pressure, outside [m]
	AtOnce   float64 // under pressure [m]
	End      float64 // after the history [m]
	Loss     float64 // Start - End, with the foot factor [m]
	Factor   float64 // foot factor used, with its range
	Low      float64
	High     float64
	Sag      float64 // End sag of the round base, before the factor [m]
	Rocks    bool    // the gate touches
	Mesh     Estimate
	Warnings []string
}

// PushUp returns how much clearance the gate keeps. With feet it is an
// estimate: the round base with the same wall, times a factor.
func PushUp(in PushUpInput) (PushUpResult, error) {
	if _, err := in.Sag(GrowResult{}); err != nil {
		return PushUpResult{}, err
	}
	r, err := Grow(in.GrowInput)
	if err != nil {
		return PushUpResult{}, err
	}
	return in.Sag(r)
}

// Sag returns the same from a history that was followed before.
func (in *PushUpInput) Sag(r GrowResult) (PushUpResult, error) {
	var out PushUpResult
	p, err := in.prepare(1)
	if err != nil {
		return out, err
	}
	if p.mesh.R[0] > 1e-9 || p.ring == 0 {
		return out, fmt.Errorf("shell: base: the gate is not above a standing ring (ring at r ‹%.2f mm›): there is no clearance to keep", 1e3*p.mesh.R[p.ring])
	}
	gate := p.mesh.Z[0] + 0.5*p.mesh.T[0]*p.mesh.NZ[0]
	ring := p.mesh.Z[p.ring] + 0.5*p.mesh.T[p.ring]*p.mesh.NZ[p.ring]
	out.Start, out.Factor, out.Low, out.High, out.Mesh, out.Warnings = gate-ring+p.shift, 1, 1, 1, r.Mesh, r.Warnings
	atOnce := out.Start - r.AtOnce.Clearance
	out.Sag = out.Start - r.Read.Clearance
	if in.Feet > 0 {
		d := datum("base", "foot.factor")
		out.Factor, out.Low, out.High = d.Value, d.Low, d.High
		if p.edge > 0 && in.Share > 0 && in.Share <= 1 {
			out.Factor, out.Low, out.High = 1/math.Sqrt(in.Share), 1, 1/in.Share
			atOnce, out.Sag = r.AtOnce.Sag, r.Read.Sag
		}
		out.Warnings = append(out.Warnings, fmt.Sprintf("estimate: %d feet as a round base times %.2f (%.2f..%.2f)", in.Feet, out.Factor, out.Low, out.High))
	}
	out.AtOnce = out.Start - out.Factor*atOnce
	out.End = out.Start - out.Factor*out.Sag
	out.Loss = out.Start - out.End
	out.Rocks = out.End <= 0
	if out.Rocks {
		out.Warnings = append(out.Warnings, "rocker: the gate is "+unit.Quote(unit.Length, -out.End, 3)+" below the ring")
	}
	return out, nil
}

// RollOutInput is a base under growing pressure.
type RollOutInput struct {
	Bottle
	Soft    float64
	Largest float64 // gauge pressure to stop at [Pa]; 0 for 15 bar
	Steps   int     // of the arc, at most; 0 for 150
}

// RollOutPoint is one state on the path.
type RollOutPoint struct {
	Pressure  float64 // gauge [Pa]
	Clearance float64 // of the gate above the ring, outside [m]
	Unstable  int     // negative pivots of the tangent
}

// RollOutResult is the path of a base that may snap out.
type RollOutResult struct {
	Snaps    bool
	Snap     float64 // pressure of the first limit point [Pa]
	Clear    float64 // clearance there [m]
	Touch    float64 // pressure at which the gate comes down to the ring [Pa]; 0 if it does not
	Down     bool    // it does so while the pressure still rises, before any snap
	Path     []RollOutPoint
	Mesh     Estimate // of the first of Touch and Snap, or of the largest pressure reached
	Warnings []string
}

// RollOut follows the base under pressure by arc length, through the limit
// point at which a push-up rolls out, until it carries more than that again,
// the largest pressure or the number of steps is reached.
func RollOut(in RollOutInput) (RollOutResult, error) {
	if in.Largest == 0 {
		in.Largest = 1.5e6
	}
	if in.Steps == 0 {
		in.Steps = 150
	}
	if !(in.Largest > 0 && in.Largest <= 1e8) || in.Steps < 10 || in.Steps > 5000 {
		return RollOutResult{}, fmt.Errorf("shell: roll-out: largest pressure ‹%g Pa›, %d steps", in.Largest, in.Steps)
	}
	var out RollOutResult
	first := true
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.roll(p)
		if first {
			out, first = r, false
		}
		switch {
		case r.Down:
			return r.Touch, err
		case !r.Snaps && len(r.Path) > 0:
			return r.Path[len(r.Path)-1].Pressure, err
		}
		return r.Snap, err
	})
	out.Mesh = mesh
	return out, err
}

// clearance returns the height of the gate above the ring, outside, as it is.
func (m *Model) clearance(p *prepared) float64 {
	_, gate := m.outer(0)
	_, ring := m.outer(p.ring)
	return gate - ring + p.shift
}

func (in *RollOutInput) roll(p *prepared) (RollOutResult, error) {
	out := RollOutResult{Warnings: p.warn}
	if p.mesh.R[0] > 1e-9 || p.ring == 0 {
		return out, fmt.Errorf("shell: roll-out: no gate above a standing ring (profile from r ‹%.2f mm›, ring at r ‹%.2f mm›)", 1e3*p.mesh.R[0], 1e3*p.mesh.R[p.ring])
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Soft: in.Soft, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		return out, err
	}
	most := widestArc
	m.begin(most)
	clearance := func() float64 { return m.clearance(p) }
	out.Path = append(out.Path, RollOutPoint{Clearance: clearance()})
	m.flow.dt, m.flow.rate, m.flow.soft = 0, 1, m.cs.Soft
	states := []*memory{m.keep()} // of the path, up to the limit
	for range in.Steps {
		neg, err := m.arcStep()
		if err != nil {
			out.Warnings = append(out.Warnings, fmt.Sprintf("the path is lost beyond %s, the last good load: %v", unit.Quote(unit.PressureGauge, m.p, 3), err))
			break
		}
		q := RollOutPoint{m.p, clearance(), neg}
		n := len(out.Path)
		prev := out.Path[n-1]
		falls := !out.Snaps && q.Pressure < prev.Pressure
		if falls && n > 1 && most > finestArc {
			// The limit lies about the last state: on from the one before, in shorter steps.
			if out.Path[n-2].Clearance > 0 && prev.Clearance <= 0 {
				out.Touch, out.Down = 0, false
			}
			m.back(states[n-2])
			states, out.Path, most = states[:n-1], out.Path[:n-1], finestArc
			m.begin(most)
			m.arc.Radius = m.arc.Max
			continue
		}
		out.Path = append(out.Path, q)
		if !out.Snaps {
			states = append(states, m.keep())
		}
		if out.Touch == 0 && prev.Clearance > 0 && q.Clearance <= 0 {
			x := prev.Clearance / (prev.Clearance - q.Clearance)
			out.Touch = prev.Pressure + x*(q.Pressure-prev.Pressure)
			out.Down = !out.Snaps && q.Pressure >= prev.Pressure
		}
		if falls {
			out.Snaps, out.Snap, out.Clear = true, prev.Pressure, prev.Clearance
			if n > 1 {
				a := out.Path[n-2]
				_, top := parabola(-a.Clearance, a.Pressure, -prev.Clearance, prev.Pressure, -q.Clearance, q.Pressure)
				out.Snap = math.Max(out.Snap, top)
			}
			m.arc.Max *= widestArc / most
		}
		if q.Pressure >= in.Largest || (out.Snaps && neg == 0 && q.Pressure > out.Snap) {
			break
		}
	}
	if len(out.Path) < 2 {
		return out, fmt.Errorf("shell: roll-out: no first step; last good load ‹0 bar›: %w", ErrNoConvergence)
	}
	return out, nil
}

// GateDisc returns the stress [Pa] at edge and middle of the amorphous disc of
// the gate as a clamped plate of radius a and thickness t under p, and the
// larger one.
//
//	edge 3/4 p (a/t)²   middle 3/8 (1+ν) p (a/t)²
//
// An estimate: the disc is no plate and its edge gives way.
// Source: Timoshenko1959 (from memory).
func GateDisc(p, a, t, nu float64) (edge, middle, largest float64, err error) {
	if !(a > 0 && a < 0.1) || !(t > 1e-5 && t < 0.05) || bad(p) || !(nu >= 0 && nu < 0.5) {
		return 0, 0, 0, fmt.Errorf("shell: gate: pressure ‹%g Pa›, radius ‹%g m›, thickness ‹%g m›, ν %g", p, a, t, nu)
	}
	s := p * (a / t) * (a / t)
	edge, middle = 0.75*s, 0.375*(1+nu)*s
	return edge, middle, math.Max(math.Abs(edge), math.Abs(middle)), nil
}

// Strap returns the stress [Pa] of the straps between the feet of a petaloid
// base, with its low and high: the sphere of the body's radius times the
// factor of the data card. An estimate.
func Strap(p, r, t float64) (stress, low, high float64, err error) {
	if !(r > 0 && r < 1) || !(t > 1e-5 && t < 0.05) || bad(p) {
		return 0, 0, 0, fmt.Errorf("shell: strap: pressure ‹%g Pa›, radius ‹%g m›, thickness ‹%g m›", p, r, t)
	}
	d := datum("base", "strap.factor")
	s := p * r / (2 * t)
	return s * d.Value, s * d.Low, s * d.High, nil
}

// CrackIndex ranks bases by stress cracking in caustic: stress over the
// threshold of the amorphous zone. Above 1 cracks are to be expected sooner,
// below later: a ranking, no life. low and high follow the threshold's range.
func CrackIndex(stress float64) (index, low, high float64, err error) {
	if !(stress >= 0) || math.IsInf(stress, 0) {
		return 0, 0, 0, fmt.Errorf("shell: stress cracking: stress ‹%g Pa› must be 0 or above", stress)
	}
	d := datum("base", "crack.threshold")
	return stress / d.Value, stress / d.High, stress / d.Low, nil
}
