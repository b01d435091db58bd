package capping

import (
	"fmt"
	"math"

	"costrel/physics/closure"
	"costrel/physics/finish"
)

// Thread is what the torque of a screw closure depends on.
type Thread struct {
	Diameter     float64 // m, mean of the thread
	Lead         float64 // m, rise in one turn
	Flank        float64 // rad, loaded flank from the plane across the axis
	Friction     float64 // thread on finish
	SealFriction float64 // seal on land
	SealRadius   float64 // m, lever of the seal friction
}

// NewThread returns the thread of a closure on a finish: geometry of the
// finish, friction of the closure, seal friction at the mean radius of the
// land. It refuses a closure that does not fit.
func NewThread(f finish.Finish, c closure.Closure) (Thread, error) {
	if err := c.Fits(f.ThreadOD, f.Pitch, f.Starts); err != nil {
		return Thread{}, fmt.Errorf("capping: %s: %w", f.Name, err)
	}
	t := Thread{
		Diameter: f.MeanThread(), Lead: f.Lead(), Flank: f.Flank,
		Friction: c.ThreadFriction, SealFriction: c.SealFriction, SealRadius: f.LandRadius(),
	}
	if err := t.check(); err != nil {
		return Thread{}, err
	}
	return t, nil
}

// Helix returns the lead angle [rad], atan(lead/(pi d)).
func (t Thread) Helix() float64 { return math.Atan(t.Lead / (math.Pi * t.Diameter)) }

// FrictionAngle returns the friction angle of the thread [rad],
// atan(mu/cos flank).
func (t Thread) FrictionAngle() float64 { return math.Atan(t.Friction / math.Cos(t.Flank)) }

// SelfLocking reports whether the thread alone holds against an axial force:
// the friction angle is above the lead angle. A thread that is not opens under
// pressure once the seal friction is gone.
func (t Thread) SelfLocking() bool { return t.FrictionAngle() > t.Helix() }

// ApplicationLever returns torque over axial force while the closure is turned
// on [m]:
//
//	T_a/F = d/2 tan(phi + lambda) + mu_s r_s
//
// Source: Shigley1989, power screws.
func (t Thread) ApplicationLever() (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	return t.Diameter/2*math.Tan(t.FrictionAngle()+t.Helix()) + t.SealFriction*t.SealRadius, nil
}

// RemovalLever returns torque over axial force while the closure is turned off
// without pressure [m]:
//
//	T_r/F = d/2 tan(phi - lambda) + mu_s r_s
//
// Negative where the closure would turn off by itself.
func (t Thread) RemovalLever() (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	return t.Diameter/2*math.Tan(t.FrictionAngle()-t.Helix()) + t.SealFriction*t.SealRadius, nil
}

// Application returns the torque [N·m] that puts the force [N] on the seal;
// band is the torque lost to the tamper band [N·m].
func (t Thread) Application(force, band float64) (float64, error) {
	l, err := t.ApplicationLever()
	if err != nil {
		return 0, err
	}
	if err := notNegative("application", "force", force, "torque of the band", band); err != nil {
		return 0, err
	}
	return force*l + band, nil
}

// SealForce returns the force on the seal [N] that an application torque
// [N·m] gives; band is the torque lost to the tamper band [N·m]. A torque that
// does not exceed it gives no force.
func (t Thread) SealForce(torque, band float64) (float64, error) {
	l, err := t.ApplicationLever()
	if err != nil {
		return 0, err
	}
	if err := notNegative("seal force", "torque", torque, "torque of the band", band); err != nil {
		return 0, err
	}
	return max(0, torque-band) / l, nil
}

// Removal returns the torque to start turning the closure off [N·m]:
//
//	T_r = F_t d/2 tan(phi - lambda) + F_s mu_s r_s + plug
//
// seal is the force on the seal F_s, thread the force on the thread F_t [N]
// (equal without pressure, F_t = F_s + lift under it), plug the torque to
// break a plug loose [N·m]. The bridges of the band break later and are not in
// it. A negative answer means that the closure turns off by itself.
func (t Thread) Removal(seal, thread, plug float64) (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	if err := notNegative("removal", "seal force", seal, "thread force", thread, "torque of the plug", plug); err != nil {
		return 0, err
	}
	return thread*t.Diameter/2*math.Tan(t.FrictionAngle()-t.Helix()) + seal*t.SealFriction*t.SealRadius + plug, nil
}

func (t Thread) check() error {
	switch {
	case !(t.Diameter >= diameterLow && t.Diameter <= diameterHigh):
		return fmt.Errorf("capping: thread: diameter ‹%g m› outside ‹%g..%g m›", t.Diameter, diameterLow, diameterHigh)
	case !(t.Lead > 0 && t.Lead <= t.Diameter):
		return fmt.Errorf("capping: thread: lead ‹%g m› outside ‹0..%g m›", t.Lead, t.Diameter)
	case !(t.Flank >= 0 && t.Flank < math.Pi/3):
		return fmt.Errorf("capping: thread: flank %g rad outside 0..%.3f rad", t.Flank, math.Pi/3)
	case !(t.Friction > 0 && t.Friction <= 0.8):
		return fmt.Errorf("capping: thread: friction %g outside 0..0.8", t.Friction)
	case !(t.SealFriction >= 0 && t.SealFriction <= 0.8):
		return fmt.Errorf("capping: thread: seal friction %g outside 0..0.8", t.SealFriction)
	case !(t.SealRadius >= 0 && t.SealRadius <= t.Diameter):
		return fmt.Errorf("capping: thread: seal radius ‹%g m› outside ‹0..%g m›", t.SealRadius, t.Diameter)
	}
	return nil
}

// notNegative takes pairs of name and value.
func notNegative(op string, pairs ...any) error {
	for i := 0; i < len(pairs); i += 2 {
		if v := pairs[i+1].(float64); !(v >= 0) || math.IsInf(v, 0) {
			return fmt.Errorf("capping: %s: %s %g is not a finite value >= 0", op, pairs[i], v)
		}
	}
	return nil
}
