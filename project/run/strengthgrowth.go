package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// growthInput is the thermal stability test of a closed pack.
func (t *strengthTests) growthInput() (shell.GrowInput, error) {
	h := t.d.Handling
	sealed, err := t.pressures.sealed(h.Stability)
	if err != nil {
		return shell.GrowInput{}, err
	}
	cold, err := t.pressures.sealed(h.Lab)
	if err != nil {
		return shell.GrowInput{}, err
	}
	// The fill point is read when the pack has been closed, as on the line.
	fill := t.d.Drink.FillTemperature
	closed, err := t.pressures.sealed(fill)
	if err != nil {
		return shell.GrowInput{}, err
	}
	soft, _, _, err := t.warm.Factors(fill)
	return shell.GrowInput{
		Closed: &shell.Stage{Name: "closed", Sealed: closed, Soft: soft},
		Back:   &shell.Stage{Name: "measured", Sealed: cold, Soft: t.labSoft},
		Bottle: t.b, Stages: []shell.Stage{{Name: "stability", Time: h.StabilityTime, Sealed: sealed, Soft: t.stabilitySoft, Rate: t.stabilityCreep}},
		Steps:     growSteps,
		FillDepth: math.Max(t.shape.Level.BelowBrim-t.shape.Bottle.Spec().BoreHeight, 0),
		GaugeZ:    (t.shape.Panel[0] + t.shape.Panel[1]) / 2,
	}, err
}

// most strain to which the laws of the shell hold, see docs/theory/shell.md.
const mostGrowth = 0.2

// gone says why a pack does not come through a history: empty where it does.
func gone(r shell.GrowResult) string {
	for _, s := range r.Stresses {
		if s.StrengthUse > 1 {
			return fmt.Sprintf("the wall breaks at z = %s, radius %s: its force is %.2f times the ultimate strength, last load %s; more wall or less pressure", unit.Quote(unit.Length, s.Z, 3), unit.Quote(unit.Length, s.R, 3), s.StrengthUse, unit.Quote(unit.PressureGauge, r.End.Pressure, 3))
		}
	}
	if g := r.End; g.Diameter > mostGrowth {
		return fmt.Sprintf("the wall flows on: %.0f %% at z = %s, beyond the %.0f %% to which its laws hold, last load %s; more wall or less pressure", 100*g.Diameter, unit.Quote(unit.Length, g.DiameterZ, 3), 100*mostGrowth, unit.Quote(unit.PressureGauge, g.Pressure, 3))
	}
	return ""
}

// growthMethod is the method of the thermal stability test.
const growthMethod = "Shell of revolution, large displacement, orthotropic wall, creep with strain hardening, pressure on the inner face; measured after cooling to the laboratory"

// growth is the thermal stability test.
func (t *strengthTests) growth() {
	keys := []string{"growth.diameter", "growth.height", "fillpoint.drop", "base.clearance", "perpendicularity.growth", "stress.max"}
	if t.pressures == nil {
		t.lacking(t.noPressure(), keys...)
		return
	}
	in, err := t.growthInput()
	if err != nil {
		t.lacking(err.Error(), keys...)
		return
	}
	r, err := shell.Grow(in)
	if err != nil {
		t.lacking("thermal stability: "+err.Error(), keys...)
		return
	}
	if why := gone(r); why != "" {
		t.lacking("thermal stability: "+why, keys...)
		return
	}
	for _, q := range []struct {
		gauge float64
		at    *shell.Stage
	}{{r.End.Pressure, &in.Stages[0]}, {r.Read.Pressure, in.Back}} {
		if err := t.collapsed(q.gauge, q.at.Soft); err != nil {
			t.lacking("thermal stability, "+q.at.Name+": "+err.Error(), keys...)
			return
		}
	}
	c := t.creeps(in, r)
	end, once, hot := r.Read, c.once, r.End
	wide := r.MeshOf(func(g shell.Growth) float64 { return g.Gauge })
	tall := r.MeshOf(func(g shell.Growth) float64 { return g.Height })
	sunk := r.MeshOf(func(g shell.Growth) float64 { return g.FillDrop })
	most := r.MeshOf(func(g shell.Growth) float64 { return g.Stress })
	plain, hooke := t.plainGrowth(end.Pressure)
	c.show(result{
		key: "growth.diameter", value: end.Gauge, mesh: wide, equation: "g = k p_r r / t (1/E_h - ν / 2 / E_m) + g_c", warnings: []string{fmt.Sprintf("at half height of the panel; the largest is %.1f %% at z = %s", 100*end.Diameter, unit.Quote(unit.Length, end.DiameterZ, 3)), meshNote(wide, "growth.diameter")},
		inputs: append([]figure.Input{
			computed("bottle.profile", "k", "What the form, its growth and yield make of the plain cylinder", once.Gauge/plain, unit.Ratio),
			computed("handling.creep_factor", "g_c", "Added by creep", end.Gauge-once.Gauge, unit.Fraction),
			computed("handling.lab_temperature", "p_r", "Pack: pressure when it is measured", end.Pressure, unit.PressureGauge),
		}, hooke...),
	}, func(g shell.Growth) float64 { return g.Gauge })
	c.show(result{
		key: "growth.height", value: end.Height, mesh: tall, equation: "Δh = u_0 + u_c", warnings: []string{meshNote(tall, "growth.height")},
		inputs: []figure.Input{
			computed("bottle.height", "u_0", "Rise of the top over the standing ring without creep", once.Height, unit.Length),
			computed("handling.creep_factor", "u_c", "Added by creep", end.Height-once.Height, unit.Length),
		},
	}, func(g shell.Growth) float64 { return g.Height })
	closed := t.collapsed(r.Closed.Pressure, in.Closed.Soft)
	switch {
	case in.FillDepth <= 0:
		t.problem("fillpoint.drop", "the drink stands in the finish")
	case closed != nil:
		t.problem("fillpoint.drop", "thermal stability, closed: %v", closed)
	default:
		c.show(result{
			key: "fillpoint.drop", value: end.FillDrop, mesh: sunk, equation: "Δh = h_1 - h_0", warnings: []string{meshNote(sunk, "fillpoint.drop"), "counted from the closed pack in balance: a level marked before the gas has come out of the drink drops by up to " + unit.Quote(unit.Length, r.Closed.FillDrop, 3) + " more"},
			inputs: []figure.Input{
				computed("brief.nominal", "h_0", "Level below the ledge in the pack just closed", in.FillDepth+r.Closed.FillDrop, unit.Length),
				computed("bottle.profile", "h_1", "Level below the ledge in the grown bottle", in.FillDepth+r.Closed.FillDrop+end.FillDrop, unit.Length),
				computed("brief.nominal", "h_b", "Level below the ledge in the open bottle", in.FillDepth, unit.Length),
				computed("drink.fill_temperature", "p_f", "Pack: pressure when just closed", r.Closed.Pressure, unit.PressureGauge),
				computed("bottle.profile", "ΔV", "Gain of the inner volume of the bottle as modelled, which the balance of the gas counts", end.Volume*r.Room, unit.Volume),
			},
		}, func(g shell.Growth) float64 { return g.FillDrop })
	}
	c.show(result{
		key: "stress.max", value: hot.Stress, mesh: most, equation: "σ = k p r / t", warnings: []string{meshNote(most, "stress.max"), "at the end of the test, before cooling"}, hot: true,
		inputs: []figure.Input{
			computed("bottle.profile", "k", "Growth, thinning and bending over the plain cylinder", hot.Stress*hot.StressT/(hot.Pressure*hot.StressR), unit.Ratio),
			computed("bottle.profile", "r", "Mid radius at z = "+unit.Quote(unit.Length, hot.StressZ, 3), hot.StressR, unit.Length),
			computed("blow.wall_factor", "t", "Wall there", hot.StressT, unit.Length),
		},
	}, func(g shell.Growth) float64 { return g.Stress })
	t.clearance(in, r, c)
	t.stressPlots(r)
}

// plainGrowth returns the elastic growth of a plain closed cylinder with the
// wall at half height of the panel, and what goes into it.
func (t *strengthTests) plainGrowth(p float64) (float64, []figure.Input) {
	s := t.shape.Bottle.CutS((t.shape.Panel[0] + t.shape.Panel[1]) / 2)
	wall, _ := t.wall.Along.At(s)
	hoop, axial := t.wall.stretchAt(s)
	q, err := ply(t.d, hoop, axial)
	if err != nil {
		return math.NaN(), nil
	}
	r := t.d.Bottle.PanelDiameter/2 - wall/2
	round, mean := q.Eh*t.labSoft, math.Sqrt(q.Es*q.Eh)*t.labSoft
	return p * r / wall * (1/round - q.Nu/2/mean), []figure.Input{
		computed("bottle.panel_diameter", "r", "Mid radius of the panel", r, unit.Length),
		computed("blow.wall_factor", "t", "Wall at half height of the panel", wall, unit.Length),
		computed("handling.modulus_factor", "E_h", "Modulus there round the axis", round, unit.Stress),
		computed("handling.modulus_factor", "E_m", "Geometric mean of both moduli there", mean, unit.Stress),
		computed("handling.modulus_factor", "ν", "Poisson's ratio", q.Nu, unit.Ratio),
	}
}

// creepTests is a growth with what the unknowns of the wall do to it.
type creepTests struct {
	*strengthTests
	base     shell.GrowResult // on the coarse mesh
	once     shell.Growth     // as measured, of a wall that does not creep; without one, that at once
	moves    []move
	inputs   []figure.Input
	warnings []string
}

// move is one unknown at both ends of its range, on the coarse mesh.
type move struct {
	path, label, basis string
	low, high          shell.GrowResult
	lost               bool // one end gave no result; the other stands for both
}

// creeps repeats the test on a coarse mesh in few steps with every unknown of the wall at
// both ends of its range: growth beyond yield is no power of any of them.
func (t *strengthTests) creeps(in shell.GrowInput, r shell.GrowResult) *creepTests {
	c := &creepTests{strengthTests: t, once: r.AtOnce, warnings: r.Warnings}
	c.inputs = []figure.Input{c.pressure(r.End.Pressure), t.given("time", "handling.stability_time"), t.given("T", "handling.stability_temperature"), t.given("T_lab", "handling.lab_temperature"), t.given("f_c", "handling.creep_factor")}
	if r.Mesh.Note != "" {
		return c
	}
	in.Quick, in.Sizing.Factor, in.Steps = true, 3*sizing, 2
	at := func(change func(*shell.GrowInput, float64), factor float64) (shell.GrowResult, bool) {
		q := in
		change(&q, factor)
		g, err := shell.Grow(q)
		return g, err == nil && gone(g) == ""
	}
	var ok bool
	if c.base, ok = at(func(*shell.GrowInput, float64) {}, 1); !ok {
		return c
	}
	creep := func(q *shell.GrowInput, f float64) { q.Creep = creepOf(f * t.d.Handling.Creep) }
	if creepLaw(t.d).low > 0 { // else the low end is that without creep
		if r, ok := at(creep, 0); ok {
			c.once = r.Read
		}
	}
	for _, u := range []struct {
		factorRange
		change func(*shell.GrowInput, float64)
	}{
		{stiffnessLaw(t.d), func(q *shell.GrowInput, f float64) { q.Bottle = changed(q.Bottle, f, 1, 1) }},
		{strengthLaw(t.d), func(q *shell.GrowInput, f float64) { q.Bottle = changed(q.Bottle, 1, f, 1) }},
		{t.wallRange(), func(q *shell.GrowInput, f float64) { q.Bottle = changed(q.Bottle, 1, 1, f) }},
		{creepLaw(t.d), creep},
	} {
		m := move{path: u.path, label: u.label, basis: u.basis}
		low, ok1 := at(u.change, u.low)
		high, ok2 := at(u.change, u.high)
		m.low, m.high, m.lost = low, high, !ok1 || !ok2
		switch {
		case !ok1 && !ok2:
			continue
		case !ok1:
			m.low = high
		case !ok2:
			m.high = low
		}
		if u.low == 0 && ok1 {
			c.once = low.Read
		}
		c.moves = append(c.moves, m)
	}
	return c
}

// changed returns the bottle with factors on stiffness, strength and wall.
func changed(b shell.Bottle, stiff, strong, wall float64) shell.Bottle {
	b.Stations = append([]shell.Station{}, b.Stations...)
	for i := range b.Stations {
		s := &b.Stations[i]
		s.Wall *= wall
		for k := range s.Ply {
			p := &s.Ply[k]
			p.Es, p.Eh = p.Es*stiff, p.Eh*stiff
			p.Ys, p.Yh, p.Us, p.Uh = p.Ys*strong, p.Yh*strong, p.Us*strong, p.Uh*strong
		}
	}
	return b
}

func (c *creepTests) pressure(p float64) figure.Input {
	return computed("handling.stability_temperature", "p", "Pack: pressure at the end of the test", p, unit.PressureGauge)
}

// show puts a figure of the growth on the board.
func (c *creepTests) show(r result, of func(shell.Growth) float64) *figure.Figure {
	r.method = growthMethod
	r.inputs, r.warnings = append(r.inputs, c.inputs...), append(r.warnings, c.warnings...)
	if c.moves == nil { // no coarse mesh: by powers
		r.follows = influence{stiffness: -1, wall: -1}
	}
	for _, m := range c.moves {
		if m.lost {
			r.warnings = append(r.warnings, fmt.Sprintf("%s: the band is not complete, because the pack does not hold over the whole range of: %s", quality.EstimatePrefix, m.label))
		}
	}
	f := c.strengthTests.show(r)
	at := func(g shell.GrowResult) float64 {
		if r.hot {
			return of(g.End)
		}
		return of(g.Read)
	}
	for _, m := range c.moves {
		e := figure.Effect{Path: m.path, Label: m.label, Low: at(m.low) - at(c.base), High: at(m.high) - at(c.base), Basis: m.basis}
		if m.lost {
			e.Low = -e.High
		}
		widen(f, e)
	}
	return f
}

// meshNote tells what the mesh does to a figure.
func meshNote(e shell.Estimate, key string) string {
	if e.Note != "" || e.Fine == 0 {
		return fmt.Sprintf("mesh of %d elements; no estimate of its error", e.Elements)
	}
	return fmt.Sprintf("mesh of %d elements: it moves %s by up to some %.1f %%", e.Elements, key, 100*meshShare(e, key))
}

// meshNoteOf tells it of a length that may come near 0, where a share says nothing.
func meshNoteOf(e shell.Estimate, key string, off float64) string {
	if e.Note != "" {
		return meshNote(e, key)
	}
	return fmt.Sprintf("mesh of %d elements: it moves %s by up to some %s", e.Elements, key, unit.Quote(unit.Length, off, 2))
}
