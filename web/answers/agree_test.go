package answers_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	fig "costrel/figure"
	"costrel/project/report"
	"costrel/project/run"
	"costrel/unit"
)

// twoSizes are the kinds of which one stop of the life has numbers of two sizes, each
// with its own usual unit: seconds and weeks, a wall and a bottle, litres of air and of
// the bottle.
var twoSizes = []unit.Kind{unit.Time, unit.Mass, unit.NormalVolume}

// disagreeing returns where the board and the plots of one stage show a quantity in
// two units.
func disagreeing(r *run.Result, sys unit.System) []string {
	b := report.NewBrief(r, sys, "")
	type place struct{ stage, kind string }
	shown := map[place]map[string]string{}
	see := func(stage string, k unit.Kind, symbol, where string) {
		if slices.Contains(twoSizes, k) {
			return
		}
		p := place{stage, string(k)}
		if shown[p] == nil {
			shown[p] = map[string]string{}
		}
		shown[p][symbol] = where
	}
	for _, f := range b.Figures {
		e, _ := fig.Find(f.Key)
		k := unit.Kind(f.Quantity)
		switch {
		case k == unit.Length && e.UnitUS == "mil":
			k = unit.Wall
		case k == unit.PressureChange && e.UnitUS == "inHg":
			k = unit.Vacuum
		}
		symbol := e.In(sys)
		if symbol == "" {
			symbol = unit.Preferred(k, sys)
		}
		if k != unit.Time && !strings.HasSuffix(f.Display, symbol) && f.Quantity != string(unit.Count) {
			shown[place{f.Stage, f.Key}] = map[string]string{f.Display: f.Key, symbol: "its unit"}
		}
		see(f.Stage, k, symbol, f.Key)
	}
	for _, p := range r.Plots {
		p = p.In(sys)
		see(p.Stage, p.X.Kind, p.X.Unit, p.Key+" across")
		see(p.Stage, p.Y.Kind, p.Y.Unit, p.Key+" up")
	}
	for _, m := range r.Maps {
		m = m.In(sys)
		see(m.Stage, m.V.Kind, m.V.Unit, m.Key)
	}
	var out []string
	for p, units := range shown {
		if len(units) > 1 {
			out = append(out, fmt.Sprintf("%s: %s %s: %v", sys, p.stage, p.kind, units))
		}
	}
	return out
}

// TestBoardAndPlotsAgree holds, for every example, that board and
// plots of a stage show one quantity in one unit, whatever the reader chose.
func TestBoardAndPlotsAgree(t *testing.T) {
	cache := run.NewCache(256)
	for f, text := range examples(t) {
		r := run.Check(load(t, f, text), cache)
		systems := []unit.System{unit.EU, unit.US}
		for _, p := range unit.Preferences() {
			for _, c := range p.Choices {
				systems = append(systems, unit.System("us,"+p.Key+"="+c.Unit), unit.System("eu,"+p.Key+"="+c.Unit))
			}
		}
		for _, sys := range systems {
			for _, said := range disagreeing(r, sys) {
				t.Errorf("%s: %s", f, said)
			}
		}
	}
}
