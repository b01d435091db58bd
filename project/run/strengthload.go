package run

import (
	"cmp"
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/hotfill"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// topLoads are the four top loads.
func (t *strengthTests) topLoads() {
	var series []Series
	var marks []Mark
	defer func() { t.loadPlot(series, marks) }() // of those that came about
	var sister shell.Estimate                    // of the mesh, of the top load before
	load := func(key, name string, in shell.TopLoadInput) *pushed {
		in.Quick = key == "topload.sealed" || key == "stack.capacity" // as their sisters
		p := t.push(key, in)
		if p == nil {
			return nil
		}
		if in.Quick {
			p.r.Mesh = sister
		}
		sister = p.r.Mesh
		var x, y []float64
		for _, q := range p.r.Course {
			x, y = append(x, q.Stroke), append(y, q.Load)
		}
		series = append(series, Series{Name: name, X: x, Y: y})
		if p.r.Buckled {
			marks = append(marks, Mark{At: p.r.BuckleStroke, Label: name + ": " + inWaves(p.r.Buckle.Harmonic)})
		}
		return p
	}
	if p := load("topload.empty", string(shell.EmptyVented), shell.TopLoadInput{Fill: shell.EmptyVented, Soft: t.labSoft}); p != nil {
		t.showLoad("topload.empty", p)
		t.buckles("topload.empty", &p.r)
	}
	if p := load("topload.sealed", string(shell.EmptySealed), shell.TopLoadInput{Fill: shell.EmptySealed, Soft: t.labSoft, Headspace: t.shape.Brimful}); p != nil {
		t.showLoad("topload.sealed", p)
	}
	if t.unfilled != "" {
		t.lacking(t.unfilled, "topload.filled", "stack.capacity")
		return
	}
	filled := shell.TopLoadInput{Fill: shell.Filled, Soft: t.labSoft, Headspace: t.shape.Brimful - t.d.Brief.Nominal}
	hot := filled
	hot.Soft = t.hotSoft
	stood := filled // for days, at laboratory temperature
	var cold, settled, warmed vacuum
	var stacked error // why the pack cannot stand for days
	switch {
	case hotFilled(t.d):
		hotAt, _ := hottest(t.d)
		stood, settled = t.cold(filled, t.d.Handling.Lab, true)
		filled, cold = t.cold(filled, t.d.Handling.Lab, false)
		hot, warmed = t.cold(hot, hotAt, true)
		if err := t.pulledIn(cold, filled.Soft); err != nil {
			t.lacking("top load: "+err.Error(), "topload.filled", "stack.capacity")
			return
		}
		stacked = cmp.Or(t.pulledIn(settled, stood.Soft), t.pulledIn(warmed, hot.Soft))
	case t.pressures != nil:
		hotAt, _ := hottest(t.d)
		for _, q := range []struct {
			in *shell.TopLoadInput
			at unit.Temperature
		}{{&filled, t.d.Handling.Lab}, {&hot, hotAt}} {
			of, err := t.standing(q.at, q.in.Soft)
			if err != nil {
				t.lacking("top load: "+err.Error(), "topload.filled", "stack.capacity")
				return
			}
			q.in.Sealed = of
		}
	}
	cool := load("topload.filled", string(shell.Filled), filled)
	if cool != nil {
		cool.pulls(t, cold)
		t.showLoad("topload.filled", cool)
	}
	if stacked != nil {
		t.problem("stack.capacity", "top load, days after filling: %v", stacked)
		return
	}
	// What two vacuums leave of the load differs in their pull alone; a pressure
	// carries a part of it.
	if cool != nil && (stood.Gauge != 0 || filled.Gauge != 0) {
		cool = load("stack.capacity", "filled and capped, days after filling", stood)
	}
	if cool != nil {
		cool.pulls(t, settled)
	}
	warm := load("stack.capacity", "filled and capped, hot lane", hot)
	if warm != nil {
		warm.pulls(t, warmed)
	}
	force := func(v float64) string { return unit.Quote(unit.Force, v, 4) }
	for _, p := range []*pushed{cool, warm} {
		if p != nil {
			p.note = append(p.note, t.stackCreep(p))
		}
	}
	switch {
	case warm == nil:
	case cool == nil:
		t.problem("stack.capacity", "the pack at laboratory temperature gives no top load to compare with")
	case cool.likely() < warm.likely():
		// A stack stands at either temperature.
		cool.note = append(cool.note, "that of the pack at laboratory temperature, the lower of both: on the hot lane the pack carries "+force(warm.likely()))
		t.showLoad("stack.capacity", cool)
	default:
		warm.note = append(warm.note, "that on the hot lane, the lower of both: at laboratory temperature the pack carries "+force(cool.likely()))
		t.showLoad("stack.capacity", warm)
	}
}

// loadPlot draws load against stroke.
func (t *strengthTests) loadPlot(series []Series, marks []Mark) {
	if len(series) > 0 {
		t.plot(Plot{Key: "strength.topload", Title: "Top load", X: Axis{Label: "stroke", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "load", Kind: unit.Force}, Series: series, Marks: marks, Note: "the round, perfect bottle, also beyond the marks, where it first buckles in waves: the wall behind such a buckle is not followed. " + lawsNote(t.d)})
	}
}

// heelHeight is the height below which a buckle is one of the heel [m].
const heelHeight = 5e-3

// pushed is a top load with what it was made on.
type pushed struct {
	in   shell.TopLoadInput
	r    shell.TopLoadResult
	q    loads
	note []string

	factor float64 // of own tests
	stroke figure.Input
	vacuum vacuum
	pull   float64 // of the vacuum, before the platen pushes [N]
}

// likely is the load to expect at the platen.
func (p *pushed) likely() float64 { return p.factor*p.q.likely - p.pull }

// push makes a top load; without one it reports the reason and returns nil.
func (t *strengthTests) push(key string, in shell.TopLoadInput) *pushed {
	in.Bottle, in.Brief, in.Collapse, in.Steps, in.Longest = t.bottle(in.Quick), true, true, pushLeast, pushStride
	stroke := "handling.topload_stroke"
	if in.Stroke = t.d.Handling.Stroke; in.Fill == shell.Filled {
		stroke, in.Stroke, in.Longest = "handling.topload_stroke_filled", t.d.Handling.StrokeFilled, pushStrideFilled
	}
	r, err := shell.TopLoad(in)
	if err != nil {
		t.problem(key, "top load: %v", err)
		return nil
	}
	p := &pushed{in: in, r: r, q: expected(r), factor: 1, stroke: t.given("s", stroke)}
	if in.Fill != shell.Filled { // the tests are made on empty bottles
		p.factor = t.d.Handling.TopLoad
	}
	return p
}

// showLoad puts a top load on the board.
func (t *strengthTests) showLoad(key string, p *pushed) {
	r, q := &p.r, p.q
	force := func(v float64) string { return unit.Quote(unit.Force, v, 3) }
	equation, inputs := p.equation()
	if p.factor != 1 {
		inputs = append(inputs, t.given("f_T", "handling.topload_factor"))
	}
	if p.pull > 0 {
		equation, inputs = equation+" - Δp π r²", append(inputs, p.vacuum.inputs(p.radius(t))...)
	}
	waves := r.Mode
	if r.Buckled {
		waves = inWaves(r.Buckle.Harmonic)
	}
	down := fmt.Sprintf("knock-down %.2f", r.Knockdown.Gamma)
	if r.Wave > 0 && !(r.Buckled && r.Waves == r.Buckle.Harmonic) {
		down += " on the buckle in " + inWaves(r.Waves)
	}
	place := waves + " at z = "
	if !r.Buckled && r.Mode != "round fold" {
		place = "nothing gives way within the stroke; the wall bends most at z = "
	}
	warnings := append([]string{fmt.Sprintf("%s%s; %s", place, unit.Quote(unit.Length, r.Place, 3), down), meshNote(r.Mesh, key)}, p.note...)
	follows, own := influence{stiffness: 1, wall: 2}, topLoadLeft(t.d)
	if own.fitted = own.fitted && p.in.Fill != shell.Filled; own.fitted {
		follows.stiffness = 0 // it is in the factor
	}
	if p.in.Stand == 0 && (r.Buckled || r.Mode == "round fold") && r.Place < heelHeight {
		warnings = append(warnings, "the heel gives way where it comes down on the plate: a wider standing ring or more wall there carries more")
	}
	if t.d.Brief.Product == "hotfill" {
		note := quality.EstimatePrefix + ": panels and lands are averaged round the axis; flat panels give way earlier"
		if p.pull > 0 {
			note += ", and of the vacuum only its pull along the axis counts, not what it does to the panels sideways"
		}
		warnings = append(warnings, note)
		if p.vacuum.note != "" {
			warnings = append(warnings, p.vacuum.note)
		}
	}
	if r.Buckled && q.corner == 0 {
		warnings = append(warnings, "the load is that of the first buckle in waves, which a plain wall does not outlive; the wall behind it is not followed")
	}
	if q.corner > 0 {
		estimate := quality.EstimatePrefix + ": "
		if own.fitted { // by tests, whatever the wall does behind its first buckle
			estimate = ""
		}
		event := "first buckle"
		if !r.Buckled {
			event = "first limit"
		}
		warnings = append(warnings, fmt.Sprintf("%s%s at %s, brought on by a corner or step of the profile (%s for the plain wall): the wall carries on beyond it, where only the round bottle is followed, which carries up to %s; the load is that of the %s%s", estimate, event, force(q.first), force(r.Borne+r.Classical), force(r.Largest), event, p.own()))
	}
	f := t.show(result{
		key: key, value: p.likely(), method: "Shell of revolution pushed by the platen, large displacement and yield; buckling in waves round the axis, halfway between the perfect shell and the lower bound of tests on plain walls", equation: equation, sources: []string{r.Knockdown.Source},
		inputs: append(inputs, computed("handling.lab_temperature", "p", "Pack: pressure before the platen", math.Max(0, p.r.Course[0].Pressure), unit.PressureGauge), p.stroke), follows: follows, mesh: r.Mesh, warnings: append(warnings, r.Warnings...),
	})
	if own.fitted {
		widen(f, figure.Effect{Path: own.path, Label: own.label, Low: f.Value * (own.low - 1), High: f.Value * (own.high - 1), Basis: own.basis})
	} else if q.high > q.low {
		basis := "lower bound of tests .. perfect shell"
		if q.corner > 0 {
			basis = "lower bound of tests on the first buckle .. towards the collapse of the round bottle, the further the more the form brings the buckle on"
		}
		widen(f, figure.Effect{Path: "bottle", Label: "Imperfections of the wall", Low: p.factor * (q.low - q.likely), High: p.factor * (q.high - q.likely), Basis: basis})
	}
	if p.pull > 0 {
		widen(f, figure.Effect{Path: "hotfill.panel_compliance", Label: "Vacuum of the cooled pack", Low: -vacuumShare * p.pull, High: vacuumShare * p.pull, Basis: vacuumBasis()})
	}
}

// bottle returns the bottle for a test, quick or with the estimate of its mesh.
func (t *strengthTests) bottle(quick bool) shell.Bottle {
	b := t.b
	b.Quick = b.Quick || quick
	return b
}

// inWaves counts waves round the axis.
func inWaves(n int) string {
	if n == 1 {
		return "1 wave"
	}
	return fmt.Sprintf("%d waves", n)
}

// own says that the factor of own tests is in the load.
func (p *pushed) own() string {
	if p.factor == 1 {
		return ""
	}
	return fmt.Sprintf(" times %.3g of own tests", p.factor)
}

// equation returns the equation of a top load and what goes into it.
func (p *pushed) equation() (string, []figure.Input) {
	r, q := &p.r, p.q
	force := func(symbol, label string, v float64) figure.Input {
		return computed("bottle", symbol, label, v, unit.Force)
	}
	first, wave, inputs := "F_max", "", []figure.Input{}
	if r.Limit > 0 {
		first = "F_l"
	}
	label := "Buckling load of the perfect wall on the straight line from rest to there"
	if r.Buckled {
		first, label = "F_b", "First buckle of the perfect bottle"
	}
	if r.Wave > 0 {
		gamma := figure.Input{Key: "card:knockdown", Symbol: "γ", Label: "Knock-down: " + r.Knockdown.Name, Value: r.Knockdown.Gamma, Kind: unit.Ratio, Origin: figure.Practice, Source: r.Knockdown.Source}
		if wave = "F_b"; r.Buckled && r.Wave != r.Perfect {
			inputs = append(inputs, force(wave, fmt.Sprintf("%s, %s", label, inWaves(r.Buckle.Harmonic)), r.Perfect))
			wave, label = "F_w", "Later buckle of the perfect bottle, on the straight line from rest, that loses most by dents"
		}
		inputs = append(inputs, force(wave, fmt.Sprintf("%s, %s", label, inWaves(r.Waves)), r.Wave), gamma, force("F_c", "Classical load of the plain wall there", r.Classical))
	}
	if r.Limit > 0 {
		inputs = append(inputs, force("F_l", "First limit of the round, perfect bottle", r.Limit))
	}
	inputs = append(inputs, force("F_max", "Largest load of the round, perfect bottle", r.Largest))
	if r.Borne > 0 {
		inputs = append(inputs, force("F_p", "Part that the pressure carries whole", r.Borne))
	}
	bound, times := "γ F_c", ""
	if p.factor != 1 {
		times = "f_T "
	}
	switch {
	case q.plain >= q.first:
		return "F = " + times + first, inputs
	case r.Borne > 0 && r.Wave-r.Borne >= r.Classical:
		bound = "γ (" + wave + " - F_p)"
	case r.Borne == 0 && r.Wave >= r.Classical:
		bound = "γ " + wave
	}
	if r.Borne > 0 {
		bound = "F_p + " + bound
	}
	return "F = " + times + "(" + bound + " + " + first + ") / 2", inputs
}

func (t *strengthTests) vacuum() {
	r, err := t.vacuumTest()
	if err != nil {
		t.lacking("vacuum: "+err.Error(), "vacuum.collapse", "panel.compliance")
		return
	}
	for _, p := range r.Curve {
		t.panel = append(t.panel, hotfill.Point{Vacuum: p.Vacuum, Volume: p.Volume})
	}
	warnings := append([]string{fmt.Sprintf("%d waves round at z = %s; knock-down %.2f", r.Harmonic, unit.Quote(unit.Length, r.Place, 3), r.Knockdown.Gamma), meshNote(r.Mesh, "vacuum.collapse")}, r.Warnings...)
	if t.d.Brief.Product == "hotfill" {
		warnings = append(warnings, quality.EstimatePrefix+": panels and lands are averaged round the axis")
	}
	t.show(result{
		key: "vacuum.collapse", value: r.Design, method: "Shell of revolution under vacuum, nonlinear before buckling, pressure following the wall, with a knock-down", equation: "p = γ p_b", sources: []string{r.Knockdown.Source},
		inputs: []figure.Input{
			{Key: "card:knockdown", Symbol: "γ", Label: "Knock-down: " + r.Knockdown.Name, Value: r.Knockdown.Gamma, Kind: unit.Ratio, Origin: figure.Practice, Source: r.Knockdown.Source},
			computed("bottle", "p_b", fmt.Sprintf("Vacuum at which the perfect wall buckles, %d waves", r.Harmonic), r.Collapse, unit.PressureChange),
		},
		follows: influence{stiffness: 1, wall: 2.5}, mesh: r.Mesh, warnings: warnings,
	})
	const probe = 1e3
	t.show(result{
		key: "panel.compliance", value: r.Compliance, method: "Volume given inward by the round wall, unloaded", equation: "C = ΔV / Δp",
		inputs:  []figure.Input{computed("bottle", "ΔV", "Volume given at Δp", r.Compliance*probe, unit.Volume), computed("bottle", "Δp", "Vacuum applied", probe, unit.PressureChange)},
		follows: influence{stiffness: -1, wall: -1}, warnings: warnings,
	})
}
