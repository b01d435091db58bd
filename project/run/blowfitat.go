package run

import (
	"fmt"
	"math"
	"strings"

	"costrel/project/design"
	"costrel/unit"
)

// fitReach is how far a number may lie from where the blow was fitted before the
// fit no longer counts: the range it has in the bands of an unfitted blow, so that
// a fit holds nothing that the bands would not. Numbers that are not named may move
// by fitShare. The preform is held by its dimensions, the mould by those that a
// wall follows most.
var fitReach = map[string]struct {
	by       float64
	rel, log bool
}{
	"oven.mean_temperature": {by: 3}, "oven.tilt": {by: 2}, "oven.bow": {by: 2}, "oven.skew": {by: 2},
	"oven.inlet_temperature": {by: 3}, "blow.body_temperature": {by: 10}, "blow.base_temperature": {by: 10},
	"blow.pre_blow": {by: 0.5e5}, "blow.pre_orifice": {by: 0.2, rel: true},
	"blow.contact": {by: 0.47, log: true}, "blow.friction": {by: 0.05}, "blow.rod_gap": {by: 0.5e-3},
	"blow.pre_start": {by: 2e-3}, "blow.high_start": {by: 2e-3}, "blow.high_delay": {by: 2e-3},
	"preform.inner_diameter": {by: 0.01, rel: true}, "preform.wall": {by: 0.01, rel: true}, "preform.body_length": {by: 0.01, rel: true},
	"bottle.height": {by: 0.01, rel: true}, "bottle.diameter": {by: 0.01, rel: true}, "bottle.panel_diameter": {by: 0.01, rel: true},
}

// fitShare is the reach of the other numbers, of their value. Chosen for this
// project, as are the ranges above that the bands do not name.
const fitShare = 0.05

// fitPaths are the words and numbers that a fit belongs to.
func fitPaths(d *design.Design) []string {
	out := []string{"blow.law", "blow.rod_tip", "oven.temperatures"}
	if d.Oven.Lamps != "power" {
		out = append(out, "oven.mean_temperature")
	}
	if d.Oven.Lamps == "card" {
		out = append(out, "oven.tilt", "oven.bow", "oven.skew")
	} else {
		out = append(out, "oven.overall", "oven.ventilation", "oven.heat_time", "oven.soak_time", "oven.inlet_temperature")
	}
	return append(out, "blow.rod_speed", "blow.rod_diameter", "blow.rod_gap", "blow.pre_blow", "blow.pre_start", "blow.pre_orifice", "blow.dead_volume",
		"blow.high_blow", "blow.high_orifice", "blow.high_start", "blow.high_delay", "blow.friction", "blow.contact", "blow.body_temperature", "blow.base_temperature",
		"preform.inner_diameter", "preform.wall", "preform.body_length", "bottle.height", "bottle.diameter", "bottle.panel_diameter")
}

// FitPlace returns what the blow of a design is made at, as blow.fit_at holds it:
// paths with their values, separated by semicolons.
func FitPlace(d *design.Design) string {
	var out []string
	for _, path := range fitPaths(d) {
		if w, ok := d.Word(path); ok {
			out = append(out, path+" "+w)
		} else if v, kind, ok := d.Number(path); ok {
			out = append(out, path+" "+unit.Format(kind, v, unit.Preferred(kind, unit.EU), 6))
		}
	}
	return strings.Join(out, "; ")
}

// FitMoved returns what has moved since the blow was fitted, with value, place of
// the fit and reach; nothing while the design is within reach of it.
func FitMoved(d *design.Design) string {
	if strings.TrimSpace(d.Blow.FitAt) == "" {
		return "blow.fit_at does not say what it was fitted at"
	}
	at := map[string]string{}
	for _, part := range strings.Split(d.Blow.FitAt, ";") {
		path, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		at[path] = strings.TrimSpace(value)
	}
	var moved []string
	for _, path := range fitPaths(d) {
		was, known := at[path]
		it, _ := design.Lookup(path)
		label := path
		if it.Field.Label != "" {
			label = it.Field.Label
		}
		if !known {
			moved = append(moved, fmt.Sprintf("%s is not named in blow.fit_at", path))
			continue
		}
		if w, ok := d.Word(path); ok {
			if w != was {
				moved = append(moved, fmt.Sprintf("%s %s, fitted with %s", label, w, was))
			}
			continue
		}
		v, kind, _ := d.Number(path)
		old, err := unit.Parse(kind, was)
		if err != nil {
			moved = append(moved, fmt.Sprintf("%s in blow.fit_at: %v", path, err))
			continue
		}
		reach, ok := fitReach[path]
		if !ok {
			reach.by, reach.rel = fitShare, true
		}
		off, told := math.Abs(v-old.SI), ""
		switch {
		case reach.log:
			off, told = math.Abs(math.Log(v/old.SI)), fmt.Sprintf("times or divided by %.2g count", math.Exp(reach.by))
		case reach.rel:
			off, told = off/math.Max(math.Abs(old.SI), 1e-12), fmt.Sprintf("± %.3g %% counts", 100*reach.by)
		default:
			told = "± " + unit.Quote(changeKind(kind), reach.by, 2) + " counts"
		}
		if !(off <= reach.by*(1+1e-3)) {
			moved = append(moved, fmt.Sprintf("%s %s, fitted at %s (%s)", label, unit.Quote(kind, v, 4), unit.Quote(kind, old.SI, 4), told))
		}
	}
	return strings.Join(moved, ", ")
}

func changeKind(k unit.Kind) unit.Kind {
	switch k {
	case unit.TemperaturePoint:
		return unit.TemperatureChange
	case unit.PressureGauge:
		return unit.PressureChange
	}
	return k
}
