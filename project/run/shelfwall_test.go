package run

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/physics/permeation"
	"costrel/quality"
	"costrel/unit"
)

func zoneOf(t *testing.T, c permeation.Case, name string) permeation.WallZone {
	t.Helper()
	i := slices.IndexFunc(c.Zones, func(z permeation.WallZone) bool { return z.Name == name })
	if i < 0 {
		t.Fatalf("no zone %s", name)
	}
	return c.Zones[i]
}

// TestFittedOnAnotherWall: a factor that belongs to the other wall makes the life
// an estimate and holds neither closure nor thickness.
func TestFittedOnAnotherWall(t *testing.T) {
	at := unit.Celsius(22)
	for _, c := range []struct {
		fitted       *unit.Temperature
		on           string
		blown        bool
		holds, warns bool
		counts       string // of the panel
	}{
		{nil, "preview", true, false, false, "± 10 %"},
		{&at, "preview", false, true, false, ""},
		{&at, "preview", true, false, true, "± 10 %"},
		{&at, "blown", true, true, false, ""},
		{&at, "blown", false, false, true, ""},
	} {
		d := golden(t, "golden-carbonated.yaml").Design
		d.Shelf.FittedAt, d.Shelf.FittedWall = c.fitted, c.on
		w := &Wall{}
		if c.blown {
			w.Blown, w.said = &Blown{}, blownNote(d)
		}
		notes := strings.Join(wallNotes(d, w), "; ")
		if got := fittedOn(d, c.blown); got != c.holds {
			t.Errorf("%+v: holds wall and closure: %v", c, got)
		}
		if got := strings.Contains(notes, quality.EstimatePrefix+": shelf.barrier_factor was fitted"); got != c.warns {
			t.Errorf("%+v: warns: %v: %s", c, got, notes)
		}
		if got := strings.Contains(notes, "± 10 %"); got != (c.counts != "") {
			t.Errorf("%+v: the panel counts: %v: %s", c, got, notes)
		}
	}
}

// TestBlownWallHasItsOwnBarrier: a panel blown on a hot mould has more crystals
// than the card of the stretched wall (27 %) and passes less, one blown on a
// cold mould has fewer and passes more, both by Nielsen's rule:
//
//	P/P_card = (1 - φ)/(1 - 0.27) (1 + 2 · 0.27)/(1 + 2 φ)
//
// The preview takes the card.
func TestBlownWallHasItsOwnBarrier(t *testing.T) {
	at := unit.Celsius(25)
	passes := func(z permeation.WallZone) float64 { return z.Material.CO2.At(at).Permeability(5e5) }
	card, err := permeation.Named("wall")
	if err != nil {
		t.Fatal(err)
	}
	full := card.CO2.At(at).Permeability(5e5)
	for name, more := range map[string]bool{"wrenhollow.yaml": false, "sorrel-lime.yaml": true} {
		doc := example(t, name)
		preview, err := ShelfCase(context.Background(), doc.Design, false, nil)
		if err != nil {
			t.Fatal(err)
		}
		if z := zoneOf(t, preview, "panel"); z.Crystals != 0 || z.Stretch != 0 || passes(z) != full {
			t.Errorf("%s: the preview has %g crystals, stretch %g, passes %g, want the card's %g", name, z.Crystals, z.Stretch, passes(z), full)
		}
		blown, err := ShelfCase(context.Background(), doc.Design, true, nil)
		if err != nil {
			t.Fatal(err)
		}
		z := zoneOf(t, blown, "panel")
		if !(z.Crystals > 0.1 && z.Stretch > orientedFrom) || passes(z) > full != more {
			t.Errorf("%s: %g crystals, stretch %g, passes %g against %g", name, z.Crystals, z.Stretch, passes(z), full)
		}
		want := full * (1 - z.Crystals) / (1 - 0.27) * (1 + 2*0.27) / (1 + 2*z.Crystals)
		// By the mean of the crystals; the places of the panel have their own.
		if math.Abs(passes(z)/want-1) > 0.02 {
			t.Errorf("%s: passes %g, by hand %g", name, passes(z), want)
		}
		if base := zoneOf(t, blown, "base"); base.Crystals == z.Crystals || base.Thickness == z.Thickness {
			t.Errorf("%s: base and panel are one", name)
		}
	}
}

// TestFullShelfSaysWhereItsBarrierComesFrom reads it off the figure: the zones
// with crystals and stretch, and the warning.
func TestFullShelfSaysWhereItsBarrierComesFrom(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	doc := example(t, "sorrel-lime.yaml")
	done := evaluate(doc.Design, work{ctx: context.Background(), full: true, drawn: true, until: "shelf"}, nil)
	i := slices.IndexFunc(done["shelf"].figures, func(f figure.Figure) bool { return f.Key == "shelf.loss.wall" })
	if i < 0 {
		t.Fatal(done["shelf"].err)
	}
	o := done["shelf"].figures[i].Origin
	for _, symbol := range []string{"L_base", "φ_base", "λ_base", "φ_panel", "λ_shoulder", "P_panel", "P_amorphous"} {
		if !slices.ContainsFunc(o.Inputs, func(in figure.Input) bool { return in.Symbol == symbol && in.Value > 0 }) {
			t.Errorf("no input %s", symbol)
		}
	}
	if !slices.ContainsFunc(o.Warnings, func(w string) bool { return strings.Contains(w, "crystals and stretch from the blow") }) {
		t.Errorf("warnings %q", o.Warnings)
	}
}
