package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// FlatPanel is a flat vacuum panel of the wall, held along its edges.
type FlatPanel struct {
	Count         int
	Width, Height float64 // [m]
	Wall          float64 // [m]
	Modulus, Nu   float64
}

// PanelInput asks for the volume a bottle gives inward under vacuum.
type PanelInput struct {
	Bottle
	Soft   float64
	Vacuum []float64 // rising [Pa below ambient]; nil for ten points up to Top
	Top    float64   // [Pa]; 0 for 10 kPa
	Panels []FlatPanel
	Slide  bool
	Capped bool
}

// PanelPoint is one point of the curve, the form physics of hot filling reads.
type PanelPoint struct {
	Vacuum float64 // below ambient [Pa]
	Volume float64 // given inward [m³]
	Round  float64 // of it, by the round wall
	Flat   float64 // of it, by the flat panels: an estimate
}

// PanelResult is a compliance curve.
type PanelResult struct {
	Curve      []PanelPoint
	Compliance float64 // at the first point [m³/Pa]
	Mesh       Estimate
	Warnings   []string
}

// Panels returns volume against vacuum: the round wall by the nonlinear shell
// up to its collapse, and flat panels by the clamped plate with stretching
// ([PlateVolume]), marked as an estimate.
func Panels(in PanelInput) (PanelResult, error) {
	if in.Top == 0 {
		in.Top = 10e3
	}
	if in.Vacuum == nil {
		for i := range 10 {
			in.Vacuum = append(in.Vacuum, in.Top*float64(i+1)/10)
		}
	}
	last := 0.0
	for i, v := range in.Vacuum {
		if !(v > last) || v > 2e5 {
			return PanelResult{}, fmt.Errorf("shell: panels: point %d: vacuum ‹%g Pa› must rise, above %g and at most ‹200 kPa›", i+1, v, last)
		}
		last = v
	}
	var out PanelResult
	first := true
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.give(p)
		if first {
			out, first = r, false
		}
		return r.Compliance, err
	})
	out.Mesh = mesh
	return out, err
}

func (in *PanelInput) give(p *prepared) (PanelResult, error) {
	out := PanelResult{Warnings: p.warn}
	top := Hold(0)
	if in.Capped {
		top = HoldR
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Soft: in.Soft, Supports: p.onRing(!in.Slide, top, 0)})
	if err != nil {
		return out, err
	}
	for _, v := range in.Vacuum {
		if err := m.reach(step{pressure: -v}, 4); err != nil {
			out.Warnings = append(out.Warnings, "the round wall collapses beyond "+unit.Quote(unit.PressureChange, -m.p, 3, "kPa", "inHg")+", the last good vacuum: the curve ends there")
			break
		}
		q := PanelPoint{Vacuum: v, Round: m.volume0 - m.vol}
		for _, f := range in.Panels {
			x, _, err := PlateVolume(f, v)
			if err != nil {
				return out, err
			}
			q.Flat += x * float64(f.Count)
		}
		q.Volume = q.Round + q.Flat
		out.Curve = append(out.Curve, q)
	}
	if len(out.Curve) == 0 {
		return out, fmt.Errorf("shell: panels: no equilibrium at the first point %s; last good vacuum 0: %w", unit.Quote(unit.PressureChange, in.Vacuum[0], 4, "kPa", "inHg"), ErrNoConvergence)
	}
	if len(in.Panels) > 0 {
		out.Warnings = append(out.Warnings, "estimate: flat panels as clamped plates beside the round wall")
	}
	out.Compliance = out.Curve[0].Volume / out.Curve[0].Vacuum
	return out, nil
}

// PlateVolume returns the volume [m³] a clamped rectangular panel gives under a
// pressure [Pa] and its middle deflection [m]. Small deflections follow
// α q a⁴/D with α of the clamped plate; large ones are held back by
//
//	w (1 + 0.488 (w/t)²) = w_small
//
// the rule of the clamped circular plate at ν = 0.3. The deflected form is
// taken as the product of two raised cosines, whose mean is a quarter of the
// middle. An estimate. Source: Timoshenko1959 (from memory).
func PlateVolume(f FlatPanel, q float64) (volume, middle float64, err error) {
	if !(f.Width > 0 && f.Height > 0 && f.Width < 1 && f.Height < 1) || !(f.Wall > 1e-5 && f.Wall < 0.02) || !(f.Modulus > 0) || !(f.Nu >= 0 && f.Nu < 0.5) || f.Count < 0 || bad(q) {
		return 0, 0, fmt.Errorf("shell: panel: %d of %g x ‹%g m›, wall ‹%g m›, modulus ‹%g Pa›, ν %g under ‹%g Pa›", f.Count, f.Width, f.Height, f.Wall, f.Modulus, f.Nu, q)
	}
	a, b := math.Min(f.Width, f.Height), math.Max(f.Width, f.Height)
	D := f.Modulus * f.Wall * f.Wall * f.Wall / (12 * (1 - f.Nu*f.Nu))
	w0 := clampedAlpha(b/a) * q * a * a * a * a / D
	w := stretched(w0, f.Wall)
	return 0.25 * a * b * w, w, nil
}

// clampedAlpha is the coefficient of the middle deflection of the clamped
// rectangle of sides 1 and ratio >= 1. Source: Timoshenko1959, table 35 (from
// memory), joined by straight lines.
func clampedAlpha(ratio float64) float64 {
	x := [...]float64{1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2}
	y := [...]float64{0.00126, 0.00150, 0.00172, 0.00191, 0.00207, 0.00220, 0.00230, 0.00238, 0.00245, 0.00249, 0.00254}
	for i := 1; i < len(x); i++ {
		if ratio <= x[i] {
			return y[i-1] + (ratio-x[i-1])/(x[i]-x[i-1])*(y[i]-y[i-1])
		}
	}
	return 0.00260
}

// stretched solves w (1 + 0.488 (w/t)²) = w0.
func stretched(w0, t float64) float64 {
	s := math.Abs(w0)
	w := math.Min(s, math.Cbrt(s*t*t/0.488))
	for range 50 {
		k := 0.488 * w * w / (t * t)
		d := (w*(1+k) - s) / (1 + 3*k)
		w -= d
		if math.Abs(d) <= 1e-14*w {
			break
		}
	}
	return math.Copysign(w, w0)
}
