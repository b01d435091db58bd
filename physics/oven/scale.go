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
		return 0, nil, fmt.Errorf("oven: scale: mean temperature %.4g °C outside %.4g..200 °C", want.Celsius(), o.setup.Inlet.Celsius()+20)
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
	a, b, err := root.Expand(at, 0.85*start, min(10, 1.15*start), 1e-3, 10)
	if err != nil {
		return 0, nil, fmt.Errorf("oven: scale: no %s up to 10 brings a mean of %.4g °C: %w", knob, want.Celsius(), err)
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
