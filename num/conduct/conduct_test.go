package conduct

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// cosine returns the error of the insulated cosine mode after one time
// constant: T = 400 + 10 cos(pi x/h) exp(-t/tau), tau = h²/(pi² alpha).
func cosine(t *testing.T, cells, steps int, grade float64) float64 {
	const h, alpha = 3e-3, 9.5e-8
	w := must(NewWall(h, 0, 0, cells, grade))(t)
	s := must(Constant(1000, alpha*1e6, 1000))(t)
	v := NewSolver(w, &s, 400)
	for i := range v.T {
		a, b := w.Face[i]*math.Pi/h, w.Face[i+1]*math.Pi/h
		v.T[i] += 10 * (math.Sin(b) - math.Sin(a)) / (b - a)
	}
	tau := h * h / (math.Pi * math.Pi * alpha)
	if err := v.Run(tau, steps); err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for i, T := range v.T {
		a, b := w.Face[i]*math.Pi/h, w.Face[i+1]*math.Pi/h
		worst = math.Max(worst, math.Abs(T-400-10*math.Exp(-1)*(math.Sin(b)-math.Sin(a))/(b-a)))
	}
	return worst
}

func TestOrderInSpace(t *testing.T) {
	for _, grade := range []float64{0, 2} {
		a, b, c := cosine(t, 16, 2000, grade), cosine(t, 32, 2000, grade), cosine(t, 64, 2000, grade)
		t.Logf("grading %g: error %.2e, %.2e, %.2e K at 16, 32, 64 cells", grade, a, b, c)
		if o := math.Log2(b / c); o < 1.9 || o > 2.3 {
			t.Errorf("order in space %.2f at grading %g, want 2", o, grade)
		}
	}
}

func TestOrderInTime(t *testing.T) {
	end := cosine(t, 400, 3000, 0) // space error that remains
	a, b, c := cosine(t, 400, 4, 0)-end, cosine(t, 400, 8, 0)-end, cosine(t, 400, 16, 0)-end
	t.Logf("error %.2e, %.2e, %.2e K at 4, 8, 16 steps", a, b, c)
	if o := math.Log2(math.Abs(b / c)); o < 1.8 || o > 2.4 {
		t.Errorf("order in time %.2f, want 2", o)
	}
}

// Steady conduction through a tube and a spherical shell with faces held: the
// logarithm and the reciprocal of the radius.
func TestSteadyCurved(t *testing.T) {
	const ri, ro, k, T0, T1 = 0.008, 0.012, 0.25, 300.0, 400.0
	rm, h := (ri+ro)/2, ro-ri
	for _, c := range []struct {
		name   string
		k2     float64
		profil func(r float64) float64
	}{
		{"tube", 0, func(r float64) float64 { return math.Log(r/ri) / math.Log(ro/ri) }},
		{"sphere", 1 / rm, func(r float64) float64 { return (1/ri - 1/r) / (1/ri - 1/ro) }},
	} {
		w := must(NewWall(h, 1/rm, c.k2, 80, 0))(t)
		s := must(Constant(1000, k, 1000))(t)
		v := NewSolver(w, &s, T0)
		v.Inner, v.Outer = Side{Fixed: true, Fluid: T0}, Side{Fixed: true, Fluid: T1}
		if err := v.Run(2000, 400); err != nil {
			t.Fatal(err)
		}
		for i, T := range v.T {
			if want := T0 + (T1-T0)*c.profil(ri+w.Mid[i]); math.Abs(T-want) > 0.02 {
				t.Errorf("%s: %g K at %g m, want %g", c.name, T, w.Mid[i], want)
			}
		}
	}
}

// Volumes of tube and sphere are exact.
func TestVolumes(t *testing.T) {
	const ri, ro = 0.008, 0.012
	rm := (ri + ro) / 2
	tube := must(NewWall(ro-ri, 1/rm, 0, 7, 1.5))(t)
	ball := must(NewWall(ro-ri, 1/rm, 1/rm, 7, -1))(t)
	if want := (ro*ro - ri*ri) / 2 / rm; math.Abs(tube.Total()/want-1) > 1e-14 {
		t.Errorf("tube %g, want %g", tube.Total(), want)
	}
	if want := (ro*ro*ro - ri*ri*ri) / 3 / rm / rm; math.Abs(ball.Total()/want-1) > 1e-14 {
		t.Errorf("sphere %g, want %g", ball.Total(), want)
	}
}

// Whatever flows in and out is stored, with any law, sides and sources.
func TestEnergyCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0.3e-3, 6e-3).Draw(t, "h")
		w, err := NewWall(h, rapid.Float64Range(-1, 1).Draw(t, "k1")/h, 0, rapid.IntRange(2, 40).Draw(t, "n"), rapid.Float64Range(-3, 3).Draw(t, "grade"))
		if err != nil {
			t.Fatal(err)
		}
		law := []float64{0}
		for range 60 {
			law = append(law, law[len(law)-1]+rapid.Float64Range(500, 5000).Draw(t, "cp")*10)
		}
		s, err := Tabulated(1330, 0.24, 200, 10, law)
		if err != nil {
			t.Fatal(err)
		}
		v := NewSolver(w, &s, rapid.Float64Range(280, 420).Draw(t, "T"))
		v.Source = make([]float64, len(v.T))
		put := 0.0
		for i := range v.Source {
			v.Source[i] = rapid.Float64Range(0, 2000).Draw(t, "q")
			put += v.Source[i]
		}
		v.Outer = Side{Film: rapid.Float64Range(0, 200).Draw(t, "film"), Fluid: 330, Emissivity: rapid.Float64Range(0, 1).Draw(t, "eps"), Surrounding: 350}
		v.Inner = Side{Film: 8, Fluid: 300}
		was := v.Heat()
		span := rapid.Float64Range(0.1, 20).Draw(t, "span")
		if err := v.Run(span, rapid.IntRange(1, 60).Draw(t, "steps")); err != nil {
			t.Fatal(err)
		}
		stored := v.Heat() - was
		if scale := math.Abs(stored) + put*span + math.Abs(v.Lost.Sum()); math.Abs(stored+v.Lost.Sum()-put*span) > 1e-6*scale+1e-3 {
			t.Fatalf("stored %g, lost %g, put in %g J/m²", stored, v.Lost.Sum(), put*span)
		}
	})
}

// A plate that radiates on one face and is heated from nothing else comes to
// the temperature of its surroundings.
func TestRadiationLimit(t *testing.T) {
	w := must(NewWall(1e-3, 0, 0, 5, 0))(t)
	s := must(Constant(1000, 0.2, 1000))(t)
	v := NewSolver(w, &s, 300)
	v.Outer = Side{Emissivity: 0.9, Surrounding: 500}
	if err := v.Run(3000, 3000); err != nil {
		t.Fatal(err)
	}
	if math.Abs(v.T[0]-500) > 1e-3 || math.Abs(v.TO-500) > 1e-3 {
		t.Errorf("%g and %g K, want 500", v.T[0], v.TO)
	}
	// flux balance of the eliminated face
	side := Side{Film: 30, Fluid: 330, Emissivity: 0.9, Surrounding: 310}
	conv, rad, slope, face := side.flux(400, 5000)
	if d := conv + rad - 5000*(400-face); math.Abs(d) > 1e-6 {
		t.Errorf("face flux off by %g W/m²", d)
	}
	c2, r2, _, _ := side.flux(400.001, 5000)
	if fd := (c2 + r2 - conv - rad) / 0.001; math.Abs(fd/slope-1) > 1e-5 {
		t.Errorf("slope %g, difference %g", slope, fd)
	}
}

func TestNoAllocation(t *testing.T) {
	w := must(NewWall(3e-3, 0, 0, 24, 2))(t)
	s := must(Constant(1335, 0.24, 1700))(t)
	v := NewSolver(w, &s, 300)
	v.Source = make([]float64, 24)
	v.Source[23] = 1000
	v.Outer = Side{Film: 60, Fluid: 333, Emissivity: 0.9, Surrounding: 333}
	if n := testing.AllocsPerRun(5, func() {
		if err := v.Run(1, 10); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations a run", n)
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		h, k1 float64
		n     int
		grade float64
	}{{0, 0, 5, 0}, {math.NaN(), 0, 5, 0}, {1e-3, 2001, 5, 0}, {1e-3, math.NaN(), 5, 0}, {1e-3, 0, 1, 0}, {1e-3, 0, 5, 5}} {
		if _, err := NewWall(c.h, c.k1, 0, c.n, c.grade); err == nil {
			t.Errorf("%+v passes", c)
		}
	}
	for _, law := range [][]float64{{0}, {0, 0}, {0, math.NaN()}, {1, 0}} {
		if _, err := Tabulated(1, 1, 0, 1, law); err == nil {
			t.Errorf("law %v passes", law)
		}
	}
	if _, err := Constant(0, 1, 1); err == nil {
		t.Error("density 0 passes")
	}
	if _, err := Constant(1, -1, 1); err == nil {
		t.Error("conductivity -1 passes")
	}
	w := must(NewWall(1e-3, 0, 0, 5, 0))(t)
	s := must(Constant(1000, 0.2, 1000))(t)
	v := NewSolver(w, &s, 300)
	if v.Run(-1, 1) == nil || v.Run(1, 0) == nil || v.Run(math.Inf(1), 1) == nil {
		t.Error("a bad span passes")
	}
	if err := v.Run(0, 1); err != nil {
		t.Error(err)
	}
	v.T[2] = math.NaN()
	if v.Run(1, 1) == nil {
		t.Error("NaN passes")
	}
}
