package run

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"costrel/figure"
	"costrel/physics/impact"
	"costrel/physics/resin"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// drop ranks the drop of the filled pack.
func (t *strengthTests) drop() {
	d := t.d
	if t.unfilled != "" {
		t.problem("drop.index", "%s", t.unfilled)
		return
	}
	liquid, err := drinkOf(d).Liquid()
	if err != nil {
		t.problem("drop.index", "%v", err)
		return
	}
	lab := d.Handling.Lab
	s := t.shape.Bottle.CutS(math.Max(t.wall.Parts[0]*0.9, 5e-3))
	zone := func(name string, s, r float64) (impact.Zone, error) {
		h, _ := t.wall.Along.At(s)
		hoop, axial := t.wall.stretchAt(s)
		p, err := ply(d, hoop, axial)
		return impact.Zone{Name: name, Tube: impact.Tube{Radius: r, Wall: h, Modulus: p.Eh, Poisson: p.Nu, Support: impact.Closed}, Yield: p.Yh}, err
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
	in := impact.Input{
		Height: d.Handling.Drop, Mass: rho*d.Brief.Nominal + d.Closure.Mass + from[*Preform](t.pass, "preform").Mass,
		Liquid: impact.Liquid{Density: rho, BulkModulus: 2.19e9}, LiquidHeight: math.Max(t.shape.Level.Z, 0.02), Base: t.shape.Bottle.Spec().Base.Kind,
		Zones: []impact.Zone{heel, panel}, Wall: pieces(t.b.Stations), Conditions: impact.UsualConditions(cold, warm),
	}
	if t.gate > 0.1 {
		plain := resin.DefaultStrength()
		in.Gate = &impact.Gate{Gain: t.gate, Modulus: resin.DefaultPower().Amorphous, Yield: plain.Yield * d.Handling.Strength, IntrinsicViscosity: d.Resin.IV}
	}
	r, err := impact.Assess(in)
	if err != nil {
		t.problem("drop.index", "%v", err)
		return
	}
	warnings := append([]string{quality.EstimatePrefix + ": a ranking only; set the height by up-and-down drops", ranks(r)}, r.Warnings...)
	if in.Gate == nil {
		warnings = slices.DeleteFunc(warnings, func(w string) bool { return strings.HasPrefix(w, "the gate is not judged") })
		warnings = append(warnings, "the gate has no index: pressure pushes the wall round it together, and does not pull")
	}
	equation, inputs := worstPlace(r, in)
	f := t.show(result{
		key: "drop.index", value: r.Worst.Index.Value, method: "Fluid hammer with the wave speed of the soft wall, plus the stress of the pressure, over the yield at that rate", equation: equation,
		inputs: append(inputs, computed("drink.sugar", "ρ", "Drink: density", rho, unit.Density), t.given("h", "handling.drop_height")), follows: influence{strength: -1, wall: -1}, warnings: warnings,
	})
	widen(f, figure.Effect{Path: "bottle.base.type", Label: "Factors of base, rate and temperature", Low: r.Worst.Index.Low - r.Worst.Index.Value, High: r.Worst.Index.High - r.Worst.Index.Value, Basis: "from memory"})
}

// pieces returns the wall between every two stations, finish left out.
func pieces(st []shell.Station) []impact.Piece {
	var out []impact.Piece
	for i := 1; i < len(st); i++ {
		a, b := st[i-1], st[i]
		half := func(q shell.Station) impact.Piece {
			p := q.Ply[len(q.Ply)/2]
			return impact.Piece{Yield: p.Yh, Modulus: p.Eh, Volume: math.Pi * q.R * q.Wall * math.Hypot(b.Z-a.Z, b.R-a.R)}
		}
		out = append(out, half(a), half(b))
	}
	return out
}

// ranks tells the index of every place in every condition.
func ranks(r impact.Result) string {
	var parts []string
	for _, c := range r.Conditions {
		line := c.Name + ":"
		for _, z := range c.Zones {
			line += fmt.Sprintf(" %s %.2f", z.Name, z.Index.Value)
		}
		if c.Gate != nil {
			line += fmt.Sprintf(" gate %.2f", c.Gate.Index.Value)
		}
		parts = append(parts, line)
	}
	return strings.Join(parts, "; ")
}

// worstPlace returns the equation of the worst index and what went into it.
func worstPlace(r impact.Result, in impact.Input) (string, []figure.Input) {
	shared := []figure.Input{
		{Key: "card:impact.base", Symbol: "k", Label: r.BaseFactor.Label, Value: r.BaseFactor.Value, Kind: unit.Ratio, Origin: figure.Practice, Source: r.BaseFactor.Source},
		computed("handling.drop_height", "v", "Speed at the floor", r.Speed, unit.Speed),
	}
	for _, c := range r.Conditions {
		if c.Name != r.Worst.Condition {
			continue
		}
		if r.Worst.Place == "gate" && c.Gate != nil {
			return "I = (σ_p + k ρ c v G) / σ_y", append(shared,
				computed("drink.carbonation", "σ_p", c.Name+": stress of the pressure round the gate", c.Gate.Static, unit.Stress),
				computed("bottle", "c", c.Name+": wave speed above the base", c.Zones[0].WaveSpeed, unit.Speed),
				computed("bottle.base.type", "G", "Stress round the gate per pressure", in.Gate.Gain, unit.Ratio),
				computed("handling.strength_factor", "σ_y", c.Name+": what the gate bears at the temperature and rate", c.Gate.Strength, unit.Stress))
		}
		for i, z := range c.Zones {
			if z.Name != r.Worst.Place {
				continue
			}
			where := z.Name + ", " + c.Name + ": "
			return "I = (σ_p + k ρ c v R / t) / σ_y", append(shared,
				computed("drink.carbonation", "σ_p", where+"hoop stress of the pressure", z.Static, unit.Stress),
				computed("bottle", "c", where+"wave speed", z.WaveSpeed, unit.Speed),
				computed("bottle.diameter", "R", where+"radius", in.Zones[i].Radius, unit.Length), computed("blow.wall_factor", "t", where+"wall", in.Zones[i].Wall, unit.Length),
				computed("handling.strength_factor", "σ_y", where+"yield at the temperature and rate", z.Strength, unit.Stress))
		}
	}
	return "", nil
}

// drops reads the up-and-down drops of the laboratory.
func (t *strengthTests) drops() {
	const key = "drop.height.half"
	rows := t.d.Lab.Drops
	if len(rows) == 0 {
		t.problem(key, "no up-and-down drops in lab.drops")
		return
	}
	s, err := Staircase(rows)
	if err != nil {
		t.problem(key, "%v", err)
		return
	}
	equation := "h50 = h_0 + d (A / N + 1 / 2)"
	if s.ByFailures {
		equation = "h50 = h_0 + d (A / N - 1 / 2)"
	}
	t.figure(key, s.H50, figure.Origin{
		Kind: figure.Measured, Method: "Up-and-down test: counts of the rarer result over the heights", Equation: equation, Sources: []string{"DixonMood1948", "ASTMD2463"}, Theory: "impact",
		Inputs: []figure.Input{
			computed("lab.drops", "h_0", "Lowest height with the rarer result", s.Lowest, unit.Length), computed("lab.drops", "d", "Step", s.Step, unit.Length),
			computed("lab.drops", "A", "Sum of levels", float64(s.A), unit.Count), computed("lab.drops", "N", "Rarer results", float64(s.N), unit.Count),
			computed("lab.drops", "s", "Standard deviation between packs", s.S, unit.Length),
		},
		Warnings: s.Warnings,
	})
	if f := t.last(key); f != nil {
		f.Effects = []figure.Effect{}
		half := 1.96 * s.SE50
		widen(f, figure.Effect{Path: "lab.drops", Label: "Scatter of the packs", Low: -half, High: half, Basis: fmt.Sprintf("%d drops", s.Drops)})
	}
}

// Staircase reads up-and-down drops; the step is the first change of height.
func Staircase(rows []design.DropRow) (impact.Staircase, error) {
	drops := make([]impact.Drop, len(rows))
	for i, r := range rows {
		drops[i] = impact.Drop{Height: r.Height, Failed: r.Failed != 0}
	}
	step := 0.0
	for i := 1; i < len(rows) && step == 0; i++ {
		step = math.Abs(rows[i].Height - rows[i-1].Height)
	}
	if len(rows) > 1 && step == 0 {
		return impact.Staircase{}, fmt.Errorf("lab.drops: all %d drops are from ‹%.4g m›: an up-and-down test goes one step lower after a failure and one step higher after a pass; drops of one height are a yes-or-no test", len(rows), rows[0].Height)
	}
	s, err := impact.ReadStaircase(drops, step)
	if err != nil {
		return s, fmt.Errorf("lab.drops: %w", err)
	}
	return s, nil
}
