package report

import (
	"slices"
	"testing"

	"costrel/figure"
	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

// TestWordsInTheReadersUnits: warnings, labels, reasons of bands and of what is
// left out say their quantities as the numbers beside them do.
func TestWordsInTheReadersUnits(t *testing.T) {
	at := "at z = " + unit.Quote(unit.Length, 0.0508, 3)
	r := &run.Result{
		Doc:      &design.Document{Design: &design.Design{}},
		Problems: []run.Problem{{Key: "burst.pressure", Reason: at}},
		Figures: []figure.Figure{{
			Key: "topload.empty", Kind: unit.Force, Effects: []figure.Effect{{Basis: at}},
			Origin: figure.Origin{Warnings: []string{at}, Inputs: []figure.Input{{Label: at, Kind: unit.Length}}},
		}},
	}
	for sys, want := range map[unit.System]string{unit.EU: "at z = 50.8 mm", unit.US: "at z = 2 in"} {
		b := NewBoard(r, sys)
		o := b.Figures[0].Origin
		got := []string{b.Problems[0].Reason, o.Warnings[0], o.Inputs[0].Label, o.Narrow[0].Basis, run.Plot{Note: at}.In(sys).Note}
		if slices.ContainsFunc(got, func(s string) bool { return s != want }) {
			t.Errorf("%s: %q, want %q", sys, got, want)
		}
	}
}
