package shell

import (
	"errors"
	"fmt"
	"math"
	"math/bits"

	"costrel/num/sym"
	"costrel/unit"
)

// Fill says what is in the bottle under top load.
type Fill string

// What a top load is made on.
const (
	EmptyVented Fill = "empty, vented"     // air leaves freely
	EmptySealed Fill = "empty, sealed"     // air is shut in
	Filled      Fill = "filled and capped" // liquid and a headspace are shut in
)

// TopLoadInput is a bottle on a plate under a platen.
type TopLoadInput struct {
	Bottle
	Fill    Fill
	Stroke  float64 // of the platen [m]; 0 for 3.75 mm (6.35 mm filled)
	Steps   int     // at least; 0 for 30
	Longest float64 // step of the stroke [m]; 0 for Stroke/Steps. With it a longer stroke goes on from a shorter
	Gauge   float64 // pressure inside before the platen touches [Pa, gauge]
	// Sealed, in place of Gauge, answers the gauge pressure [Pa] before the platen
	// touches to the gain of volume of the bottle [m³], and its slope [Pa/m³]: a
	// pack that was closed and has grown under its pressure.
	Sealed    func(gain float64) (pressure, slope float64)
	Ambient   float64 // [Pa, absolute]; 0 for 101325
	Headspace float64 // gas volume of the filled pack [m³]
	// Vacuum inside a filled pack before the platen touches [Pa], drawn by panels
	// that are not part of the round wall, and what they give back of it as the
	// pressure rises [m³/Pa]. It does not press on the round wall here; that it
	// pulls the ends together, by Vacuum π r², is the caller's to take off.
	Vacuum, Give float64
	Soft         float64 // factor of temperature; 0 for 1
	Slide        bool    // the standing ring slides without friction
	Free         bool    // the finish may spread under the platen
	Waves        []int   // harmonics searched; nil for 1 up to the short waves of the thinnest wall, 15 at least
	// Brief ends the path soon after the first buckle, or when the load has
	// begun to fall. Collapse takes the round form on from there to its largest
	// load on the finer mesh: an upper bound where the first buckle is that of a
	// corner, or the first limit that of a heel, behind which the wall carries on.
	Brief, Collapse bool
	// Knockdown for imperfections; the zero value is that of SP-8007 for axial
	// load at the place of the buckle.
	Knockdown Knockdown

	patch float64 // radius on which a base that hangs down stands at the largest load [m]; 0 where the ring stands
}

// TopLoadPoint is one state under the platen.
type TopLoadPoint struct {
	Stroke   float64 // [m]
	Load     float64 // [N]
	Pressure float64 // gauge [Pa]
}

// TopLoadResult is the outcome of a top load.
type TopLoadResult struct {
	Course    []TopLoadPoint
	Limit     float64 // first limit of the round path, where the path went on behind it [N]; 0 for none
	Largest   float64 // greatest load of the round, perfect bottle within the stroke, or as far as Brief goes [N]
	At        float64 // stroke there [m]
	Stiffness float64 // initial [N/m]
	// Buckle is the first load at which the perfect bottle leaves its round
	// form. Without one within the stroke Buckled is false and Buckle the first on
	// the straight line from the first state through the last.
	Buckled      bool
	Buckle       Critical
	BuckleStroke float64
	Perfect      float64 // the lower of both within the stroke [N]
	Design       float64 // the lower of Largest and the lowest knocked-down buckle, p π r² of the first pressure left whole [N]
	Knockdown    Knockdown
	Wave         float64 // buckling load in waves that is lowest after its knock-down [N]; 0 for none
	Waves        int     // round the axis there
	Classical    float64 // buckling load of the plain wall at its place by the classical theory [N]; 0 without Wave
	Borne        float64 // part of it that the pressure carries whole [N]
	Place        float64 // height of the buckle or of the round fold [m]
	Hang         float64 // of the base below the standing ring before the platen touches [m]; 0 where the pack stands on its ring
	Mode         string  // "waves", "round fold" or "none within the stroke"
	Form         Form    // at the end
	Stresses     []Stress
	Mesh         Estimate // of Perfect
	Warnings     []string
}

// TopLoad pushes the finish down by the stroke and reports load against
// stroke, the first buckle in waves on the way with its place and mode, and
// the load to be counted on.
//
// The state before buckling has large displacement, yield and, in a sealed
// bottle, pressure that rises with the volume lost (ideal gas at constant
// temperature; the liquid keeps its volume). The platen holds the finish flat.
func TopLoad(in TopLoadInput) (TopLoadResult, error) {
	if in.Stroke == 0 {
		in.Stroke = 3.75e-3
		if in.Fill == Filled {
			in.Stroke = 6.35e-3
		}
	}
	if in.Steps == 0 {
		in.Steps = 30
	}
	if in.Ambient == 0 {
		in.Ambient = 101325
	}
	if in.Sealed != nil && (in.Fill != Filled || in.Gauge != 0 || in.Vacuum != 0) {
		return TopLoadResult{}, fmt.Errorf("shell: top load: a closed pack that answers its pressure is filled, without another pressure or vacuum; have %s at ‹%g Pa›, vacuum ‹%g Pa›", in.Fill, in.Gauge, in.Vacuum)
	}
	switch in.Fill {
	case EmptyVented:
		if in.Gauge != 0 {
			return TopLoadResult{}, fmt.Errorf("shell: top load: a vented bottle holds no pressure, have ‹%g Pa›", in.Gauge)
		}
	case EmptySealed:
	case Filled:
		if !(in.Headspace > 0) {
			return TopLoadResult{}, fmt.Errorf("shell: top load: filled pack with headspace ‹%g m³›: without gas the pressure has no limit", in.Headspace)
		}
	default:
		return TopLoadResult{}, fmt.Errorf("shell: top load: fill %q; there are %q, %q, %q", in.Fill, EmptyVented, EmptySealed, Filled)
	}
	if in.Vacuum != 0 || in.Give != 0 {
		if in.Fill != Filled || in.Gauge != 0 || !(in.Vacuum > 0 && in.Vacuum < in.Ambient-1e3) || !(in.Give >= 0) || math.IsInf(in.Give, 0) {
			return TopLoadResult{}, fmt.Errorf("shell: top load: vacuum ‹%g Pa› with panels that give %g m³/Pa, %s at ‹%g Pa› gauge: a vacuum is that of a filled pack without pressure", in.Vacuum, in.Give, in.Fill, in.Gauge)
		}
	}
	if !(in.Stroke > 0 && in.Stroke < 0.2) || in.Steps < 3 || in.Steps > 1000 || !(in.Ambient > 1e3) || !(in.Gauge > -in.Ambient) || !(in.Gauge < 5e6) {
		return TopLoadResult{}, fmt.Errorf("shell: top load: stroke ‹%g m›, %d steps, ambient ‹%g Pa›, gauge ‹%g Pa›", in.Stroke, in.Steps, in.Ambient, in.Gauge)
	}
	for _, n := range in.Waves {
		if n < 1 || n > 60 {
			return TopLoadResult{}, fmt.Errorf("shell: top load: harmonic %d outside 1..60; the round fold is part of the path", n)
		}
	}
	var out TopLoadResult
	first := true
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.push(p, first)
		if first {
			out, first = r, false
		}
		return r.Perfect, err
	})
	out.Mesh = mesh
	return out, err
}

func (in *TopLoadInput) push(p *prepared, first bool) (TopLoadResult, error) {
	collapse := in.Collapse && first
	out := TopLoadResult{Warnings: p.warn}
	waves := in.Waves
	if waves == nil {
		waves = p.shortWaves()
	}
	top := HoldR
	if in.Free {
		top = 0
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Soft: in.Soft, Supports: p.onRing(!in.Slide, top, HoldR|HoldRound|HoldZ)})
	if err != nil {
		return out, err
	}
	m.starts = p.starts
	if in.Stand == 0 { // the profile itself comes down on the plate
		m.onFloor(p.ring)
	}
	gas := m.volume0
	if in.Fill == Filled {
		if in.Headspace > m.volume0 {
			return out, fmt.Errorf("shell: top load: headspace ‹%.4g mL› above the volume of the bottle ‹%.4g mL›", in.Headspace*1e6, m.volume0*1e6)
		}
		gas = in.Headspace
	}
	var s step
	if in.Gauge != 0 || in.Sealed != nil {
		if err := in.fill(m, p, &out); err != nil {
			return out, fmt.Errorf("shell: top load: pressure before the platen: %w", m.lost(err))
		}
		if in.Sealed != nil {
			in.Gauge = m.p
			gas += m.vol - m.volume0
		}
	}
	if in.Fill != EmptyVented {
		v0 := m.vol
		s.sealed = func(v float64) (float64, float64) { return in.gas(gas, v0-v) }
	}
	if err := m.solve(step{pressure: m.p}); err != nil { // the tangent of the start
		return out, fmt.Errorf("shell: top load: at the start: %w", err)
	}
	start := -m.u[3*p.top+1]
	s.control, s.most = givenStroke, 14
	path := []snapshot{m.snap(0, 0)}
	path[0].state = m.keep()
	out.Course = append(out.Course, TopLoadPoint{0, 0, m.p - in.Vacuum})
	at, stride := 0.0, in.Stroke/float64(in.Steps)
	if in.Longest > 0 {
		stride = math.Min(stride, in.Longest)
	}
	d := stride
	lost, beyond := false, false
	fold, near, before := 0, 0, path[0].state
	s.trail = &trail{}
	s.trail.note(m, 0)
	for at < in.Stroke*(1-1e-9) {
		to := math.Min(in.Stroke, at+d)
		s.target, s.along = start+to, to
		if err := m.solve(s); err != nil {
			if d /= 2; d < stride/64 {
				out.Warnings = append(out.Warnings, "no equilibrium beyond a stroke of "+unit.Quote(unit.Length, at, 3)+", last good load "+unit.Quote(unit.Force, m.load, 3)+": the wall snaps")
				lost = true
				break
			}
			continue
		}
		// A load that falls, or is far from its guess, has passed a limit: once more from
		// before it, in small strides, or a fall that rises again would be missed.
		missed := m.load < out.Largest || (s.trail.led && math.Abs(m.load-s.trail.load) > 0.03*m.load)
		if missed && near == 0 && !beyond && to-at > stride/looks {
			m.back(before)
			s.trail.n = 0
			near, d = 3*looks, (to-at)/looks
			continue
		}
		before = m.keep()
		at = to
		if d = math.Min(1.4*d, stride); near > 0 {
			near--
			d = math.Min(d, stride/looks)
		}
		out.Course = append(out.Course, TopLoadPoint{at, m.load, m.p - in.Vacuum})
		if m.load > out.Largest {
			out.Largest, out.At = m.load, at
			if in.patch = 0; out.Hang > 0 && m.floor.from == 0 {
				in.patch = m.patch()
			}
			if beyond {
				continue
			}
			path = append(path, m.snap(m.load, at))
			path[len(path)-1].state = before
			fold = m.bend()
			// Looked at after 4, 16, 64 ... steps; the first buckle is then enclosed.
			if k := len(path) - 1; in.Brief && k > 1 && bits.OnesCount(uint(k)) == 1 && bits.Len(uint(k))%2 == 1 {
				n, err := m.firstUnstable(path[k].pre, waves)
				if err != nil {
					return out, err
				}
				if n >= 0 {
					out.Form, out.Stresses = m.form(), m.Stresses()
					if beyond = collapse; !beyond {
						break
					}
					stride *= 2 // an upper bound needs no more
				}
			}
		} else if m.load < 0.6*out.Largest {
			break
		} else if in.Brief && out.Limit == 0 && m.load < 0.97*out.Largest {
			if !collapse || beyond {
				break
			}
			out.Form, out.Stresses = m.form(), m.Stresses()
			out.Limit, beyond = out.Largest, true
			stride *= 2
		}
	}
	if len(out.Course) < 2 {
		return out, fmt.Errorf("shell: top load: no equilibrium at the first step; last good load ‹0 N›: %w", ErrNoConvergence)
	}
	out.Stiffness = out.Course[1].Load / out.Course[1].Stroke
	if out.Form.R == nil {
		out.Form, out.Stresses = m.form(), m.Stresses()
	}
	out.Perfect, out.Mode, out.Place = out.Largest, "none within the stroke", p.mesh.Z[fold]
	if out.Limit > 0 {
		out.Perfect = out.Limit
	}
	if lost || out.At < at || out.Limit > 0 {
		out.Mode = "round fold"
	}
	s.trail = nil
	c, stroke, found, err := m.branch(path, waves)
	if errors.Is(err, sym.ErrIndefinite) {
		i := m.bend()
		err = fmt.Errorf("under its pressure, before the platen touches, the wall is not stable round the axis; it bends most at z = %s, r = %s: %w", unit.Quote(unit.Length, m.mesh.Z[i], 3), unit.Quote(unit.Length, m.mesh.R[i], 3), err)
	}
	last := path[len(path)-1]
	if err == nil && found {
		c, stroke, last, err = in.closer(m, s, start, path, waves, c, stroke)
	}
	if err != nil {
		return out, fmt.Errorf("shell: top load: last good load %s: %w", unit.Quote(unit.Force, out.Largest, 4), err)
	}
	if found {
		out.Buckled, out.Buckle, out.BuckleStroke = true, c, stroke
		out.Perfect, out.Mode, out.Place = c.Load, "waves", c.Place
	}
	out.Design = out.Perfect
	if !first { // the coarse mesh tells of Perfect alone
		return out, nil
	}
	if out.Knockdown, err = in.knockdown(p.mesh, fold); err == nil {
		err = in.reserve(m, path[0], last, waves, found, &out)
	}
	if err != nil {
		return out, fmt.Errorf("shell: top load: last good load %s: %w", unit.Quote(unit.Force, out.Largest, 4), err)
	}
	if out.Mode == "none within the stroke" {
		out.Warnings = append(out.Warnings, "no buckle within the stroke of "+unit.Quote(unit.Length, in.Stroke, 3)+": the load is that at its end")
	}
	return out, nil
}

// looks is how many times nearer a limit is looked at than the rest of the path.
const looks = 4

// gas returns the pressure of the gas shut in over ambient, or over the vacuum it
// began with [Pa], and its slope by the volume of the bottle, when the bottle
// has lost a volume [m³]. From volume V at p_0, with panels that give C x back,
//
//	(p_0 + x) (V - lost + C x) = p_0 V        x up to the vacuum
func (in *TopLoadInput) gas(V, lost float64) (over, slope float64) {
	p0 := in.Ambient + in.Gauge - in.Vacuum
	if C := in.Give; C > 0 {
		b := V - lost + C*p0
		x := (math.Sqrt(b*b+4*C*p0*lost) - b) / (2 * C)
		if lost < 0 || x < in.Vacuum {
			return x, -(p0 + x) / (V - lost + C*(p0+2*x))
		}
	}
	full := V + in.Give*in.Vacuum // the panels are back
	left := math.Max(full-lost, 0.01*V)
	x := p0*V/left - p0
	return x + in.Gauge, -(p0 + x) / left
}

// closer goes back to the last stable state and walks to the buckle found
// between two states as on a straight line, once more and from nearer. near is the
// state nearest to it on the way.
func (in *TopLoadInput) closer(m *Model, s step, start float64, path []snapshot, waves []int, c Critical, stroke float64) (_ Critical, at float64, near snapshot, _ error) {
	a, b := bracket(path, c.Load)
	if near = a; b.load-c.Load < c.Load-a.load {
		near = b
	}
	for range 2 {
		if a.state == nil || b.stroke-a.stroke < 1e-3*b.stroke {
			break
		}
		m.back(a.state)
		s.target = start + stroke
		if reached := m.solve(s) == nil; !reached {
			break // the straight line stays
		}
		mid := m.snap(m.load, stroke)
		mid.state, near = m.keep(), mid
		n, err := m.firstUnstable(mid.pre, waves)
		if err != nil {
			return c, stroke, near, err
		}
		if n >= 0 {
			b = mid
		} else {
			a = mid
		}
		d, at, found, err := m.branch([]snapshot{a, b}, waves)
		if err != nil {
			return c, stroke, near, err
		}
		if !found {
			break
		}
		c, stroke = d, at
	}
	return c, stroke, near, nil
}

// bend returns the node where the meridian has turned most sharply.
func (m *Model) bend() int {
	top, at := 0.0, 0
	for i := range m.mesh.el {
		e := &m.mesh.el[i]
		if k := math.Abs(m.u[3*i+5]-m.u[3*i+2]) / e.l * e.t; k > top {
			top, at = k, i
		}
	}
	return at
}
