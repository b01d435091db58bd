package capping

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Joint is a closed closure as a bolted joint: the shell is the bolt, the seal
// is what it clamps.
type Joint struct {
	Preload  float64 // N on the seal, no pressure
	Share    float64 // k_seal/(k_seal + k_shell), in 0..1
	Min      float64 // N on the seal, to stay tight
	Diameter float64 // m, that the gas presses on
}

// SealShare returns the share of the lift force that the seal loses, from the
// axial stiffness of seal and shell [N/m]:
//
//	s = k_seal/(k_seal + k_shell)
//
// A soft seal under a stiff shell follows the lift and loses little. Source:
// Shigley1989, bolted joints.
func SealShare(seal, shell float64) (float64, error) {
	if err := notNegative("joint", "seal stiffness", seal, "shell stiffness", shell); err != nil {
		return 0, err
	}
	if sum := seal + shell; sum == 0 || math.IsInf(sum, 0) {
		return 0, fmt.Errorf("capping: joint: stiffness %g and %g N/m give no share", seal, shell)
	}
	return seal / (seal + shell), nil
}

// Balance is how the forces stand at one pressure. All in N.
type Balance struct {
	Lift   float64 // of the gas; negative under vacuum
	Seal   float64 // on the seal
	Thread float64 // on the thread
	Margin float64 // Seal less the force needed to stay tight
	Lifted bool    // the closure has left its seal
	Slack  bool    // the thread carries nothing
}

// At returns the forces at a gauge pressure with a weight on top of the
// closure [N]:
//
//	F_s = F_0 - s (F_p - W)        F_t = F_s + F_p - W
//
// with F_s and F_t never below 0: a closure that has left its seal hangs on
// the thread alone, and one pressed down hard carries the weight on its seal
// alone.
func (j Joint) At(p unit.GaugePressure, top float64) (Balance, error) {
	if err := j.check(); err != nil {
		return Balance{}, err
	}
	if err := notNegative("joint", "top weight", top); err != nil {
		return Balance{}, err
	}
	lift, err := Lift(p, j.Diameter)
	if err != nil {
		return Balance{}, err
	}
	b := Balance{Lift: lift}
	net := lift - top
	b.Seal = j.Preload - j.Share*net
	b.Thread = b.Seal + net
	switch {
	case b.Seal <= 0 && net > 0:
		b.Seal, b.Thread, b.Lifted = 0, net, true
	case b.Thread <= 0:
		b.Seal, b.Thread, b.Slack = max(0, -net), 0, true
	}
	b.Margin = b.Seal - j.Min
	return b, nil
}

// LeakPressure returns the gauge pressure at which the seal force has fallen
// to what it needs to stay tight, without top weight:
//
//	p = (F_0 - F_min)/(s A)
//
// never below 0. ok is false where the seal loses nothing (s = 0), so that
// lift alone never opens it.
func (j Joint) LeakPressure() (p unit.GaugePressure, ok bool, err error) {
	if err := j.check(); err != nil {
		return 0, false, err
	}
	a, err := sealArea(j.Diameter)
	if err != nil {
		return 0, false, err
	}
	if j.Preload <= j.Min {
		return 0, true, nil
	}
	leak := (j.Preload - j.Min) / (j.Share * a)
	if math.IsInf(leak, 0) || unit.GaugePressure(leak) > pressureHigh {
		return 0, false, nil
	}
	return unit.GaugePressure(leak), true, nil
}

// LetGoPressure returns the gauge pressure at which the force on the thread
// reaches what the thread can hold [N]; 0 where turning the closure on already
// does.
func (j Joint) LetGoPressure(holding float64) (unit.GaugePressure, error) {
	if err := j.check(); err != nil {
		return 0, err
	}
	if err := notNegative("joint", "holding force", holding); err != nil {
		return 0, err
	}
	a, err := sealArea(j.Diameter)
	if err != nil {
		return 0, err
	}
	if holding <= j.Preload {
		return 0, nil
	}
	p := holding / a // hanging on the thread alone
	if j.Share < 1 {
		if q := (holding - j.Preload) / ((1 - j.Share) * a); j.Preload-j.Share*q*a > 0 {
			p = q // still on its seal
		}
	}
	return unit.GaugePressure(p), nil
}

func (j Joint) check() error {
	if err := notNegative("joint", "preload", j.Preload, "least seal force", j.Min); err != nil {
		return err
	}
	if !(j.Share >= 0 && j.Share <= 1) {
		return fmt.Errorf("capping: joint: seal share %g outside 0..1", j.Share)
	}
	return nil
}
