package run

import (
	"context"
	"math"
	"strings"
	"testing"

	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/unit"
)

// shelfOf computes the shelf figures of a changed design, without bands.
func shelfOf(t *testing.T, name string, change func(d *design.Design)) *Result {
	t.Helper()
	doc := golden(t, name)
	if change != nil {
		change(doc.Design)
	}
	done := evaluate(doc.Design, work{ctx: t.Context(), drawn: true}, nil)
	if e := done["shelf"]; e.err != nil {
		t.Fatal(e.err)
	}
	return &Result{Figures: collect(done)}
}

// TestPresetAndFactor: a preset is its factor and says what it rests on; it
// multiplies the factor of the design.
func TestPresetAndFactor(t *testing.T) {
	const key = "shelf.loss.end"
	preset := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Preset = "trade-2L-26wk" })
	factor := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Factor = 0.845 })
	if a, b := value(t, preset, key), value(t, factor, key); math.Abs(a-b) > 1e-12 {
		t.Errorf("preset %g, its factor %g", a, b)
	}
	if w := strings.Join(figureOf(t, preset, key).Origin.Warnings, " "); !strings.Contains(w, "no confirmation") {
		t.Errorf("the preset does not say what it rests on: %s", w)
	}
	both := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Preset, d.Shelf.Factor = "pessimistic", 0.5 })
	one := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Factor = 0.65 })
	if a, b := value(t, both, key), value(t, one, key); math.Abs(a-b) > 1e-12 {
		t.Errorf("1.3 times 0.5 gives %g, 0.65 gives %g", a, b)
	}
}

// TestBlendByNielsen: 5 % by mass of platelets of aspect 27 and the density of
// the wall are 5 % by volume; the stretched wall passes (1 - 0.05)/(1 + 27 ·
// 0.025) = 0.5672 of before, improvement 1.763; spheres in the finish 0.9268.
func TestBlendByNielsen(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	bare, err := ShelfCase(context.Background(), doc.Design, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	doc.Design.Shelf.Blend, doc.Design.Shelf.Aspect, doc.Design.Shelf.BlendRho = 0.05, 27, doc.Design.Resin.DensityWall
	blend, err := ShelfCase(context.Background(), doc.Design, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	for zone, want := range map[string]float64{"panel": 0.95 / 1.675, "finish": 0.95 / 1.025} {
		at := func(c permeation.Case) float64 {
			return zoneOf(t, c, zone).Material.Oxygen.Permeability.At(unit.Celsius(23))
		}
		if got := at(blend) / at(bare); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s passes %g of before, by hand %g", zone, got, want)
		}
	}
}

// TestLeakByHand: a leak K loses K (P² - p_a²) of gas. With 0.01 cm³/(d·bar²)
// and about 5 bar that is some 0.24 cm³ a day beside the closure's 0.5: the
// loss through the closure grows by about as much.
func TestLeakByHand(t *testing.T) {
	tight := shelfOf(t, "golden-carbonated.yaml", nil)
	leak := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Closure.Leak = 0.01 * 1e-6 / unit.MolarVolumeSTP / 86400 / 1e10 })
	const key = "shelf.loss.closure"
	d := golden(t, "golden-carbonated.yaml").Design
	p := value(t, tight, "shelf.pressure.max") // the lane is a little cooler: an upper bound
	most := 0.01 * (math.Pow(p/1e5+1.01325, 2) - math.Pow(1.01325, 2)) * d.Brief.ShelfLife / 86400 * 1e-6 / unit.MolarVolumeSTP
	n0 := 0.0
	for _, in := range figureOf(t, tight, key).Origin.Inputs {
		if in.Symbol == "n_0" {
			n0 = in.Value
		}
	}
	if got := value(t, leak, key) - value(t, tight, key); !(n0 > 0 && got > 0.25*most/n0 && got < most/n0) {
		t.Errorf("the leak loses %g of the gas, at most %g by hand", got, most/n0)
	}
}

// TestClosureScavenger: a scavenger in the closure with a large capacity lets
// 1 - share of the closure's oxygen in; one that is soon used up hardly helps.
func TestClosureScavenger(t *testing.T) {
	const key = "shelf.oxygen.end"
	cap := func(capacity, share float64) float64 {
		r := shelfOf(t, "golden-hotfill.yaml", func(d *design.Design) {
			d.Closure.Scavenge, d.Closure.Share, d.Shelf.Material = capacity, share, "glass" // the closure alone
			d.Drink.OxygenUse = 1 / day                                                      // and nothing inside that holds it back
		})
		return value(t, r, key)
	}
	bare, most, little := cap(0, 0.8), cap(1e-3, 0.8), cap(1e-7, 0.8)
	if math.Abs(most/bare-0.2) > 0.005 {
		t.Errorf("with a scavenger %g of %g, want about a fifth", most, bare)
	}
	if gain := bare - little; !(gain > 0 && gain < 1.1e-7/golden(t, "golden-hotfill.yaml").Design.Brief.Nominal) {
		t.Errorf("0.1 mg of capacity holds back %g kg/m³", gain)
	}
}

// TestNamedLanesAndSeasons: a warm lane loses more; a pack filled in midsummer
// on a seasonal lane loses more in its first half year than one filled in
// midwinter; days followed and averaged agree; a named lane says it is an
// example.
func TestNamedLanesAndSeasons(t *testing.T) {
	const key = "shelf.loss.end"
	loss := func(change func(d *design.Design)) float64 {
		return value(t, shelfOf(t, "golden-carbonated.yaml", change), key)
	}
	lane := func(name string, start float64) func(d *design.Design) {
		return func(d *design.Design) {
			d.Climate.Named, d.Climate.SeasonStart, d.Brief.ShelfLife = name, start, 13*7*day
		}
	}
	winter, summer, tropical := loss(lane("warehouse", 0)), loss(lane("warehouse", 182*day)), loss(lane("tropical", 0))
	if !(winter < summer && summer < tropical) {
		t.Errorf("winter %g, summer %g, tropical %g", winter, summer, tropical)
	}
	followed := loss(func(d *design.Design) { lane("warehouse", 0)(d); d.Climate.Days = "followed" })
	if math.Abs(followed-winter) > 2e-4 {
		t.Errorf("followed %g, averaged %g", followed, winter)
	}
	// The rows of a design do the same as the card.
	rows := loss(func(d *design.Design) {
		lane("store", 0)(d)
		h := 0.6
		d.Climate.Lane = []design.LaneRow{{Duration: 52 * 7 * day, Temperature: unit.Celsius(15), Swing: 3, Season: 9, Humidity: &h}}
	})
	if math.Abs(rows-winter) > 2e-5 {
		t.Errorf("rows %g, named %g", rows, winter)
	}
	r := shelfOf(t, "golden-carbonated.yaml", lane("warehouse", 0))
	if w := strings.Join(figureOf(t, r, key).Origin.Warnings, " "); !strings.Contains(w, "not a record of a route") || !strings.Contains(w, "days of the lane are averaged") {
		t.Errorf("warnings: %s", w)
	}
	// The altitude of a stretch is that of the pack there: thinner air, more gauge.
	high := 3000.0
	up := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
		d.Climate.Lane = []design.LaneRow{{Duration: 100 * 7 * day, Temperature: d.Climate.Store, Altitude: &high}}
	})
	flat := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) {
		d.Climate.Lane = []design.LaneRow{{Duration: 100 * 7 * day, Temperature: d.Climate.Store}}
	})
	// 101.3 - 70.1 kPa; the pack grows by it and gives some back.
	if got := value(t, up, "shelf.pressure.max") - value(t, flat, "shelf.pressure.max"); !(got > 20e3 && got < 31.3e3) {
		t.Errorf("3000 m add %g Pa of gauge", got)
	}
}

// TestHottestKnowsSeasons: midsummer of a row with a season is the hottest.
func TestHottestKnowsSeasons(t *testing.T) {
	d := golden(t, "golden-carbonated.yaml").Design
	d.Climate.Lane = []design.LaneRow{{Duration: 60 * 7 * day, Temperature: unit.Celsius(25), Swing: 6, Season: 10}}
	d.Brief.ShelfLife, d.Climate.Hot = 50*7*day, unit.Celsius(30)
	if got, path := hottest(d); math.Abs(got.Celsius()-41) > 0.1 || path != "climate.lane" {
		t.Errorf("%g °C at %s, want 25 + 6 + 10", got.Celsius(), path)
	}
	d.Climate.Lane[0].Duration = 1 // too short a lane: the rows still tell
	if got, path := hottest(d); math.Abs(got.Celsius()-41) > 1e-9 || path != "climate.lane" {
		t.Errorf("%g °C at %s of a lane that is too short", got.Celsius(), path)
	}
	d.Climate.Lane, d.Climate.Named, d.Climate.Hot = nil, "tropical", unit.Celsius(30)
	if got, path := hottest(d); math.Abs(got.Celsius()-36) > 0.1 || path != "climate.named_lane" {
		t.Errorf("%g °C at %s, want 30 + 6", got.Celsius(), path)
	}
}

// TestCoatingByGas: a coating that holds oxygen back ten times and carbon
// dioxide three times; sized for the panel, so that its steady permeances are
//
//	1/(L/P + 1/Π) = P/L/10 and P/L/3
func TestCoatingByGas(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	ten := 10.0
	doc.Design.Shelf.Coating, doc.Design.Shelf.Improve, doc.Design.Shelf.ImproveAir = "inner", 3, &ten
	c, err := ShelfCase(context.Background(), doc.Design, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	z := zoneOf(t, c, "panel")
	at := unit.Celsius(23)
	for gas, g := range map[string]struct{ p, coat, want float64 }{
		"O2":  {z.Material.Oxygen.Permeability.At(at), z.Inner.Oxygen, 10},
		"N2":  {z.Material.Nitrogen.Permeability.At(at), z.Inner.Nitrogen, 10},
		"CO2": {z.Material.CO2.At(at).Permeability(4e5), z.Inner.CO2, 3},
	} {
		if got := 1 + g.p/z.Thickness/g.coat; math.Abs(got/g.want-1) > 1e-9 {
			t.Errorf("%s: %g times less, want %g", gas, got, g.want)
		}
	}
	if f := zoneOf(t, c, "finish"); f.Inner != (permeation.Coating{}) || f.Outer != (permeation.Coating{}) {
		t.Error("the finish is coated")
	}
	// The chain shows the coatings, and what scavengers have bound.
	doc.Design.Shelf.Scavenger = 1e-6
	r := Check(doc, nil)
	for key, want := range map[string]struct {
		coat   float64
		inputs []string
	}{"shelf.loss.wall": {z.Inner.CO2, []string{"B"}}, "shelf.oxygen.end": {z.Inner.Oxygen, []string{"B", "m_bound", "m_wall"}}} {
		f := figureOf(t, r, key)
		in := map[string]float64{}
		for _, x := range f.Origin.Inputs {
			in[x.Symbol] = x.Value
		}
		if math.Abs(in["Π_panel"]/want.coat-1) > 1e-3 || in["Π_finish"] != 0 || !strings.Contains(f.Origin.Equation, "1 / Π") {
			t.Errorf("%s: %s with %v", key, f.Origin.Equation, in)
		}
		for _, symbol := range want.inputs {
			if !(in[symbol] > 0) {
				t.Errorf("%s: no %s", key, symbol)
			}
		}
	}
	doc.Design.Shelf.Improve = 1 // bare for carbon dioxide
	if c, err = ShelfCase(context.Background(), doc.Design, false, nil); err != nil || zoneOf(t, c, "panel").Inner.CO2 != 0 || zoneOf(t, c, "panel").Inner.Oxygen == 0 {
		t.Errorf("%+v, %v", zoneOf(t, c, "panel").Inner, err)
	}
}

// TestAscorbicAcidRunsOut: with much acid the drink takes oxygen as without an
// end; with little it stops, and no more oxygen is bound than the acid takes: a
// mole for two.
func TestAscorbicAcidRunsOut(t *testing.T) {
	life := func(acid float64) permeation.Point {
		d := golden(t, "golden-hotfill.yaml").Design
		d.Drink.OxygenUse, d.Drink.Ascorbic = 0.3/day, acid
		c, err := ShelfCase(context.Background(), d, false, nil)
		if err != nil {
			t.Fatal(err)
		}
		l, err := c.Run(d.Brief.ShelfLife, permeation.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p, err := l.At(d.Brief.ShelfLife)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	endless, much, little := life(0), life(5), life(0.02)
	if math.Abs(much.Consumed/endless.Consumed-1) > 0.03 {
		t.Errorf("much acid binds %g kg, without an end %g kg", much.Consumed, endless.Consumed)
	}
	nominal := golden(t, "golden-hotfill.yaml").Design.Brief.Nominal
	most := 0.02 * nominal / 176.12e-3 / 2 * 31.9988e-3
	if !(little.Consumed > 0.9*most && little.Consumed <= most*(1+1e-5)) || little.Dissolved <= endless.Dissolved {
		t.Errorf("little acid binds %g kg of at most %g; %g and %g dissolved", little.Consumed, most, little.Dissolved, endless.Dissolved)
	}
}

// TestRestedBottleGrowsLess: one that is 100 days old creeps (100 d/1 d)^0.7 =
// 25 times as slowly, so that its first day grows less.
func TestRestedBottleGrowsLess(t *testing.T) {
	fresh := value(t, shelfOf(t, "golden-carbonated.yaml", nil), "growth.volume.day1")
	old := value(t, shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Age = 100 * day }), "growth.volume.day1")
	stiff := value(t, shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Shelf.Creep = false }), "growth.volume.day1")
	if !(stiff < old && old < fresh) || (old-stiff)/(fresh-stiff) > 0.35 {
		t.Errorf("fresh %g, rested %g, without creep %g", fresh, old, stiff)
	}
}

// TestClosureSaysItsConductance: 32 kJ/mol from 23 to 22 °C are a factor of
// exp(-32000/8.314 (1/295.15 - 1/296.15)) = 0.9569.
func TestClosureSaysItsConductance(t *testing.T) {
	r := shelfOf(t, "golden-carbonated.yaml", func(d *design.Design) { d.Climate.Store = unit.Celsius(22) })
	in := map[string]float64{}
	for _, x := range figureOf(t, r, "shelf.loss.closure").Origin.Inputs {
		in[x.Symbol] = x.Value
	}
	if in["E"] != 32e3 || in["T_ref"] != float64(unit.Celsius(23)) || math.Abs(in["K_store"]/in["K_CO2"]-0.9569) > 1e-4 || !(in["p_start"] > in["p_end"] && in["p_end"] > 0) {
		t.Errorf("%v", in)
	}
}

// TestOxygenThatIsConsumed: a drink whose use of oxygen is not written is told
// what it would take at most: as much as steadily comes through wall and closure,
// and what the wall held; that of a written use is not.
func TestOxygenThatIsConsumed(t *testing.T) {
	note := func(rate float64) (float64, string) {
		r := shelfOf(t, "golden-hotfill.yaml", func(d *design.Design) {
			steadyStore(d)
			d.Drink.OxygenUse = rate
		})
		f := figureOf(t, r, "shelf.oxygen.end")
		return f.Value, strings.Join(f.Origin.Warnings, "; ")
	}
	most, said := note(thirst)
	if strings.Contains(said, "oxygen_use") {
		t.Error(said)
	}
	_, said = note(0)
	if want := unit.Format(unit.Concentration, most, "mg/L", 3); !strings.Contains(said, "takes up "+want) {
		t.Errorf("want %s: %s", want, said)
	}
	// By hand at the store: 0.2095 atm over zones and closure.
	r := shelfOf(t, "golden-hotfill.yaml", steadyStore)
	in := map[string]float64{}
	for _, x := range figureOf(t, r, "shelf.oxygen.end").Origin.Inputs {
		in[x.Symbol] = x.Value
	}
	k := in["K_O2"] * math.Exp(-32e3/unit.GasConstant*(1/in["T"]-1/float64(unit.Celsius(23))))
	for symbol, a := range in {
		if zone, ok := strings.CutPrefix(symbol, "A_"); ok {
			p := in["P_wall"]
			if zone == "gate" || zone == "neck" || zone == "finish" {
				p = in["P_amorphous"]
			}
			k += a * p / in["L_"+zone]
		}
	}
	steady := k * 0.2095 * 101325 * in["t"] * 31.9988e-3 / in["V"]
	if math.Abs(most/steady-1) > 0.05 {
		t.Errorf("consumed at once %g kg/m³, steadily by hand %g", most, steady)
	}
}

// TestLossSaysWhatItIsCountedFrom: on the board, in figure and verdict.
func TestLossSaysWhatItIsCountedFrom(t *testing.T) {
	for ref, want := range map[string]string{"sealed": "from sealed", "filler": "from filler", "24h": "from 24 h"} {
		doc := golden(t, "golden-carbonated.yaml")
		doc.Design.Shelf.Reference = ref
		doc.Design.Limits = []design.Limit{{Figure: "shelf.loss.end", Side: "max", Value: "12 %", Owner: "test", Source: "example"}}
		r := Check(doc, nil)
		if f := figureOf(t, r, "shelf.loss.end"); !strings.HasSuffix(f.Label, want) || r.Verdicts[0].Figure.Label != f.Label {
			t.Errorf("%s: %q and %q", ref, f.Label, r.Verdicts[0].Figure.Label)
		}
	}
}
