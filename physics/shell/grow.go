package shell

import (
	"fmt"
	"math"
	"slices"

	"costrel/unit"
)

// Stage is a piece of a history: a pressure held for a time at the factors of
// a temperature.
type Stage struct {
	Name     string
	Time     float64 // [s]; 0 loads at once
	Pressure float64 // gauge [Pa]; without Sealed
	// Sealed, where given, answers the gauge pressure [Pa] to the gain of
	// volume of the bottle [m³] and its slope [Pa/m³]: the headspace.
	Sealed func(gain float64) (pressure, slope float64)
	Soft   float64 // factor on stiffness and strength, see [Warmth]; 0 for 1
	Rate   float64 // factor on creep; 0 for 1
}

// GrowInput is a bottle under a history of pressure and temperature: thermal
// stability when the stage is 24 h at 38 °C with the pressure of the drink.
type GrowInput struct {
	Bottle
	Stages []Stage
	// Closed is the condition in which the fill point is first read, a pack just
	// closed say; its time does not count. nil reads it on the unloaded bottle.
	Closed *Stage
	// Back is the condition in which the laboratory measures after the history,
	// cooled say; its time does not count. nil measures at the end of it.
	Back  *Stage
	Steps int // in time, for each stage; 0 for 10; half of them move the growth by less than 0.05 %
	// FillDepth is the depth of the fill point below the top [m]; 0 leaves the
	// fill-point drop out. LiquidGain is the relative gain in volume of the
	// liquid at the end over that at filling.
	FillDepth, LiquidGain float64
	// GaugeZ is the height at which the laboratory measures the diameter [m];
	// 0 leaves Growth.Gauge out.
	GaugeZ float64
}

// Growth is how much a bottle has grown.
type Growth struct {
	Time      float64 // [s]
	Pressure  float64 // gauge [Pa]
	Diameter  float64 // largest relative growth of the outer diameter, between ring and finish
	DiameterZ float64 // where [m]
	Gauge     float64 // relative growth of the outer diameter at GaugeZ
	Height    float64 // growth from ring to top [m]
	Volume    float64 // relative gain of inner volume
	FillDrop  float64 // sinking of the fill point below the top since it was first read [m]
	Clearance float64 // of the gate above the standing ring, outside [m]
	Sag       float64 // of the gate against the height Edge of the bottle [m]
	Stress    float64 // largest hoop stress, mean through the wall [Pa]
	StressZ   float64 // where [m], with radius and unloaded wall there [m]
	StressR   float64
	StressT   float64
}

// GrowResult is the outcome of a history.
type GrowResult struct {
	Closed   Growth   // in the condition of that name, FillDrop against the unloaded bottle; zero without it
	AtOnce   Growth   // after loading, before any time passed
	End      Growth   // at the end of the history
	Read     Growth   // as the laboratory reads it: End, or Back
	Course   []Growth // every step
	Stresses []Stress // at the end
	Form     Form     // at the end
	Room     float64  // inner volume of the unloaded bottle, of which Growth.Volume is a share [m³]
	Snap     float64  // pressure at which the wall snapped through and carried on [Pa]; 0 for none
	Coarse   Growth   // Read on elements twice as long; zero when quick
	Mesh     Estimate // of End.Diameter
	Warnings []string
}

// MeshOf returns how far the mesh moves a quantity of Read; without a coarse mesh
// that of End.Diameter, which says why.
func (r GrowResult) MeshOf(of func(Growth) float64) Estimate {
	e := r.Mesh
	if e.Note != "" || r.Coarse.Pressure == 0 {
		return e
	}
	e.Fine, e.Coarse = of(r.Read), of(r.Coarse)
	e.Error = math.Abs(e.Fine-e.Coarse) / 3
	return e
}

// Form is the mid-surface and its displacement at the nodes [m].
type Form struct{ R, Z, Radial, Axial []float64 }

func (m *Model) form() Form {
	n := m.n
	v := make([]float64, 4*n)
	f := Form{v[:n:n], v[n : 2*n : 2*n], v[2*n : 3*n : 3*n], v[3*n:]}
	copy(f.R, m.mesh.R)
	copy(f.Z, m.mesh.Z)
	for i := range n {
		f.Radial[i], f.Axial[i] = m.u[3*i], m.u[3*i+1]
	}
	return f
}

// Grow follows the bottle through its history: large displacement, creep with
// strain hardening, yield where the plies have strengths, pressure on the true
// inner face. Time steps grow in geometric progression.
func Grow(in GrowInput) (GrowResult, error) {
	if len(in.Stages) == 0 {
		return GrowResult{}, fmt.Errorf("shell: growth: no stage")
	}
	if in.Steps == 0 {
		in.Steps = 10
	}
	all := slices.Clone(in.Stages)
	for _, s := range []*Stage{in.Back, in.Closed} {
		if s != nil {
			all = append(all, *s)
		}
	}
	for i, s := range all {
		if !(s.Time >= 0) || math.IsInf(s.Time, 0) || bad(s.Pressure) || math.Abs(s.Pressure) > 1e8 || s.Soft < 0 || s.Rate < 0 || bad(s.Soft) || bad(s.Rate) {
			return GrowResult{}, fmt.Errorf("shell: growth: stage %d: time %g s, pressure ‹%g Pa›, factors %g and %g", i+1, s.Time, s.Pressure, s.Soft, s.Rate)
		}
	}
	var out GrowResult
	first := true
	mesh, err := in.estimated(func(p *prepared) (float64, error) {
		r, err := in.grow(p)
		if first {
			out, first = r, false
		} else {
			out.Coarse = r.Read
		}
		return r.End.Diameter, err
	})
	out.Mesh = mesh
	return out, err
}

func (in *GrowInput) grow(p *prepared) (GrowResult, error) {
	var out GrowResult
	out.Warnings = p.warn
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Creep: p.creep, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		return out, err
	}
	m.starts = p.starts
	out.Room = m.volume0
	liquid, err := in.liquid(m)
	if err != nil {
		return out, err
	}
	now := 0.0
	if in.Closed != nil {
		if err := m.reach(in.Closed.step(m), 4); err != nil {
			return out, fmt.Errorf("shell: growth: the pack when it is closed: %w", m.lost(err))
		}
		out.Closed = in.measure(m, p, 0, liquid)
		liquid.sunk = out.Closed.FillDrop
	}
	for k, s := range in.Stages {
		st := s.step(m)
		if err := m.reach(st, 4); err != nil {
			return out, in.lost(m, k, now, err)
		}
		g := in.measure(m, p, now, liquid)
		if k == 0 {
			out.AtOnce = g
		}
		out.Course = append(out.Course, g)
		if s.Time == 0 {
			continue
		}
		// Steps in geometric progression from a thousandth of the time.
		ratio := math.Pow(1e3, 1/float64(in.Steps-1+btoi(in.Steps == 1)))
		t := 0.0
		for i := range in.Steps {
			to := s.Time * 1e-3 * math.Pow(ratio, float64(i))
			if i == in.Steps-1 {
				to = s.Time
			}
			st.dt = to - t
			if err := m.solve(st); err != nil {
				return out, in.lost(m, k, now+t, err)
			}
			t = to
			out.Course = append(out.Course, in.measure(m, p, now+t, liquid))
		}
		now += s.Time
	}
	out.End = out.Course[len(out.Course)-1]
	if out.Snap = m.snapped; m.snapped > 0 {
		out.Warnings = append(out.Warnings, "the wall snaps through at "+unit.Quote(unit.PressureGauge, m.snapped, 3)+" (roll-out of the base) and carries on beyond")
	}
	out.Stresses = m.Stresses()
	out.Form = m.form()
	out.Read = out.End
	if in.Back != nil {
		if err := m.reach(in.Back.step(m), 4); err != nil {
			return out, in.lost(m, len(in.Stages), now, err)
		}
		out.Read = in.measure(m, p, now, liquid)
	}
	if m.came {
		out.Warnings = append(out.Warnings, "the wall snaps back at "+unit.Quote(unit.PressureGauge, m.cameAt, 3)+" while the pressure falls")
	}
	for _, s := range out.Stresses {
		if s.StrengthUse > 1 {
			out.Warnings = append(out.Warnings, "stress above the ultimate strength at z = "+unit.Quote(unit.Length, s.Z, 3))
			break
		}
	}
	return out, nil
}

// step returns the step of a model to a stage.
func (s Stage) step(m *Model) step {
	st := step{pressure: s.Pressure, soft: s.Soft, rate: s.Rate}
	if s.Sealed != nil {
		st.sealed = func(v float64) (float64, float64) { return s.Sealed(v - m.volume0) }
	}
	return st
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (in *GrowInput) lost(m *Model, k int, t float64, err error) error {
	if k == len(in.Stages) {
		return fmt.Errorf("shell: growth: as the pack is measured, after %.4g s: %w", t, m.lost(err))
	}
	return fmt.Errorf("shell: growth: stage %d at %.4g s: %w", k+1, t, m.lost(err))
}

// reach brings the model to a step's pressure without passing time, in parts
// when it must.
func (m *Model) reach(s step, parts int) error {
	s.dt = 0
	rest := m.starts != nil && m.rests()
	if rest && m.startsNear(s) {
		return nil
	}
	err := m.bring(s, parts)
	if err == nil && rest && m.snapped == 0 {
		m.starts.note(m, s)
	}
	return err
}

// bring is reach without a known state to begin with.
func (m *Model) bring(s step, parts int) error {
	if s.sealed != nil {
		if m.fed(s, 1) == nil || m.fed(s, parts) == nil {
			return nil
		}
		// Through a limit by pressure without the feedback, then with it.
		p, _ := s.sealed(m.vol)
		free, start := s, m.keep()
		free.sealed, free.pressure = nil, p
		if m.bring(free, parts) == nil && m.solve(s) == nil {
			return nil
		}
		m.back(start)
		return m.pump(s)
	}
	start := m.keep()
	once := s
	once.most = 14 // in parts it is quicker than in one long search
	if err := m.solve(once); err == nil {
		return nil
	}
	from, force := m.p, m.load
	x, d := 0.0, 1/float64(parts)
	way := &trail{}
	way.note(m, 0)
	for x < 1-1e-12 {
		next := math.Min(1, x+d)
		t := s
		t.trail, t.along = way, next
		t.pressure, t.force = from+next*(s.pressure-from), force+next*(s.force-force)
		if err := m.solve(t); err != nil {
			if d /= 2; d < 1.0/256 {
				if s.pressure == from || s.force != force {
					return err
				}
				if s.pressure > from {
					err = m.through(s, d*(s.pressure-from))
				}
				if err != nil {
					m.back(start)
					err = m.pump(s)
				}
				return err
			}
			continue
		}
		m.holds()
		x = next
	}
	return nil
}

// fed brings a model to a sealed step in shares of its pressure, smaller ones where
// it must. The pressure never rises above the end and so yields nothing that the
// end does not. On failure the state is as before.
func (m *Model) fed(s step, parts int) error {
	from, start := m.p, m.keep()
	t := s
	t.trail = &trail{}
	t.trail.note(m, 0)
	x, d := 0.0, 1/float64(parts)
	for x < 1-1e-12 {
		next := min(1, x+d)
		t.along = next
		t.sealed = func(v float64) (float64, float64) {
			p, slope := s.sealed(v)
			return from + next*(p-from), next * slope
		}
		if err := m.solve(t); err != nil {
			if d /= 2; d < 1.0/64 || parts == 1 {
				m.back(start)
				return err
			}
			continue
		}
		x = next
	}
	return nil
}

// nearest is how near a limit of pressure is approached, relative.
const nearest = 2e-3

// through goes on in strides of d where pressure comes to a limit: a base that
// rolls out, and carries again behind it. It notes the pressure in m.snapped,
// or in m.limit when the wall does not carry again.
func (m *Model) through(s step, d float64) error {
	free, farthest := s, 0.0
	for tries := 0; m.p < s.pressure; {
		free.pressure = math.Min(s.pressure, m.p+d)
		err := m.solve(free)
		if err == nil {
			m.holds()
			d *= 1.5
			continue
		}
		if d > nearest*math.Abs(m.p) && d > 1e-6*math.Abs(s.pressure) && d > 1 {
			d /= 2
			continue
		}
		limit, volume := m.p, m.vol
		free.pressure = math.Min(s.pressure, m.p+2*nearest*math.Abs(m.p))
		if tries++; tries > 8 || m.settle(free) != nil {
			return err
		}
		if moved := math.Abs(m.vol - volume); moved > farthest {
			farthest, m.snapped = moved, limit
		}
		d = (s.pressure - m.p) / 4
	}
	return nil
}
