package closure

import (
	"fmt"
	"math"
	"slices"

	"costrel/cite"
	"costrel/unit"
)

// optional keys may be missing from a card.
var optional = []string{"outer_od", "height"}

// free keys may be zero.
var free = []string{
	"share_hdpe", "share_pp", "share_aluminium", "share_liner", "tethered", "plug", "outer_od", "height",
	"conductance_co2", "conductance_o2", "conductance_n2", "conductance_water",
	"seal_force_min", "bridges", "band_drag", "plug_drag",
}

// New reads a closure from a card, which may be an embedded one or one whose
// values the user changed. It refuses a card that lacks a value, shares that
// do not sum to 1, and fractions outside 0..1.
func New(card cite.Card) (Closure, error) {
	c := Closure{Name: card.Name, Title: card.Title, Card: card}
	var tethered, plug, starts, bridges, reference float64
	for _, f := range []struct {
		key string
		to  *float64
	}{
		{"mass", &c.Mass},
		{"share_hdpe", &c.HDPE},
		{"share_pp", &c.PP},
		{"share_aluminium", &c.Aluminium},
		{"share_liner", &c.Liner},
		{"tethered", &tethered},
		{"plug", &plug},
		{"outer_od", &c.OuterOD},
		{"height", &c.Height},
		{"thread_od", &c.ThreadOD},
		{"pitch", &c.Pitch},
		{"starts", &starts},
		{"seal_od", &c.SealOD},
		{"conductance_co2", &c.CO2},
		{"conductance_o2", &c.O2},
		{"conductance_n2", &c.N2},
		{"conductance_water", &c.Water},
		{"reference_temperature", &reference},
		{"activation_energy", &c.ActivationEnergy},
		{"friction_thread", &c.ThreadFriction},
		{"friction_seal", &c.SealFriction},
		{"application_torque", &c.Application.Value},
		{"removal_torque", &c.Removal.Value},
		{"force_retained", &c.ForceRetained},
		{"seal_share", &c.SealShare},
		{"seal_force_min", &c.SealForceMin},
		{"seal_travel", &c.SealTravel},
		{"band_travel", &c.BandTravel},
		{"bridges", &bridges},
		{"bridge_area", &c.BridgeArea},
		{"bridge_shear", &c.BridgeShear},
		{"band_radius", &c.BandRadius},
		{"band_drag", &c.BandDrag},
		{"plug_drag", &c.PlugDrag},
		{"holding_stress", &c.HoldingStress},
	} {
		d, ok := card.Get(f.key)
		switch {
		case !ok && slices.Contains(optional, f.key):
			continue
		case !ok:
			return Closure{}, fmt.Errorf("closure: card %s lacks %s", card.Name, f.key)
		case !(d.Value > 0 || d.Value == 0 && slices.Contains(free, f.key)) || math.IsInf(d.Value, 0):
			return Closure{}, fmt.Errorf("closure: card %s: %s = %g: want a finite value above 0", card.Name, f.key, d.Value)
		}
		*f.to = d.Value
	}
	for _, n := range []float64{tethered, plug, starts, bridges} {
		if n != math.Trunc(n) || n > 100 {
			return Closure{}, fmt.Errorf("closure: card %s: %g: want a whole number up to 100", card.Name, n)
		}
	}
	c.Tethered, c.Plug, c.Starts, c.Bridges = tethered > 0, plug > 0, int(starts), int(bridges)
	c.Reference = unit.Temperature(reference)
	for _, w := range []struct {
		key string
		to  *Window
	}{{"application_torque", &c.Application}, {"removal_torque", &c.Removal}} {
		d, _ := card.Get(w.key)
		*w.to = Window{Low: d.Low, Value: d.Value, High: d.High}
	}
	if err := c.check(); err != nil {
		return Closure{}, err
	}
	return c, nil
}

func (c Closure) check() error {
	if sum := c.HDPE + c.PP + c.Aluminium + c.Liner; math.Abs(sum-1) > 1e-6 {
		return fmt.Errorf("closure: %s: material shares sum to %g, not 1", c.Name, sum)
	}
	for _, f := range []struct {
		key   string
		value float64
		top   float64
	}{
		{"force_retained", c.ForceRetained, 1},
		{"seal_share", c.SealShare, 1},
		{"friction_thread", c.ThreadFriction, 1},
		{"friction_seal", c.SealFriction, 1},
	} {
		if f.value > f.top {
			return fmt.Errorf("closure: %s: %s = %g outside 0..%g", c.Name, f.key, f.value, f.top)
		}
	}
	for _, w := range []struct {
		key string
		w   Window
	}{{"application_torque", c.Application}, {"removal_torque", c.Removal}} {
		if !(w.w.Low > 0 && w.w.Low <= w.w.Value && w.w.Value <= w.w.High) || math.IsInf(w.w.High, 0) {
			return fmt.Errorf("closure: %s: %s: want 0 < low <= value <= high, have ‹%g, %g, %g N·m›", c.Name, w.key, w.w.Low, w.w.Value, w.w.High)
		}
	}
	return nil
}
