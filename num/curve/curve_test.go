package curve

import (
	"math"
	"strings"
	"testing"

	"costrel/num/numtest"

	"pgregory.net/rapid"
)

func build(t *testing.T, rows []Row, k Spline) *Meridian {
	t.Helper()
	m, err := New(rows, k)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// sphere is a closed sphere of radius r about z = r, of two quarter arcs.
func sphere(r float64) []Row {
	return []Row{{Z: 0, R: 0}, {Z: r, R: r, Via: Arc, Radius: r}, {Z: 2 * r, R: 0, Via: Arc, Radius: r}}
}

func TestGaussRule(t *testing.T) {
	for n := 0; n <= 15; n++ {
		sum := 0.0
		for k, x := range gaussX {
			sum += gaussW[k] * math.Pow(x, float64(n))
		}
		numtest.Near(t, "∫x^n", sum, 1/float64(n+1), 4e-15)
	}
}

// Solids of which every textbook has the formulas.
func TestAnalyticSolids(t *testing.T) {
	pi := math.Pi
	r, h := 0.0495, 0.2
	for _, c := range []struct {
		name                       string
		rows                       []Row
		length, area, volume, zvol float64
	}{
		{"cylinder", []Row{{Z: 0, R: r}, {Z: h, R: r}}, h, 2 * pi * r * h, pi * r * r * h, h / 2},
		{"cone", []Row{{Z: 0, R: 0}, {Z: h, R: r}}, math.Hypot(h, r), pi * r * math.Hypot(h, r), pi * r * r * h / 3, 3 * h / 4},
		{"sphere", sphere(r), pi * r, 4 * pi * r * r, 4 * pi * r * r * r / 3, r},
		{"hemisphere", sphere(r)[:2], pi * r / 2, 2 * pi * r * r, 2 * pi * r * r * r / 3, 5 * r / 8},
		// half a torus tube standing out of a cylinder of radius R: Pappus, centroid
		// of the half disc 4a/3π out, of its arc 2a/π
		{
			"half torus",
			[]Row{{Z: 0, R: r}, {Z: 0.02, R: r, Via: Arc, Radius: 0.01}},
			pi * 0.01,
			2 * pi * (r + 0.02/pi) * pi * 0.01,
			pi*r*r*0.02 + 2*pi*(r+0.04/(3*pi))*pi*0.0001/2, 0.01,
		},
		// the same as a groove
		{
			"groove",
			[]Row{{Z: 0, R: r}, {Z: 0.02, R: r, Via: Arc, Radius: -0.01}},
			pi * 0.01,
			2 * pi * (r - 0.02/pi) * pi * 0.01,
			pi*r*r*0.02 - 2*pi*(r-0.04/(3*pi))*pi*0.0001/2, 0.01,
		},
	} {
		m := build(t, c.rows, Natural).Moments()
		numtest.Near(t, c.name+" length", m.Length, c.length, 1e-14)
		numtest.Near(t, c.name+" area", m.Area(), c.area, 1e-14)
		numtest.Near(t, c.name+" volume", m.Volume(), c.volume, 1e-14)
		numtest.Near(t, c.name+" centroid", m.VolumeCentroid(), c.zvol, 1e-13)
	}
}

// A spline through points of a circle converges to the sphere with the fourth
// order of the cubic when the ends have the right tangent, here given by
// short arcs of the same circle.
func TestSplineConverges(t *testing.T) {
	r := 0.05
	vol := func(n int, kind Spline) float64 {
		rows := []Row{{Z: 0, R: 0}}
		for i := 1; i < n+2; i++ {
			a := math.Pi * float64(i) / float64(n+2)
			w := Row{Z: r - r*math.Cos(a), R: r * math.Sin(a), Via: Curve}
			if i == 1 {
				w.Via, w.Radius = Arc, r
			}
			rows = append(rows, w)
		}
		rows = append(rows, Row{Z: 2 * r, R: 0, Via: Arc, Radius: r})
		return build(t, rows, kind).Moments().Volume()
	}
	exact := 4 * math.Pi * r * r * r / 3
	for _, c := range []struct {
		kind  Spline
		order float64
	}{{Tangent, 3.7}, {Natural, 1.8}, {Monotone, 1.8}} {
		e1, e2 := math.Abs(vol(8, c.kind)-exact), math.Abs(vol(18, c.kind)-exact)
		if got := math.Log2(e1/e2) / math.Log2(20.0/10.0); got < c.order {
			t.Errorf("%s: order %.2f, want at least %.1f (errors %.3g, %.3g)", c.kind, got, c.order, e1/exact, e2/exact)
		}
	}
}

func TestSplineKinds(t *testing.T) {
	rows := []Row{
		{Z: 0, R: 0.03},
		{Z: 0.05, R: 0.03},
		{Z: 0.08, R: 0.028, Via: Curve},
		{Z: 0.12, R: 0.014, Via: Curve},
		{Z: 0.15, R: 0.013, Via: Curve},
		{Z: 0.17, R: 0.013},
	}
	tang := build(t, rows, Tangent)
	s := tang.CutZ(0.05)[0]
	if f := tang.At(s + 1e-9); math.Abs(f.TR) > 1e-5 {
		t.Errorf("tangent spline leaves the line at slope %g, want 0", f.TR)
	}
	mono := build(t, rows, Monotone)
	pts, err := mono.Sample(1e-3)
	if err != nil {
		t.Fatal(err)
	}
	for i := 1; i < len(pts); i++ {
		if pts[i].R > pts[i-1].R+1e-15 || pts[i].Z < pts[i-1].Z {
			t.Fatalf("monotone spline swings at z %g", pts[i].Z)
		}
	}
	nat := build(t, rows, Natural)
	// twice differentiable inside the run
	a := nat.CutZ(0.08)[0]
	numtest.Near(t, "curvature across a knot", nat.At(a-1e-7).K1, nat.At(a+1e-7).K1, 1e-3)
	// a run of one is a line, whichever the spline
	one := build(t, []Row{{Z: 0, R: 0.02}, {Z: 0.1, R: 0.03, Via: Curve}}, Natural)
	numtest.Near(t, "curve of two points", one.Length(), math.Hypot(0.1, 0.01), 1e-14)
}

func TestFrames(t *testing.T) {
	r := 0.04
	m := build(t, sphere(r), Natural)
	for _, a := range []float64{0, 0.3, math.Pi / 2, 2.5, math.Pi} {
		f := m.At(r * a)
		numtest.Near(t, "z", f.Z+1, r-r*math.Cos(a)+1, 1e-12)
		numtest.Near(t, "normal z", f.NZ+2, -math.Cos(a)+2, 1e-9)
		numtest.Near(t, "normal r", f.NR+2, math.Sin(a)+2, 1e-9)
		numtest.Near(t, "k1", f.K1, 1/r, 1e-9)
		numtest.Near(t, "k2", f.K2, 1/r, 1e-6)
	}
	// torus part: k2 = cos/r
	g := build(t, []Row{{Z: 0, R: 0.05}, {Z: 0.02, R: 0.05, Via: Arc, Radius: -0.01}}, Natural)
	f := g.At(g.Length() / 2)
	numtest.Near(t, "groove r", f.R, 0.04, 1e-12)
	numtest.Near(t, "groove k1", f.K1, -100, 1e-12)
	numtest.Near(t, "groove k2", f.K2, 25, 1e-12)
}

func TestArcLengthInverse(t *testing.T) {
	rows := []Row{{Z: 0, R: 0.03}, {Z: 0.03, R: 0.05, Via: Curve}, {Z: 0.1, R: 0.02, Via: Curve}, {Z: 0.15, R: 0.013, Via: Curve}}
	m := build(t, rows, Natural)
	for k := range 40 {
		s := m.Length() * float64(k) / 39
		numtest.Near(t, "length to s", 1+m.To(s).Length, 1+s, 1e-12)
	}
	st, err := m.Stations(50)
	if err != nil {
		t.Fatal(err)
	}
	if len(st) != 50 || st[49] != m.Length() {
		t.Fatalf("%d stations, last %g of %g", len(st), st[49], m.Length())
	}
	for i := 1; i < len(st); i++ {
		if st[i] <= st[i-1] {
			t.Fatal("stations do not rise")
		}
	}
}

func TestBelow(t *testing.T) {
	r := 0.05
	m := build(t, sphere(r), Natural)
	for _, h := range []float64{0.01, 0.05, 0.083, 0.1} {
		v, a := m.Below(h)
		numtest.Near(t, "cap volume", v, math.Pi*h*h*(3*r-h)/3, 1e-12)
		if h < 0.1 {
			numtest.Near(t, "cap area", a, math.Pi*h*(2*r-h), 1e-9)
		}
	}
	// a punt: the cone at the foot takes its volume away, and is cut twice
	p := build(t, []Row{{Z: 0.03, R: 0}, {Z: 0, R: 0.03}, {Z: 0.1, R: 0.03}}, Natural)
	v, a := p.Below(0.01)
	full := math.Pi * 0.03 * 0.03
	numtest.Near(t, "punt volume", v, full*0.01-math.Pi*(0.03*0.03*0.03-0.02*0.02*0.02)/3, 1e-12)
	numtest.Near(t, "punt area", a, full-math.Pi*0.02*0.02, 1e-12)
	if v, a := p.Below(-1); v != 0 || a != 0 {
		t.Errorf("below the foot: %g, %g", v, a)
	}
	if got := p.CutZ(0.05); len(got) != 1 {
		t.Errorf("CutZ: %v", got)
	} else {
		numtest.Near(t, "cut", got[0], math.Hypot(0.03, 0.03)+0.05, 1e-12)
	}
}

// The inner face of solids whose shells have formulas.
func TestInnerAnalytic(t *testing.T) {
	pi := math.Pi
	r, w := 0.05, 0.002
	box := []Row{{Z: 0, R: 0}, {Z: 0, R: r}, {Z: 0.2, R: r}, {Z: 0.2, R: 0}}
	taper := []Row{{Z: 0, R: r}, {Z: 0.1, R: 0.03}}
	slope := math.Hypot(0.1, 0.02) / 0.1
	for _, c := range []struct {
		name   string
		rows   []Row
		volume float64 // of the inner space
		tol    float64
	}{
		{"sphere", sphere(r), 4 * pi * math.Pow(r-w, 3) / 3, 1e-9},
		{"closed cylinder", box, pi * (r - w) * (r - w) * (0.2 - 2*w), 1e-13},
		// an open cone stays in its end planes: the radius shrinks by w/cos
		{"cone frustum", taper, pi * 0.1 / 3 * (math.Pow(r-w*slope, 2) + (r-w*slope)*(0.03-w*slope) + math.Pow(0.03-w*slope, 2)), 1e-12},
	} {
		m := build(t, c.rows, Natural)
		in, err := m.Inner(Uniform(w))
		if err != nil {
			t.Fatal(c.name, err)
		}
		numtest.Near(t, c.name+" inner volume", in.Moments().Volume(), c.volume, c.tol)
		sh, err := m.Shell(Uniform(w), 0, m.Length())
		if err != nil {
			t.Fatal(c.name, err)
		}
		numtest.Near(t, c.name+" shell", sh.Volume, m.Moments().Volume()-c.volume, 1e-12)
		both := m.Moments()
		moment := pi * (both.SolidZ - in.Moments().SolidZ)
		numtest.Near(t, c.name+" shell moment", sh.VolumeZ, moment, 1e-9)
	}
}

// The volume between the faces and the volume swept by the wall are reached
// on two ways and agree, for corners of both senses, arcs, splines and a wall
// that changes.
func TestShellIsDifferenceOfFaces(t *testing.T) {
	rows := []Row{
		{Z: 0.004, R: 0},
		{Z: 0, R: 0.024, Via: Arc, Radius: -0.08},
		{Z: 0.01, R: 0.033, Via: Arc, Radius: 0.012},
		{Z: 0.06, R: 0.033},
		{Z: 0.064, R: 0.031},
		{Z: 0.07, R: 0.031},
		{Z: 0.074, R: 0.033},
		{Z: 0.12, R: 0.03, Via: Curve},
		{Z: 0.16, R: 0.016, Via: Curve},
		{Z: 0.18, R: 0.013, Via: Curve},
	}
	for _, w := range []Wall{
		Uniform(0.0003),
		Uniform(0.0015),
		{S: []float64{0, 0.02, 0.05, 0.1, 0.2}, T: []float64{0.0018, 0.0005, 0.0003, 0.0004, 0.0025}},
	} {
		for _, kind := range []Spline{Natural, Tangent, Monotone} {
			m := build(t, rows, kind)
			in, err := m.Inner(w)
			if err != nil {
				t.Fatal(err)
			}
			sh, err := m.Shell(w, 0, m.Length())
			if err != nil {
				t.Fatal(err)
			}
			between := m.Moments().Volume() - in.Moments().Volume()
			// where curved pieces meet at a corner the mitre is second order in
			// the wall: parts in 1e4 of the wall, in 1e5 of the content
			numtest.Near(t, "shell", sh.Volume, between, 3e-4)
			// cut in two, the halves add up
			a, _ := m.Shell(w, 0, 0.0612)
			b, _ := m.Shell(w, 0.0612, 1)
			numtest.Near(t, "halves", a.Volume+b.Volume, sh.Volume, 1e-12)
			numtest.Near(t, "area", sh.Area, m.Moments().Area(), 1e-9)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name string
		rows []Row
		want []string
	}{
		{"negative", []Row{{Z: 0, R: 0.02}, {Z: 0.1, R: -0.002}}, []string{"row 2", "-2 mm", "0 or more"}},
		{"twice", []Row{{Z: 0, R: 0.02}, {Z: 0, R: 0.02}, {Z: 0.1, R: 0.02}}, []string{"row 2", "same point as row 1", "delete"}},
		{"small arc", []Row{{Z: 0, R: 0.02}, {Z: 0.1, R: 0.02, Via: Arc, Radius: 0.04}}, []string{"row 2", "40 mm", "half the chord", "50 mm or more"}},
		{"no radius", []Row{{Z: 0, R: 0.02}, {Z: 0.1, R: 0.02, Via: Arc}}, []string{"row 2", "without radius"}},
		{"below axis", []Row{{Z: 0, R: 0.01}, {Z: 0.1, R: 0.01, Via: Arc, Radius: -0.05}}, []string{"row 2", "below the axis"}},
		{"eight", []Row{{Z: 0, R: 0.01}, {Z: 0.1, R: 0.05}, {Z: 0.1, R: 0.01}, {Z: 0, R: 0.05}}, []string{"row 4", "crosses itself", "row 2"}},
		{"kind", []Row{{Z: 0, R: 0.01}, {Z: 0.1, R: 0.05, Via: "ark"}}, []string{"row 2", `"ark"`}},
		{"one row", []Row{{Z: 0, R: 0.01}}, []string{"at least 2"}},
		{"axis inside", []Row{{Z: 0, R: 0.01}, {Z: 0.1, R: 0}, {Z: 0.2, R: 0.01}}, []string{"row 2", "only the first and the last"}},
		{"not a number", []Row{{Z: math.NaN(), R: 0.01}, {Z: 0.1, R: 0.01}}, []string{"row 1", "finite"}},
		{"two at once", []Row{{Z: 0, R: -0.01}, {Z: 0.1, R: -0.02}}, []string{"row 1", "row 2"}},
	} {
		_, err := New(c.rows, Natural)
		if err == nil {
			t.Errorf("%s: no error", c.name)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(unmarked(err), w) {
				t.Errorf("%s: %q lacks %q", c.name, err, w)
			}
		}
	}
	cusp := []Row{{Z: 0, R: 0.02}, {Z: 0.02, R: 0.04, Via: Curve}, {Z: 0.019, R: 0.02, Via: Curve}}
	if _, err := New(cusp, Monotone); err == nil || !strings.Contains(unmarked(err), "cusp") {
		t.Errorf("cusp: %v", err)
	}
	up := build(t, []Row{{Z: 0, R: 0.02}, {Z: 0.05, R: 0.03}, {Z: 0.045, R: 0.02}, {Z: 0.1, R: 0.013}}, Natural)
	if err := up.CheckRising(0); err == nil || !strings.Contains(unmarked(err), "row 3: z falls from 50 mm to 45 mm") {
		t.Errorf("rising: %v", err)
	}
}

func TestWallFaults(t *testing.T) {
	fillet := build(t, []Row{{Z: 0, R: 0}, {Z: 0, R: 0.03}, {Z: 0.002, R: 0.032, Via: Arc, Radius: 0.002}, {Z: 0.1, R: 0.032}}, Natural)
	if _, err := fillet.Inner(Uniform(0.0015)); err != nil {
		t.Error(err)
	}
	_, err := fillet.Inner(Uniform(0.0025))
	if err == nil || !strings.Contains(unmarked(err), "row 3") || !strings.Contains(unmarked(err), "2.5 mm folds") {
		t.Errorf("fold: %v", err)
	}
	rib := build(t, []Row{{Z: 0, R: 0.03}, {Z: 0.01, R: 0.03}, {Z: 0.011, R: 0.032}, {Z: 0.012, R: 0.03}, {Z: 0.1, R: 0.03}}, Natural)
	_, err = rib.Inner(Uniform(0.004))
	if err == nil || !strings.Contains(unmarked(err), "row ") {
		t.Errorf("narrow rib: %v", err)
	}
	thin := build(t, []Row{{Z: 0, R: 0.003}, {Z: 0.1, R: 0.003}}, Natural)
	_, err = thin.Inner(Uniform(0.004))
	if err == nil || !strings.Contains(unmarked(err), "reaches the axis") {
		t.Errorf("axis: %v", err)
	}
	for _, w := range []Wall{{}, {S: []float64{0, 0}, T: []float64{1e-3, 1e-3}}, Uniform(-1), Uniform(math.Inf(1))} {
		if _, err := thin.Inner(w); err == nil {
			t.Errorf("wall %v: no error", w)
		}
	}
}

// Any table of random lines and arcs that is accepted gives finite moments, and
// its parts add up.
func TestRandomProfiles(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(rt, "rows")
		rows := make([]Row, n)
		z := 0.0
		for i := range rows {
			rows[i] = Row{Z: z, R: rapid.Float64Range(0.01, 0.05).Draw(rt, "r")}
			rows[i].Via = rapid.SampledFrom([]Via{Line, Arc, Curve}).Draw(rt, "via")
			rows[i].Radius = rapid.Float64Range(-0.1, 0.1).Draw(rt, "radius")
			z += rapid.Float64Range(0.005, 0.05).Draw(rt, "dz")
		}
		m, err := New(rows, rapid.SampledFrom([]Spline{Natural, Tangent, Monotone}).Draw(rt, "spline"))
		if err != nil {
			return
		}
		s := rapid.Float64Range(0, 1).Draw(rt, "s") * m.Length()
		f := m.At(s)
		for _, v := range []float64{f.Z, f.R, f.TZ, f.TR, f.K1, f.K2, m.Moments().Volume(), m.Moments().Area()} {
			if !finite(v) {
				rt.Fatalf("not finite: %+v", f)
			}
		}
		if d := math.Abs(m.To(s).Length - s); d > 1e-11 {
			rt.Fatalf("arc length of s: off by %g", d)
		}
		w := rapid.Float64Range(1e-4, 2e-3).Draw(rt, "wall")
		in, err := m.Inner(Uniform(w))
		if err != nil || m.At(0).TZ < 0.7 || m.At(m.Length()).TZ < 0.7 {
			return // a flat open end is cut by its plane to first order only
		}
		sh, err := m.Shell(Uniform(w), 0, m.Length())
		if err != nil {
			rt.Fatal(err)
		}
		between := m.Moments().Volume() - in.Moments().Volume()
		if math.Abs(sh.Volume-between) > 1e-2*between {
			rt.Fatalf("shell %g, between the faces %g", sh.Volume, between)
		}
	})
}

func BenchmarkInner(b *testing.B) {
	m, err := New(sphere(0.05), Natural)
	if err != nil {
		b.Fatal(err)
	}
	w := Wall{}
	for k := range 400 {
		w.S = append(w.S, m.Length()*float64(k)/399)
		w.T = append(w.T, 3e-4+1e-4*math.Sin(float64(k)/40))
	}
	for b.Loop() {
		if _, err := m.Inner(w); err != nil {
			b.Fatal(err)
		}
	}
}

// unmarked is the text of an error without the marks of its quantities.
func unmarked(err error) string {
	return strings.NewReplacer("‹", "", "›", "").Replace(err.Error())
}
