package oven

import (
	"fmt"

	"costrel/num/root"
	"costrel/unit"
)

// Knob is what [Oven.Scale] turns.
type Knob string

// The knobs.
const (
	// Power turns the power of all lamps: filaments change temperature, and
	// with it the spectrum.
	Power Knob = "power"
	// Coupling turns how much of the light arrives: the unknown of a machine
	// whose lamps, reflectors and distances were not measured.
	Coupling Knob = "coupling"
)

// Scale finds the level or the coupling at which the preform comes to the
// mean temperature want over its mass below the ledge, within 0.05 K, and
// returns it with the result, judged as by [Oven.Run]. want lies 20 K above
// the inlet to 200 °C; it refuses when no value up to 10 gets there.
func (o *Oven) Scale(want unit.Temperature, knob Knob) (float64, *Result, error) {
	if !(want > o.setup.Inlet+20 && want.Celsius() <= 200) {
		return 0, nil, fmt.Errorf("oven: scale: mean temperature ‹%.4g °C› outside ‹%.4g..200 °C›", want.Celsius(), o.setup.Inlet.Celsius()+20)
	}
	var fail error
	var last *Result
	at := func(x float64) float64 {
		level, coupling := o.setup.Level, o.setup.Coupling
		switch knob {
		case Power:
			level = x
		case Coupling:
			coupling = x
		}
		r, err := o.solve(level, coupling)
		if err != nil {
			if fail == nil {
				fail = err
			}
			return 1e3 // too hot to compute
		}
		last = r
		return float64(r.Mean - want)
	}
	if knob != Power && knob != Coupling {
		return 0, nil, fmt.Errorf("oven: scale: knob %q is not %q or %q", knob, Power, Coupling)
	}
	start := 1.0
	d := at(start)
	if fail != nil {
		return 0, nil, fail
	}
	if !(last.Energy.Falls > 0) {
		return 0, nil, fmt.Errorf("oven: scale: the lamps as set heat nothing: turn zones, overall power, level and coupling up")
	}
	if rise := d + float64(want-o.setup.Inlet); rise > 1 {
		start = min(8, max(0.02, float64(want-o.setup.Inlet)/rise))
	}
	a, b, err := root.Expand(at, 0.85*start, min(10, 1.15*start), 1e-3, scaleMost)
	if err != nil {
		return 0, nil, o.outOfReach(want, knob, at)
	}
	x, err := root.Brent(at, a, b, 2e-4*start)
	if err != nil {
		return 0, nil, fmt.Errorf("oven: scale: %w", err)
	}
	fail = nil
	at(x)
	if fail != nil {
		return 0, nil, fail
	}
	if err := o.judge(last); err != nil {
		return x, nil, err
	}
	return x, last, nil
}

// scaleMost is the most that Scale turns a knob to.
const scaleMost = 10

// outOfReach says how far the lamps come.
func (o *Oven) outOfReach(want unit.Temperature, knob Knob, at func(float64) float64) error {
	what := map[Knob]string{Power: "power that is set", Coupling: "light computed"}[knob]
	load := 0.0
	for z := range o.setup.Zones {
		load += o.setup.Load(z) / float64(len(o.setup.Zones))
	}
	d := at(scaleMost)
	if d > 0 { // even the least is too much
		return fmt.Errorf("oven: lamps at %.1f %% of their rated power in the mean heat above ‹%.1f °C›, even with a thousandth of the %s: lower power or heating time", 100*load, want.Celsius(), what)
	}
	return fmt.Errorf("oven: lamps at %.1f %% of their rated power in the mean bring the preform to ‹%.0f °C› in %.1f s even with %d times the %s, ‹%.1f °C› are wanted: raise overall power, zones or heating time", 100*load, want.Celsius()+d, o.setup.HeatTime, scaleMost, what, want.Celsius())
}

// coupling that lamp data explain; further off they are not those of the
// machine. Chosen for this project.
const couplingLow, couplingHigh = 0.6, 1.6

// CouplingWarning says what a coupling far from 1 means; empty when it is near.
func CouplingWarning(coupling float64) string {
	if coupling >= couplingLow && coupling <= couplingHigh {
		return ""
	}
	return fmt.Sprintf("oven: the preform temperature needs %.2f times the light that power and lamp data give (%.1f to %.1f is near): power, lamp data or temperature are not those of this machine, so the spectrum and with it skin and core are uncertain", coupling, couplingLow, couplingHigh)
}
