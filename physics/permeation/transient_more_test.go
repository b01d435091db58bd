package permeation

import (
	"math"
	"testing"

	"costrel/num/stiff"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

// TestStartIsEquilibrium: at the start the pack is that of package drink, under
// every law and warm as well.
func TestStartIsEquilibrium(t *testing.T) {
	for _, law := range drink.Laws() {
		for _, celsius := range []float64{15, 38} {
			l, err := drink.Drink{Carbonation: drink.FromVolumes(4), Sugar: 100, Law: law.Name}.Liquid()
			if err != nil {
				t.Fatal(err)
			}
			f := drink.Pack{Fill: 0.5e-3, Brimful: 0.522e-3, FillT: unit.Celsius(20), ReferenceT: unit.Celsius(22), Ambient: unit.Atm, Air: 0.3, Growth: 3e-8}
			at := unit.Celsius(celsius)
			want, err := l.Pressure(f, at)
			if err != nil {
				t.Fatal(err)
			}
			c := Case{Liquid: l, Fill: f, Growth: Growth{Elastic: f.Growth}, Lane: climate.Constant("", at, 0.5, day)}
			life, err := c.Run(0, Options{})
			if err != nil {
				t.Fatal(err)
			}
			got, err := life.At(0)
			if err != nil {
				t.Fatal(err)
			}
			if d := math.Abs(float64(got.Pressure-want.Total)) / float64(want.Total); d > 1e-7 {
				t.Errorf("%s at %g °C: %.7g Pa, drink %.7g Pa", law.Name, celsius, float64(got.Pressure), float64(want.Total))
			}
			if math.Abs(got.Headspace/want.Headspace-1) > 1e-6 {
				t.Errorf("%s at %g °C: headspace %g, drink %g", law.Name, celsius, got.Headspace, want.Headspace)
			}
		}
	}
}

func mustTableau(t *testing.T) stiff.Tableau {
	t.Helper()
	_, tab, err := Options{}.fill()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

// balanced is a bottle of that volume in balance at 22 °C.
func balanced(t *testing.T, volume float64) *model {
	t.Helper()
	p, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	p.Volume = volume
	m := newModel(p, steps(t, []float64{22}, []float64{1}), 4, mustTableau(t))
	m.stop = day
	if _, err := m.start(); err != nil {
		t.Fatal(err)
	}
	return m
}

// volumes leave a gas space, and none.
var volumes = []float64{0.522e-3, 0.490e-3}

// TestEnclosed: Newton and Brent find the same balance.
func TestEnclosed(t *testing.T) {
	for _, v := range volumes {
		m := balanced(t, v)
		n := m.bal.n
		a, err := m.in.enclose(n, [gases]float64{})
		if err != nil {
			t.Fatal(err)
		}
		var b balance
		q, err := m.in.newton(n, [gases]float64{2e5, 1e4, 1e4}, &b)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a {
			if math.Abs(a[i]-q[i]) > 1e-2 {
				t.Errorf("%v: %g and %g Pa", Gas(i), a[i], q[i])
			}
		}
	}
}

// TestJacobian holds the slopes of the balance against differences.
func TestJacobian(t *testing.T) {
	for _, v := range volumes {
		m := balanced(t, v)
		var b, up, down balance
		m.in.at(m.p, &b)
		if full := b.space == 0; full != (v < 0.5e-3) {
			t.Fatalf("gas space %g m³", b.space)
		}
		for j := range m.p {
			q := m.p
			q[j] += 5
			m.in.at(q, &up)
			q[j] -= 10
			m.in.at(q, &down)
			for i := range b.n {
				d := (up.n[i] - down.n[i]) / 10
				if math.Abs(d-b.jac[i][j]) > 1e-6*math.Abs(b.jac[i][i]) {
					t.Errorf("dn%d/dp%d %g, by differences %g", i, j, b.jac[i][j], d)
				}
			}
			if d := (up.fugacity - down.fugacity) / 10; math.Abs(d-b.fjac[j]) > 1e-7 {
				t.Errorf("df/dp%d %g, by differences %g", j, b.fjac[j], d)
			}
		}
	}
}

// TestFace: flow and slopes through a coating of a dual-mode wall.
func TestFace(t *testing.T) {
	m, err := Named("wall")
	if err != nil {
		t.Fatal(err)
	}
	s := slab{dx: 2e-5, s: m.CO2.At(unit.Celsius(22))}
	s.g = s.s.Diffusivity / s.dx
	theta := s.s.Permeability(2e5) / s.s.Diffusivity * 2e5
	for _, coat := range []float64{0, 1e-14, 1e-12, 1e-8} {
		j, byP, byTheta := s.face(coat, 4e5, theta)
		a, _, _ := s.face(coat, 4e5+10, theta)
		b, _, _ := s.face(coat, 4e5-10, theta)
		if d := (a - b) / 20; math.Abs(d/byP-1) > 1e-5 {
			t.Errorf("coating %g: slope %g, by differences %g", coat, byP, d)
		}
		h := 1e-4 * theta
		a, _, _ = s.face(coat, 4e5, theta+h)
		b, _, _ = s.face(coat, 4e5, theta-h)
		if d := (a - b) / (2 * h); math.Abs(d/byTheta-1) > 1e-5 {
			t.Errorf("coating %g: slope in theta %g, by differences %g", coat, byTheta, d)
		}
		if zero, _, _ := s.face(coat, 2e5, theta); math.Abs(zero) > 1e-9*math.Abs(j) {
			t.Errorf("coating %g: %g flows without a difference", coat, zero)
		}
	}
	bare, _, _ := s.face(0, 4e5, theta)
	if open, _, _ := s.face(1e-3, 4e5, theta); math.Abs(open/bare-1) > 1e-6 {
		t.Errorf("an open coating passes %g, none %g", open, bare)
	}
}

// TestLeak: a leak empties the headspace at its own law; under vacuum it lets
// air in.
func TestLeak(t *testing.T) {
	p, err := half.pack(change{noCap: true, rigid: true})
	if err != nil {
		t.Fatal(err)
	}
	p.Zones = nil
	p.Cap.Leak = 1e-19
	l, err := p.Run(steps(t, []float64{22}, []float64{1000}), 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	a, err := l.At(0)
	if err != nil {
		t.Fatal(err)
	}
	b, err := l.At(60)
	if err != nil {
		t.Fatal(err)
	}
	pa := float64(unit.Atm)
	want := 1e-19 * (float64(a.Pressure)*float64(a.Pressure) - pa*pa) * a.Partial[CO2] / float64(a.Pressure) * 60
	if math.Abs(b.ThroughCap/want-1) > 1e-3 {
		t.Errorf("%g mol in a minute, want %g", b.ThroughCap, want)
	}
	end, err := l.At(1000 * day)
	if err != nil {
		t.Fatal(err)
	}
	if g := float64(end.Gauge); g < 0 || g > 0.02*float64(a.Gauge) {
		t.Errorf("after 1000 d %g Pa stand over ambient, of %g", g, float64(a.Gauge))
	}
}

// TestReading: a warm hour at the end is no loss, for the pack is read at its
// temperature of reading.
func TestReading(t *testing.T) {
	p, err := half.pack(change{rigid: true})
	if err != nil {
		t.Fatal(err)
	}
	l, err := p.Run(steps(t, []float64{22, 38}, []float64{30, 1. / 24}), 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	before, after := loss(t, l, 30).Total, loss(t, l, 30+1./24).Total
	if math.Abs(after-before) > 5e-4 {
		t.Errorf("loss %g before and %g after a warm hour", before, after)
	}
	if l.MaxTime < 30*day {
		t.Errorf("highest pressure at %g d", l.MaxTime/day)
	}
	q, err := l.At(30 * day)
	if err != nil || math.Abs(q.Temperature.Celsius()-38) > 1e-9 || q.Gauge < unit.GaugePressure(0.99*float64(l.MaxPressure)) {
		t.Errorf("at the jump: %+v, %v", q, err)
	}
}

func TestTimeTo(t *testing.T) {
	l := live(t, half, change{}, 22, 182, Options{})
	oxygen := func(p Point) float64 { return p.Ingress / half.fill }
	at, ok, err := l.TimeTo(oxygen, 5e-3)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	q, err := l.At(at)
	if err != nil || math.Abs(oxygen(q)-5e-3) > 1e-7 {
		t.Errorf("%g kg/m³, %v", oxygen(q), err)
	}
	if _, ok, err := l.TimeTo(oxygen, 1); ok || err != nil {
		t.Errorf("1 g/mL: %v, %v", ok, err)
	}
}

// TestAge: an aged bottle grows less in the first day.
func TestAge(t *testing.T) {
	p, err := two.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	var last float64
	for i, age := range []float64{day, 10 * day, 100 * day} {
		p.Growth.Age = age
		l, err := p.Run(steps(t, []float64{22}, []float64{1}), 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		q, err := l.At(day)
		if err != nil {
			t.Fatal(err)
		}
		if i > 0 && !(q.Growth < last) {
			t.Errorf("aged %g d: grows %g, younger %g", age/day, q.Growth, last)
		}
		last = q.Growth
	}
}

func TestFillDrop(t *testing.T) {
	l := live(t, two, change{}, 22, 28, Options{})
	s, err := l.Series([]float64{0, 28 * day})
	if err != nil {
		t.Fatal(err)
	}
	// Growth from 2.75 to 3.65 %: 18.5 mL over 45 cm², the liquid gives 1 mL.
	if d := FillDrop(s[0], s[1], 45e-4); d < 3.5e-3 || d > 5e-3 {
		t.Errorf("drop %g mm", d*1e3)
	}
}

func TestFilmFaults(t *testing.T) {
	good := Film{Sorption: Sorption{Henry: 1e-4, Diffusivity: 1e-13}, Thickness: 3e-4, Inside: 1e5}
	for i, spoil := range []func(f *Film){
		func(f *Film) { f.Cells = 1 },
		func(f *Film) { f.Thickness = 0 },
		func(f *Film) { f.Sorption.Henry = 0 },
		func(f *Film) { f.Inside = math.NaN() },
	} {
		f := good
		spoil(&f)
		if _, err := f.Run([]float64{1}); err == nil {
			t.Errorf("case %d is answered", i)
		}
	}
	if _, err := good.Run([]float64{5, 1}); err == nil {
		t.Error("times that fall are answered")
	}
	if r, err := good.Run([]float64{1e5, 1e6}); err != nil || math.Abs(r[1].Entered-r[1].Passed-r[1].Held) > 1e-15 {
		t.Errorf("%+v, %v", r, err)
	}
}
