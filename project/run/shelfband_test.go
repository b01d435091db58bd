package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/unit"
)

func lossBand(t *testing.T, change func(d *design.Design)) (half float64, r *Result) {
	t.Helper()
	doc := golden(t, "golden-carbonated.yaml")
	if change != nil {
		change(doc.Design)
	}
	r = Check(doc, nil)
	f := figureOf(t, r, "shelf.loss.end")
	return (f.Hi - f.Lo) / 2, r
}

// TestFittedBarrierNarrowsTheBand: what a fit to pulls has left stands instead
// of the habit, and the closure is held by it.
func TestFittedBarrierNarrowsTheBand(t *testing.T) {
	before, r := lossBand(t, nil)
	at := unit.Celsius(22)
	after, fitted := lossBand(t, func(d *design.Design) { d.Shelf.FactorSD, d.Shelf.FittedAt = 0.04, &at })
	if !(after < 0.5*before) {
		t.Errorf("half the band is %g before and %g after the fit", before, after)
	}
	for _, c := range []struct {
		r    *Result
		path string
		want bool
	}{
		{r, "closure.co2", true},
		{fitted, "closure.co2", false},
		{fitted, "shelf.barrier_factor", true},
		{fitted, "climate.store", true},
		{r, "energy", true},
		{r, "thickness.2", true},
		{fitted, "energy", true},
		{fitted, "thickness.2", false},
	} {
		if _, ok := effect(figureOf(t, c.r, "shelf.loss.end"), c.path); ok != c.want {
			t.Errorf("effect of %s: %v, want %v", c.path, ok, c.want)
		}
	}
	e, _ := effect(figureOf(t, fitted, "shelf.loss.end"), "shelf.barrier_factor")
	old, _ := effect(figureOf(t, r, "shelf.loss.end"), "shelf.barrier_factor")
	if q := (e.High - e.Low) / (old.High - old.Low); math.Abs(q-0.2) > 0.02 {
		t.Errorf("a fifth of the spread moves the loss %g times as far", q)
	}
	// Pulls of carbon dioxide do not tell the oxygen: σ 0.15 is left of it, and
	// the wall passes most of what comes in.
	o := figureOf(t, fitted, "shelf.oxygen.end")
	if e, ok := effect(o, "oxygen"); !ok || !(e.High > 0.1*o.Value && e.High < (math.Exp(0.15*two95)-1)*o.Value) || !(e.Low < -0.1*o.Value) {
		t.Errorf("oxygen permeability moves %g by %g and %g", o.Value, e.Low, e.High)
	}
}

// TestBandCarriedOver: at the end of what is accepted the other end of a range
// stands for both, and that is said; the nothing and all of a share is no such
// end.
func TestBandCarriedOver(t *testing.T) {
	for _, c := range []struct {
		celsius float64
		want    bool
	}{{60, true}, {-5, true}, {22, false}} {
		_, r := lossBand(t, func(d *design.Design) {
			d.Climate.HotTime, d.Climate.Store, d.Drink.Air = 0, unit.Celsius(c.celsius), 0.1
		})
		f := figureOf(t, r, "shelf.loss.end")
		e, _ := effect(f, "climate.store")
		if got := strings.Contains(strings.Join(f.Origin.Warnings, "; "), clippedBand); got != c.want {
			t.Errorf("store of %g °C: said %v, want %v: %q", c.celsius, got, c.want, f.Origin.Warnings)
		}
		if c.want && (e.High <= 0 || math.Abs((f.Value+e.Low)*(f.Value+e.High)/f.Value/f.Value-1) > 1e-9) {
			t.Errorf("store of %g °C: %+v is not carried over", c.celsius, e)
		}
	}
}

// TestLaneKeepsTheStoresSpread: two kelvin more along a written or a named lane
// move the loss as two kelvin more in the store.
func TestLaneKeepsTheStoresSpread(t *testing.T) {
	_, store := lossBand(t, func(d *design.Design) { d.Climate.HotTime = 0 })
	want, ok := effect(figureOf(t, store, "shelf.loss.end"), "climate.store")
	if !ok {
		t.Fatal("the store has no effect")
	}
	_, lane := lossBand(t, func(d *design.Design) {
		d.Climate.HotTime = 0
		d.Climate.Lane = []design.LaneRow{{Duration: 3 * d.Brief.ShelfLife, Temperature: d.Climate.Store}}
	})
	got, ok := effect(figureOf(t, lane, "shelf.loss.end"), "climate.lane")
	if !ok || math.Abs(got.High-want.High) > 1e-9 || math.Abs(got.Low-want.Low) > 1e-9 {
		t.Errorf("lane %+v, store %+v", got, want)
	}
	_, named := lossBand(t, func(d *design.Design) { d.Climate.Named = "tropical" })
	if e, ok := effect(figureOf(t, named, "shelf.loss.end"), "climate.lane"); !ok || !(e.Low < 0 && e.High > 0) || math.Abs(e.Low+e.High) > 0.2*e.High {
		t.Errorf("named lane: %+v", e)
	}
}

// TestCarbonationTrace: the curve stands in its band, which widens with time;
// pulls of the laboratory stand as points, time 0 at 24 hours.
func TestCarbonationTrace(t *testing.T) {
	_, r := lossBand(t, func(d *design.Design) {
		d.Lab.Pulls = []design.PullRow{{Time: 0, Carbonation: 8.0}, {Time: 28 * day, Carbonation: 7.8}, {Time: 28 * day, Carbonation: 7.7}}
	})
	p := plotOf(t, r, "shelf.carbonation")
	c := p.Series[0]
	n := len(c.X)
	if len(c.Lo) != n || len(c.Hi) != n {
		t.Fatalf("no band: %d and %d of %d", len(c.Lo), len(c.Hi), n)
	}
	for i := range c.X {
		if !(c.Lo[i] <= c.Y[i]+1e-12 && c.Y[i] <= c.Hi[i]+1e-12) {
			t.Fatalf("at %g d %g is not in %g..%g", c.X[i]/day, c.Y[i], c.Lo[i], c.Hi[i])
		}
	}
	if c.Hi[n-1]-c.Lo[n-1] <= 2*(c.Hi[n/4]-c.Lo[n/4]) {
		t.Error("the band does not widen")
	}
	i := slices.IndexFunc(p.Series, func(s Series) bool { return s.Points })
	if i < 0 || !slices.Equal(p.Series[i].X, []float64{day, 28 * day, 28 * day}) || !slices.Equal(p.Series[i].Y, []float64{8, 7.8, 7.7}) {
		t.Errorf("pulls %+v", p.Series)
	}
	if len(p.Series) != 3 || !p.Series[2].Dashed || p.Note == "" {
		t.Errorf("no curve at the temperature of the pulls: %d series, %q", len(p.Series), p.Note)
	}
}

// TestFullBands samples the life of a blown bottle and of a hot-filled pack:
// the wall that was computed, the store, and what was closed in take part.
func TestFullBands(t *testing.T) {
	if testing.Short() {
		t.Skip("samples two lives")
	}
	for name, want := range map[string]struct {
		key   string
		paths []string
	}{
		"sorrel-lime.yaml": {"shelf.loss.end", []string{"shelf.barrier_factor", "climate.store", "thickness.2", "closure.co2"}},
		"wrenhollow.yaml":  {"shelf.vacuum.max", []string{"hotfill.panel_compliance", "hotfill.shrinkage", "hotfill.headspace_temperature", "drink.fill_temperature"}},
	} {
		doc := example(t, name)
		done := evaluate(doc.Design, work{ctx: t.Context(), full: true, drawn: true, until: "shelf"}, nil)
		r := &Result{Figures: collect(done), Plots: done["shelf"].plots}
		f := figureOf(t, r, want.key)
		for _, p := range want.paths {
			if _, ok := effect(f, p); !ok {
				t.Errorf("%s: %s has no effect of %s: %+v", name, want.key, p, f.Effects)
			}
		}
		t.Logf("%s: %s %.4g (%.4g to %.4g)", name, want.key, f.Value, f.Lo, f.Hi)
		// Not narrower than what the preview's spreads make of it.
		q := figureOf(t, Check(doc, nil), want.key)
		if w := (f.Hi - f.Lo) / f.Value; w < 0.8*(q.Hi-q.Lo)/q.Value {
			t.Errorf("%s: the full check's band is %g of the value, the preview's %g", name, w, (q.Hi-q.Lo)/q.Value)
		}
		if name == "sorrel-lime.yaml" {
			c := plotOf(t, r, "shelf.carbonation").Series[0]
			if n := len(c.X); len(c.Lo) != n || !(c.Lo[n-1] < c.Y[n-1] && c.Y[n-1] < c.Hi[n-1]) {
				t.Error("the trace has no sampled band")
			}
		}
	}
}

// TestBandLivesAreNoCoarser keeps the lives of bands from losing their meaning:
// at least four cells and steps of at most 1 % error.
func TestBandLivesAreNoCoarser(t *testing.T) {
	if silentLife.Cells < 4 || silentLife.Tolerance > 1e-2 || sampledLife.Cells < 4 || sampledLife.Tolerance > 1e-2 {
		t.Errorf("%+v, %+v", silentLife, sampledLife)
	}
}

// TestComputedWallMovesPlastic: ten percent more on the panel come from base and
// shoulder; the plastic stays, so that the loss hardly moves.
func TestComputedWallMovesPlastic(t *testing.T) {
	doc := golden(t, "golden-carbonated.yaml")
	c, err := ShelfCase(t.Context(), doc.Design, false, nil)
	if err != nil {
		t.Fatal(err)
	}
	moved := c
	computedWall(doc.Design).Move(&moved, two95)
	mass := func(c permeation.Case) (all float64) {
		for _, z := range c.Zones {
			all += z.Area * z.Thickness
		}
		return all
	}
	if q := zoneOf(t, moved, "panel").Thickness / zoneOf(t, c, "panel").Thickness; math.Abs(q-1.1) > 1e-12 {
		t.Errorf("the panel is %g times as thick", q)
	}
	if a, b := mass(c), mass(moved); math.Abs(b/a-1) > 1e-12 || zoneOf(t, moved, "base").Thickness >= zoneOf(t, c, "base").Thickness {
		t.Errorf("plastic %g and %g", a, b)
	}
	if zoneOf(t, moved, "finish").Thickness != zoneOf(t, c, "finish").Thickness {
		t.Error("the finish has moved")
	}
}

// TestSampledPathsAreOfTheDesign: what an effect points to is there.
func TestSampledPathsAreOfTheDesign(t *testing.T) {
	for key, path := range sampledPaths {
		if _, ok := design.Lookup(path); !ok {
			t.Errorf("%s points to %s", key, path)
		}
	}
}

// TestComputedCrystalsFollowLocal: crystals moved by the band pass as those that
// [permeation.Local] gives the place.
func TestComputedCrystalsFollowLocal(t *testing.T) {
	material := func(phi float64) permeation.Material {
		m, err := permeation.Local(phi, 12)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	c := permeation.Case{Zones: []permeation.WallZone{{Name: "panel", Area: 1, Thickness: 1e-3, Material: material(0.2), Crystals: 0.2, Stretch: 12}, {Name: "finish", Material: material(0)}}}
	computedCrystals().Move(&c, two95)
	at := unit.Celsius(22)
	got, want := c.Zones[0].Material, material(0.24)
	for what, v := range map[string][2]float64{
		"CO2":   {got.CO2.At(at).Permeability(4e5), want.CO2.At(at).Permeability(4e5)},
		"O2":    {got.Oxygen.Permeability.At(at), want.Oxygen.Permeability.At(at)},
		"held":  {got.CO2.At(at).Concentration(4e5), want.CO2.At(at).Concentration(4e5)},
		"water": {got.Water.At(at), want.Water.At(at)},
	} {
		if math.Abs(v[0]/v[1]-1) > 1e-9 {
			t.Errorf("%s: %g, want %g", what, v[0], v[1])
		}
	}
	if math.Abs(c.Zones[0].Crystals-0.24) > 1e-12 || c.Zones[1].Crystals != 0 || c.Zones[1].Material != material(0) {
		t.Errorf("crystals %g and %g, or the finish has another material", c.Zones[0].Crystals, c.Zones[1].Crystals)
	}
}
