package run

import (
	"slices"
	"strings"

	"costrel/project/design"
)

// alongWall are the fields that a reader looks for along the wall, each with a
// figure that is left out for the same reason.
var alongWall = []struct {
	plot, figure string
	slow         bool // of the full run
}{
	{"reheat.bottle", "blow.fill.time", true},
	{"blow.stretch", "blow.stretch.inner", true},
	{"strength.stress", "stress.max", true},
	{"strength.margin", "stress.max", true},
	{"shelf.barrier", "shelf.oxygen.end", false},
}

// noLimitOnWall is why there is no margin of the wall.
const noLimitOnWall = "no limit is set on the thinnest wall"

// absent lists the fields along the wall that a result does not have. A preview
// promises of the full run what the full run can give: no stress to a pack
// without pressure.
func absent(d *design.Design, r *Result, done map[string]*entry) []Absent {
	there := func(key string) bool { return slices.ContainsFunc(r.Plots, func(p Plot) bool { return p.Key == key }) }
	var out []Absent
	for _, f := range alongWall {
		if there(f.plot) {
			continue
		}
		a := Absent{Plot: f.plot}
		switch {
		case f.slow && !r.Full:
			a.Why = never(d, f.plot, done)
			a.Full = a.Why == ""
		default:
			a.Why = r.reason(f.figure)
		}
		out = append(out, a)
	}
	if !there("wall.margin") {
		a := Absent{Plot: "wall.margin", Why: r.reason("wall.min")}
		if _, limited := thinnest(r.Verdicts); !limited {
			a.Why = noLimitOnWall
		}
		out = append(out, a)
	}
	return out
}

// never says why even a full run gives no such field; empty when it does, as far
// as a preview can tell.
func never(d *design.Design, plot string, done map[string]*entry) string {
	if d.Blow.Free {
		return "a free blow makes no bottle: set blow.free false"
	}
	e := done["pressure"]
	switch {
	case !strings.HasPrefix(plot, "strength.") || e == nil || e.err == nil:
	case e.skipped:
		return noPressure
	default:
		return e.err.Error()
	}
	return ""
}

// noPressure is why a test of a pack under pressure is left out.
const noPressure = "the pack holds no pressure"

// reason says why a figure was left out.
func (r *Result) reason(key string) string {
	for _, p := range r.Problems {
		if p.Key == key {
			return strings.TrimPrefix(p.Reason, errSkip.Error()+": ")
		}
	}
	return "it was not computed; see what was left out under the board"
}
