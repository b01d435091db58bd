package oven

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/num/conduct"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/unit"
)

func parts(t testing.TB) (*preform.Preform, resin.Grade) {
	t.Helper()
	p, err := preform.New(checkPreform)
	if err != nil {
		t.Fatal(err)
	}
	g, err := resin.Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	return p, g
}

// turned is the check set-up with the coupling at which it blows.
func turned() Setup {
	s := Default()
	s.Zones, s.Overall, s.Ventilation, s.Coupling = checkZones, 0.76, 0.68, 1.62
	return s
}

func heat(t testing.TB, s Setup) *Result {
	t.Helper()
	p, g := parts(t)
	o, err := New(p, g, s)
	if err != nil {
		t.Fatal(err)
	}
	r, err := o.Run()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The whole oven is second order in cells and steps.
func TestOrder(t *testing.T) {
	type three struct{ in, mean, out float64 }
	at := func(cells int, step float64) three {
		s := turned()
		s.Grid = Grid{Slices: 8, Cells: cells, Step: step}
		r := heat(t, s)
		return three{r.Field.Inside[5], r.Field.Mean[5], r.Field.Outside[5]}
	}
	away := func(a, b three) float64 {
		return math.Max(math.Abs(a.in-b.in), math.Max(math.Abs(a.mean-b.mean), math.Abs(a.out-b.out)))
	}
	fine := at(160, 0.1)
	var space []float64
	for _, n := range []int{10, 20, 40} {
		space = append(space, away(at(n, 0.1), fine))
	}
	t.Logf("largest error of inside, mean, outside at 10, 20, 40 cells: %.3f %.3f %.3f K; default 24 cells: %.3f K", space[0], space[1], space[2], away(at(24, 0.1), fine))
	if o := math.Log2(space[0]/space[2]) / 2; o < 1.7 {
		t.Errorf("order in space %.2f, want 2", o)
	}
	fine = at(24, 0.01)
	var time []float64
	for _, dt := range []float64{0.5, 0.25, 0.125} {
		time = append(time, away(at(24, dt), fine))
	}
	t.Logf("at steps of 0.5, 0.25, 0.125 s: %.4f %.4f %.4f K", time[0], time[1], time[2])
	if o := math.Log2(time[0]/time[2]) / 2; o < 1.7 {
		t.Errorf("order in time %.2f, want 2", o)
	}
}

// The inner loop allocates nothing: a run of twice the steps allocates as
// often.
func TestNoAllocationInside(t *testing.T) {
	p, g := parts(t)
	count := func(step float64) float64 {
		s := turned()
		s.Grid.Step = step
		o, err := New(p, g, s)
		if err != nil {
			t.Fatal(err)
		}
		return testing.AllocsPerRun(1, func() {
			if _, err := o.solve(1, 1); err != nil {
				t.Fatal(err)
			}
		})
	}
	if a, b := count(0.2), count(0.1); a != b {
		t.Errorf("%g allocations at 0.2 s, %g at 0.1 s", a, b)
	}
}

// Heat along the preform: what one slice gives its neighbour takes, and in the
// body the flow is k A dT/ds.
func TestAlong(t *testing.T) {
	p, g := parts(t)
	o, err := New(p, g, turned())
	if err != nil {
		t.Fatal(err)
	}
	const slope = 700.0 // K/m
	rings := make([]ring, len(o.slices))
	for i := range rings {
		n := len(o.walls[i].Mid)
		rings[i] = ring{Solver: conduct.NewSolver(o.walls[i], &o.stuff, 350+slope*o.slices[i].S), axial: make([]float64, n), before: make([]float64, n)}
	}
	o.along(rings)
	sum, flow := 0.0, make([]float64, len(rings))
	for i, q := range rings {
		for _, v := range q.axial {
			sum += v * o.area[i]
		}
		flow[i] = sum
	}
	section := math.Pi * (0.0134*0.0134 - 0.0098*0.0098)
	if want := g.Conductivity * section * slope; math.Abs(flow[20]/want-1) > 1e-6 {
		t.Errorf("flow %g W, want %g", flow[20], want)
	}
	if math.Abs(sum) > 1e-12 {
		t.Errorf("the flows sum to %g W", sum)
	}
}

// Turning one thing moves the result the way it must.
func TestSigns(t *testing.T) {
	base := heat(t, turned())
	skin := func(r *Result) float64 { i := len(r.Slices) / 2; return r.Field.Outside[i] - r.Field.Inside[i] }
	for _, c := range []struct {
		name string
		turn func(*Setup)
		ok   func(r *Result) bool
	}{
		{"more power is hotter", func(s *Setup) { s.Overall += 0.02 }, func(r *Result) bool { return r.Mean > base.Mean }},
		{"more power is a hotter filament", func(s *Setup) { s.Overall += 0.02 }, func(r *Result) bool { return r.Zones[0].Filament > base.Zones[0].Filament }},
		{"longer soak evens out", func(s *Setup) { s.SoakTime += 2 }, func(r *Result) bool { return skin(r) < skin(base) }},
		{"more air cools the outside", func(s *Setup) { s.Ventilation = 1 }, func(r *Result) bool { return skin(r) < skin(base) && r.Mean < base.Mean }},
		{"tilt heats the tip", func(s *Setup) { s.Tilt = 0.05 }, func(r *Result) bool {
			n := len(r.Slices) - 1
			return r.Field.Mean[0] > base.Field.Mean[0] && r.Field.Mean[n] < base.Field.Mean[n]
		}},
		{"zone 1 heats the neck end most", func(s *Setup) {
			z := append([]float64(nil), s.Zones...)
			z[0] *= 1.1
			s.Zones = z
		}, func(r *Result) bool {
			n := len(r.Slices) - 1
			return r.Field.Mean[n]-base.Field.Mean[n] > 3*(r.Field.Mean[0]-base.Field.Mean[0])
		}},
		{"the bore gives light back to the wall", func(s *Setup) { s.Optics.Bore = false }, func(r *Result) bool { return r.Energy.Absorbed < base.Energy.Absorbed }},
		{"focus heats the inside", func(s *Setup) { s.Optics.Focus = false }, func(r *Result) bool {
			return skin(r) > skin(base) && math.Abs(r.Energy.Absorbed/base.Energy.Absorbed-1) < 1e-12
		}},
		{"warmer preforms come out warmer", func(s *Setup) { s.Inlet += 5 }, func(r *Result) bool { return r.Mean > base.Mean }},
	} {
		s := turned()
		c.turn(&s)
		if r := heat(t, s); !c.ok(r) {
			t.Errorf("%s: mean %.2f °C, was %.2f", c.name, r.Mean.Celsius(), base.Mean.Celsius())
		}
	}
}

func TestScale(t *testing.T) {
	p, g := parts(t)
	s := turned()
	s.Coupling, s.HeatTime = 1, 17
	o, err := New(p, g, s)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []Knob{Power, Coupling} {
		x, r, err := o.Scale(unit.Celsius(103), k)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.Mean.Celsius()-103) > 0.05 || x < 1 || x > 4 {
			t.Errorf("%s %.3f: mean %.3f °C", k, x, r.Mean.Celsius())
		}
		if k == Power && !strings.Contains(strings.Join(r.Warnings, "\n"), "rated power") {
			t.Errorf("power %.2f: no warning of the lamps: %q", x, r.Warnings)
		}
	}
	if _, _, err := o.Scale(unit.Celsius(30), Power); err == nil {
		t.Error("30 °C passes")
	}
	if _, _, err := o.Scale(unit.Celsius(100), "hope"); err == nil {
		t.Error("an unknown knob passes")
	}
	s.Overall = 0
	o, _ = New(p, g, s)
	if _, _, err := o.Scale(unit.Celsius(100), Power); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "heat nothing") {
		t.Errorf("lamps off: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	p, g := parts(t)
	for _, c := range []struct {
		turn func(*Setup)
		what string
	}{
		{func(s *Setup) { s.Coupling = 5 }, "melts"},
		{func(s *Setup) { s.Coupling = 0.5 }, "cold"},
	} {
		s := turned()
		c.turn(&s)
		o, err := New(p, g, s)
		if err != nil {
			t.Fatal(err)
		}
		_, err = o.Run()
		var r *Refusal
		if !errors.As(err, &r) || r.What != c.what || r.Remedy == "" || !(r.Place >= 0 && r.Place < 0.12) {
			t.Errorf("%s: %v", c.what, err)
		}
	}
	for _, c := range []struct {
		turn func(*Setup)
		text string
	}{
		{func(s *Setup) { s.Zones = nil }, "0 zones"},
		{func(s *Setup) { s.Zones = []float64{0.5, math.NaN()} }, "power of zone 2"},
		{func(s *Setup) { s.HeatTime = 0 }, "heating time"},
		{func(s *Setup) { s.GapTime = 10 }, "leave no time"},
		{func(s *Setup) { s.Lamps.Distance = 0.012 }, "reaches the filaments"},
		{func(s *Setup) { s.Grid.Cells = 1 }, "cells"},
		{func(s *Setup) { s.Ventilation = 2 }, "ventilation"},
		{func(s *Setup) { s.Inlet = unit.Celsius(-5) }, "inlet"},
	} {
		s := turned()
		c.turn(&s)
		if _, err := New(p, g, s); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), c.text) {
			t.Errorf("want %q: %v", c.text, err)
		}
	}
	s := turned()
	s.Zones, s.Ventilation = nil, -1
	if _, err := New(p, g, s); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "zones") || !strings.Contains(unit.Spell(err.Error(), unit.EU), "ventilation") {
		t.Errorf("not every fault is reported: %v", err)
	}
}

// A skin held hot long enough is hazy, and says so with its place.
func TestHaze(t *testing.T) {
	s := turned()
	s.HeatTime, s.Coupling, s.Ventilation = 60, 1.35, 1
	r := heat(t, s)
	if text := unit.Spell(strings.Join(r.Warnings, "\n"), unit.EU); !strings.Contains(text, "haze") || !strings.Contains(text, "mm below the ledge") {
		t.Errorf("warnings %q", r.Warnings)
	}
}

// Whatever is set, the answer is an error or finite numbers that balance.
func TestAnySetup(t *testing.T) {
	p, g := parts(t)
	rapid.Check(t, func(t *rapid.T) {
		s := Default()
		s.Grid = Grid{Slices: 8, Cells: 6, Step: 0.5}
		s.Zones = rapid.SliceOfN(rapid.Float64Range(0, 1.2), 1, 10).Draw(t, "zones")
		s.Overall = rapid.Float64Range(0, 1.5).Draw(t, "overall")
		s.Coupling = rapid.Float64Range(0, 10).Draw(t, "coupling")
		s.Ventilation = rapid.Float64Range(0, 1).Draw(t, "vent")
		s.HeatTime = rapid.Float64Range(10, 100).Draw(t, "heat")
		s.GapTime = rapid.Float64Range(0, 3.3).Draw(t, "gap")
		s.SoakTime = rapid.Float64Range(0, 20).Draw(t, "soak")
		s.Lamps.Distance = rapid.Float64Range(0.014, 0.2).Draw(t, "distance")
		s.Tilt = rapid.Float64Range(-0.9, 0.9).Draw(t, "tilt")
		o, err := New(p, g, s)
		if err != nil {
			return
		}
		r, err := o.solve(s.Level, s.Coupling)
		if err != nil {
			return
		}
		for i := range r.Slices {
			for _, v := range append([]float64{r.Field.Inside[i], r.Field.Mean[i], r.Field.Outside[i], r.Haze[i], r.Hottest[i]}, r.Field.T[i]...) {
				if !finite(v) || v < 0 {
					t.Fatalf("slice %d: %g", i, v)
				}
			}
			if r.Haze[i] > 1 {
				t.Fatalf("haze %g", r.Haze[i])
			}
		}
		if e := r.Energy; e.Absorbed > 1 && math.Abs(e.Residual) > 1e-3 {
			t.Fatalf("energy closes to %g", e.Residual)
		}
	})
}

func TestSlices(t *testing.T) {
	spec := checkPreform
	spec.Transition = preform.Transition{Length: 0.012, LedgeWall: 0.0025, LedgeDiameter: 0.0217}
	spec.BodyLength -= 0.012
	spec.Cap = preform.CapTapered
	p, err := preform.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{8, 33, 60} {
		s, err := Slices(p, n)
		if err != nil {
			t.Fatal(err)
		}
		m, end, volume := 0.0, 0.0, 0.0
		for _, q := range s {
			if math.Abs(q.From-end) > 1e-12 || math.Abs(math.Hypot(q.facet.nr, q.facet.nz)-1) > 1e-12 {
				t.Fatalf("gap at %g or normal %g, %g", q.From, q.facet.nr, q.facet.nz)
			}
			end = q.To
			m += q.Mass
			w, a, err := q.mesh(24, spec.Density)
			if err != nil {
				t.Fatal(err)
			}
			volume += w.Total() * a
		}
		if math.Abs(m/p.MassBelowLedge()-1) > 1e-12 || math.Abs(volume/p.VolumeBelowLedge()-1) > 1e-12 || len(s) < n-3 || len(s) > n+4 {
			t.Errorf("%d slices: mass %g of %g", len(s), m, p.MassBelowLedge())
		}
		// the mid-surface found from mass and mesh is that of the drawing
		q := s[len(s)/2]
		_, a, _ := q.mesh(24, spec.Density)
		if want := 2 * math.Pi * p.MidRadius() * (q.To - q.From); math.Abs(a/want-1) > 1e-9 {
			t.Errorf("area %g, drawing %g m²", a, want)
		}
	}
	if _, err := Slices(p, 7); err == nil {
		t.Error("7 slices pass")
	}
	if _, err := Slices(nil, 20); err == nil {
		t.Error("no preform passes")
	}
}

// A run of the whole oven with its view factors.
func BenchmarkRun(b *testing.B) {
	p, g := parts(b)
	for b.Loop() {
		o, err := New(p, g, turned())
		if err != nil {
			b.Fatal(err)
		}
		if _, err := o.Run(); err != nil {
			b.Fatal(err)
		}
	}
}

// Lamps far too weak are told with what they reach and what to do.
func TestScaleOutOfReach(t *testing.T) {
	p, g := parts(t)
	s := Default()
	s.Overall = 0.05
	o, err := New(p, g, s)
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = o.Scale(unit.Celsius(105), Coupling)
	for _, want := range []string{"% of their rated power", "105.0 °C are wanted", "10 times the light", "raise overall power"} {
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%v lacks %q", err, want)
		}
	}
	if err != nil && strings.Contains(unit.Spell(err.Error(), unit.EU), "root:") {
		t.Errorf("%v speaks of the search", err)
	}
	if w := CouplingWarning(1.2); w != "" {
		t.Errorf("1.2 warns: %s", w)
	}
	for _, c := range []float64{0.3, 2.5} {
		if w := CouplingWarning(c); !strings.Contains(w, "times the light") {
			t.Errorf("%g: %q", c, w)
		}
	}
}
