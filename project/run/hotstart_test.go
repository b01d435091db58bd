package run

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/hotfill"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// hotOf computes the hot-fill and shelf figures of a changed design, without
// bands.
func hotOf(t *testing.T, change func(d *design.Design)) *Result {
	t.Helper()
	return shelfOf(t, "golden-hotfill.yaml", change)
}

// steadyStore keeps the pack at its end temperature.
func steadyStore(d *design.Design) {
	d.Climate.Store, d.Climate.HotTime, d.Climate.Lane = d.HotFill.End, 0, nil
}

// TestLifeStartsFromTheHotPack: behind a wall that passes nothing the life of a
// hot-filled pack keeps the vacuum of the balance in which drink and headspace
// share the gas, whatever was closed in.
func TestLifeStartsFromTheHotPack(t *testing.T) {
	for name, change := range map[string]func(d *design.Design){
		"as it is":      func(*design.Design) {},
		"cold gas":      func(d *design.Design) { d.HotFill.Headspace = unit.Celsius(65) },
		"steam flushed": func(d *design.Design) { d.HotFill.Steam = 0.4 },
		"all dissolved": func(d *design.Design) { d.HotFill.Steam = 0.1 },
		"dosed":         func(d *design.Design) { d.Drink.Nitrogen = 8e-6 },
		"deaerated":     func(d *design.Design) { d.Drink.Oxygen, d.Drink.NitrogenIn = 0, 0 },
	} {
		r := hotOf(t, func(d *design.Design) {
			steadyStore(d)
			d.Shelf.Material, d.Closure.CO2, d.Closure.O2, d.Closure.N2, d.Closure.Water = "glass", 0, 0, 0, 0
			change(d)
		})
		life, settled := value(t, r, "shelf.vacuum.max"), value(t, r, "hotfill.vacuum.settled")
		if math.Abs(life-settled) > 0.002*settled {
			t.Errorf("%s: the life stands at %.5g kPa, the settled pack at %.5g kPa", name, life/1e3, settled/1e3)
		}
	}
}

// TestDosedPackStandsAboveAmbient: with too much nitrogen there is pressure in
// the cooled pack. Outward the wall grows as it does over the life, so that both
// stages agree on what stands once the gas is shared; all that rests on it is an
// estimate and passes no limit. Right after closing the dose of 80 mg stands in
// the hot headspace alone: (m/M) R T / V.
func TestDosedPackStandsAboveAmbient(t *testing.T) {
	r := hotOf(t, func(d *design.Design) {
		steadyStore(d)
		d.Shelf.Material, d.Closure.CO2, d.Closure.O2, d.Closure.N2, d.Closure.Water = "glass", 0, 0, 0, 0
		d.Drink.Nitrogen = 80e-6
	})
	life, settled := value(t, r, "shelf.pressure.max"), value(t, r, "hotfill.vacuum.settled")
	if math.Abs(life+settled) > 0.002*life {
		t.Errorf("the life stands at %.5g kPa, the settled pack at %.5g kPa", life/1e3, -settled/1e3)
	}
	if p := value(t, r, "hotfill.pressure"); !(p > life) || p != -value(t, r, "hotfill.vacuum") || value(t, r, "hotfill.panel.need") >= 0 {
		t.Errorf("overpressure %g Pa, settled %g Pa", p, life)
	}
	closing := figureOf(t, r, "hotfill.pressure.closing")
	in := map[string]float64{}
	for _, x := range closing.Origin.Inputs {
		in[x.Symbol] = x.Value
	}
	if want := 80e-6 / 28.0134e-3 * 8.314462618 * in["T_gas"] / (in["V"] - in["V_hot"]); math.Abs(closing.Value/want-1) > 1e-9 {
		t.Errorf("right after closing %g Pa, by hand %g", closing.Value, want)
	}
	for _, key := range []string{"hotfill.vacuum", "hotfill.vacuum.settled", "hotfill.pressure", "hotfill.pressure.closing", "hotfill.panel.need", "hotfill.panel.need.settled"} {
		if _, is := quality.IsEstimate(figureOf(t, r, key)); !is {
			t.Errorf("%s is no estimate", key)
		}
	}
	plain := Check(golden(t, "golden-hotfill.yaml"), nil)
	if _, is := quality.IsEstimate(figureOf(t, plain, "hotfill.vacuum")); is || why(plain, "hotfill.pressure") == "" {
		t.Error("a vacuum is an estimate, or does not say that there is no overpressure")
	}
}

// TestPanelsOverTheLife: what the panels give after days is their compliance
// times that vacuum, and the life asks for more as it loses water.
func TestPanelsOverTheLife(t *testing.T) {
	change := func(water float64) *Result { // through the closure alone
		return hotOf(t, func(d *design.Design) {
			steadyStore(d)
			d.Shelf.Material, d.Closure.CO2, d.Closure.O2, d.Closure.N2, d.Closure.Water = "glass", 0, 0, 0, water
		})
	}
	r := change(1e-13)
	k := golden(t, "golden-hotfill.yaml").Design.HotFill.Compliance
	settled, most := value(t, r, "hotfill.panel.need.settled"), value(t, r, "shelf.panel.max")
	if a := k * value(t, r, "hotfill.vacuum.settled"); math.Abs(settled/a-1) > 1e-9 || !(settled > 1.1*value(t, r, "hotfill.panel.need")) {
		t.Errorf("after days %g m³, want %g", settled, a)
	}
	if a := k * value(t, r, "shelf.vacuum.max"); math.Abs(most/a-1) > 1e-9 || !(most > value(t, change(0), "shelf.panel.max")+1e-7) {
		t.Errorf("over the life %g m³, want %g, after days %g", most, a, settled)
	}
}

// TestVacuumIsNoPressure: a pack under vacuum all along has no highest pressure
// but a deepest vacuum; a sparkling one the other way round.
func TestVacuumIsNoPressure(t *testing.T) {
	doc := golden(t, "golden-hotfill.yaml")
	r := Check(doc, nil)
	if w := why(r, "shelf.pressure.max"); !strings.Contains(w, "under vacuum all along") {
		t.Errorf("hot-filled: %q", w)
	}
	if v := value(t, r, "shelf.vacuum.max"); !(v > 10e3 && v < 40e3) {
		t.Errorf("deepest vacuum %g Pa", v)
	}
	r = Check(golden(t, "golden-carbonated.yaml"), nil)
	if w := why(r, "shelf.vacuum.max"); !strings.Contains(w, "under pressure all along") {
		t.Errorf("sparkling: %q", w)
	}
}

// TestPasteurOfARecord: five minutes at 80 °C on the scale of 80 °C and 10 K
// are 5 units; a ramp of one minute from 60 to 80 °C adds
//
//	60 s (1 - 0.01)/ln(100) = 12.8981 s
func TestPasteurOfARecord(t *testing.T) {
	rows := []design.RecordRow{{Time: 0, Temperature: unit.Celsius(60)}, {Time: 60, Temperature: unit.Celsius(80)}, {Time: 360, Temperature: unit.Celsius(80)}}
	doc := golden(t, "golden-hotfill.yaml")
	doc.Design.HotFill.Record, doc.Design.HotFill.Reference, doc.Design.HotFill.Z = rows, unit.Celsius(80), 10
	f := figureOf(t, Check(doc, nil), "pasteur.units")
	if math.Abs(f.Value-312.8981) > 1e-3 {
		t.Errorf("%.4f s, by hand 312.8981 s", f.Value)
	}
	if w := strings.Join(f.Origin.Warnings, " "); !strings.Contains(w, "hotfill.record") || strings.Contains(f.Origin.Equation, "t_hold") {
		t.Errorf("%s; %s", f.Origin.Equation, w)
	}
	doc.Design.HotFill.Record[2].Time = 30 // falls back in time
	if w := why(Check(doc, nil), "pasteur.units"); !strings.Contains(w, "reading 3") || !strings.Contains(w, "sort the readings") {
		t.Errorf("unsorted: %q", w)
	}
}

// TestPanelsFromTheVacuumTest: a full check takes the curve of the round wall
// where the design asks for it; its start is the compliance that the test
// shows, a preview says that the number stands in.
func TestPanelsFromTheVacuumTest(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the virtual tests")
	}
	doc := example(t, "wrenhollow.yaml")
	doc.Design.HotFill.PanelSource = "computed"
	preview := Check(doc, nil)
	if w := strings.Join(figureOf(t, preview, "hotfill.vacuum").Origin.Warnings, " "); !strings.Contains(w, "stands in for it") {
		t.Errorf("preview: %s", w)
	}
	done := evaluate(doc.Design, work{ctx: t.Context(), full: true, until: "hotfill"}, nil)
	curve := done["strength"].out.(*Strength).Panel
	r := &Result{Figures: collect(done)}
	if c := value(t, r, "panel.compliance"); len(curve) < 3 || math.Abs(curve[0].Volume/curve[0].Vacuum/c-1) > 0.02 {
		t.Fatalf("%d points, the first slope is not the compliance", len(curve))
	}
	f := figureOf(t, r, "hotfill.vacuum")
	need := value(t, r, "hotfill.panel.need")
	if got := (hotfill.Panel{Curve: curve}).Volume(f.Value); math.Abs(got/need-1) > 1e-6 {
		t.Errorf("the curve gives %g m³ at the vacuum, the balance %g", got, need)
	}
	if w := strings.Join(f.Origin.Warnings, " "); !strings.Contains(w, "curve of the round wall") {
		t.Errorf("full: %s", w)
	}
}

// TestUntilRunsWhatIsNeeded: a run up to the shelf stage leaves out what it does
// not read.
func TestUntilRunsWhatIsNeeded(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	done := evaluate(doc.Design, work{ctx: t.Context(), until: "shelf"}, nil)
	for stage, want := range map[string]bool{"bottle": true, "preform": true, "wall": true, "shelf": true, "pressure": false, "strength": false, "cost": false} {
		if got := done[stage] != nil; got != want {
			t.Errorf("%s ran: %v, want %v", stage, got, want)
		}
	}
	hot := golden(t, "golden-hotfill.yaml").Design
	full := work{full: true, until: "hotfill"}
	if full.needed(hot)["strength"] {
		t.Error("panels of the design ask for the virtual tests")
	}
	hot.HotFill.PanelSource = "computed"
	if !full.needed(hot)["strength"] || (work{until: "hotfill"}).needed(hot)["strength"] {
		t.Error("computed panels need the virtual tests, in a full check alone")
	}
}

// TestPasteurOfAColdFilledPack: a pack that is pasteurised closed has the units
// of its record: ten minutes at 62 °C are 19.4 on the scale of beer, 10 1.393²,
// and nothing else of hot filling.
func TestPasteurOfAColdFilledPack(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	h := &doc.Design.HotFill
	h.Record = []design.RecordRow{{Time: 0, Temperature: unit.Celsius(62)}, {Time: 600, Temperature: unit.Celsius(62)}}
	h.Reference, h.Z = unit.Celsius(60), unit.TemperatureDiff(1/math.Log10(1.393))
	r := Check(doc, nil)
	// Half a kelvin of the recorder is 1.393^0.5 = 1.180 times as many.
	f := figureOf(t, r, "pasteur.units")
	if math.Abs(f.Value/60-19.4045) > 1e-3 || math.Abs(f.Hi/f.Value-1.180) > 1e-3 || math.Abs(f.Lo/f.Value-1/1.180) > 1e-3 {
		t.Errorf("%g (%g to %g) units, want 19.4045", f.Value/60, f.Lo/60, f.Hi/60)
	}
	if w := why(r, "hotfill.vacuum"); !strings.Contains(w, "not hot-filled") {
		t.Errorf("hotfill.vacuum: %q", w)
	}
}
