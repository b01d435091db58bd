package bottle

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/num/curve"
	"costrel/num/numtest"
)

// Filling a cylinder: every level has a formula.
func TestLevelsOfCylinder(t *testing.T) {
	const r, h, w = 0.04, 0.2, 0.001
	b := numtest.Must(cylinder(r, h, w))
	in := numtest.Must(b.Nominal())
	a := math.Pi * (r - w) * (r - w)
	l := numtest.Must(in.LevelOf(0.0005))
	numtest.Near(t, "level", l.Z, 0.0005/a+w, 1e-12)
	numtest.Near(t, "free surface", l.FreeArea, a, 1e-12)
	numtest.Near(t, "headspace", l.Headspace, in.Brimful()-0.0005, 1e-12)
	// into the bore
	l = numtest.Must(in.LevelBelowBrim(0.01))
	numtest.Near(t, "level in the bore", l.Z, h+0.01, 1e-12)
	numtest.Near(t, "bore surface", l.FreeArea, math.Pi*r*r/4, 1e-12)
	numtest.Near(t, "headspace in the bore", l.Headspace, math.Pi*r*r/4*0.01, 1e-9)
	numtest.Near(t, "by headspace", numtest.Must(in.LevelOfHeadspace(l.Headspace)).Z, l.Z, 1e-9)
	for _, v := range []float64{-1, 1, math.NaN()} {
		if _, err := in.LevelOf(v); err == nil || !strings.Contains(err.Error(), "brimful") {
			t.Errorf("fill %v: %v", v, err)
		}
		if _, err := in.LevelOfHeadspace(v); err == nil {
			t.Errorf("headspace %v: no error", v)
		}
	}
	if _, err := in.LevelAt(0.5); err == nil {
		t.Error("level over the brim: no error")
	}
	numtest.Near(t, "empty", numtest.Must(in.LevelOf(0)).Z, w, 1e-9)
	numtest.Near(t, "full", numtest.Must(in.LevelOf(in.Brimful())).Z, b.Height(), 1e-12)
}

func TestLevelInverse(t *testing.T) {
	bottles := []*Bottle{numtest.Must(lime()), numtest.Must(punted(0.04, 0.2, 0.02, 0.0005)), numtest.Must(domed(0.04, 0.2, 0.0005))}
	rapid.Check(t, func(rt *rapid.T) {
		in := numtest.Must(rapid.SampledFrom(bottles).Draw(rt, "bottle").Nominal())
		v := in.Brimful() * rapid.Float64Range(0, 1).Draw(rt, "share")
		l, err := in.LevelOf(v)
		if err != nil {
			rt.Fatal(err)
		}
		if math.Abs(l.Volume-v) > 1e-11*in.Brimful() || math.Abs(l.Volume+l.Headspace-in.Brimful()) > 1e-15 {
			rt.Fatalf("volume %g asked, %g at the level", v, l.Volume)
		}
	})
}

// Sections add up to the whole wall and the finish, for any planes.
func TestSections(t *testing.T) {
	b := numtest.Must(lime())
	w := curve.Wall{S: []float64{0, 0.03, 0.1, 0.2, 0.331}, T: []float64{0.0018, 0.0004, 0.0003, 0.00028, 0.0012}}
	whole := numtest.Must(b.Outline().Shell(w, 0, b.ArcLength())).Volume * 1360
	for _, planes := range [][]float64{{0.06, 0.19}, {0.1}, {0.03, 0.06, 0.12, 0.25}} {
		sum, area := 0.0, 0.0
		for _, s := range numtest.Must(b.Sections(w, 1360, 0.00374, planes)) {
			sum += s.Mass
			area += s.Area
		}
		numtest.Near(t, "sum of sections", sum, whole+0.00374, 1e-12)
		numtest.Near(t, "sum of areas", area, b.OuterArea(), 1e-12)
	}
	// panel of the hand calculation: 15.5 g of 1.36 g/cm³ on 405.9 cm² is 0.281 mm
	s := numtest.Must(b.Sections(curve.Uniform(0.281e-3), 1360, 0.00374, []float64{0.06, 0.19}))
	numtest.Near(t, "panel", s[1].Mass, 0.0155, 0.004)
	if s[0].Name != "base" || s[1].Name != "panel" || s[2].Name != "shoulder" {
		t.Errorf("names %v", s)
	}
	for _, planes := range [][]float64{nil, {0.19, 0.06}, {0.4}, {0}} {
		if _, err := b.Sections(w, 1360, 0, planes); err == nil {
			t.Errorf("planes %v: no error", planes)
		}
	}
	if _, err := b.Sections(w, -1, 0, []float64{0.1}); err == nil {
		t.Error("negative density: no error")
	}
}

func TestCutPlanes(t *testing.T) {
	b := numtest.Must(lime())
	if p, warn := b.CutPlanes(); len(p) != 2 || p[1] != 0.19 || warn != "" {
		t.Errorf("given planes: %v %q", p, warn)
	}
	spec := b.Spec()
	spec.Planes = nil
	p, warn := numtest.Must(New(spec)).CutPlanes()
	if len(p) != 2 || p[0] < 0.03 || p[0] > 0.06 || p[1] < 0.185 || p[1] > 0.205 || !strings.Contains(warn, "assumed") {
		t.Errorf("assumed planes: %v %q", p, warn)
	}
}

func TestBalance(t *testing.T) {
	b := numtest.Must(lime())
	load := Load{
		Wall: curve.Uniform(0.281e-3), Density: 1360, FinishMass: 0.00374,
		Closure: 0.0024, Fill: 0.00175, Liquid: 1035,
	}
	q := numtest.Must(b.Balance(load))
	numtest.Near(t, "filled mass", q.FilledMass, 0.00175*1035+q.EmptyMass+0.0024, 1e-12)
	if q.EmptyZ < 0.12 || q.EmptyZ > 0.18 || q.FilledZ < 0.11 || q.FilledZ > 0.14 {
		t.Errorf("centres of gravity %g empty, %g filled", q.EmptyZ, q.FilledZ)
	}
	// five feet on 0.70 of the radius: the edge is cos 36° nearer
	numtest.Near(t, "tip radius", q.TipRadius, 0.7*0.0505*math.Cos(math.Pi/5), 1e-12)
	numtest.Near(t, "tip angle", math.Tan(q.FilledTip), q.TipRadius/q.FilledZ, 1e-12)
	load.Fill = 0.01
	if _, err := b.Balance(load); err == nil {
		t.Error("overfilled: no error")
	}
	load.Fill, load.Liquid = 0.001, math.NaN()
	if _, err := b.Balance(load); err == nil {
		t.Error("no density: no error")
	}
}

// The area ratio of a flat base with feet is exact; compare the ring with a
// mesh of triangles of the real surface.
func TestAreaRatioAgainstMesh(t *testing.T) {
	spec := Spec{
		Rows: []curve.Row{{Z: 0, R: 0.04}, {Z: 0.2, R: 0.04}}, BoreDiameter: 0.02, BoreHeight: 0.02, Wall: 3e-4,
		Base: Base{Kind: Petaloid, StandingRadius: 0.025, Height: 1e-9, Count: 5, Depth: 0.012, Width: 0.004},
	}
	b := numtest.Must(New(spec))
	f := b.base
	height := func(s, a float64) float64 {
		sector := 2 * math.Pi / float64(f.count)
		g, _ := f.bump(s)
		a = math.Abs(math.Mod(a+sector/2, sector) - sector/2)
		h := 0.0
		if a < f.theta/2 {
			h = math.Pow(math.Cos(math.Pi*a/f.theta), 2)
		}
		return f.depth * g * (f.theta/sector/2 - h)
	}
	const ns, na = 400, 2000
	var mesh, ours, flat float64
	at := func(i, k int) [3]float64 {
		s, a := f.sEnd*float64(i)/ns, 2*math.Pi*float64(k)/na
		return [3]float64{s * math.Cos(a), s * math.Sin(a), height(s, a)}
	}
	tri := func(p, q, r [3]float64) float64 {
		u := [3]float64{q[0] - p[0], q[1] - p[1], q[2] - p[2]}
		v := [3]float64{r[0] - p[0], r[1] - p[1], r[2] - p[2]}
		return 0.5 * math.Sqrt(math.Pow(u[1]*v[2]-u[2]*v[1], 2)+math.Pow(u[2]*v[0]-u[0]*v[2], 2)+math.Pow(u[0]*v[1]-u[1]*v[0], 2))
	}
	for i := range ns {
		s := f.sEnd * (float64(i) + 0.5) / ns
		ours += f.ratio(s, s) * s
		flat += s
		for k := range na / 5 {
			mesh += 5 * (tri(at(i, k), at(i+1, k), at(i, k+1)) + tri(at(i+1, k+1), at(i+1, k), at(i, k+1)))
		}
	}
	numtest.Near(t, "ratio", ours/flat, mesh/(math.Pi*f.sEnd*f.sEnd), 1e-3)
	if ours/flat < 1.05 {
		t.Errorf("ratio %g: the test base is too flat to tell", ours/flat)
	}
	if got := b.AreaRatio(0.1); got != 1 {
		t.Errorf("ratio on the wall %g, want 1", got)
	}
	if got := b.AreaRatio(0); got != 1 {
		t.Errorf("ratio at the gate %g, want 1", got)
	}
}

func TestWarnings(t *testing.T) {
	w := strings.Join(numtest.Must(lime()).Warnings(), "\n")
	for _, want := range []string{"averaged round the axis", "standing radius assumed", "foot depth assumed", "times the averaged one"} {
		if !strings.Contains(w, want) {
			t.Errorf("warnings lack %q:\n%s", want, w)
		}
	}
	if w := numtest.Must(cylinder(0.04, 0.2, 0.001)).Warnings(); len(w) != 0 {
		t.Errorf("a round bottle warns: %v", w)
	}
	if w := numtest.Must(domed(0.04, 0.2, 0.001)).Warnings(); len(w) == 0 || !strings.Contains(w[0], "base cup") {
		t.Errorf("hemisphere: %v", w)
	}
	r := numtest.Must(New(Spec{
		Rows: []curve.Row{{Z: 0, R: 0.03}, {Z: 0.2, R: 0.03}}, BoreDiameter: 0.02, BoreHeight: 0.02, Wall: 3e-4,
		Base: Base{Kind: Ribbed, PushUp: 0.006},
	}))
	if got := r.BaseAreaRatio(); got < 1.01 || got > 1.5 {
		t.Errorf("ribbed ratio %g", got)
	}
}

func TestFaults(t *testing.T) {
	good := func() Spec {
		return Spec{Rows: []curve.Row{{Z: 0, R: 0.03}, {Z: 0.2, R: 0.03}}, BoreDiameter: 0.02, BoreHeight: 0.02, Wall: 3e-4}
	}
	for _, c := range []struct {
		name string
		edit func(*Spec)
		want string
	}{
		{"bore", func(s *Spec) { s.BoreDiameter = 0 }, "bore diameter"},
		{"wide bore", func(s *Spec) { s.BoreDiameter = 0.07 }, "less than that of the bore"},
		{"wall", func(s *Spec) { s.Wall = -1 }, "nominal wall"},
		{"thick wall", func(s *Spec) { s.Wall = 0.031 }, "row 1"},
		{"floating", func(s *Spec) { s.Rows[0].Z = 0.01 }, "standing plane is z = 0"},
		{"falling", func(s *Spec) { s.Rows = append(s.Rows, curve.Row{Z: 0.1, R: 0.02}, curve.Row{Z: 0.3, R: 0.02}) }, "row 3"},
		{"level end", func(s *Spec) { s.Rows = append(s.Rows, curve.Row{Z: 0.2001, R: 0.015}) }, "nearly level"},
		{"kind", func(s *Spec) { s.Base.Kind = "star" }, `"star"`},
		{"flat push-up", func(s *Spec) { s.Base.PushUp = 0.01 }, "choose punt"},
		{"deep push-up", func(s *Spec) { s.Base = Base{Kind: Punt, PushUp: 0.05} }, "make it less"},
		{"double push-up", func(s *Spec) {
			s.Rows = append([]curve.Row{{Z: 0.01, R: 0}}, s.Rows...)
			s.Base = Base{Kind: Punt, PushUp: 0.01}
		}, "draws the push-up itself"},
		{"cap", func(s *Spec) { s.Base.Kind = Hemisphere }, "top of the cap"},
		{"two feet", func(s *Spec) { s.Base = Base{Kind: Petaloid, Count: 2} }, "3 or more"},
		{"planes", func(s *Spec) { s.Planes = []float64{0.3} }, "cut plane 1"},
		{"row", func(s *Spec) { s.Rows[1].R = -0.03 }, "row 2"},
		{"rows", func(s *Spec) { s.Rows = s.Rows[:1] }, "at least 2"},
		{"base number", func(s *Spec) { s.Base.Depth = math.NaN() }, "positive length"},
	} {
		s := good()
		c.edit(&s)
		_, err := New(s)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
}

func TestStations(t *testing.T) {
	b := numtest.Must(lime())
	q := numtest.Must(b.Stations(400))
	n := len(q.S)
	numtest.Near(t, "last z", q.Z[n-1], 0.288, 1e-12)
	numtest.Near(t, "area", q.Area[n-1], b.OuterArea(), 1e-12)
	for i := range q.S {
		for _, v := range []float64{q.Z[i], q.R[i], q.TZ[i], q.TR[i], q.NZ[i], q.NR[i], q.K1[i], q.K2[i], q.Area[i], q.AreaRatio[i]} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("station %d is not finite", i)
			}
		}
		numtest.Near(t, "unit normal", q.NZ[i]*q.NZ[i]+q.NR[i]*q.NR[i], 1, 1e-12)
	}
	if _, err := b.Stations(1); err == nil {
		t.Error("one station: no error")
	}
	numtest.Near(t, "diameter of the panel", numtest.Must(b.DiameterAt(0.12)), 0.099, 1e-12)
	if _, err := b.DiameterAt(0.3); err == nil {
		t.Error("diameter above the ledge: no error")
	}
}
