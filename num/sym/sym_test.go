package sym

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// random fills a band by rapid.
func random(t *rapid.T, n, b int) *Band {
	m := NewBand(n, b)
	for i := range n {
		for j := max(0, i-b); j <= i; j++ {
			m.Add(i, j, float64(rapid.IntRange(-1000, 1000).Draw(t, "a"))/1000)
		}
	}
	return m
}

func dense(m *Band) *mat.SymDense {
	d := mat.NewSymDense(m.n, nil)
	for i := range m.n {
		for j := range m.n {
			d.SetSym(i, j, m.At(i, j))
		}
	}
	return d
}

// Any banded matrix: the count of negative pivots is that of the eigenvalues,
// and the solution solves.
func TestInertiaAndSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 14).Draw(t, "n")
		b := rapid.IntRange(0, 4).Draw(t, "b")
		m := random(t, n, b)
		f := NewFactor(n, b)
		neg, err := f.Decompose(m)
		if err != nil {
			t.Fatal(err)
		}
		var e mat.EigenSym
		e.Factorize(dense(m), false)
		want, least := 0, math.Inf(1)
		for _, v := range e.Values(nil) {
			if v < 0 {
				want++
			}
			least = math.Min(least, math.Abs(v))
		}
		pivot := math.Inf(1)
		for i := range n {
			pivot = math.Min(pivot, math.Abs(f.Pivot(i)))
		}
		if least < 1e-6 || pivot < 1e-5 {
			return // without pivoting nothing is promised there
		}
		if neg != want || f.Negative() != want {
			t.Fatalf("%d negative pivots, %d negative eigenvalues", neg, want)
		}
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i] = float64(i%3) - 0.7
		}
		m.Mul(x, y)
		f.Solve(y)
		for i := range x {
			if math.Abs(y[i]-x[i]) > 1e-5 {
				t.Fatalf("x[%d] %v want %v", i, y[i], x[i])
			}
		}
	})
}

// beam returns K = tridiag(-1,2,-1) and G = -I: critical loads
// 2 - 2 cos(kπ/(n+1)).
func beam(n int) (*Band, *Band) {
	K, G := NewBand(n, 1), NewBand(n, 1)
	for i := range n {
		K.Add(i, i, 2)
		G.Add(i, i, -1)
		if i > 0 {
			K.Add(i, i-1, -1)
		}
	}
	return K, G
}

func TestCriticalLoads(t *testing.T) {
	const n = 200
	K, G := beam(n)
	p := NewPencil(n, 1)
	mode := make([]float64, n)
	for _, hint := range []float64{0, 1e-6, 3e-4, 50} {
		for k := 1; k <= 4; k++ {
			got, err := p.Find(K, G, Critical{Order: k, Hint: hint}, mode)
			want := 2 - 2*math.Cos(float64(k)*math.Pi/(n+1))
			if err != nil || math.Abs(got/want-1) > 1e-7 {
				t.Errorf("hint %g order %d: %v want %v %v", hint, k, got, want, err)
			}
			for i := range mode {
				want := math.Sin(float64(k) * math.Pi * float64(i+1) / (n + 1))
				if math.Abs(math.Abs(mode[i])-math.Abs(want)) > 1e-2 {
					t.Fatalf("order %d: mode[%d] %v want %v", k, i, mode[i], want)
				}
			}
		}
	}
	if c, err := p.Count(K, G, 1.0001); err != nil || c != 67 {
		// 2-2cos(kπ/201) <= 1 for k <= 67
		t.Errorf("count %d", c)
	}
}

func TestNoCriticalLoad(t *testing.T) {
	K, G := beam(10)
	p := NewPencil(10, 1)
	for i := range 10 {
		G.Fix(i, +1)
	}
	if _, err := p.Find(K, G, Critical{Below: 1e3}, nil); !errors.Is(err, ErrNoLoad) {
		t.Errorf("%v", err)
	}
	K.Add(3, 3, -5)
	if _, err := p.Find(K, G, Critical{}, nil); !errors.Is(err, ErrIndefinite) {
		t.Errorf("%v", err)
	}
	K.Add(3, 3, math.NaN())
	if _, err := p.Find(K, G, Critical{}, nil); !errors.Is(err, ErrNotFinite) {
		t.Errorf("%v", err)
	}
}

// truss is the flat two-bar arch: height a, half width 1, unit stiffness:
// load λ = (1/√(1+a²) - 1/√(1+(a-u)²)) (a-u)·2 ... written as force balance.
type truss struct{ a float64 }

func (s truss) force(u float64) float64 {
	h := s.a - u
	l0, l := math.Hypot(1, s.a), math.Hypot(1, h)
	return 2 * (l0 - l) / l0 * h / l
}

func (s truss) Assemble(u []float64, lambda float64, r, q []float64, K *Band) error {
	r[0], q[0] = lambda-s.force(u[0]), 1
	K.Zero()
	const d = 1e-6
	K.Add(0, 0, (s.force(u[0]+d)-s.force(u[0]-d))/(2*d))
	return nil
}

// The arch snaps through: the path passes the maximum, the minimum and comes
// back to positive load, and every point of it is an equilibrium.
func TestArcThroughSnap(t *testing.T) {
	s := truss{a: 0.5}
	a := NewArcLength(1, 0)
	a.Radius, a.Max = 0.02, 0.05
	u, lambda := []float64{0}, 0.0
	top, bottom := 0.0, 0.0
	for range 40 {
		var err error
		var neg int
		lambda, neg, err = a.Step(s, u, lambda)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(lambda-s.force(u[0])) > 1e-9 {
			t.Fatalf("off the path at %v", u[0])
		}
		if slope := s.force(u[0]+1e-6) - s.force(u[0]-1e-6); math.Abs(slope) > 1e-9 && (slope < 0) != (neg == 1) {
			t.Fatalf("u %v: %d negative pivots, slope %v", u[0], neg, slope)
		}
		if u[0] < 0.5 {
			top = math.Max(top, lambda)
		}
		bottom = math.Min(bottom, lambda)
		if u[0] > 1.2 {
			break
		}
	}
	// dF/dh = 0 at l³ = l0: h² = l0^(2/3) - 1.
	l0 := math.Hypot(1, 0.5)
	h := math.Sqrt(math.Pow(l0, 2.0/3) - 1)
	want := s.force(0.5 - h)
	if u[0] < 1.1 || math.Abs(top-want) > 0.02*want || math.Abs(bottom+want) > 0.02*want {
		t.Errorf("u %v top %v bottom %v want ±%v", u[0], top, bottom, want)
	}
}

func TestNoAllocation(t *testing.T) {
	const n = 300
	K, G := beam(n)
	p, f := NewPencil(n, 1), NewFactor(n, 1)
	x := make([]float64, n)
	a, u := NewArcLength(1, 0), []float64{0}
	a.Radius = 1e-3
	var sys System = truss{a: 0.5}
	if k := testing.AllocsPerRun(5, func() {
		x[0] = 1
		if _, err := f.Decompose(K); err != nil {
			t.Fatal(err)
		}
		f.Solve(x)
		if _, err := p.Find(K, G, Critical{Hint: 1e-4}, x); err != nil {
			t.Fatal(err)
		}
		if _, _, err := a.Step(sys, u, 0); err != nil {
			t.Fatal(err)
		}
		u[0] = 0
	}); k > 0 {
		t.Errorf("%v allocations", k)
	}
}

func TestShapesMustAgree(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a factor of another shape is accepted")
		}
	}()
	_, _ = NewFactor(3, 1).Decompose(NewBand(4, 1))
}

func BenchmarkFactor2500x9(b *testing.B) {
	m := NewBand(2500, 9)
	for i := range 2500 {
		m.Add(i, i, 20)
		for j := max(0, i-9); j < i; j++ {
			m.Add(i, j, -1)
		}
	}
	f, x := NewFactor(2500, 9), make([]float64, 2500)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Decompose(m); err != nil {
			b.Fatal(err)
		}
		f.Solve(x)
	}
}
