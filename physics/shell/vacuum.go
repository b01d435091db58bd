package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// VacuumInput is a bottle under pressure below ambient.
type VacuumInput struct {
	Bottle
	Soft  float64
	Waves []int // nil for 0..15
	Slide bool
	// Capped holds the finish round, as a closure does.
	Capped bool
	Steps  int // of the nonlinear path; 0 for 10
	// Brief leaves out harmonics that provably buckle later than another.
	Brief     bool
	Knockdown Knockdown // the zero value is that of SP-8007 for external pressure
}

// VacuumResult is the outcome of a vacuum collapse.
type VacuumResult struct {
	Linear     []Critical // vacuum [Pa] for each harmonic, small displacement before buckling; of the lowest ones when brief
	Collapse   float64    // of the perfect bottle, from the nonlinear path [Pa below ambient]
	Harmonic   int        // waves of the collapse; 0 is a round fold
	Place      float64    // [m]
	Mode       Mode
	Design     float64 // after the knock-down [Pa]
	Knockdown  Knockdown
	Compliance float64 // volume given inward per vacuum, unloaded, round [m³/Pa]
	// Curve is the volume given inward along the nonlinear path of the round
	// state, rising vacuum, up to the collapse of the perfect bottle.
	Curve    []GivenIn
	Mesh     Estimate
	Warnings []string
}

// GivenIn is the volume that a bottle gives inward at a vacuum.
type GivenIn struct {
	Vacuum float64 // below ambient [Pa]
	Volume float64 // [m³]
}

// Vacuum finds the vacuum at which the bottle collapses: first by the linear
// theory in every harmonic, then along the nonlinear path. Pressure follows
// the wall.
func Vacuum(in VacuumInput) (VacuumResult, error) {
	if in.Waves == nil {
		in.Waves = Harmonics(15)
	}
	if in.Steps == 0 {
		in.Steps = 10
	}
	if in.Steps < 3 || in.Steps > 1000 {
		return VacuumResult{}, fmt.Errorf("shell: vacuum: %d steps outside 3..1000", in.Steps)
	}
	var out VacuumResult
	first := true
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.suck(p)
		if first {
			out, first = r, false
		}
		return r.Collapse, err
	})
	out.Mesh = mesh
	return out, err
}

func (in *VacuumInput) suck(p *prepared) (VacuumResult, error) {
	out := VacuumResult{Warnings: p.warn}
	top, waves := Hold(0), Hold(0)
	if in.Capped {
		top, waves = HoldR, HoldR|HoldRound
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Soft: in.Soft, Supports: p.onRing(!in.Slide, top, waves)})
	if err != nil {
		return out, err
	}
	const probe = 1e3
	if out.Linear, err = m.Buckling(Eigen{Varying: Load{Pressure: -probe}, Waves: in.Waves, Hint: 5, Lowest: in.Brief}); err != nil {
		return out, fmt.Errorf("shell: vacuum: %w", err)
	}
	if err := m.linear(Load{Pressure: -probe}); err != nil {
		return out, err
	}
	u := m.u
	grad := make([]float64, len(u))
	copy(grad, u)
	clear(m.u)
	g := m.gradient()
	out.Compliance = -dot(g, grad) / probe
	for i := range out.Linear {
		out.Linear[i].Load *= probe
	}
	low := Lowest(out.Linear)
	out.Collapse, out.Harmonic, out.Place, out.Mode = low.Load, low.Harmonic, low.Place, low.Mode
	m.Reset()
	if err := m.solve(step{}); err != nil { // the tangent of the start
		return out, fmt.Errorf("shell: vacuum: at the start: %w", err)
	}
	path := []snapshot{m.snap(0, 0)}
	way := &trail{}
	way.note(m, 0)
	end := 1.3 * low.Load
	at, d := 0.0, end/float64(in.Steps)
	fold := false
	for at < end*(1-1e-9) {
		to := math.Min(end, at+d)
		if err := m.solve(step{pressure: -to, trail: way, along: to}); err != nil {
			if d /= 2; d < end/float64(in.Steps)/16 {
				fold = true
				break
			}
			continue
		}
		at = to
		path = append(path, m.snap(at, at))
		out.Curve = append(out.Curve, GivenIn{at, m.volume0 - m.vol})
	}
	c, _, found, err := m.branch(path, in.Waves)
	switch {
	case err != nil:
		return out, fmt.Errorf("shell: vacuum: last good vacuum %s: %w", unit.Quote(unit.PressureChange, at, 4, "kPa", "inHg"), err)
	case found:
		out.Collapse, out.Harmonic, out.Place, out.Mode = c.Load, c.Harmonic, c.Place, c.Mode
	case fold:
		node := m.bend()
		out.Collapse, out.Harmonic, out.Place, out.Mode = at, 0, p.mesh.Z[node], Mode{}
		out.Warnings = append(out.Warnings, "the round state is lost beyond "+unit.Quote(unit.PressureChange, at, 3, "kPa", "inHg")+", the last good vacuum")
	default:
		out.Collapse = end
		out.Warnings = append(out.Warnings, "no buckle up to "+unit.Quote(unit.PressureChange, end, 3, "kPa", "inHg")+", 1.3 times the linear load: yield and bending stiffen the wall")
	}
	out.Knockdown = in.Knockdown
	if out.Knockdown.Name == "" {
		out.Knockdown = ExternalKnockdown()
	}
	out.Design = out.Knockdown.Gamma * out.Collapse
	for n := len(out.Curve); n > 0 && out.Curve[n-1].Vacuum > out.Collapse; n-- {
		out.Curve = out.Curve[:n-1]
	}
	if out.Collapse > 101325 {
		out.Warnings = append(out.Warnings, "collapse at "+unit.Quote(unit.PressureChange, out.Collapse, 3)+" lies beyond a full vacuum: it needs outer pressure")
	}

	return out, nil
}
