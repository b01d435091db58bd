package blow

import (
	"context"
	"fmt"
	"math"
)

// Progress is told the share of the run that is done, 0..1, never falling.
type Progress func(share float64)

// Run blows a preform. It answers with an error and no result for an input
// that cannot be run (every fault with place, value and limit), when ctx is
// cancelled, which is looked at every step, and when the steps run out or
// become too small; that error says when and where. progress may be nil.
func Run(ctx context.Context, c Case, progress Progress) (*Result, error) {
	s, warn, err := start(&c)
	if err != nil {
		return nil, err
	}
	r := &recorder{s: s, progress: progress, nextFrame: 0}
	r.out.Warnings = append(r.out.Warnings, warn...)
	r.reserve()
	r.record(true)
	if err := s.blow(ctx, r); err != nil {
		return nil, err
	}
	r.endOfBlow()
	if s.prof != nil {
		if err := s.cool(ctx, r); err != nil {
			return nil, err
		}
	}
	if r.out.History[len(r.out.History)-1].Time < s.t {
		r.record(true)
	}
	if err := r.finish(); err != nil {
		return nil, err
	}
	r.report(1)
	return &r.out, nil
}

// start checks a case and makes its solver.
func start(c *Case) (*solver, []string, error) {
	var prof *profile
	if c.Mould != nil {
		p, err := c.Mould.profile()
		if err != nil {
			return nil, nil, err
		}
		prof = p
	}
	if err := c.check(prof); err != nil {
		return nil, nil, err
	}
	var warn []string
	if prof != nil {
		p, w, err := c.neckRoom(prof)
		if err != nil {
			return nil, nil, err
		}
		prof, warn = p, w
	}
	w := newWall(c)
	s := &solver{c: c, w: w, prof: prof}
	n := w.n
	s.outZ, s.outR, s.outD = make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	s.heat = newHeatBook(w.layers, c)
	arc := 0.0
	for e := range n {
		arc += w.l0[e] / 2
		for k := range w.layers {
			w.T[e*w.layers+k] = c.Heat.at(arc, w.at[k])
		}
		arc += w.l0[e] / 2
	}
	if c.Mould != nil && c.Mould.AreaRatio > areaRatioWarn {
		warn = append(warn, fmt.Sprintf("the base is averaged round the axis: its true surface is %.0f %% larger below depth ‹%.0f mm›, so the wall there is up to %.0f %% thinner than computed, most in the feet",
			100*(c.Mould.AreaRatio-1), c.Mould.AreaFrom*1e3, 100*(1-1/c.Mould.AreaRatio)))
	}
	rec := &c.Recipe
	s.rodStart = w.z[n]
	if !c.Numbers.MidContact {
		s.rodStart -= w.wall0[n] / 2
	}
	if gate := w.wall0[n]; prof != nil && rec.Rod.Fits && rec.Rod.Speed > 0 {
		if gap, _, _ := prof.closed(rec.Rod.Stop, 0); gap >= gate {
			warn = append(warn, fmt.Sprintf("the rod stops ‹%.2f mm› from the base mould and the gate is ‹%.2f mm› thick: it pins nothing, and the air may draw the gate thin and off the middle; a rod gap less than the gate wall pins it", gap*1e3, gate*1e3))
		}
	}
	s.cap = make([]take, n+1)
	s.grip()
	s.V = w.volume() - w.inner
	if !(s.V > 0) {
		return nil, nil, fmt.Errorf("blow: preform has no bore: volume inside ‹%.3g mL›", s.V*1e6)
	}
	s.air = cavity{T: float64(rec.AirSupply), dead: rec.DeadVolume, ambient: float64(rec.Ambient), T0: float64(rec.AirSupply)}
	s.air.mass = s.air.ambient * (s.V + s.air.dead) / (AirConstant * s.air.T)
	s.airStart, s.gasMass = s.air.mass, s.air.mass
	s.dt = c.Numbers.StepFirst
	s.heat.start = s.content()
	s.normals()
	return s, warn, nil
}

// timing of a run.
type timing struct {
	pre, high, rod, end float64 // end: hold is over
}

func (s *solver) times() timing {
	c := s.c
	t := timing{pre: c.startOf(c.Recipe.Pre.Start), high: math.Inf(1)}
	if c.Recipe.Rod.Speed > 0 {
		t.rod = max(c.Recipe.Rod.Stop-s.rodStart, 0) / c.Recipe.Rod.Speed
	}
	if c.Recipe.High.Area > 0 {
		t.high = c.startOf(c.Recipe.High.Start)
		t.end = t.high + c.Recipe.Hold
	} else {
		t.end = t.pre + c.Recipe.Hold
	}
	if s.prof == nil {
		t.end = c.Recipe.Duration
	}
	return t
}

// valves opens the supply that is due.
func (s *solver) valves(t timing) (supply float64) {
	st := Stage{}
	rec := &s.c.Recipe
	if s.high = s.t >= t.high-1e-12; s.high {
		st = rec.High
	} else if s.t >= t.pre-1e-12 {
		st = rec.Pre
	}
	s.air.area = st.Area * st.Discharge
	s.air.supply = float64(st.Pressure) + s.air.ambient
	return float64(st.Pressure)
}

// blow runs the mechanics until the bottle is full, or the hold or the time of
// a free blow is over.
func (s *solver) blow(ctx context.Context, r *recorder) error {
	tm := s.times()
	num := &s.c.Numbers
	growth := 1.0
	for s.t < tm.end-1e-12 {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("blow: stopped at %.1f ms: %w", s.t*1e3, err)
		}
		if r.out.Steps >= num.StepsMost {
			return fmt.Errorf("blow: %d steps reached at %.2f ms of %.0f ms, gauge pressure ‹%.2f bar›, last step %.3g ms, %s: raise the limit or look for a wall without tension", num.StepsMost, s.t*1e3, tm.end*1e3, s.p/1e5, s.dt*1e3, s.fastest())
		}
		s.valves(tm)
		dt := min(s.dt, num.StepMost*growth)
		for _, event := range [...]float64{tm.pre, tm.high, tm.rod, tm.end} {
			if left := event - s.t; left > 1e-12 && dt > left*(1-1e-9) {
				dt = left
			} else if left > 1e-12 && dt > left/2 {
				dt = left / 2
			}
		}
		whole := dt >= s.dt
		ok := s.trial(dt)
		if ok {
			ok = s.commit(dt)
		}
		if !ok {
			r.out.Rejected++
			s.dt = dt / 2
			if why := s.unphysical(); why != "" {
				return s.left(why)
			}
			if s.dt < num.StepLeast {
				return fmt.Errorf("blow: no equilibrium at %.3f ms, gauge pressure ‹%.2f bar›: step %.2g ms below %.2g ms, %s: the wall is too hot, too thin or folds there", s.t*1e3, s.p/1e5, s.dt*1e3, num.StepLeast*1e3, s.fastest())
			}
			continue
		}
		if why := s.unphysical(); why != "" {
			return s.left(why)
		}
		r.out.Steps++
		r.out.Iterations += s.iter
		if s.iter < stepsEasy && (whole || dt*moveGrow > s.dt) {
			s.dt = dt * moveGrow
		} else if s.iter >= 9 {
			s.dt = dt / moveGrow
		}
		if s.maxMove > stepMove {
			s.dt = min(s.dt, dt*stepMove/s.maxMove)
		}
		if want := num.StrainMost; want > 0 && s.maxStrain > want {
			s.dt = min(s.dt, dt*max(want/s.maxStrain, 0.3))
		}
		s.dt = min(s.dt, num.StepMost*steadyMost)
		if s.prof != nil && s.t > tm.high && s.maxMove < steadyMove {
			growth = min(growth*moveGrow, steadyMost)
		} else {
			growth = 1
		}
		r.record(false)
		r.report(0.8 * s.t / tm.end)
		if s.prof == nil {
			continue
		}
		if !s.filled() {
			if s.stands(nearFull * float64(s.c.Recipe.High.Pressure)) {
				break
			}
			continue
		}
		if !r.out.Filled {
			r.out.Filled, r.out.FillTime = true, s.t
		}
		if math.IsInf(tm.high, 1) || s.p >= nearFull*float64(s.c.Recipe.High.Pressure) {
			break
		}
	}
	return nil
}

// stands reports whether the wall has come to rest short of the mould: under
// the pressure full for standSteps steps the volume has grown by less than
// standGain. A law that creeps for ever would be followed for ever.
func (s *solver) stands(full float64) bool {
	if !s.high || s.p < full {
		s.standAt = 0
		return false
	}
	if s.standAt == 0 {
		s.standAt, s.standV = standSteps, s.V
	}
	if s.standAt--; s.standAt > 0 {
		return false
	}
	return s.V < s.standV*(1+standGain)
}

// filled reports whether every node lies on the mould, or is so close that a
// chord across a corner of the profile keeps it off. Beside the ledge the neck
// holds the wall back.
func (s *solver) filled() bool {
	w := s.w
	for i := 1; i <= w.n; i++ {
		moved := math.Hypot(w.z[i]+w.half[i]*w.nz[i]-s.outZ[i], w.r[i]+w.half[i]*w.nr[i]-s.outR[i])
		if s.outD[i]-moved > unfilledGap && w.touched[i] < 0 && w.z[i] >= heldDepth || s.gap(i) > unfilledGap {
			return false
		}
	}
	return true
}

// gap is what a node lacks to the mould [m]; 0 where it touches or is held by
// the neck.
func (s *solver) gap(i int) float64 {
	w := s.w
	if w.touched[i] >= 0 || w.z[i] < heldDepth {
		return 0
	}
	d, _, _, _ := s.prof.distance(w.z[i]+w.half[i]*w.nz[i], max(w.r[i]+w.half[i]*w.nr[i], 0))
	return max(d, 0)
}

// fastestSane is a speed of the wall [m/s] that no blow of a preform reaches: the
// wall of the demo flies at its mould with some 50. overSupply is how far above the
// greatest supply a shrinking bubble may press its air. Chosen for this project.
const (
	fastestSane = 1e3
	overSupply  = 3.0
)

// unphysical says that pressure or speed have left what a blow can do, and nothing
// while they have not.
func (s *solver) unphysical() string {
	rec := &s.c.Recipe
	if most := overSupply*math.Max(float64(rec.Pre.Pressure), float64(rec.High.Pressure)) + 10e5; math.Abs(s.p) > most {
		return fmt.Sprintf("the air inside passed ‹%.3g bar(g)›", most/1e5)
	}
	for i := range s.w.vz {
		if u := math.Hypot(s.w.vz[i], s.w.vr[i]); !(u < fastestSane) {
			return fmt.Sprintf("a part of the wall passed ‹%.0f m/s›", fastestSane)
		}
	}
	return ""
}

// left is the error of a blow that has become unphysical.
func (s *solver) left(why string) error {
	return fmt.Errorf("blow: stopped at %.2f ms: %s, which no bottle does: the answer has left the law %s at this process; take the default law, or a cooler preform, less air or a slower rod", s.t*1e3, why, s.c.Law.Name())
}

// fastest names the node that moves most.
func (s *solver) fastest() string {
	w, at, v := s.w, 0, -1.0
	for i := range w.vz {
		if u := math.Hypot(w.vz[i], w.vr[i]); u > v {
			at, v = i, u
		}
	}
	return fmt.Sprintf("fastest part at depth ‹%.1f mm› and radius ‹%.1f mm› with ‹%.2f m/s›", w.z[at]*1e3, w.r[at]*1e3, v)
}

// cool holds the bottle in the mould and lets the air out.
func (s *solver) cool(ctx context.Context, r *recorder) error {
	tm := s.times()
	rec := &s.c.Recipe
	eject := tm.end + rec.Exhaust
	dt := max(s.dt, s.c.Numbers.StepMost)
	copy(s.w.next, s.w.state)
	from, steps := s.t, 0
	for s.t < eject-1e-12 {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("blow: stopped at %.1f ms: %w", s.t*1e3, err)
		}
		if steps++; steps > s.c.Numbers.StepsMost {
			return fmt.Errorf("blow: %d steps of cooling reached at %.0f ms of %.0f ms: raise the limit", s.c.Numbers.StepsMost, s.t*1e3, eject*1e3)
		}
		s.valves(tm)
		s.air.vent = 0
		if s.t >= tm.end-1e-12 {
			if r.out.Balance.AirUsed == 0 {
				r.out.Balance.AirUsed = s.airIn
			}
			s.air.area, s.air.vent = 0, rec.VentArea
		}
		dt = min(dt*1.15, 8e-3)
		step := dt
		for _, event := range [...]float64{tm.high, tm.end, eject} {
			if left := event - s.t; left > 1e-12 && step > left*(1-1e-9) {
				step = left
			}
		}
		pa, _ := s.air.pressure(s.V, step)
		m0 := s.air.mass
		in := s.air.advance(step)
		s.airIn += in
		s.p = pa - s.air.ambient
		s.gasLaw(pa, s.V)
		if !s.c.Numbers.Isothermal {
			s.heatStep(step, false)
		}
		if rec.GasEnergy {
			s.air.warm(m0, in, pa, 0, rec.GasHeat*s.innerArea()*step, s.innerHeat())
		}
		s.t += step
		s.rodForce = 0
		r.record(false)
		if eject > from {
			r.report(0.8 + 0.2*(s.t-from)/(eject-from))
		}
	}
	return nil
}
