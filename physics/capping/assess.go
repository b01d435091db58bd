package capping

import (
	"fmt"
	"slices"
	"strings"

	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/unit"
)

// State is a pressure the closed pack has to stand.
type State struct {
	Name      string
	Pressure  unit.GaugePressure
	TopWeight float64 // N on the closure
}

// TestStates returns the pressures of the closure test: carbonated 690 kPa
// tight and 1207 kPa without coming off, still 200 and 350 kPa. Source:
// GBT17876.
func TestStates(carbonated bool) []State {
	if carbonated {
		return []State{{Name: "pressure hold", Pressure: 690e3}, {Name: "blow-off", Pressure: 1207e3}}
	}
	return []State{{Name: "pressure hold", Pressure: 200e3}, {Name: "blow-off", Pressure: 350e3}}
}

// Input is a closure put on a finish with a torque, and what it has to stand.
type Input struct {
	Finish  finish.Finish
	Closure closure.Closure
	Torque  float64 // N·m, application
	States  []State
	Opening unit.GaugePressure // in the pack when it is opened
}

// AtState is how the relaxed closure stands in one state.
type AtState struct {
	State
	Balance
	Removal float64 // N·m, to start turning it off
	Hold    float64 // thread holding force over force on the thread; 0 where the thread is slack
}

// Result is the whole answer for a closure on a finish.
type Result struct {
	Thread  Thread
	Torque  float64 // N·m, application
	Preload float64 // N on the seal, fresh
	Relaxed float64 // N on the seal, after relaxation
	Removal float64 // N·m, relaxed, no pressure
	Ratio   float64 // Removal/Torque

	StripTorque  float64 // N·m, application torque at which the thread lets go
	BridgeTorque float64 // N·m; 0 without band
	Holding      float64 // N, thread fully engaged

	LeakPressure  unit.GaugePressure // relaxed
	Leaks         bool               // false: lift alone does not open the seal below 50 bar(g)
	LetGoPressure unit.GaugePressure // relaxed

	States   []AtState
	Opening  Opening
	Warnings []string
}

// Assess returns how a closure holds on a finish. Forces under pressure are
// those of the relaxed closure, by the card's share that is left. It refuses a
// closure that does not fit and a torque outside 0..10 N·m.
func Assess(in Input) (Result, error) {
	t, err := NewThread(in.Finish, in.Closure)
	if err != nil {
		return Result{}, err
	}
	if !(in.Torque > 0 && in.Torque <= 10) {
		return Result{}, fmt.Errorf("capping: %s: application torque ‹%g N·m› outside ‹0..10 N·m›", in.Closure.Name, in.Torque)
	}
	c, f := in.Closure, in.Finish
	r := Result{Thread: t, Torque: in.Torque}
	if r.Preload, err = t.SealForce(in.Torque, c.BandDrag); err != nil {
		return Result{}, err
	}
	r.Relaxed = c.ForceRetained * r.Preload
	if r.Removal, err = t.Removal(r.Relaxed, r.Relaxed, c.PlugDrag); err != nil {
		return Result{}, err
	}
	r.Ratio = r.Removal / r.Torque
	if r.Holding, err = HoldingForce(f, c.HoldingStress, f.Turns()); err != nil {
		return Result{}, err
	}
	if r.StripTorque, err = t.Application(r.Holding, c.BandDrag); err != nil {
		return Result{}, err
	}
	if r.BridgeTorque, err = BridgeTorque(c.Bridges, c.BridgeArea, c.BridgeShear, c.BandRadius); err != nil {
		return Result{}, err
	}
	j := Joint{Preload: r.Relaxed, Share: c.SealShare, Min: c.SealForceMin, Diameter: c.SealOD}
	if r.LeakPressure, r.Leaks, err = j.LeakPressure(); err != nil {
		return Result{}, err
	}
	if r.LetGoPressure, err = j.LetGoPressure(r.Holding); err != nil {
		return Result{}, err
	}
	for _, s := range in.States {
		a := AtState{State: s}
		if a.Balance, err = j.At(s.Pressure, s.TopWeight); err != nil {
			return Result{}, fmt.Errorf("%w (%s)", err, s.Name)
		}
		if a.Removal, err = t.Removal(a.Seal, a.Balance.Thread, c.PlugDrag); err != nil {
			return Result{}, err
		}
		if a.Balance.Thread > 0 {
			a.Hold = r.Holding / a.Balance.Thread
		}
		r.States = append(r.States, a)
	}
	if r.Opening, err = Open(f, c, in.Opening); err != nil {
		return Result{}, err
	}
	r.warn(in)
	return r, nil
}

func (r *Result) warn(in Input) {
	c, f := in.Closure, in.Finish
	add := func(format string, args ...any) { r.Warnings = append(r.Warnings, fmt.Sprintf(format, args...)) }
	if w := c.Application; r.Torque < w.Low || r.Torque > w.High {
		add("application torque ‹%.2f N·m› outside the window ‹%.2f to %.2f N·m›", r.Torque, w.Low, w.High)
	}
	if w := c.Removal; r.Removal < w.Low || r.Removal > w.High {
		add("removal torque ‹%.2f N·m› outside the window ‹%.2f to %.2f N·m›", r.Removal, w.Low, w.High)
	}
	if r.StripTorque < 2*r.Torque {
		add("strip torque ‹%.2f N·m› below twice the application torque of ‹%.2f N·m›", r.StripTorque, r.Torque)
	}
	if !r.Thread.SelfLocking() {
		add("lead angle %.1f° above the friction angle %.1f°: only the seal keeps the closure from turning off", deg(r.Thread.Helix()), deg(r.Thread.FrictionAngle()))
	}
	pressurised := in.Opening > 0
	for _, s := range r.States {
		pressurised = pressurised || s.Pressure > 0
		at := fmt.Sprintf("%s, ‹%.2f bar(g)›", s.Name, float64(s.Pressure)/1e5)
		switch {
		case s.Hold > 0 && s.Hold < 1:
			add("%s: force on the thread ‹%.0f N› above the ‹%.0f N› it holds: the closure comes off", at, s.Balance.Thread, r.Holding)
		case s.Lifted:
			add("%s: the closure has left its seal", at)
		case s.Margin < 0:
			add("%s: seal force ‹%.0f N› below the ‹%.0f N› it needs: it may leak", at, s.Seal, c.SealForceMin)
		}
		if s.Removal < 0 {
			add("%s: the closure turns off by itself", at)
		}
		if s.TopWeight > topTest {
			add("%s: top weight ‹%.0f N› above the ‹%.0f N› of the usual closure test", at, s.TopWeight, topTest)
		}
	}
	r.Warnings = append(r.Warnings, r.Opening.Warnings...)
	if pressurised && f.VentSlots == 0 {
		add("finish %s has no vent slots known: gas cannot leave before the thread ends", f.Name)
	}
	if pressurised && c.Plug {
		add("the plug seals by pressing outward and gas helps it: leak by axial force is a cautious reading")
	}
	if low := lowUsed(c.LowConfidence(), closureKeys()); low != "" {
		add("low-confidence values of closure %s: %s", c.Name, low)
	}
	if low := lowUsed(f.LowConfidence(), finishKeys()); low != "" {
		add("low-confidence values of finish %s: %s", f.Name, low)
	}
}

// closureKeys are the keys of a closure whose values enter an answer of Assess.
func closureKeys() []string {
	return []string{
		"seal_od", "friction_thread", "friction_seal", "application_torque", "removal_torque", "force_retained", "seal_share",
		"seal_force_min", "seal_travel", "band_travel", "bridges", "bridge_area", "bridge_shear", "band_radius", "band_drag", "plug_drag",
		"holding_stress",
	}
}

// finishKeys are the keys of a finish whose values enter an answer of Assess.
func finishKeys() []string {
	return []string{"thread_od", "thread_root", "bore", "lip_od", "pitch", "travel", "flank", "vent_slots", "vent_width"}
}

func lowUsed(low, used []string) string {
	var out []string
	for _, k := range low {
		if slices.Contains(used, k) {
			out = append(out, k)
		}
	}
	return strings.Join(out, ", ")
}
