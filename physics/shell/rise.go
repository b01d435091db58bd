package shell

import (
	"fmt"

	"costrel/unit"
)

// RiseInput is a closed pack taken to another height.
type RiseInput struct {
	Bottle
	Soft      float64
	Inside    unit.AbsPressure // where the way begins
	From, To  unit.AbsPressure // ambient there and at the height
	Headspace float64          // gas volume while the bottle is unloaded [m³]; what the wall grows comes to it
	// Sealed, in place of Inside, answers the gauge pressure [Pa] where the way
	// begins to the gain of volume of the bottle [m³], and its slope [Pa/m³].
	Sealed func(gain float64) (pressure, slope float64)
}

// RiseResult is the pack at the height.
type RiseResult struct {
	Before, After unit.GaugePressure
	Growth        Growth  // against the unloaded bottle, at the height
	Swell         float64 // volume gained from before to after [m³]
	Gas           float64 // before [m³]
	Mesh          Estimate
	Warnings      []string
}

// Rise returns gauge pressure and growth of a closed pack at another ambient
// pressure: the gas of the headspace expands into the volume the wall gives
// (ideal gas at constant temperature, no gas leaves the drink).
func Rise(in RiseInput) (RiseResult, error) {
	if in.Sealed != nil && in.Inside != 0 {
		return RiseResult{}, fmt.Errorf("shell: altitude: a closed pack that answers its pressure, and ‹%g Pa› beside it", float64(in.Inside))
	}
	if !(in.Sealed != nil || in.Inside > 1e3 && in.Inside < 5e6) || !(in.From > 1e4 && in.From < 1.2e5) || !(in.To > 1e4 && in.To < 1.2e5) || !(in.Headspace > 0) {
		return RiseResult{}, fmt.Errorf("shell: altitude: inside ‹%g Pa›, ambient ‹%g and %g Pa› (‹10..120 kPa›), headspace ‹%g m³›", float64(in.Inside), float64(in.From), float64(in.To), in.Headspace)
	}
	start := Stage{Sealed: in.Sealed, Soft: in.Soft}
	if in.Sealed == nil {
		start.Pressure = float64(in.Inside.Gauge(in.From))
	}
	b := in.Bottle
	b.Creep = nil
	quick := b
	quick.Quick = true
	before, err := Grow(GrowInput{Bottle: quick, Stages: []Stage{start}})
	if err != nil {
		return RiseResult{}, err
	}
	p, err := b.prepare(1)
	if err != nil {
		return RiseResult{}, err
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		return RiseResult{}, err
	}
	gain0 := before.End.Volume * m.volume0
	g0, gas := unit.GaugePressure(before.End.Pressure), in.Headspace+gain0
	if !(gas > 0) {
		return RiseResult{}, fmt.Errorf("shell: altitude: the wall gives ‹%g m³› inward, more than the headspace ‹%g m³›", -gain0, in.Headspace)
	}
	sealed := func(gain float64) (float64, float64) {
		left := max(gas+gain-gain0, 0.01*gas)
		q := float64(g0.Abs(in.From)) * gas / left
		return q - float64(in.To), -q / left
	}
	// From the state before, or the shut gas would be squeezed at first.
	after, err := Grow(GrowInput{Bottle: b, Stages: []Stage{start, {Sealed: sealed, Soft: in.Soft}}})
	if err != nil {
		return RiseResult{}, err
	}
	return RiseResult{
		Before: g0, After: unit.GaugePressure(after.End.Pressure), Growth: after.End,
		Swell: (after.End.Volume - before.End.Volume) * m.volume0, Gas: gas, Mesh: after.Mesh, Warnings: after.Warnings,
	}, nil
}
