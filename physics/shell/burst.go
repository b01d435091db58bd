package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// BurstInput is a bottle pumped up with water until it fails.
type BurstInput struct {
	Bottle
	Soft    float64 // factor of temperature on stiffness and strength; 0 for 1
	Speed   float64 // factor of the rate of loading on strength, set by the caller; 0 for 1
	Steps   int     // aimed at; 0 for 30
	Largest float64 // gauge pressure at which to stop [Pa]; 0 for 60 bar
}

// BurstPoint is one state on the way.
type BurstPoint struct {
	Pressure float64 // gauge [Pa]
	Gain     float64 // relative gain of volume
	Hoop     float64 // largest mean hoop stress [Pa], true
}

// BurstResult is the outcome of a burst test.
type BurstResult struct {
	Pressure float64 // gauge [Pa]
	Place    float64 // height of failure [m]
	Radius   float64 // radius there [m]
	Why      string  // "strength", "limit load", "roll-out", "stopped" or "no equilibrium"
	Gain     float64 // relative gain of volume at failure
	Room     float64 // inner volume of the unloaded bottle, of which Gain is a share [m³]
	Snap     float64 // pressure at which the wall snapped through and carried on [Pa]; 0 for none
	Yield    float64 // pressure of first yield [Pa]; 0 when nothing yields
	Hoop     float64 // true mean hoop stress at the place [Pa]
	Nominal  float64 // hoop force there over the unloaded section [Pa]
	Wall     float64 // unloaded wall there [m]
	Strength float64 // ultimate hoop strength there, mean through the wall [Pa]; 0 for unknown
	Course   []BurstPoint
	Form     Form
	Stresses []Stress // at the last good state
	Mesh     Estimate // of Pressure
	Widens   Estimate // of Gain
	Warnings []string

	peak, peakGain float64 // last limit of pressure passed
	clear          float64 // of the gate above the ring, unloaded or after the last snap [m]
}

// sharp is the stride in which a limit of pressure is passed, as a share of the
// volume: the limit lies on a flat top, and the gain there goes with the stride.
const sharp = 1e-3

// passed is a state on the way, with the use of its strength.
type passed struct {
	*memory
	use float64
}

// peaked notes the limit of pressure that the last point lies behind: the top of
// the parabola through the last three.
func (r *BurstResult) peaked() {
	n := len(r.Course)
	r.peak, r.peakGain = r.Course[n-2].Pressure, r.Course[n-2].Gain
	if n >= 3 {
		a, b, c := r.Course[n-3], r.Course[n-2], r.Course[n-1]
		if x, y := parabola(a.Gain, a.Pressure, b.Gain, b.Pressure, c.Gain, c.Pressure); y > r.peak {
			r.peakGain, r.peak = x, y
		}
	}
}

// snapped notes that the wall has carried on beyond a limit of pressure, and where
// its gate stands then [m].
func (r *BurstResult) snapped(at, clear float64) {
	base := ""
	if r.rolled(clear) {
		base = " (roll-out of the base)"
	}
	r.Warnings = append(r.Warnings, "the wall snaps through at "+unit.Quote(unit.PressureGauge, at, 3)+base+" and carries on beyond")
	r.peak, r.Snap, r.clear = 0, at, clear
}

// rolled says whether a base has lost half of the clearance that it had, or had
// left after the last snap.
func (r *BurstResult) rolled(clear float64) bool { return r.clear > 0 && clear < 0.5*r.clear }

// carriesOn lets the wall go from behind a limit of pressure to the next state
// that bears more than that. There is none where the limit is that of the
// strength; then the state stays.
func (r *BurstResult) carriesOn(m *Model, p *prepared) bool {
	top, before := math.Max(r.peak, m.p), m.keep()
	if m.settle(step{pressure: top * 1.005}) != nil {
		return false
	}
	if use, _ := m.worst(); use >= 1 {
		m.back(before)
		return false
	}
	r.snapped(top, m.clearance(p))
	return true
}

// Burst pumps volume into the bottle until the force somewhere reaches the
// ultimate strength of the wall or the pressure falls for good. A base that
// rolls out lets the pressure fall and rise again: that is Snap and a warning.
// Large displacement, Hill plasticity with hardening, thinning wall.
//
// Oriented polyester mostly fails by strength, without a neck. The factors of
// rate and temperature belong to the caller.
func Burst(in BurstInput) (BurstResult, error) {
	if in.Steps == 0 {
		in.Steps = 30
	}
	if in.Soft == 0 {
		in.Soft = 1
	}
	if in.Speed == 0 {
		in.Speed = 1
	}
	if in.Largest == 0 {
		in.Largest = 6e6
	}
	if !(in.Soft > 0 && in.Soft <= 3) || !(in.Speed > 0.1 && in.Speed < 10) || !(in.Largest > 0) || in.Steps < 5 || in.Steps > 1000 {
		return BurstResult{}, fmt.Errorf("shell: burst: factors %g and %g, largest pressure ‹%g Pa›, %d steps", in.Soft, in.Speed, in.Largest, in.Steps)
	}
	for i, s := range in.Stations {
		for _, p := range s.Ply {
			if !(p.Uh > 0 || p.Yh > 0) {
				return BurstResult{}, fmt.Errorf("shell: burst: station %d has neither yield nor ultimate strength: nothing would ever break", i+1)
			}
		}
	}
	var out BurstResult
	var gain []float64
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.burst(p)
		if gain = append(gain, r.Gain); len(gain) == 1 {
			out = r
		}
		return r.Pressure, err
	})
	out.Mesh, out.Widens = mesh, mesh
	if mesh.Note == "" && len(gain) == 2 {
		out.Widens.Fine, out.Widens.Coarse, out.Widens.Error = gain[0], gain[1], math.Abs(gain[0]-gain[1])/3
	}
	return out, err
}

func (in *BurstInput) burst(p *prepared) (BurstResult, error) {
	out := BurstResult{Warnings: p.warn}
	if in.Speed != 1 {
		p = p.faster(in.Speed)
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Soft: in.Soft, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		return out, err
	}
	out.Room = m.volume0
	// First step: the volume the linear shell takes at a tenth of the pressure
	// of first yield or break, estimated at the worst element.
	const probe = 1e4
	if err := m.linear(Load{Pressure: probe}); err != nil {
		return out, err
	}
	gain := dot(m.u, m.gradient())
	worst := 0.0
	for i := range m.mesh.el {
		worst = math.Max(worst, m.use(i, math.Abs(m.force[i].nh)/m.mesh.el[i].t))
	}
	if !(worst > 0) || !(gain > 0) {
		return out, fmt.Errorf("shell: burst: pressure does not stretch the wall")
	}
	m.Reset()
	stride := gain / worst / float64(in.Steps) * 1.5
	dv := stride
	last, former := passed{m.keep(), 0}, passed{}
	out.clear = m.clearance(p)
	failed := func(why string, pressure, gain float64, at int) {
		if why == "limit load" && p.ring > 0 && at < p.ring+p.ring/2+2 && out.rolled(m.clearance(p)) {
			why = "roll-out"
			out.Warnings = append(out.Warnings, "the base rolls out at "+unit.Quote(unit.PressureGauge, pressure, 3)+"; what the bottle bears after that is not computed")
		}
		out.Pressure, out.Why, out.Gain = pressure, why, gain
		e := &m.mesh.el[at]
		out.Place, out.Radius = 0.5*(m.mesh.Z[at]+m.mesh.Z[at+1]), e.r
		out.Hoop, out.Nominal, out.Wall = m.hoop(at), m.force[at].nh/e.t, e.t
		for k := range e.layer {
			out.Strength += weight[k] * e.layer[k].Uh * m.flow.soft
		}
		out.Stresses, out.Form = m.Stresses(), m.form()
	}
	halved, peakAt := 0, 0
	way := &trail{}
	for range 40 * in.Steps {
		target := m.vol + dv
		if err := m.solve(step{control: givenVolume, target: target, trail: way, along: target}); err != nil {
			if halved++; halved == 3 {
				// A snap that volume cannot lead through: on to where the wall
				// carries more.
				if out.carriesOn(m, p) {
					dv *= 8
					halved, way = 0, &trail{}
					last, former = passed{m.keep(), 0}, passed{}
					continue
				}
			}
			if halved > 8 {
				_, at := m.worst()
				if out.peak > 0 {
					failed("limit load", out.peak, out.peakGain, peakAt)
					return out, nil
				}
				failed("no equilibrium", m.p, m.vol/m.volume0-1, at)
				out.Warnings = append(out.Warnings, fmt.Sprintf("no equilibrium beyond %s, the last good load: %v", unit.Quote(unit.PressureGauge, m.p, 3), err))
				return out, nil
			}
			dv /= 2
			continue
		}
		falls := out.peak == 0 && m.p < last.p
		if falls && dv > sharp*m.volume0 { // the limit lies before or beside the last state: nearer to it
			if former.memory != nil {
				last, former, out.Course = former, passed{}, out.Course[:len(out.Course)-1]
			}
			m.back(last.memory)
			dv, way = dv/2, &trail{}
			continue
		}
		halved = 0
		use, at := m.worst()
		if out.Yield == 0 && m.yielded() {
			out.Yield = m.p
		}
		out.Course = append(out.Course, BurstPoint{m.p, m.vol/m.volume0 - 1, m.hoop(at)})
		if falls {
			out.peaked()
			peakAt = m.softest(last.memory)
		}
		v, before := m.vol, last
		switch {
		case use >= 1 && m.p >= out.peak:
			x := 1.0
			if use > last.use {
				x = (1 - last.use) / (use - last.use)
			}
			failed("strength", last.p+x*(m.p-last.p), (last.vol+x*(v-last.vol))/m.volume0-1, at)
			return out, nil
		case out.peak > 0 && m.p < out.peak && (use >= 1 || m.p < 0.5*out.peak || v > (1+out.peakGain+0.15)*m.volume0):
			if use >= 1 || !out.carriesOn(m, p) {
				failed("limit load", out.peak, out.peakGain, peakAt)
				return out, nil
			}
			use, way, before = 0, &trail{}, passed{}
		case out.peak > 0 && m.p > out.peak:
			out.snapped(out.peak, m.clearance(p))
			dv = math.Max(dv, stride)
		case m.p >= in.Largest:
			failed("stopped", in.Largest, m.vol/m.volume0-1, at)
			out.Warnings = append(out.Warnings, "stopped at "+unit.Quote(unit.PressureGauge, in.Largest, 3)+" without failure")
			return out, nil
		}
		// After yield the pressure hardly rises: longer strides, of at most 0.8 %
		// of the volume.
		if (m.p-last.p)*float64(in.Steps) < 0.5*m.p && (use == 0 || use-last.use < 0.7/float64(in.Steps)) {
			dv = math.Min(1.3*dv, math.Max(dv, 0.008*m.volume0))
		}
		former, last = before, passed{m.keep(), use}
	}
	return out, fmt.Errorf("shell: burst: no failure in %d steps; last good load %s: %w", 40*in.Steps, unit.Quote(unit.PressureGauge, m.p, 4), ErrNoConvergence)
}

// faster returns a copy with the strengths times a factor of the rate.
func (p *prepared) faster(factor float64) *prepared {
	q, m := *p, *p.mesh
	m.el = append([]element{}, m.el...)
	for i := range m.el {
		for k := range m.el[i].layer {
			l := &m.el[i].layer[k]
			l.Ys, l.Yh, l.Us, l.Uh = l.Ys*factor, l.Yh*factor, l.Us*factor, l.Uh*factor
		}
		m.el[i].section()
	}
	q.mesh = &m
	return &q
}

// parabola returns the top of the parabola through three points when it lies
// between the outer ones, else the middle point.
func parabola(x1, y1, x2, y2, x3, y3 float64) (x, y float64) {
	d1, d2 := (y2-y1)/(x2-x1), (y3-y2)/(x3-x2)
	c := (d2 - d1) / (x3 - x1)
	if !(c < 0) || math.IsInf(c, 0) {
		return x2, y2
	}
	x = 0.5*(x1+x2) - d1/(2*c)
	if !(x >= x1 && x <= x3) {
		return x2, y2
	}
	return x, y1 + d1*(x-x1) + c*(x-x1)*(x-x2)
}

// gradient returns the derivative of the volume by the displacements, held
// unknowns left out. It lies in a workspace.
func (m *Model) gradient() []float64 {
	clear(m.g)
	m.volume(m.g, nil, 0)
	m.hold(m.g)
	return m.g
}

// use returns a hoop stress over the strength of an element, ultimate where
// known, else yield.
func (m *Model) use(i int, hoop float64) float64 {
	s := 0.0
	for k := range m.mesh.el[i].layer {
		p := &m.mesh.el[i].layer[k]
		if p.Uh > 0 {
			s += weight[k] * p.Uh
		} else {
			s += weight[k] * p.Yh * 1.35
		}
	}
	if s == 0 {
		return 0
	}
	return hoop / (s * m.flow.soft)
}

// hoop returns the true hoop stress of an element, mean through the wall.
func (m *Model) hoop(i int) float64 {
	s := 0.0
	tau, x := m.points(i)
	for k := range Points {
		s += weight[k] * tau[k][1] / math.Exp(x[k][0]+x[k][1])
	}
	return s / m.thinned(i, &tau)
}

// worst returns the largest use of strength, along or round, and its element:
// force over the unloaded section against the ultimate strength.
func (m *Model) worst() (float64, int) {
	top, at := 0.0, 0
	for i := range m.mesh.el {
		if u := m.strengthUse(i); u > top {
			top, at = u, i
		}
	}
	return top, at
}

// strengthUse returns the force of an element over its ultimate strength, 0
// where none is known.
func (m *Model) strengthUse(i int) float64 {
	e, f := &m.mesh.el[i], &m.force[i]
	var us, uh float64
	for k := range e.layer {
		us += weight[k] * e.layer[k].Us
		uh += weight[k] * e.layer[k].Uh
	}
	u := 0.0
	if us > 0 {
		u = f.ns / (e.t * us * m.flow.soft)
	}
	if uh > 0 {
		u = math.Max(u, f.nh/(e.t*uh*m.flow.soft))
	}
	return u
}

func (m *Model) yielded() bool {
	for i := range m.old {
		if m.old[i].plastic > 1e-9 {
			return true
		}
	}
	return false
}

// softest returns the element that has flowed most since a state.
func (m *Model) softest(since *memory) int {
	top, at := -1.0, 0
	for i := range m.old {
		if d := m.old[i].plastic - since.spots[i].plastic; d > top {
			top, at = d, i/Points
		}
	}
	return at
}
