package blow

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/physics/resin"
	"costrel/unit"
)

// What the shop floor knows: hotter, earlier and stronger air, a slower rod
// make a thinner base, and a warmer end of the preform does.
func TestBaseSigns(t *testing.T) {
	if testing.Short() {
		t.Skip("eleven blows")
	}
	base := func(f func(*Case)) float64 {
		c := moulded(103)
		f(&c)
		return run(t, c).MassBetween(0.170, 0.3) * 1e3
	}
	tip := func(by float64) func(*Case) { // the end of the preform against its top, in between straight
		return func(c *Case) {
			c.Heat = Heat{S: []float64{0, 90e-3}, X: []float64{0}, T: [][]float64{{376.15 - by/2}, {376.15 + by/2}}}
		}
	}
	ref := base(func(*Case) {})
	for _, o := range []struct {
		name   string
		f      func(*Case)
		oracle float64
		up     bool
	}{
		{"98 °C", func(c *Case) { c.Heat.Uniform = unit.Celsius(98) }, 3.45, true},
		{"108 °C", func(c *Case) { c.Heat.Uniform = unit.Celsius(108) }, 2.35, false},
		{"rod 0.8 m/s", func(c *Case) { c.Recipe.Rod.Speed = 0.8 }, 1.98, false},
		{"rod 1.8 m/s", func(c *Case) { c.Recipe.Rod.Speed = 1.8 }, 4.18, true},
		{"air at 0 ms", func(c *Case) { c.Recipe.Pre.Start.Time = 0 }, 1.98, false},
		{"air at 50 ms", func(c *Case) { c.Recipe.Pre.Start.Time = 0.05 }, 4.54, true},
		{"3 mm²", func(c *Case) { c.Recipe.Pre.Area = 3e-6 }, 4.54, true},
		{"end 4 K warmer", tip(4), math.NaN(), false},
		{"end 4 K colder", tip(-4), math.NaN(), true},
		{"12 mm²", func(c *Case) { c.Recipe.Pre.Area = 12e-6 }, 2.35, false},
	} {
		m := base(o.f)
		t.Logf("%-12s base %.2f g of %.2f g (oracle %.2f of 3.08)", o.name, m, ref, o.oracle)
		if (m > ref) != o.up {
			t.Errorf("%s: base %.3f g, reference %.3f g", o.name, m, ref)
		}
	}
}

// Tables of convergence in elements, layers and step, with the oracle's.
func TestConvergence(t *testing.T) {
	if testing.Short() {
		t.Skip("nine blows")
	}
	look := func(f func(*Case)) (p, v float64) {
		c := freeBlow(100)
		c.Recipe.Duration = 0.12
		f(&c)
		r := run(t, c)
		return r.PeakPre / 1e5, r.Volume * 1e6
	}
	table := func(what string, values []float64, f func(*Case, float64)) (v []float64) {
		for _, x := range values {
			p, vol := look(func(c *Case) { f(c, x) })
			t.Logf("%-10s %7.3g: %.4f bar(g), %.2f mL at 120 ms", what, x, p, vol)
			v = append(v, vol)
		}
		return v
	}
	n := table("elements", []float64{30, 60, 120}, func(c *Case, x float64) { c.Numbers.Elements = int(x) })
	l := table("layers", []float64{3, 5, 9}, func(c *Case, x float64) { c.Numbers.Layers = int(x) })
	d := table("step ms", []float64{1, 0.5, 0.25, 0.125}, func(c *Case, x float64) { c.Numbers.StepMost, c.Numbers.StepFirst = x/1e3, min(x/1e3, 5e-4) })
	for _, v := range [][]float64{n, l, d} {
		k := len(v)
		if math.Abs(v[k-1]/v[k-2]-1) > 0.01 || math.Abs(v[1]/v[k-1]-1) > 0.015 {
			t.Errorf("not settled: %v", v)
		}
	}
	// first order in the step
	if r := (d[1] - d[2]) / (d[2] - d[3]); r < 1.5 || r > 3 {
		t.Errorf("step halved: differences fall by %.2f, want 2", r)
	}
	// mould: step
	for _, x := range []float64{1, 0.5, 0.25} {
		c := moulded(103)
		c.Numbers.StepMost = x / 1e3
		r := run(t, c)
		h60, _ := r.WallAt(0.060)
		h150, _ := r.WallAt(0.150)
		t.Logf("mould, step %.2f ms: wall %.4f mm at 60, %.4f mm at 150, full at %.1f ms", x, h60*1e3, h150*1e3, r.FillTime*1e3)
	}
	for _, x := range []int{30, 60, 120} {
		c := moulded(103)
		c.Numbers.Elements = x
		r := run(t, c)
		h60, _ := r.WallAt(0.060)
		h150, _ := r.WallAt(0.150)
		t.Logf("mould, %3d elements: wall %.4f mm at 60, %.4f mm at 150", x, h60*1e3, h150*1e3)
	}
}

func TestRefusals(t *testing.T) {
	for _, o := range []struct {
		name string
		f    func(*Case)
		want []string
	}{
		{"wide preform", func(c *Case) { c.Preform = Straight(60e-3, 4e-3, 70e-3, 3e-3) }, []string{"preform is larger than the mould", "mm below the ledge"}},
		{"long preform", func(c *Case) { c.Preform = Straight(16e-3, 3e-3, 300e-3, 2e-3) }, []string{"preform reaches to depth", "shorter"}},
		{"long rod", func(c *Case) { c.Recipe.Rod.Stop = 0.4 }, []string{"rod stops at depth 400", "stop it"}},
		{"vacuum", func(c *Case) { c.Recipe.Pre.Pressure = -1e5 }, []string{"pre-blow pressure -1", "ambient"}},
		{"cold", func(c *Case) { c.Heat.Uniform = unit.Celsius(60) }, []string{"60.0 °C", "too cold", "78..130"}},
		{"melt", func(c *Case) { c.Heat.Uniform = unit.Celsius(150) }, []string{"150.0 °C", "melt", "less"}},
		{"gate", func(c *Case) { c.Preform = Straight(16e-3, 3e-3, 75e-3, 0) }, []string{"gate wall", "below 0.2 mm"}},
		{"fold", func(c *Case) {
			c.Mould.Z = []float64{0, 0.05, 0.10, 0.03, 0.195}
			c.Mould.R = []float64{0.0115, 0.0325, 0.0325, 0.040, 0}
		}, []string{"profile folds", "50.00 mm"}},
		{"rod start without rod", func(c *Case) { c.Recipe.Pre.Start = Start{ByRod: true}; c.Recipe.Rod.Speed = 0 }, []string{"no rod"}},
		{"high before pre", func(c *Case) { c.Recipe.High.Start.Time = 0.001 }, []string{"high blow starts", "later"}},
		{"no zone", func(c *Case) { c.Mould.Zones = nil }, []string{"no temperature zone"}},
		{"not a number", func(c *Case) { c.Recipe.DeadVolume = math.NaN() }, []string{"dead volume"}},
		{"open profile", func(c *Case) { c.Mould.R[len(c.Mould.R)-1] = 0.01 }, []string{"centre of the base"}},
		{"upwards", func(c *Case) {
			c.Mould.Z = []float64{0, -0.1, -0.2}
			c.Mould.R = []float64{0.02, 0.03, 0}
		}, []string{"upwards"}},
		{"steps", func(c *Case) { c.Numbers.StepsMost = 20 }, []string{"20 steps reached at", "depth", "raise the limit"}},
	} {
		c := moulded(103)
		o.f(&c)
		r, err := Run(context.Background(), c, nil)
		if err == nil {
			t.Errorf("%s: accepted", o.name)
			continue
		}
		if r != nil {
			t.Errorf("%s: a result beside the error", o.name)
		}
		for _, w := range o.want {
			if !strings.Contains(unit.Spell(err.Error(), unit.EU), w) {
				t.Errorf("%s: %q lacks %q", o.name, err, w)
			}
		}
	}
}

func TestCancelAndProgress(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	calls := 0
	_, err := Run(ctx, moulded(103), func(float64) {
		if calls++; calls == 10 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || calls != 10 {
		t.Errorf("%v after %d calls", err, calls)
	}
	last, n := -1.0, 0
	run2, err := Run(context.Background(), moulded(103), func(p float64) {
		if p < last || p > 1 {
			t.Errorf("progress %g after %g", p, last)
		}
		last = p
		n++
	})
	if err != nil || last != 1 || n < run2.Steps {
		t.Errorf("progress ends at %g after %d calls, %v", last, n, err)
	}
}

// Every law of the catalogue blows the bottle. The rubber and the viscoplastic
// fit stiffen so much that the corner of the base stays open, and say so.
func TestEveryLaw(t *testing.T) {
	if testing.Short() {
		t.Skip("a blow by each law")
	}
	for _, l := range resin.HotLaws() {
		c := moulded(100)
		c.Law = l
		c.Recipe.Rod.Radius = 6e-3
		c.Numbers.Elements, c.Numbers.Layers = 40, 3
		r := run(t, c)
		h, _ := r.WallAt(0.12)
		t.Logf("%-16s filled %v, wall at 120 mm %.3f mm, pre-blow peak %.2f bar, %d steps", l.Name(), r.Filled, h*1e3, r.PeakPre/1e5, r.Steps)
		if on := r.History[len(r.History)-1].Contact; on < 0.9 || !r.Filled && r.Flags[0].Kind != FlagNotFilled {
			t.Errorf("%s: %.2f of the wall on the mould, filled %v, flags %v", l.Name(), on, r.Filled, r.Flags)
		}
	}
}

// With friction the wall slides: it ends between sticking and free.
func TestFriction(t *testing.T) {
	if testing.Short() {
		t.Skip("five blows")
	}
	for _, mu := range []float64{0, 0.001, 0.05, 0.3, 1} {
		c := moulded(103)
		c.Recipe.Friction = mu
		r := run(t, c)
		a, _ := r.WallAt(0.030)
		b, _ := r.WallAt(0.150)
		t.Logf("friction %.1f: filled %v at %.1f ms, wall %.3f mm at 30, %.3f mm at 150 mm, mass error %.2g, %d steps, %d rejected", mu, r.Filled, r.FillTime*1e3, a*1e3, b*1e3, r.Balance.MassError, r.Steps, r.Rejected)
		if !r.Filled {
			t.Errorf("friction %g: not filled", mu)
		}
	}
}

// A hot mould keeps the wall warm and makes more crystals; energy closes.
func TestHeatSet(t *testing.T) {
	var X, T [2]float64
	for i, C := range []float64{10, 140} {
		c := sorrel(t)
		c.Recipe.Hold = 1.5
		c.Mould.Zones = []Zone{{From: 0, T: unit.Celsius(C)}}
		r := run(t, c)
		p := r.Places[len(r.Places)/2]
		X[i], T[i] = p.X, p.T
		b := r.Balance
		t.Logf("mould %g °C: panel at %.1f °C at ejection, crystallinity %.3f; heat: work %.0f J, crystals %.0f J, mould %.0f J, air %.0f J, error %.1e", C, p.T-273.15, p.X, b.HeatWork, b.HeatCrystal, b.HeatToMould, b.HeatToAir, b.HeatError)
		if math.Abs(b.HeatError) > 1e-9 || math.Abs(b.MassError) > 1e-10 || b.AirError > 1e-10 || math.Abs(b.AirMassError) > 1e-10 || b.VolumeError > 1e-10 {
			t.Errorf("balance %+v", b)
		}
	}
	if !(X[1] > X[0]+0.05 && T[1] > T[0]+40) {
		t.Errorf("heat set: crystallinity %v, temperature %v", X, T)
	}
}

func TestGasEnergy(t *testing.T) {
	c := freeBlow(100)
	c.Recipe.GasEnergy = true
	r := run(t, c)
	lo, hi := math.Inf(1), 0.0
	for _, m := range r.History {
		lo, hi = min(lo, m.AirT), max(hi, m.AirT)
	}
	iso := run(t, freeBlow(100))
	t.Logf("air between %.0f and %.0f K, peak %.2f bar, with constant temperature %.2f bar", lo, hi, r.PeakPre/1e5, iso.PeakPre/1e5)
	if !(lo > 250 && hi < 430 && hi > 305) || r.Balance.AirError > 1e-10 || math.Abs(r.Balance.AirMassError) > 1e-10 {
		t.Errorf("air %g..%g K, %+v", lo, hi, r.Balance)
	}
}

// Whatever the recipe, a run ends, with a finite answer or a message.
func FuzzRecipe(f *testing.F) {
	f.Add(103.0, 8.0, 6.0, 0.02, 1.2, 36.0, 20.0, 0.16, 40.0, 3.0, 16.0, 0.3)
	f.Add(85.0, 20.0, 50.0, 0.0, 0.0, 40.0, 200.0, 0.01, 0.0, 6.0, 14.0, 0.0)
	f.Add(128.0, 1.0, 0.1, 0.1, 5.0, 5.0, 1.0, 0.2, 300.0, 1.0, 20.0, 1.0)
	f.Add(76.0, 0.5, 1.0, 0.05, 3.0, 10.0, 5.0, 0.1, 10.0, 2.0, 12.0, 0.0)
	f.Fuzz(func(t *testing.T, T, pre, area, start, rod, high, area2, start2, dead, wall, bore, mu float64) {
		c := moulded(103)
		c.Numbers.Isothermal, c.Numbers.MidContact, c.Numbers.Rate = false, false, RateNominal
		c.Numbers.Theta, c.Numbers.StrainMost, c.Recipe.Rod.Fits = 0.55, 0.05, true
		c.Numbers.Elements, c.Numbers.Layers, c.Numbers.StepsMost = 20, 3, 3000
		c.Preform = Straight(bore/1e3, wall/1e3, 70e-3, 0.75*wall/1e3)
		c.Heat.Uniform = unit.Celsius(T)
		r := &c.Recipe
		r.Pre.Pressure, r.Pre.Area, r.Pre.Start.Time = unit.GaugePressure(pre*1e5), area/1e6, start
		r.High.Pressure, r.High.Area, r.High.Start.Time = unit.GaugePressure(high*1e5), area2/1e6, start2
		r.Rod.Speed, r.DeadVolume, r.Friction = rod, dead/1e6, mu
		r.Hold, r.Exhaust = 0.1, 0.05
		r.Rod.Stop = 0.19
		out, err := Run(context.Background(), c, nil)
		if err != nil {
			if out != nil || err.Error() == "" {
				t.Fatal("a result beside the error")
			}
			return
		}
		for _, p := range out.Places {
			if !finite(p.Wall+p.T+p.X+p.Axial+p.Hoop+p.StressHoop) || p.Wall <= 0 {
				t.Fatalf("%+v", p)
			}
		}
		for _, m := range out.History {
			if !finite(m.Pressure + m.Volume + m.RodForce + m.Air) {
				t.Fatalf("%+v", m)
			}
		}
		if math.Abs(out.Balance.MassError) > 1e-9 || out.Balance.AirError > 1e-8 || math.Abs(out.Balance.HeatError) > 1e-6 {
			t.Fatalf("%+v", out.Balance)
		}
	})
}

// The distance to a profile has the right size and sign.
func TestProfileDistance(t *testing.T) {
	m := &Mould{Z: []float64{0, 0.1, 0.1}, R: []float64{0.03, 0.03, 0}, Zones: []Zone{{T: 300}}}
	p, err := m.profile()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		z, r := rapid.Float64Range(0, 0.15).Draw(t, "z"), rapid.Float64Range(0, 0.06).Draw(t, "r")
		var want float64
		switch dz, dr := 0.1-z, 0.03-r; {
		case dz >= 0 && dr >= 0:
			want = min(dz, dr)
		case dz < 0 && dr < 0:
			want = -math.Hypot(dz, dr)
		default:
			want = min(dz, dr)
		}
		if d, _, _, _ := p.distance(z, r); math.Abs(d-want) > 1e-12 {
			t.Fatalf("(%g, %g): %g, want %g", z, r, d, want)
		}
	})
}

// A law without a rest at zero rate, with and without friction, and valves of
// any size come to an end in a bounded number of steps; a wall that folds under
// a valve far too large is told, with what to do.
func TestHardBlows(t *testing.T) {
	if testing.Short() {
		t.Skip("five blows")
	}
	law, err := resin.FindHotLaw("viscoplastic")
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []struct {
		name string
		f    func(*Case)
	}{
		{"viscoplastic, sticking", func(c *Case) { c.Law = law }},
		{"viscoplastic, friction 0.3", func(c *Case) { c.Law, c.Recipe.Friction = law, 0.3 }},
		{"500 mm²", func(c *Case) { c.Recipe.High.Area = 500e-6 }},
		{"500 mm², friction 0.3", func(c *Case) { c.Recipe.High.Area, c.Recipe.Friction = 500e-6, 0.3 }},
		{"1000 mm²", func(c *Case) { c.Recipe.High.Area = 1000e-6 }},
	} {
		c := sorrel(t)
		c.Numbers.Elements, c.Numbers.Layers = 30, 2
		o.f(&c)
		r := run(t, c)
		var fold, open string
		for _, f := range r.Flags {
			switch f.Kind {
			case FlagFold:
				fold = f.Text
			case FlagNotFilled:
				open = f.Text
			}
		}
		t.Logf("%-28s filled %v, %d steps, %d iterations, %d rejected; %s %s", o.name, r.Filled, r.Steps, r.Iterations, r.Rejected, fold, open)
		if r.Steps > 10000 {
			t.Errorf("%s: %d steps", o.name, r.Steps)
		}
		if !r.Filled && fold == "" && open == "" {
			t.Errorf("%s: not filled, and no flag says so", o.name)
		}
		if fold != "" && !strings.Contains(fold, "smaller orifice") {
			t.Errorf("%s: %q has no remedy", o.name, fold)
		}
	}
}
