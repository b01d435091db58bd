package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/hotfill"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

func (t *strengthTests) burst() {
	const key = "burst.pressure"
	r, err := shell.Burst(shell.BurstInput{Bottle: t.b, Soft: t.labSoft, Steps: burstSteps})
	if err != nil {
		t.problem(key, "burst: %v", err)
		return
	}
	where := fmt.Sprintf("fails by %s at z = %.0f mm, radius %.1f mm", r.Why, r.Place*1e3, r.Radius*1e3)
	equation := "p at dp/dV = 0"
	if r.Why == "strength" && r.Strength > 0 {
		equation = "p = k σ_u t / r"
	}
	t.show(result{
		key: key, value: r.Pressure, method: "Shell of revolution pumped by volume, large displacement, Hill plasticity with hardening, strength of the stretched wall", equation: equation,
		inputs: []figure.Input{
			computed("bottle.profile", "k", "What the form, its growth and its neighbours leave of the plain cylinder", r.Pressure*r.Radius/(math.Max(r.Strength, 1)*r.Wall), unit.Ratio),
			computed("handling.strength_factor", "σ_u", "Hoop strength of the wall there, over the unloaded section", r.Strength, unit.Stress),
			computed("blow.wall_factor", "t", "Wall there", r.Wall, unit.Length), computed("bottle.profile", "r", "Mid radius there", r.Radius, unit.Length),
			computed("brief.nominal", "ΔV", "Gain of volume at failure", r.Gain*t.shape.Brimful, unit.Volume), t.given("T", "handling.lab_temperature"),
		},
		follows: influence{strength: 1, wall: 1}, warnings: append([]string{where, meshNote(r.Mesh, key)}, r.Warnings...),
	})
	if t.work.drawn {
		var p, g []float64
		for _, q := range r.Course {
			p, g = append(p, q.Pressure), append(g, q.Gain)
		}
		t.plot(Plot{Key: "strength.burst", Title: "Burst", X: Axis{Label: "gain of volume", Kind: unit.Fraction, Unit: "%"}, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Series: []Series{{Name: "pumped with water", X: g, Y: p}}, Note: where})
	}
}

// topLoads are the four top loads.
func (t *strengthTests) topLoads() {
	var series []Series
	load := func(key string, in shell.TopLoadInput) {
		in.Quick = key == "topload.sealed" || key == "stack.capacity" // as their sisters
		if r, ok := t.topLoad(key, in); ok {
			var x, y []float64
			for _, q := range r.Course {
				x, y = append(x, q.Stroke), append(y, q.Load)
			}
			series = append(series, Series{Name: map[string]string{"stack.capacity": "filled and capped, hot lane"}[key], X: x, Y: y})
			if s := &series[len(series)-1]; s.Name == "" {
				s.Name = string(in.Fill)
			}
		}
	}
	load("topload.empty", shell.TopLoadInput{Fill: shell.EmptyVented, Soft: t.labSoft})
	load("topload.sealed", shell.TopLoadInput{Fill: shell.EmptySealed, Soft: t.labSoft, Headspace: t.shape.Brimful})
	filled := shell.TopLoadInput{Fill: shell.Filled, Soft: t.labSoft, Headspace: t.shape.Brimful - t.d.Brief.Nominal}
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
		t.plot(Plot{Key: "strength.topload", Title: "Top load", X: Axis{Label: "stroke", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "load", Kind: unit.Force}, Series: series, Note: "the round, perfect bottle; each curve ends soon after its first buckle or its largest load. " + materialNote})
	}
}

// topLoad is one of them.
func (t *strengthTests) topLoad(key string, in shell.TopLoadInput) (shell.TopLoadResult, bool) {
	in.Bottle, in.Brief, in.Steps = t.bottle(in.Quick), true, pushSteps
	r, err := shell.TopLoad(in)
	if err != nil {
		t.problem(key, "top load: %v", err)
		return r, false
	}
	v, high := expected(r)
	equation, inputs := pushed(r, high)
	warnings := []string{fmt.Sprintf("%s at z = %.0f mm; knock-down %.2f", r.Mode, r.Place*1e3, r.Knockdown.Gamma), meshNote(r.Mesh, key)}
	f := t.show(result{
		key: key, value: v, method: "Shell of revolution pushed by the platen, large displacement and yield; buckling in waves round the axis, halfway between the perfect shell and the lower bound of tests", equation: equation, sources: []string{r.Knockdown.Source},
		inputs: append(inputs, computed("handling.lab_temperature", "p", "Pack: pressure before the platen", in.Gauge, unit.PressureGauge)), follows: influence{stiffness: 1, wall: 2}, warnings: append(warnings, r.Warnings...),
	})
	if t.cornered(r) {
		f.Origin.Warnings = append(f.Origin.Warnings, "the first buckle comes at less than half of the classical load of the wall there, at a corner or step of the profile: real bottles carry on beyond it, so the load is a low estimate")
	}
	if high > r.Design {
		widen(f, figure.Effect{Path: "bottle", Label: "Imperfections of the wall", Low: r.Design - v, High: high - v, Basis: "lower bound of tests .. perfect shell"})
	}
	if key == "topload.empty" && r.Buckle.Harmonic > 0 {
		t.buckles(key, r.Form, r.Buckle)
	}
	return r, true
}

// cornered tells a buckle that a corner of the profile brings on from one of
// the plain wall.
func (t *strengthTests) cornered(r shell.TopLoadResult) bool {
	if !r.Buckled || r.Borne > 0 {
		return false
	}
	s := t.shape.Bottle.CutS(r.Place)
	wall, _ := t.wall.Along.At(s)
	hoop, axial := t.wall.stretchAt(s)
	p, err := ply(t.d, hoop, axial)
	if err != nil {
		return false
	}
	_, classical, err := shell.AxialClassical(t.d.Bottle.PanelDiameter/2, wall, math.Sqrt(p.Es*p.Eh), p.Nu)
	return err == nil && r.Buckle.Load < 0.5*classical
}

// bottle returns the bottle for a test, quick or with the estimate of its mesh.
func (t *strengthTests) bottle(quick bool) shell.Bottle {
	b := t.b
	b.Quick = b.Quick || quick
	return b
}

// pushed returns the equation of a top load and what goes into it.
func pushed(r shell.TopLoadResult, high float64) (string, []figure.Input) {
	force := func(symbol, label string, v float64) figure.Input {
		return computed("bottle", symbol, label, v, unit.Force)
	}
	gamma := figure.Input{Key: "card:knockdown", Symbol: "γ", Label: "Knock-down: " + r.Knockdown.Name, Value: r.Knockdown.Gamma, Kind: unit.Ratio, Origin: figure.Practice, Source: r.Knockdown.Source}
	wave := force("F_b", fmt.Sprintf("Buckling load of the perfect wall, %d waves", r.Buckle.Harmonic), r.Wave)
	borne := force("F_p", "Part of it that the pressure carries whole", r.Borne)
	most := force("F_max", "Largest load of the round, perfect bottle", r.Largest)
	capped := r.Wave <= 0 || r.Design >= r.Largest*(1-1e-12)
	switch {
	case !r.Buckled && capped:
		return "F = F_max", []figure.Input{most}
	case !r.Buckled:
		return "F = F_p + γ (F_b - F_p)", []figure.Input{borne, gamma, wave, most}
	case capped || high < r.Wave*(1-1e-12):
		return "F = (F_low + F_high) / 2", []figure.Input{force("F_low", "Lower bound of tests", r.Design), force("F_high", "Perfect bottle", high), gamma, most}
	case r.Borne > 0:
		return "F = (F_p + γ (F_b - F_p) + F_b) / 2", []figure.Input{borne, gamma, wave}
	}
	return "F = (1 + γ) F_b / 2", []figure.Input{gamma, wave}
}

func (t *strengthTests) vacuum() {
	r, err := shell.Vacuum(shell.VacuumInput{Bottle: t.b, Soft: t.labSoft, Capped: true, Brief: true})
	if err != nil {
		t.lacking("vacuum: "+err.Error(), "vacuum.collapse", "panel.compliance")
		return
	}
	for _, p := range r.Curve {
		t.panel = append(t.panel, hotfill.Point{Vacuum: p.Vacuum, Volume: p.Volume})
	}
	warnings := append([]string{fmt.Sprintf("%d waves round at z = %.0f mm; knock-down %.2f", r.Harmonic, r.Place*1e3, r.Knockdown.Gamma), meshNote(r.Mesh, "vacuum.collapse")}, r.Warnings...)
	if t.d.Brief.Product == "hotfill" {
		warnings = append(warnings, quality.EstimatePrefix+": panels and lands are averaged round the axis")
	}
	t.show(result{
		key: "vacuum.collapse", value: r.Design, method: "Shell of revolution under vacuum, nonlinear before buckling, pressure following the wall, with a knock-down", equation: "p = γ p_b", sources: []string{r.Knockdown.Source},
		inputs: []figure.Input{
			{Key: "card:knockdown", Symbol: "γ", Label: "Knock-down: " + r.Knockdown.Name, Value: r.Knockdown.Gamma, Kind: unit.Ratio, Origin: figure.Practice, Source: r.Knockdown.Source},
			computed("bottle", "p_b", fmt.Sprintf("Vacuum at which the perfect wall buckles, %d waves", r.Harmonic), r.Collapse, unit.PressureChange),
		},
		follows: influence{stiffness: 1, wall: 2.5}, warnings: warnings,
	})
	const probe = 1e3
	t.show(result{
		key: "panel.compliance", value: r.Compliance, method: "Volume given inward by the round wall, unloaded", equation: "C = ΔV / Δp",
		inputs:  []figure.Input{computed("bottle", "ΔV", "Volume given at Δp", r.Compliance*probe, unit.Volume), computed("bottle", "Δp", "Vacuum applied", probe, unit.PressureChange)},
		follows: influence{stiffness: -1, wall: -1}, warnings: warnings,
	})
}
