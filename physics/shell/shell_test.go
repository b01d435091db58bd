package shell

import (
	"math"
	"testing"

	"costrel/num/sym"

	"pgregory.net/rapid"
)

// bottleModel is the reference bottle on its ring.
func bottleModel(t testing.TB, h float64, p Ply, c Case) *Model {
	t.Helper()
	m, ring, err := referenceBottle(h, true, p)
	if err != nil {
		t.Fatal(err)
	}
	c.Supports = []Support{{Node: ring, Axial: HoldZ}}
	return must(NewModel(m, c))
}

// The tangent is the derivative of the residual: elastic by both laws, plastic
// and creeping.
func TestTangent(t *testing.T) {
	yields := Ply{Es: 3e9, Eh: 4e9, Nu: 0.38, Ys: 20e6, Yh: 30e6}
	for _, c := range []struct {
		name string
		ply  Ply
		c    Case
		dt   float64
		tol  float64
	}{
		{"elastic", yields, Case{Elastic: true}, 0, 1e-7},
		{"Saint Venant", yields, Case{Elastic: true, Green: true}, 0, 1e-7},
		{"plastic", yields, Case{Hard: DefaultLinear()}, 0, 1e-5},
		{"creep", yields, Case{Elastic: true, Creep: DefaultFindley()}, 3600, 1e-5},
		{"creep and plastic", yields, Case{Hard: DefaultLinear(), Creep: BaileyNorton{A: 1e-27, Q: 3, R: 0.3}}, 3600, 1e-5},
		{"chain", yields, Case{Elastic: true, Creep: KelvinChain{{0.5, 1000}, {0.2, 1e5}}}, 3600, 1e-7},
	} {
		m := bottleModel(t, 4e-3, c.ply, c.c)
		if err := m.Nonlinear(Load{Pressure: 2.5e5}, 4); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		m.flow.dt = c.dt
		for i := range m.u {
			m.u[i] *= 1.03
		}
		const p = 2.6e5
		residual := func() []float64 {
			r, g := make([]float64, len(m.u)), make([]float64, len(m.u))
			m.volume(g, nil, 0)
			if err := m.eval(r, nil); err != nil {
				t.Fatal(err)
			}
			for i := range r {
				r[i] += p * g[i]
			}
			return r
		}
		m.K.Zero()
		clear(m.g)
		m.volume(m.g, m.K, p)
		if err := m.eval(make([]float64, len(m.u)), m.K); err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for j := range m.u {
			d := 1e-8
			if j%3 == 2 {
				d = 1e-6
			}
			u := m.u[j]
			m.u[j] = u + d
			a := residual()
			m.u[j] = u - d
			b := residual()
			m.u[j] = u
			for i := max(0, j-5); i < min(len(m.u), j+6); i++ {
				scale := math.Sqrt(math.Abs(m.K.At(i, i) * m.K.At(j, j)))
				worst = math.Max(worst, math.Abs(-(a[i]-b[i])/(2*d)-m.K.At(i, j))/scale)
			}
		}
		if worst > c.tol {
			t.Errorf("%s: tangent off by %.2g", c.name, worst)
		}
	}
}

// The gradient of the volume is its derivative, for every face.
func TestVolumeGradient(t *testing.T) {
	for _, f := range []Face{Inner, Mid, Outer} {
		m := bottleModel(t, 8e-3, refPly, Case{Face: f})
		for i := range m.u {
			m.u[i] = 1e-4 * math.Sin(float64(7*i))
			if i%3 == 2 {
				m.u[i] *= 1e3
			}
		}
		g := make([]float64, len(m.u))
		m.volume(g, nil, 0)
		for j := range m.u {
			u := m.u[j]
			const d = 1e-7
			m.u[j] = u + d
			a := m.volume(nil, nil, 0)
			m.u[j] = u - d
			b := m.volume(nil, nil, 0)
			m.u[j] = u
			if n := (a - b) / (2 * d); math.Abs(n-g[j]) > 1e-6*(math.Abs(g[j])+1e-6) {
				t.Fatalf("face %d: unknown %d: %g by differences, %g", f, j, n, g[j])
			}
		}
	}
}

// A full sphere encloses its volume, from the inside to the outside face.
func TestVolumeOfSphere(t *testing.T) {
	b := must(ball(0.05, 1e-3, 400, refPly))
	for f, r := range map[Face]float64{Inner: 0.0495, Mid: 0.05, Outer: 0.0505} {
		m := must(NewModel(b, Case{Face: f, Supports: []Support{{Node: 200, Axial: HoldZ}}}))
		if want := 4 * math.Pi / 3 * r * r * r; math.Abs(m.Volume0()/want-1) > 1e-4 {
			t.Errorf("face %d: %g, want %g", f, m.Volume0(), want)
		}
	}
}

// The harmonic 0 of the Fourier element is the axisymmetric element: elastic
// stiffness up to what its strains round differ by within an element, whose part
// of the energy falls with the square of the length; pressure terms for motions
// that vanish at the ends.
func TestHarmonicZero(t *testing.T) {
	energy := func(h float64) float64 {
		m := bottleModel(t, h, Ply{Es: 3e9, Eh: 4e9, Nu: 0.3}, Case{})
		pre := newPrestress(m.n)
		clear(m.force)
		pre.take(m, false)
		k0 := sym.NewBand(5*m.n, 9)
		pre.assemble(k0, terms{elastic: 1})
		m.stiff()
		x, y := make([]float64, 3*m.n), make([]float64, 5*m.n)
		for i := range m.n {
			s, c := math.Sincos(40 * m.mesh.S[i])
			r := m.mesh.R[i]
			x[3*i], x[3*i+1], x[3*i+2] = r*s, refR*c, 30*s*r
			y[5*i], y[5*i+1], y[5*i+2] = x[3*i], x[3*i+1], x[3*i+2]
		}
		return quad(k0, y)/quad(m.K, x) - 1
	}
	a, b := energy(1e-3), energy(0.5e-3)
	if math.Abs(a) > 2e-4 || a/b < 3.5 {
		t.Errorf("energy off by %g, by %g on half the length", a, b)
	}
	m := bottleModel(t, 1e-3, Ply{Es: 3e9, Eh: 4e9, Nu: 0.3}, Case{})
	m.p = 3e5
	pre := newPrestress(m.n)
	clear(m.force)
	pre.take(m, false)
	kp := sym.NewBand(5*m.n, 9)
	pre.assemble(kp, terms{initial: 1})
	m.K.Zero()
	g := make([]float64, len(m.u))
	m.volume(g, m.K, m.p)
	rapid.Check(t, func(t *rapid.T) {
		x, y := make([]float64, 3*m.n), make([]float64, 5*m.n)
		k := float64(rapid.IntRange(1, 5).Draw(t, "k"))
		c := [3]float64{}
		for a := range 3 {
			c[a] = float64(rapid.IntRange(-9, 9).Draw(t, "c"))
		}
		for i := 1; i < m.n-1; i++ {
			s := math.Sin(k * math.Pi * m.mesh.S[i] / m.mesh.S[m.n-1])
			for a := range 3 {
				x[3*i+a] = c[a] * s
				if a == 2 {
					x[3*i+a] *= 100
				}
				y[5*i+a] = x[3*i+a]
			}
		}
		q1, q2 := quad(m.K, x), quad(kp, y)
		scale := 1e-9
		for i := range x {
			scale += math.Abs(m.K.At(i, i)) * x[i] * x[i]
		}
		if math.Abs(q1-q2) > 2e-3*scale {
			t.Fatalf("axisymmetric %g, harmonic %g (scale %g)", q1, q2, scale)
		}
	})
}

func quad(K *sym.Band, x []float64) float64 {
	y := make([]float64, len(x))
	K.Mul(x, y)
	return dot(x, y)
}

// Rigid motions cost nothing: a shift across in the harmonic 1.
func TestRigidShift(t *testing.T) {
	m := must(NewModel(must(tube(refR, refL, refWall, 40, refPly)), Case{Supports: []Support{{Node: 0, Axial: HoldZ}}}))
	pre := newPrestress(m.n)
	pre.take(m, false)
	K := sym.NewBand(5*m.n, 9)
	pre.assemble(K, terms{elastic: 1, harmonic: 1})
	shift, tilt := make([]float64, 5*m.n), make([]float64, 5*m.n)
	stretch := make([]float64, 5*m.n)
	for i := range m.n {
		shift[5*i], shift[5*i+3] = 1, -1
		z := m.mesh.Z[i]
		// A turn ω about the axis across: u_x = ω z, u_z = -ω x.
		tilt[5*i], tilt[5*i+3], tilt[5*i+1] = z, -z, -m.mesh.R[i]
		tilt[5*i+2] = -1
		stretch[5*i] = 1
	}
	base := quad(K, stretch)
	if a := quad(K, shift); a > 1e-9*base {
		t.Errorf("a shift costs %g of %g", a, base)
	}
	if a := quad(K, tilt); a > 1e-5*base*refL*refL {
		t.Errorf("a tilt costs %g of %g", a, base*refL*refL)
	}
}

// Second order in displacement, small and large: of the finish of a bottle, whose
// wall and curvature jump. The pole of a capsule converges faster.
func TestOrder(t *testing.T) {
	at := func(h float64, nl bool) float64 {
		m, ring, err := referenceBottle(h, true, refPly)
		c := Case{Supports: []Support{{Node: ring, Axial: HoldZ}}}
		var s state
		if nl {
			s, err = nonlinear(m, err, c, Load{Pressure: 4e5})
		} else {
			s, err = linear(m, err, c, Load{Pressure: 4e5})
		}
		if err != nil {
			t.Fatal(err)
		}
		return s.u[len(s.u)-2]
	}
	for _, nl := range []bool{false, true} {
		a, b, c := at(2e-3, nl), at(1e-3, nl), at(0.5e-3, nl)
		if p := math.Log2((a - b) / (b - c)); p < 1.9 || p > 2.1 {
			t.Errorf("nonlinear %v: order %.2f", nl, p)
		}
	}
}

func TestNoAllocation(t *testing.T) {
	m := bottleModel(t, 2e-3, Ply{Es: 3e9, Eh: 4e9, Nu: 0.38, Ys: 60e6, Yh: 60e6}, Case{Hard: DefaultLinear()})
	if k := testing.AllocsPerRun(3, func() {
		if err := m.linear(Load{Pressure: 1e5}); err != nil {
			t.Fatal(err)
		}
		m.Reset()
		if err := m.Nonlinear(Load{Pressure: 4e5, Force: 50}, 2); err != nil {
			t.Fatal(err)
		}
	}); k > 0 {
		t.Errorf("%v allocations", k)
	}
}

func TestClosedForms(t *testing.T) {
	if _, _, _, err := CylinderMembrane(1, 0, 1, 1, 0); err == nil {
		t.Error("radius 0 is accepted")
	}
	// The sphere is the ellipsoid of equal axes, the cylinder the cone of no angle.
	s, _, _ := SphereMembrane(1e5, 0.03, 3e-4, 3e9, 0.3)
	crown, along, round, _ := EllipsoidMembrane(1e5, 0.03, 0.03, 3e-4)
	if math.Abs(crown-s) > 1e-6 || math.Abs(along-s) > 1e-6 || math.Abs(round-s) > 1e-6 {
		t.Errorf("sphere %g, ellipsoid %g %g %g", s, crown, along, round)
	}
	if _, _, round, _ := EllipsoidMembrane(1e5, 0.03, 0.02, 3e-4); round >= 0 {
		t.Errorf("a flat dome is not compressed at its equator: %g", round)
	}
	h, a, _ := ConeMembrane(1e5, 0.03, 3e-4, 0)
	if math.Abs(h-1e7) > 1e-3 || a != h/2 {
		t.Errorf("cone %g %g", h, a)
	}
	// A torus of great radius is a cylinder.
	r, a, _ := TorusMembrane(1e5, 1e4, 0.03, 3e-4, 1)
	if math.Abs(a/1e7-1) > 1e-5 || math.Abs(r/5e6-1) > 1e-9 {
		t.Errorf("torus %g %g", r, a)
	}
	// Rings far apart give back the long shell's first term; no ring none.
	p0, _ := Bryant(refR, refWall, refL, refE, 0, 0.01, 3)
	p1, _ := Bryant(refR, refWall, refL, refE, must(RibSecond(1e-6, 1e-13, 5e-4, refR, refWall)), 0.01, 3)
	if !(p1 > p0) {
		t.Errorf("rings do not help: %g %g", p0, p1)
	}
	// Thick creep: equilibrium at the faces and over the wall.
	for _, q := range []float64{1, 3, 7} {
		in, _, _ := ThickCreep(2e6, 1, 1.5, 1, q)
		out, _, _ := ThickCreep(2e6, 1, 1.5, 1.5, q)
		sum := 0.0
		const n = 4000
		for i := range n {
			_, h, _ := ThickCreep(2e6, 1, 1.5, 1+0.5*(float64(i)+0.5)/n, q)
			sum += h * 0.5 / n
		}
		if math.Abs(in+2e6) > 1e-3 || math.Abs(out) > 1e-3 || math.Abs(sum/2e6-1) > 1e-6 {
			t.Errorf("q %g: %g %g, force %g", q, in, out, sum)
		}
	}
	if _, _, err := ThickCreep(1, 1, 2, 3, 3); err == nil {
		t.Error("a radius outside the wall is accepted")
	}
	if p, _ := SnapCap(0.04, 4e-4, 3e9, 0.38, 0.6); p <= 0 || p >= must(Zoelly(0.04, 4e-4, 3e9, 0.38)) {
		t.Errorf("cap %g", p)
	}
	k, err := CapKnockdown(100, 0.05, 0.38)
	if err != nil || k.Gamma != 1 || k.Note == "" {
		t.Errorf("a nearly flat cap: %+v %v", k, err)
	}
	if _, err := ConeKnockdown(0.1); err == nil {
		t.Error("a cone of 6 degrees is accepted")
	}
	if g, err := ConeKnockdown(0.5); err != nil || g.Gamma != 0.33 {
		t.Errorf("%+v %v", g, err)
	}
	if k, err := BendingKnockdown(100); err != nil || k.Gamma < 0.6 {
		t.Errorf("%+v %v", k, err)
	}
	if k, _ := AxialKnockdown(2000); k.Note == "" {
		t.Error("R/t 2000 without a note")
	}
	if _, err := UserKnockdown(2); err == nil {
		t.Error("a knock-down of 2 is accepted")
	}
	if x, err := Interaction(3, 4); err != nil || math.Abs(x-2.4) > 1e-12 {
		t.Errorf("interaction %g %v", x, err)
	}
	v, w, err := PlateVolume(FlatPanel{Count: 1, Width: 0.03, Height: 0.03, Wall: 1e-3, Modulus: 3e9, Nu: 0.3}, 1)
	D := 3e9 * 1e-9 / (12 * 0.91)
	if err != nil || math.Abs(w/(0.00126*math.Pow(0.03, 4)/D)-1) > 1e-4 || math.Abs(v/(0.25*9e-4*w)-1) > 1e-9 {
		t.Errorf("plate %g %g %v", v, w, err)
	}
	if f, l := must(PressurisedAxial(0, refR, refWall, refE, refNu, 1, 0)), 1058.88; math.Abs(f/l-1) > 1e-5 {
		t.Errorf("pressurised %g", f)
	}
	if must(ConeAxial(refWall, refE, refNu, 0))-1058.88 > 0.01 {
		t.Error("cone of no angle")
	}
	if math.Abs(must(Ring(refR, refWall, refE, refNu, 2, true))/must(Ring(refR, refWall, refE, refNu, 2, false))-4.0/3) > 1e-12 {
		t.Error("dead over live is not 4/3")
	}
	// Every closed form refuses a wall of nothing.
	for name, f := range map[string]func() error{
		"edge decay": func() error { _, err := EdgeDecay(0, 1, 0.3); return err }, "joint": func() error { _, _, err := HemisphereJoint(0.6); return err },
		"edge": func() error { _, err := EdgeBending(1, 0, -1, 1, 1, 1, 0.3); return err }, "ring load": func() error { _, _, err := RingLoad(1, 1, 0, 1, 0.3); return err },
		"axial": func() error { _, _, err := AxialClassical(1, 1, 0, 0.3); return err }, "cone": func() error { _, err := ConeAxial(1, 1, 0.3, 2); return err },
		"wave": func() error { _, _, err := AxialHalfWave(1, 0, 0.3); return err }, "pressurised": func() error { _, err := PressurisedAxial(nan, 1, 1, 1, 0.3, 1, 0); return err },
		"mises": func() error { _, err := VonMises(1, 1, 1, 1, 0.3, 1); return err }, "windenburg": func() error { _, err := WindenburgTrilling(1, 1, 0.1, 1, 0.3); return err },
		"lateral": func() error { _, err := LateralSP8007(1, 1, 0, 1, 0.3, 1); return err }, "tube": func() error { _, _, err := LongTube(0, 1, 1, 0.3); return err },
		"ring": func() error { _, err := Ring(1, 1, 1, 0.3, 1, false); return err }, "sphere": func() error { _, err := Zoelly(0, 1, 1, 0.3); return err },
		"rib": func() error { _, err := RibSecond(1, -1, 0, 1, 1); return err }, "bryant": func() error { _, err := Bryant(1, 1, 1, 1, 1, 0, 3); return err },
		"panel": func() error { _, _, err := CircularPanel(1, 1, 0, 1, 0.3); return err }, "thin creep": func() error { _, err := ThinCreep(0, 1, 1, 1, 1); return err },
		"strength": func() error { _, err := StrengthBurst(1, 0, 1); return err }, "plastic": func() error { _, err := PlasticBurst(1, 2, 1); return err },
		"instability": func() error { _, _, err := InstabilityBurst(1, 0, 1, 1); return err }, "balloon": func() error { _, _, err := NeoHookeBalloon(1, 0, 1); return err },
		"rubber": func() error { _, err := NeoHookeSphere(1, 2, 1, 2); return err }, "yeoh": func() error { _, err := YeohTube(1, 0, 0, 1, 2, 0.5); return err },
		"cylinder": func() error { _, _, _, err := CylinderBuckling(9, 1, 0.1, 1, 1, 0.3, false); return err },
		"dome":     func() error { _, err := Dome(0.03, 0.001, 0.002, 20, nil, nil); return err },
	} {
		if f() == nil {
			t.Errorf("%s accepts what is no wall", name)
		}
	}
	for _, c := range Cards() {
		if len(c.Data) == 0 {
			t.Errorf("card %s is empty", c.Name)
		}
	}
}
