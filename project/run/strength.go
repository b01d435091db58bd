package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/drink"
	"costrel/physics/hotfill"
	"costrel/physics/impact"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

var strengthStage = stage{
	name: "strength", full: true, needs: []string{"bottle", "preform", "wall"}, soft: []string{"pressure", "blow"},
	reads: func(d *design.Design) any {
		return []any{d.Handling, d.Bottle.Base, d.Drink, d.Brief, d.Climate.Hot, d.Climate.Lane, d.Climate.Named, d.Climate.SeasonStart, d.Closure.Mass, d.Resin.Grade, d.Blow.Body, d.Finish.Seal}
	},
	keys: []string{
		"growth.diameter", "growth.height", "fillpoint.drop", "base.clearance", "burst.pressure", "topload.empty", "topload.sealed", "topload.filled",
		"vacuum.collapse", "panel.compliance", "stack.capacity", "drop.index", "stress.max", "softening.temperature",
		"material.glass.wall", "material.glass.mass", "material.hdpe.growth",
	},
	run: func(c *pass) (any, error) {
		t, err := newStrengthTests(c)
		if err != nil {
			return nil, err
		}
		for i, test := range []func(){t.growth, t.burst, t.topLoads, t.vacuum, t.drop, t.softening, t.otherMaterials} {
			if err := c.work.ctx.Err(); err != nil {
				return nil, err
			}
			c.report(float64(i) / 7)
			test()
		}
		c.report(1)
		return &Strength{Panel: t.panel}, nil
	},
}

// Strength is what later stages take from the virtual tests.
type Strength struct {
	Panel []hotfill.Point // volume given inward over vacuum, up to the collapse; nil where the test failed
}

// materialNote goes with every figure of strength.
const materialNote = "stiffness, strength and creep of the stretched wall are fits of convenience, from memory; calibrate them on burst, top load and thermal stability"

// Steps of the paths. Five times as many move burst by less than 0.1 %, four
// times as many the top load by less than 1 %: TestStrengthConverges.
const (
	growSteps  = 5
	burstSteps = 12
	pushSteps  = 16
)

// strengthTests runs the virtual tests of one bottle.
type strengthTests struct {
	*pass
	b         shell.Bottle
	shape     *Shape
	wall      *Wall
	pressures *Pressures // nil without pressure
	warm      shell.Warmth
	warnings  []string

	panel []hotfill.Point // of the vacuum test

	labSoft, hotSoft              float64
	stabilitySoft, stabilityCreep float64
}

// newStrengthTests prepares the bottle and the factors of temperature.
func newStrengthTests(c *pass) (*strengthTests, error) {
	shape, w := from[*Shape](c, "bottle"), from[*Wall](c, "wall")
	if w.Blown == nil {
		_, why := blowOf(c)
		return nil, fmt.Errorf("the virtual tests need a blown bottle: %s", why)
	}
	b, warnings, err := shellBottle(c.d, shape, w)
	if err != nil {
		return nil, err
	}
	if b, err = b.Meshed(); err != nil {
		return nil, err
	}
	heatset := c.d.Blow.Body.Celsius() > 90
	t := &strengthTests{pass: c, b: b, shape: shape, wall: w, warm: shell.DefaultWarmth(heatset), warnings: append([]string{w.note(), materialNote}, warnings...)}
	if e := c.done["pressure"]; e != nil && e.err == nil {
		t.pressures = e.out.(*Pressures)
	}
	return t, t.warmth()
}

// growthInput is the thermal stability test of a closed pack.
func (t *strengthTests) growthInput() (shell.GrowInput, error) {
	h := t.d.Handling
	sealed, err := t.pressures.sealed(h.Stability)
	return shell.GrowInput{
		Bottle: t.b, Stages: []shell.Stage{{Name: "stability", Time: h.StabilityTime, Sealed: sealed, Soft: t.stabilitySoft, Rate: t.stabilityCreep}},
		Steps: growSteps,
		// The fill point is read back at the reference temperature.
		FillDepth: math.Max(t.shape.Level.BelowBrim-t.shape.Bottle.Spec().BoreHeight, 0),
		GaugeZ:    (t.shape.Panel[0] + t.shape.Panel[1]) / 2,
	}, err
}

// warmth works out the factors of temperature of the tests.
func (t *strengthTests) warmth() error {
	hot, _ := hottest(t.d)
	for _, q := range []struct {
		at    unit.Temperature
		soft  *float64
		creep *float64
	}{{t.d.Handling.Lab, &t.labSoft, nil}, {t.d.Handling.Stability, &t.stabilitySoft, &t.stabilityCreep}, {hot, &t.hotSoft, nil}} {
		soft, creep, warning, err := t.warm.Factors(q.at)
		if err != nil {
			return fmt.Errorf("strength: %w", err)
		}
		if warning != "" && q.at < unit.Celsius(15) {
			t.warnings = append(t.warnings, warning)
		}
		*q.soft = soft
		if q.creep != nil {
			*q.creep = creep
		}
	}
	return nil
}

// show puts a figure of a test on the board with its own band: the powers with
// which it follows stiffness or strength, and the wall.
func (t *strengthTests) show(key string, v float64, method, equation string, law string, powerLaw, powerWall float64, warnings []string, inputs ...figure.Input) {
	path := "handling.modulus_factor"
	if law == "strength" {
		path = "handling.strength_factor"
	}
	all := append(inputs, t.input("t", "wall.panel.mean"), t.given("f", path), t.given("T_lab", "handling.lab_temperature"))
	t.figure(key, v, figure.Origin{
		Method: method, Equation: equation, Sources: []string{"Timoshenko1959", "CommonPractice"}, Theory: "strength", Inputs: all,
		Warnings: append(append([]string{}, t.warnings...), warnings...),
	})
	f := t.last(key)
	if f == nil {
		return
	}
	wallBand := 0.05
	switch {
	case t.wall.Blown != nil:
		wallBand = 0.10
	case noTargets(t.d):
		wallBand = 0.15
	}
	// The two laws of stiffness differ by 35 %, the stiffer of them is the other.
	lawLow, lawHigh, basis := 0.8, 1.2, "± 20 %, from memory"
	if law == "stiffness" {
		lawHigh, basis = 1.35, "- 20 %, from memory; + 35 %, the other law of stiffness"
	}
	f.Effects, f.Lo, f.Hi = []figure.Effect{}, v, v
	scaled := func(path, label, basis string, low, high, power float64) {
		if power != 0 {
			widen(f, figure.Effect{Path: path, Label: label, Low: v * (math.Pow(low, power) - 1), High: v * (math.Pow(high, power) - 1), Basis: basis})
		}
	}
	scaled(path, "Law of the "+law+" of the stretched wall", basis, lawLow, lawHigh, powerLaw)
	scaled("blow.wall_factor", "Wall", fmt.Sprintf("wall ± %.0f %%, see its own band", 100*wallBand), 1-wallBand, 1+wallBand, powerWall)
}

// widen adds an effect to the band of a figure, by root of the sum of squares.
func widen(f *figure.Figure, e figure.Effect) {
	f.Effects = append(f.Effects, e)
	f.Hi = f.Value + math.Hypot(f.Hi-f.Value, max(e.Low, e.High, 0))
	f.Lo = f.Value - math.Hypot(f.Value-f.Lo, min(e.Low, e.High, 0))
}

// last returns the figure shown last if it has the key, else nil.
func (t *strengthTests) last(key string) *figure.Figure {
	if n := len(t.figures); n > 0 && t.figures[n-1].Key == key {
		return &t.figures[n-1]
	}
	return nil
}

// growth is the thermal stability test.
func (t *strengthTests) growth() {
	keys := []string{"growth.diameter", "growth.height", "fillpoint.drop", "base.clearance", "stress.max"}
	if t.pressures == nil {
		for _, k := range keys {
			t.problem(k, "does not apply: the pack holds no pressure")
		}
		return
	}
	h := t.d.Handling
	in, err := t.growthInput()
	if err != nil {
		for _, k := range keys {
			t.problem(k, "%v", err)
		}
		return
	}
	feet := 0
	if t.d.Bottle.Base.Type == "petaloid" {
		feet = t.d.Bottle.Base.Feet
	}
	r, err := shell.Grow(in)
	if err != nil {
		for _, k := range keys {
			t.problem(k, "thermal stability: %v", err)
		}
		return
	}
	pressure := figure.Input{Key: "design:handling.stability_temperature", Symbol: "p", Label: "Pack: pressure at the end of the test", Value: r.End.Pressure, Kind: unit.PressureGauge, Origin: figure.Computed}
	inputs := []figure.Input{pressure, t.given("time", "handling.stability_time"), t.given("T", "handling.stability_temperature"), t.given("c", "handling.creep_factor")}
	method := "Shell of revolution, large displacement, orthotropic wall, creep with strain hardening, pressure on the inner face"
	// What creep does to them: none at all, which is the state at once, and the
	// law as it was written down, on the coarse mesh.
	none, written := r.AtOnce, r.End
	q := in
	q.Quick, q.Creep, q.Sizing.Factor = true, creepOf(math.Max(1, 2*h.Creep)), 2*sizing
	if g, err := shell.Grow(q); err == nil {
		written = g.End
	}
	base := r.End // on the same mesh as written
	if r.Mesh.Note == "" {
		base = r.Coarse
	}
	grown := func(key, equation string, of func(shell.Growth) float64, warnings ...string) {
		v := of(r.End)
		t.show(key, v, method, equation, "stiffness", -1, -1, append(warnings, r.Warnings...), inputs...)
		if f := t.last(key); f != nil {
			widen(f, figure.Effect{Path: "handling.creep_factor", Label: "Creep law", Low: of(none) - v, High: of(written) - of(base), Basis: "factor 0 .. 1: from memory, not for this stress"})
		}
	}
	most := fmt.Sprintf("at half height of the panel; the largest is %.1f %% at z = %.0f mm", 100*r.End.Diameter, 1e3*r.End.DiameterZ)
	grown("growth.diameter", "g = ΔD / D", func(g shell.Growth) float64 { return g.Gauge }, most)
	grown("growth.height", "Δh = u_top - u_ring", func(g shell.Growth) float64 { return g.Height })
	if in.FillDepth > 0 {
		grown("fillpoint.drop", "Δh = level at filling less level in the grown bottle", func(g shell.Growth) float64 { return g.FillDrop })
	} else {
		t.problem("fillpoint.drop", "the drink stands in the finish")
	}
	t.show("stress.max", r.End.Stress, method, "σ = max σ_hoop", "stiffness", 0, -1, r.Warnings, inputs...)
	t.clearance(in, r, feet, method, inputs)
	t.stressPlots(r)
}

// clearance is how high the gate stands after the thermal stability test.
func (t *strengthTests) clearance(in shell.GrowInput, r shell.GrowResult, feet int, method string, inputs []figure.Input) {
	if t.d.Bottle.Base.Type == "hemisphere" {
		t.problem("base.clearance", "does not apply: a hemisphere stands in a base cup")
		return
	}
	push := shell.PushUpInput{GrowInput: in, Feet: feet}
	sag, err := push.Sag(r)
	if err != nil {
		t.problem("base.clearance", "%v", err)
	} else {
		estimate := append([]string{}, sag.Warnings...)
		if feet > 0 {
			estimate = append(estimate, quality.EstimatePrefix+": the sag of the feet is that of a round dome times a factor")
		}
		t.show("base.clearance", sag.End, method, "c = c_0 - f_foot sag", "stiffness", 0.5, 0.5, estimate, inputs...)
	}
}

// stressPlots draws stress along the wall and the deformed form.
func (t *strengthTests) stressPlots(r shell.GrowResult) {
	if !t.work.drawn {
		return
	}
	var s, in, out, along []float64
	for _, q := range r.Stresses {
		s, in, out, along = append(s, q.S), append(in, q.RoundIn), append(out, q.RoundOut), append(along, q.AlongMid)
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	stress := Axis{Label: "stress", Kind: unit.Stress}
	t.plot(Plot{Key: "strength.stress", Title: "Stress after thermal stability", X: arc, Y: stress, Series: []Series{{Name: "hoop, inside", X: s, Y: in}, {Name: "hoop, outside", X: s, Y: out}, {Name: "along, mid wall", X: s, Y: along, Dashed: true}}, Note: materialNote})
	var use []float64
	for _, q := range r.Stresses {
		use = append(use, q.StrengthUse)
	}
	t.plot(Plot{Key: "strength.use", Title: "Stress over strength", X: arc, Y: Axis{Label: "share of the strength", Kind: unit.Fraction, Unit: "%"}, Series: []Series{{Name: "use", X: s, Y: use}}, Note: materialNote})
	const scale = 10
	f := r.Form
	dz, dr := make([]float64, len(f.Z)), make([]float64, len(f.Z))
	for i := range f.Z {
		dz[i], dr[i] = f.Z[i]+scale*f.Axial[i], f.R[i]+scale*f.Radial[i]
	}
	t.plot(Plot{
		Key: "strength.form", Title: fmt.Sprintf("Form after thermal stability, displacements × %d", scale), X: Axis{Label: "radius", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "height", Kind: unit.Length, Unit: "mm"},
		Series: []Series{{Name: "unloaded", X: f.R, Y: f.Z, Dashed: true}, {Name: "loaded", X: dr, Y: dz}},
	})
}

func (t *strengthTests) burst() {
	r, err := shell.Burst(shell.BurstInput{Bottle: t.b, Soft: t.labSoft, Steps: burstSteps})
	if err != nil {
		t.problem("burst.pressure", "burst: %v", err)
		return
	}
	where := fmt.Sprintf("fails by %s at z = %.0f mm, radius %.1f mm", r.Why, r.Place*1e3, r.Radius*1e3)
	t.show("burst.pressure", r.Pressure, "Shell of revolution pumped by volume, large displacement, Hill plasticity with hardening, strength of the stretched wall", "p at max σ = σ_u or dp/dV = 0", "strength", 1, 1, append([]string{where}, r.Warnings...))
	if t.work.drawn {
		var p, g []float64
		for _, q := range r.Course {
			p, g = append(p, q.Pressure), append(g, q.Gain)
		}
		t.plot(Plot{Key: "strength.burst", Title: "Burst", X: Axis{Label: "gain of volume", Kind: unit.Fraction, Unit: "%"}, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Series: []Series{{Name: "pumped with water", X: g, Y: p}}, Note: where})
	}
}

func (t *strengthTests) topLoads() {
	var series []Series
	load := func(key string, in shell.TopLoadInput) {
		in.Bottle, in.Brief, in.Steps = t.b, true, pushSteps
		in.Quick = key == "topload.sealed" || key == "stack.capacity" // as their sisters
		r, err := shell.TopLoad(in)
		if err != nil {
			t.problem(key, "top load: %v", err)
			return
		}
		where := fmt.Sprintf("%s at z = %.0f mm; knock-down %.2f", r.Mode, r.Place*1e3, r.Knockdown.Gamma)
		v, high := expected(r)
		t.show(key, v, "Shell of revolution pushed by the platen, large displacement and yield; buckling in waves round the axis, halfway between the perfect shell and the lower bound of tests", "F = min(F_max, (1 + γ) F_buckle / 2)", "stiffness", 1, 2, append([]string{where}, r.Warnings...))
		if f := t.last(key); f != nil && high > r.Design {
			widen(f, figure.Effect{Path: "bottle", Label: "Imperfections of the wall", Low: r.Design - v, High: high - v, Basis: "lower bound of tests .. perfect shell"})
		}
		if t.work.drawn {
			var x, y []float64
			for _, q := range r.Course {
				x, y = append(x, q.Stroke), append(y, q.Load)
			}
			series = append(series, Series{Name: string(in.Fill), X: x, Y: y})
		}
	}
	load("topload.empty", shell.TopLoadInput{Fill: shell.EmptyVented, Soft: t.labSoft})
	load("topload.sealed", shell.TopLoadInput{Fill: shell.EmptySealed, Soft: t.labSoft, Headspace: t.shape.Brimful})
	head := t.shape.Brimful - t.d.Brief.Nominal
	filled := shell.TopLoadInput{Fill: shell.Filled, Soft: t.labSoft, Headspace: head}
	hot := filled
	hot.Soft = t.hotSoft
	if t.pressures != nil {
		if p, err := t.pressures.at(t.d.Handling.Lab); err == nil {
			filled.Gauge = float64(p)
		}
		hot.Gauge = float64(t.pressures.Hot)
	}
	load("topload.filled", filled)
	load("stack.capacity", hot)
	if len(series) > 0 {
		t.plot(Plot{Key: "strength.topload", Title: "Top load", X: Axis{Label: "stroke", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "load", Kind: unit.Force}, Series: series, Note: materialNote})
	}
}

func (t *strengthTests) vacuum() {
	r, err := shell.Vacuum(shell.VacuumInput{Bottle: t.b, Soft: t.labSoft, Capped: true, Brief: true})
	if err != nil {
		t.problem("vacuum.collapse", "vacuum: %v", err)
		t.problem("panel.compliance", "vacuum: %v", err)
		return
	}
	for _, p := range r.Curve {
		t.panel = append(t.panel, hotfill.Point{Vacuum: p.Vacuum, Volume: p.Volume})
	}
	where := fmt.Sprintf("%d waves round at z = %.0f mm; knock-down %.2f", r.Harmonic, r.Place*1e3, r.Knockdown.Gamma)
	warnings := append([]string{where}, r.Warnings...)
	if t.d.Brief.Product == "hotfill" {
		warnings = append(warnings, quality.EstimatePrefix+": panels and lands are averaged round the axis")
	}
	t.show("vacuum.collapse", r.Design, "Shell of revolution under vacuum, nonlinear before buckling, pressure following the wall, with a knock-down", "p = γ p_buckle", "stiffness", 1, 2.5, warnings)
	t.show("panel.compliance", r.Compliance, "Volume given inward by the round wall, unloaded", "C = dV / dp", "stiffness", -1, -1, warnings)
}

func (t *strengthTests) softening() {
	in := shell.SoftenInput{Bottle: t.b, Warmth: t.warm}
	if t.pressures != nil {
		in.Pressure = func(q unit.Temperature) float64 {
			p, err := t.pressures.at(q)
			if err != nil {
				return math.NaN()
			}
			return float64(p)
		}
	} else {
		in.TopLoad = 1 // it must still stand
	}
	in.To = unit.Celsius(79)
	r, err := shell.Soften(in)
	if err != nil {
		t.problem("softening.temperature", "%v", err)
		return
	}
	if r.Limit == "none" {
		t.problem("softening.temperature", "the pack keeps its limits up to %.0f °C, the end of the search", in.To.Celsius())
		return
	}
	if t.pressures != nil && r.Temperature < t.d.Handling.Stability {
		t.problem("softening.temperature", "as computed the pack leaves its limit of %s in the stability test already: calibrate stiffness and creep first", r.Limit)
		return
	}
	warnings := append([]string{quality.EstimatePrefix + ": stiffness by temperature is from memory, and a wall that shrinks back is not part of it", "leaves its limit of " + r.Limit}, r.Warnings...)
	t.show("softening.temperature", float64(r.Temperature), "Bisection of the temperature at which the warmed pack leaves its limit of growth", "g(T) = g_limit", "stiffness", 0, 0, warnings)
}

// drop ranks the drop of the filled pack.
func (t *strengthTests) drop() {
	d := t.d
	liquid, err := drinkOf(d).Liquid()
	if err != nil {
		t.problem("drop.index", "%v", err)
		return
	}
	lab := d.Handling.Lab
	s := t.shape.Bottle.CutS(math.Max(t.shape.Planes[0]*0.9, 5e-3))
	zone := func(name string, s, r float64) (impact.Zone, error) {
		h, _ := t.wall.Along.At(s)
		hoop, axial := t.wall.stretchAt(s)
		p, err := ply(d, hoop, axial)
		return impact.Zone{Name: name, Tube: impact.Tube{Radius: r, Wall: h, Modulus: p.Eh, Poisson: p.Nu, Support: impact.Closed}, Yield: p.Yh, Volume: 2 * math.Pi * r * h * r}, err
	}
	heel, err1 := zone("heel", s, d.Bottle.Diameter/2)
	mid := t.shape.Bottle.CutS((t.shape.Panel[0] + t.shape.Panel[1]) / 2)
	panel, err2 := zone("panel", mid, d.Bottle.PanelDiameter/2)
	if err1 != nil || err2 != nil {
		t.problem("drop.index", "the wall at heel or panel has no stiffness")
		return
	}
	var cold, warm unit.GaugePressure
	if t.pressures != nil {
		cold, _ = t.pressures.at(unit.Celsius(4))
		warm, _ = t.pressures.at(unit.Celsius(23))
	}
	rho := liquid.Density(lab)
	r, err := impact.Assess(impact.Input{
		Height: d.Handling.Drop, Mass: rho*d.Brief.Nominal + d.Closure.Mass + from[*Preform](t.pass, "preform").Mass,
		Liquid: impact.Liquid{Density: rho, BulkModulus: 2.19e9}, LiquidHeight: math.Max(t.shape.Level.Z, 0.02), Base: t.shape.Bottle.Spec().Base.Kind,
		Zones: []impact.Zone{heel, panel}, Conditions: impact.UsualConditions(cold, warm),
	})
	if err != nil {
		t.problem("drop.index", "%v", err)
		return
	}
	warnings := append([]string{quality.EstimatePrefix + ": a ranking only; set the height by up-and-down drops"}, r.Warnings...)
	t.show("drop.index", r.Worst.Index.Value, "Fluid hammer with the wave speed of the soft wall, plus the stress of the pressure, over the yield at that rate", "I = (σ_p + k ρ c v R / t) / σ_y", "strength", -1, -1, warnings, t.given("h", "handling.drop_height"))
}

// at returns the gauge pressure of the pack at a temperature.
func (p *Pressures) at(t unit.Temperature) (unit.GaugePressure, error) {
	if p.Open {
		q, err := p.Liquid.Open(t, p.SaleAmbient)
		return q.Gauge, err
	}
	var st drink.State
	st, err := closed(p.Liquid, p.Pack, t, p.SaleAmbient)
	return st.Gauge, err
}

// sealed returns the gauge pressure of the closed pack at a temperature, and
// its slope, against the volume the bottle gains: gas leaves the drink for the
// room, in balance.
func (p *Pressures) sealed(t unit.Temperature) (func(gain float64) (float64, float64), error) {
	pack := p.Pack
	pack.Growth = 0
	contents, err := pack.Contents(p.Liquid)
	if err != nil {
		return nil, err
	}
	const parts, most = 40, 0.4
	v, q := make([]float64, parts+1), make([]float64, parts+1)
	for i := range v {
		v[i] = most * pack.Brimful * float64(i) / parts
		vessel := pack.Vessel(t)
		vessel.Volume += v[i]
		vessel.Ambient = p.SaleAmbient
		st, err := p.Liquid.Equilibrium(contents, vessel, t)
		if err != nil {
			return nil, err
		}
		q[i] = float64(st.Gauge)
	}
	step := v[1]
	return func(gain float64) (float64, float64) {
		i := min(max(int(gain/step), 0), parts-1)
		slope := (q[i+1] - q[i]) / step
		return q[i] + slope*(gain-v[i]), slope
	}, nil
}
