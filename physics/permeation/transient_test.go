package permeation

import (
	"encoding/json"
	"math"
	"os/exec"
	"testing"

	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"

	"pgregory.net/rapid"
)

func live(t testing.TB, b example, c change, celsius, days float64, o Options) *Life {
	t.Helper()
	l, err := b.live(c, celsius, days, o)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func loss(t testing.TB, l *Life, days float64) Loss {
	t.Helper()
	x, err := l.Loss(days*day, Sealed)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestGeneralIntegrator runs the same equations by SciPy, where it is there.
func TestGeneralIntegrator(t *testing.T) {
	if testing.Short() {
		t.Skip("seconds")
	}
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import scipy").Run() == nil {
			python = p
			break
		}
	}
	if python == "" {
		t.Skip("no Python with SciPy")
	}
	text, err := exec.Command(python, "testdata/shelf.py", "16").Output()
	if err != nil {
		t.Fatal(err)
	}
	type result struct {
		Seconds                  float64
		Loss, Bar, Oxygen, Water []float64
	}
	var theirs struct{ Half, Two result }
	if err := json.Unmarshal(text, &theirs); err != nil {
		t.Fatal(err)
	}
	for _, b := range []struct {
		name string
		example
		result
	}{{"half litre", half, theirs.Half}, {"two litres", two, theirs.Two}} {
		l := live(t, b.example, change{}, 22, 364, Options{})
		for i, w := range []float64{12, 26, 52} {
			x := loss(t, l, 7*w)
			p, err := l.At(w * week)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s, week %g: loss %.4f %%, SciPy %.4f", b.name, w, 100*x.Total, b.Loss[i])
			for _, c := range []struct {
				what                 string
				ours, theirs, within float64
			}{
				{"loss, points", 100 * x.Total, b.Loss[i], 0.002},
				{"pressure, bar", float64(p.Gauge) / 1e5, b.Bar[i+1], 1e-4},
				{"oxygen, mg/L", p.Ingress / b.fill * 1e3, b.Oxygen[i], 2e-3},
				{"water, g", p.WaterLost * 1e3, b.Water[i], 1e-3},
			} {
				if math.Abs(c.ours-c.theirs) > c.within {
					t.Errorf("%s, week %g: %s: %.6g, SciPy %.6g", b.name, w, c.what, c.ours, c.theirs)
				}
			}
		}
		t.Logf("%s: a year took SciPy %.3f s; for ours see BenchmarkYear", b.name, b.Seconds)
	}
}

// TestConvergence: the error of the mesh falls as its square.
func TestConvergence(t *testing.T) {
	// A short time, while the front crosses the wall, strains the mesh most.
	at := func(n int) float64 {
		return 100 * loss(t, live(t, half, change{only: true}, 22, 7, Options{Cells: n, Tolerance: 1e-9}), 7).Total
	}
	best := at(96)
	var last float64
	for _, n := range []int{6, 12, 24} {
		e := math.Abs(at(n) - best)
		if n > 6 {
			if order := math.Log2(last / e); order < 1.6 || order > 2.6 {
				t.Errorf("%d cells: order %.2f, want 2", n, order)
			}
		}
		t.Logf("%d cells: off by %.2g points after a week", n, e)
		last = e
	}
	exact := loss(t, live(t, half, change{}, 22, 182, Options{Tolerance: 1e-10}), 182).Total
	for _, tol := range []float64{1e-3, 1e-4, 1e-5, 1e-6} {
		for _, method := range []string{"ESDIRK4", "TR-BDF2"} {
			l := live(t, half, change{}, 22, 182, Options{Tolerance: tol, Method: method})
			e := 100 * math.Abs(loss(t, l, 182).Total-exact)
			t.Logf("%s, tolerance %g: %d steps, off by %.2g points", method, tol, l.Steps, e)
			if e > 30*tol+1e-4 {
				t.Errorf("%s, tolerance %g: off by %g points", method, tol, e)
			}
		}
	}
}

// TestBalance: three years of a lane with jumps keep every mole.
func TestBalance(t *testing.T) {
	p, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	p.Zones[0].Inner = Coating{CO2: 1e-13, Oxygen: 5e-14, Nitrogen: 5e-14, Water: 1e-12}
	p.Zones[1].Scavenger = Scavenger{Capacity: 20}
	p.Cap.Scavenger = Scavenger{Capacity: 1e-5, Share: 0.9}
	p.Cap.Leak = 1e-24
	p.Uptake = Uptake{Rate: 0.3 / day, Acid: 1e-3, Stoichiometry: 2}
	c := steps(t, []float64{22, 38, 5, 30, 22}, []float64{30, 1, 60, 90, 1000})
	for _, method := range []string{"ESDIRK4", "TR-BDF2"} {
		l, err := p.Run(c, 0, Options{Method: method})
		if err != nil {
			t.Fatal(err)
		}
		for g, b := range l.Balance() {
			if !(math.Abs(b) < 1e-10) {
				t.Errorf("%s: %v: %g not accounted for", method, Gas(g), b)
			}
		}
		q, err := l.At(1181 * day)
		if err != nil {
			t.Fatal(err)
		}
		if !(q.Consumed > 0 && q.Scavenged > 0 && q.ScavengerLeft < 1) {
			t.Errorf("%+v: nothing bound", q)
		}
		acid := l.values[len(l.values)-3*l.width+atAcid]
		if want := 1e-3 - 2*q.Consumed/31.9988e-3; math.Abs(acid-want) > 1e-9 {
			t.Errorf("acid left %g, want %g", acid, want)
		}
	}
}

// steps is a lane of constant stretches [°C], [d].
func steps(t testing.TB, celsius, days []float64) climate.Course {
	t.Helper()
	var l climate.Lane
	at := 0.0
	for i := range celsius {
		l.Segments = append(l.Segments, climate.Segment{Name: "part", Start: at, Duration: days[i] * day, Temperature: unit.Celsius(celsius[i]), Humidity: 0.5})
		at += days[i] * day
	}
	c, err := l.Course()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestSplit(t *testing.T) {
	l := live(t, two, change{}, 22, 182, Options{})
	for _, from := range []Reference{Sealed, FillerSet, FirstDay} {
		x, err := l.Loss(182*day, from)
		if err != nil {
			t.Fatal(err)
		}
		if sum := x.Wall + x.Sorption + x.Closure + x.Growth + x.Headspace + x.Water; math.Abs(sum-x.Total) > 1e-9 {
			t.Errorf("from %s: parts add up to %g, total %g", from, sum, x.Total)
		}
		t.Logf("from %s: %.2f %%", from, 100*x.Total)
	}
	// What closing takes: about 6 % of the set-point.
	x, err := l.Loss(0, FillerSet)
	if err != nil || x.Total < 0.04 || x.Total > 0.075 {
		t.Errorf("closing takes %g (%v), want about 0.06", x.Total, err)
	}
	if x, err := l.Loss(day, FirstDay); err != nil || math.Abs(x.Total) > 1e-12 {
		t.Errorf("loss at the reading it is counted from: %g, %v", x.Total, err)
	}
	s, ok, err := l.TimeToLoss(0.15, Sealed)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	if x := loss(t, l, s/day); math.Abs(x.Total-0.15) > 1e-6 {
		t.Errorf("at the time of 15 %% the loss is %g", x.Total)
	}
	if _, ok, err := l.TimeToLoss(0.9, Sealed); ok || err != nil {
		t.Errorf("90 %% within half a year: %v, %v", ok, err)
	}
}

// TestSetPoint: filled by the set-point the loss against the sealed pack
// gives, the closed pack reads the carbonation it was sealed for.
func TestSetPoint(t *testing.T) {
	sealed, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	water := sealed.Contents.Liquid
	vol := sealed.Filler.Dissolved / water * drink.WaterDensity(unit.Celsius(20)) * unit.MolarVolumeCO2
	l, err := drink.Drink{Carbonation: drink.FromVolumes(vol), Basis: drink.Mass}.Liquid()
	if err != nil {
		t.Fatal(err)
	}
	at := unit.Celsius(22)
	p, err := Fill(l, drink.Pack{Fill: half.fill, Brimful: half.brimful, FillT: at, ReferenceT: at, Ambient: unit.Atm, Air: 0.3, Growth: sealed.Growth.Elastic, Stated: drink.Filler})
	if err != nil {
		t.Fatal(err)
	}
	p.Zones, p.Growth, p.Cap = sealed.Zones, sealed.Growth, sealed.Cap
	life, err := p.Run(steps(t, []float64{22}, []float64{2}), 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	q, err := life.At(0)
	if err != nil {
		t.Fatal(err)
	}
	// The liquid counted in the volume differs by what was set: 0.1 %.
	if v := drink.Volumes(q.Carbonation); math.Abs(v-4) > 0.01 {
		t.Errorf("reads %.4f vol, want 4", v)
	}
}

func TestLimits(t *testing.T) {
	glass, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	m, err := Named("glass")
	if err != nil {
		t.Fatal(err)
	}
	for i := range glass.Zones {
		glass.Zones[i].Material = m
	}
	glass.Growth = Growth{}
	c := steps(t, []float64{22}, []float64{182})
	l, err := glass.Run(c, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	x := loss(t, l, 182)
	if x.Wall != 0 || x.Sorption != 0 || x.Growth != 0 || !(x.Closure > 0.03) {
		t.Errorf("glass: %+v, want the closure alone", x)
	}
	// A thick wall and a tight closure leave what the wall takes up.
	thick, err := half.pack(change{noCap: true, rigid: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range thick.Zones {
		thick.Zones[i].Thickness = 20e-3
	}
	if l, err = thick.Run(c, 0, Options{Cells: 100}); err != nil {
		t.Fatal(err)
	}
	if x = loss(t, l, 182); math.Abs(x.Wall) > 1e-6 || x.Closure != 0 || !(x.Sorption > 0.01) {
		t.Errorf("thick wall: %+v, want sorption alone", x)
	}
}

// TestMonotonic: the loss rises with temperature, closure, factor and area and
// falls with thickness.
func TestMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, err := half.pack(change{})
		if err != nil {
			t.Fatal(err)
		}
		u := rapid.Float64Range(1.05, 2).Draw(t, "by")
		celsius := rapid.Float64Range(2, 35).Draw(t, "celsius")
		run := func(p Pack, c float64) float64 {
			lane, err := climate.Constant("", unit.Celsius(c), 0.5, 84*day).Course()
			if err != nil {
				t.Fatal(err)
			}
			l, err := p.Run(lane, 0, Options{Cells: 8, Tolerance: 1e-4})
			if err != nil {
				t.Fatal(err)
			}
			x, err := l.Loss(84*day, Sealed)
			if err != nil {
				t.Fatal(err)
			}
			return x.Total
		}
		zones := func(f func(*WallZone)) Pack {
			p := base
			p.Zones = append([]WallZone(nil), base.Zones...)
			for i := range p.Zones {
				f(&p.Zones[i])
			}
			return p
		}
		was := run(base, celsius)
		capped := base
		capped.Cap.CO2 *= u
		for _, c := range []struct {
			what   string
			rises  bool
			result float64
		}{
			{"temperature", true, run(base, celsius+5*u)},
			{"closure", true, run(capped, celsius)},
			{"area", true, run(zones(func(z *WallZone) { z.Area *= u }), celsius)},
			{"factor", true, run(zones(func(z *WallZone) { z.Material, _ = z.Material.Scaled(u) }), celsius)},
			{"thickness", false, run(zones(func(z *WallZone) { z.Thickness *= u }), celsius)},
			{"coating", false, run(zones(func(z *WallZone) { z.Inner = Coating{CO2: 1e-13, Oxygen: 1e-13, Nitrogen: 1e-13} }), celsius)},
		} {
			if (c.result > was) != c.rises {
				t.Fatalf("%s at %.3g °C times %.3g: loss %g, was %g", c.what, celsius, u, c.result, was)
			}
		}
	})
}

func BenchmarkYear(b *testing.B) {
	p, err := half.pack(change{})
	if err != nil {
		b.Fatal(err)
	}
	c := steps(b, []float64{22}, []float64{366})
	for b.Loop() {
		if _, err := p.Run(c, 365*day, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkYearSeasons(b *testing.B) {
	p, err := half.pack(change{})
	if err != nil {
		b.Fatal(err)
	}
	lane, err := climate.Named("warehouse")
	if err != nil {
		b.Fatal(err)
	}
	c, err := lane.Course()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := p.Run(c, 0, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
