package shell

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/num/sym"

	"pgregory.net/rapid"
)

// Any strain of a point: the stress stays inside the yield surface, plastic
// flow dissipates, creep grows with time.
func TestFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Ply{
			Es: rapid.Float64Range(1e9, 6e9).Draw(t, "Es"), Eh: rapid.Float64Range(1e9, 6e9).Draw(t, "Eh"), Nu: rapid.Float64Range(0, 0.45).Draw(t, "nu"),
			Ys: rapid.Float64Range(20e6, 150e6).Draw(t, "Ys"), Yh: rapid.Float64Range(20e6, 150e6).Draw(t, "Yh"),
		}
		e := [2]float64{rapid.Float64Range(-0.1, 0.1).Draw(t, "es"), rapid.Float64Range(-0.1, 0.1).Draw(t, "eh")}
		dt := rapid.SampledFrom([]float64{0, 10, 1e5}).Draw(t, "dt")
		f := flow{hard: DefaultLinear(), creep: DefaultFindley(), dt: dt, rate: 1, soft: 1}
		var old, now spot
		law := p.law()
		tau, tan, err := f.update(&law, e, &old, &now)
		if err != nil {
			t.Fatal(err)
		}
		P, Y := p.hill()
		r, _ := f.hard.Ratio(now.plastic)
		if q := equivalent(P, tau); q > Y*r*(1+1e-6) {
			t.Fatalf("σ̄ %g above %g", q, Y*r)
		}
		if now.plastic < 0 || now.creep < 0 || tau[0]*now.in[0]+tau[1]*now.in[1] < -1e-9 {
			t.Fatalf("work of flow: %+v %v", now, tau)
		}
		if tan.s < 0 || tan.h < 0 || tan.s*tan.h-tan.c*tan.c < -1e-6*tan.s*tan.h {
			t.Fatalf("tangent %+v", tan)
		}
		C := p.compliance()
		el := C.mul(tau)
		for i := range 2 {
			if d := e[i] - el[i] - now.in[i]; math.Abs(d) > 1e-9 {
				t.Fatalf("strain %d does not add up: %g", i, d)
			}
		}
	})
}

// Creep under constant stress follows its law whatever the steps, and a chain
// recovers.
func TestCreepLaws(t *testing.T) {
	for _, l := range []Creep{DefaultFindley(), BaileyNorton{A: 1e-26, Q: 2.5, R: 0.4}, BaileyNorton{A: 1e-30, Q: 3}} {
		one, _ := l.Advance(40e6, 0, 1e5, 1.3)
		x := 0.0
		for _, dt := range []float64{1, 99, 900, 9e3, 9e4} {
			x, _ = l.Advance(40e6, x, dt, 1.3)
		}
		if math.Abs(x/one-1) > 1e-9 || one <= 0 {
			t.Errorf("%s: %g in steps, %g at once", l.Name(), x, one)
		}
		const d = 1.0
		a, s := l.Advance(40e6, 1e-4, 100, 1)
		b, _ := l.Advance(40e6+d, 1e-4, 100, 1)
		if math.Abs((b-a)/d/s-1) > 1e-4 {
			t.Errorf("%s: slope %g, by differences %g", l.Name(), s, (b-a)/d)
		}
	}
	for _, bad := range []Creep{Findley{M: 1, N: 2, Stress: 1, Power: 1}, BaileyNorton{A: -1, Q: 1}, KelvinChain{{1, 0}}, make(KelvinChain, 5)} {
		if bad.check() == nil {
			t.Errorf("%#v is accepted", bad)
		}
	}
	for _, h := range Hardenings() {
		if err := h.check(); err != nil || h.Name() == "" {
			t.Errorf("%s: %v", h.Name(), err)
		}
	}
	names := map[string]bool{}
	for _, c := range Creeps() {
		if names[c.Name()] || c.check() != nil {
			t.Errorf("catalogue: %s", c.Name())
		}
		names[c.Name()] = true
	}
	m := must(NewModel(must(tube(refR, 0.01, refWall, 4, refPly)), Case{Creep: KelvinChain{{0.5, 100}}, Supports: []Support{{0, held, 0}, {4, HoldTurn, 0}}}))
	for _, s := range []step{{pressure: 1e4}, {pressure: 1e4, dt: 1e4}, {}, {dt: 1e7}} {
		if err := m.solve(s); err != nil {
			t.Fatal(err)
		}
		u := m.u[0]
		switch {
		case s.pressure > 0 && !(u > 0), s.dt == 0 && s.pressure == 0 && !(u > 0), s.dt > 0 && s.pressure == 0 && math.Abs(u) > 1e-10:
			t.Errorf("%+v: radial %g", s, u)
		}
	}
}

// An orthotropic closed tube grows as its two moduli say.
func TestOrthotropicTube(t *testing.T) {
	p := Ply{Es: 2.8e9, Eh: 4.3e9, Nu: 0.38}
	m := must(NewModel(must(tube(refR, 0.01, refWall, 4, p)), Case{Face: Mid, Supports: []Support{{0, held, 0}, {4, HoldTurn, 0}}}))
	l := must(m.Linear(Load{Pressure: 1e4}))
	sh := 1e4 * refR / refWall
	want := sh/p.Eh - p.Nu*sh/2/math.Sqrt(p.Es*p.Eh)
	if got := l.U[0] / refR; math.Abs(got/want-1) > 1e-9 {
		t.Errorf("growth %g want %g", got, want)
	}
	g := Graded(Ply{Es: 1, Eh: 3, Nu: 0.2}, Ply{Es: 3, Eh: 1, Nu: 0.4})
	if g[2] != (Ply{Es: 2, Eh: 2, Nu: 0.30000000000000004}) && math.Abs(g[2].Nu-0.3) > 1e-12 {
		t.Errorf("%+v", g[2])
	}
}

// Buckling with orthotropic walls alike in both directions is the isotropic one.
func TestInertiaProvesTheLowest(t *testing.T) {
	m, _, err := referenceBottle(2e-3, false, refPly)
	if err != nil {
		t.Fatal(err)
	}
	mo := must(NewModel(m, Case{Supports: []Support{{Node: 0, Axial: HoldR | HoldZ}, {Node: len(m.R) - 1, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
	a := must(mo.Buckling(Eigen{Varying: Load{Force: 1}, Hint: 1}))
	b := must(mo.Buckling(Eigen{Varying: Load{Force: 1}, Hint: 5e4}))
	for i := range a {
		if math.Abs(a[i].Load/b[i].Load-1) > 1e-6 {
			t.Errorf("harmonic %d: %g and %g from another start", a[i].Harmonic, a[i].Load, b[i].Load)
		}
		top := 0.0
		for k := range a[i].Mode.Radial {
			top = math.Max(top, math.Max(math.Abs(a[i].Mode.Radial[k]), math.Max(math.Abs(a[i].Mode.Axial[k]), math.Abs(a[i].Mode.Round[k]))))
		}
		if math.Abs(top-1) > 1e-12 || a[i].Place != m.Z[a[i].Node] {
			t.Errorf("harmonic %d: mode of %g at %g", a[i].Harmonic, top, a[i].Place)
		}
	}
	tb := must(NewModel(must(tube(refR, refL, refWall, 50, refPly)), Case{Supports: []Support{{Node: 0, Axial: HoldZ}}}))
	if c, err := tb.Buckling(Eigen{Varying: Load{Force: -1}, Waves: []int{5}}); !errors.Is(err, sym.ErrNoLoad) {
		t.Errorf("a tube pulled buckles: %+v %v", c, err)
	}
	if _, err := mo.Buckling(Eigen{Varying: Load{Force: 1}, Waves: []int{-1}}); err == nil {
		t.Error("harmonic -1 is accepted")
	}
}

func TestBadInput(t *testing.T) {
	good := func() []Station { return demo(0.28e-3).Stations }
	for _, c := range []struct {
		what  string
		spoil func([]Station) []Station
		want  string
	}{
		{"one station", func(s []Station) []Station { return s[:1] }, "1 stations"},
		{"zero wall", func(s []Station) []Station { s[50].Wall = 0; return s }, "station 51 (z "},
		{"negative wall", func(s []Station) []Station { s[50].Wall = -1e-3; return s }, "must be above 0"},
		{"gap", func(s []Station) []Station { s[60].Wall = math.NaN(); return s }, "gap"},
		{"no number", func(s []Station) []Station { s[60].Z = math.Inf(1); return s }, "no number"},
		{"millimetres", func(s []Station) []Station { s[60].R = 32.5; return s }, "units metres"},
		{"beyond the axis", func(s []Station) []Station { s[60].R = -0.01; return s }, "crosses the axis"},
		{"twice", func(s []Station) []Station { s[61].Z, s[61].R = s[60].Z, s[60].R; return s }, "stands on the station before"},
		{"modulus", func(s []Station) []Station { s[60].Ply[2].Eh = 0; return s }, "modulus round 0"},
		{"Poisson", func(s []Station) []Station { s[60].Ply[2].Nu = 0.5; return s }, "Poisson"},
		{"one yield", func(s []Station) []Station { s[60].Ply[2].Ys = 0; return s }, "one direction only"},
		{"crosses itself", func(s []Station) []Station {
			for i := range 10 {
				s[70+i].R, s[70+i].Z = 32.5e-3-8e-3*float64(i%2)-1e-4*float64(i), s[69].Z-3e-3*float64(i+1)
			}
			return s
		}, "cross"},
	} {
		_, err := Grow(GrowInput{Bottle: Bottle{Stations: c.spoil(good())}, Stages: []Stage{{Pressure: 1e4}}})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.what, err)
		}
	}
	if _, err := Grow(GrowInput{Bottle: demo(0.28e-3)}); err == nil {
		t.Error("no stage is accepted")
	}
	b := demo(0.28e-3)
	b.Stand = 0.08
	if _, err := Grow(GrowInput{Bottle: b, Stages: []Stage{{Pressure: 1e4}}}); !errors.Is(err, ErrUnsupported) {
		t.Errorf("a ring in the air: %v", err)
	}
	m := must(tube(refR, 0.1, refWall, 10, refPly))
	if _, err := NewModel(m, Case{Supports: []Support{{Node: 0, Axial: HoldR}}}); !errors.Is(err, ErrUnsupported) {
		t.Errorf("no axial support: %v", err)
	}
	if _, err := NewModel(m, Case{Supports: []Support{{Node: 11, Axial: HoldZ}}}); err == nil {
		t.Error("a support beside the mesh is accepted")
	}
	if err := must(NewModel(m, Case{Supports: []Support{{Node: 0, Axial: HoldZ}}})).Nonlinear(Load{Pressure: math.NaN()}, 1); err == nil {
		t.Error("a pressure that is no number is accepted")
	}
	// Beyond the limit: the state is that of the last good load.
	mo := must(NewModel(m, Case{Supports: []Support{{Node: 0, Axial: HoldZ}}}))
	err := mo.Nonlinear(Load{Pressure: 5e8}, 4)
	if !errors.Is(err, ErrNoConvergence) || !strings.Contains(err.Error(), "last good load") || mo.Pressure() <= 0 || mo.Pressure() >= 5e8 {
		t.Errorf("beyond the limit: %v at %g Pa", err, mo.Pressure())
	}
}

// A profile that runs downwards is refused by every test.
func TestProfileUpsideDownIsRefused(t *testing.T) {
	b := demo(0.28e-3)
	slices.Reverse(b.Stations)
	for name, test := range map[string]func() error{
		"burst":    func() error { _, err := Burst(BurstInput{Bottle: b}); return err },
		"top load": func() error { _, err := TopLoad(TopLoadInput{Bottle: b, Fill: EmptyVented}); return err },
		"vacuum":   func() error { _, err := Vacuum(VacuumInput{Bottle: b, Capped: true}); return err },
		"growth":   func() error { _, err := Grow(GrowInput{Bottle: b, Stages: []Stage{{Pressure: 1e5}}}); return err },
	} {
		if err := test(); !errors.Is(err, ErrUnsupported) || !strings.Contains(err.Error(), "from gate to finish") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestWallAt(t *testing.T) {
	z, r := []float64{0, 0.1, 0.2}, []float64{0.03, 0.03, 0.03}
	st, err := WallAt(z, r, []float64{0, 0.05, 0.2}, []float64{1e-3, 2e-3, 5e-4}, Even(refPly))
	if err != nil || math.Abs(st[1].Wall-1.5e-3) > 1e-12 || st[2].Wall != 5e-4 {
		t.Errorf("%+v %v", st, err)
	}
	for _, s := range [][]float64{{0, 0.05, 0.19}, {0.01, 0.05, 0.2}, {0, 0, 0.2}, {0, 0.1}} {
		if _, err := WallAt(z, r, s, []float64{1, 1, 1}, Even(refPly)); err == nil {
			t.Errorf("table at %v is accepted", s)
		}
	}
}

// The mesh keeps to its rule and to the profile.
func TestMesh(t *testing.T) {
	st := demo(0.28e-3).Stations
	m := must(Build(st, Sizing{}))
	fine := must(Build(st, Sizing{Factor: 0.175}))
	if n := float64(fine.Elements()) / float64(m.Elements()); n < 1.8 || n > 2.2 {
		t.Errorf("half the size gives %v times as many", n)
	}
	for i := range m.el {
		e := &m.el[i]
		if e.l > 0.36*math.Sqrt(math.Max(e.r, 0.3*0.0325)*e.t)*1.15 {
			t.Errorf("element %d at z %.1f mm: %.3f mm long", i, m.Z[i]*1e3, e.l*1e3)
		}
	}
	// On the cylinder the middle lies half a wall inside.
	for i := range m.R {
		if m.Z[i] > 0.04 && m.Z[i] < 0.1 && math.Abs(m.R[i]-(32.5e-3-0.14e-3)) > 1e-6 {
			t.Errorf("node %d: r %.6f", i, m.R[i])
		}
	}
	if _, err := Build(st, Sizing{Most: 20}); err == nil || !strings.Contains(err.Error(), "more than 20") {
		t.Errorf("%v", err)
	}
}
