package stiff

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func tableaus() []Tableau { return []Tableau{ESDIRK4(), TRBDF2()} }

// TestConditions holds the conditions of order of a Runge-Kutta method, of the
// stages and of the comparison.
func TestConditions(t *testing.T) {
	for _, m := range tableaus() {
		b := m.A[len(m.A)-1]
		sum := func(w []float64, f func(i int) float64) float64 {
			var s float64
			for i := range w {
				s += w[i] * f(i)
			}
			return s
		}
		ac := func(p float64) func(int) float64 {
			return func(i int) float64 {
				return sum(m.A[i], func(j int) float64 { return math.Pow(m.C[j], p) })
			}
		}
		pow := func(p float64) func(int) float64 { return func(i int) float64 { return math.Pow(m.C[i], p) } }
		lower := make([]float64, len(b))
		for i := range b {
			lower[i] = b[i] - m.Error[i]
		}
		type cond struct {
			order     int
			f         func(int) float64
			want      float64
			condition string
		}
		conds := []cond{
			{1, pow(0), 1, "1"},
			{2, pow(1), 1. / 2, "c"},
			{3, pow(2), 1. / 3, "c²"},
			{3, ac(1), 1. / 6, "Ac"},
			{4, pow(3), 1. / 4, "c³"},
			{4, func(i int) float64 { return m.C[i] * ac(1)(i) }, 1. / 8, "c Ac"},
			{4, ac(2), 1. / 12, "Ac²"},
			{4, func(i int) float64 { return sum(m.A[i], ac(1)) }, 1. / 24, "AAc"},
		}
		for _, c := range conds {
			if c.order <= m.Order {
				if got := sum(b, c.f); math.Abs(got-c.want) > 1e-13 {
					t.Errorf("%s: %s: %g, want %g", m.Name, c.condition, got, c.want)
				}
			}
			if c.order <= m.Lower {
				if got := sum(lower, c.f); math.Abs(got-c.want) > 1e-13 {
					t.Errorf("%s: lower: %s: %g, want %g", m.Name, c.condition, got, c.want)
				}
			}
		}
		for i := range m.A {
			if got, want := ac(1)(i), m.C[i]*m.C[i]/2; math.Abs(got-want) > 1e-13 {
				t.Errorf("%s: stage %d: order below 2: %g, want %g", m.Name, i, got, want)
			}
			if i > 0 && m.A[i][i] != m.Gamma && math.Abs(m.A[i][i]-m.Gamma) > 1e-16 {
				t.Errorf("%s: stage %d: diagonal %g", m.Name, i, m.A[i][i])
			}
		}
	}
}

// step takes one step of y' = f(t, y) with a scalar Newton iteration.
func step(m Tableau, t, y, h float64, f, dfdy func(t, y float64) float64) (next, err float64) {
	k := make([]float64, len(m.A))
	k[0] = f(t, y)
	stage := y
	for i := 1; i < len(m.A); i++ {
		a := y
		for j := range i {
			a += h * m.A[i][j] * k[j]
		}
		ti := t + m.C[i]*h
		for range 50 {
			r := stage - a - h*m.Gamma*f(ti, stage)
			stage -= r / (1 - h*m.Gamma*dfdy(ti, stage))
		}
		k[i] = f(ti, stage)
	}
	for j := range k {
		err += h * m.Error[j] * k[j]
	}
	return stage, err
}

// TestOrder: halving the step divides the error of y' = -y² cos t by 2^order.
func TestOrder(t *testing.T) {
	f := func(t, y float64) float64 { return -y * y * math.Cos(t) }
	d := func(t, y float64) float64 { return -2 * y * math.Cos(t) }
	exact := 1 / (1 + math.Sin(2))
	for _, m := range tableaus() {
		run := func(n int) float64 {
			y, h := 1.0, 2/float64(n)
			for i := range n {
				y, _ = step(m, float64(i)*h, y, h, f, d)
			}
			return math.Abs(y - exact)
		}
		order := math.Log2(run(20) / run(40))
		if math.Abs(order-float64(m.Order)) > 0.25 {
			t.Errorf("%s: order %.2f, want %d", m.Name, order, m.Order)
		}
	}
}

// TestDamped: an infinitely fast mode is gone after one step.
func TestDamped(t *testing.T) {
	for _, m := range tableaus() {
		const fast = -1e12
		y, _ := step(m, 0, 1, 1, func(_, y float64) float64 { return fast * y }, func(_, _ float64) float64 { return fast })
		if math.Abs(y) > 1e-9 {
			t.Errorf("%s: %g of a fast mode left", m.Name, y)
		}
		// No mode of the left half plane grows: sampled on the real axis.
		for _, z := range []float64{-1e-3, -0.1, -1, -3, -10, -100, -1e5} {
			if y, _ := step(m, 0, 1, 1, func(_, y float64) float64 { return z * y }, func(_, _ float64) float64 { return z }); math.Abs(y) > 1 {
				t.Errorf("%s: grows by %g at z = %g", m.Name, y, z)
			}
		}
	}
}

func TestController(t *testing.T) {
	c := NewController(ESDIRK4())
	if ok, h := c.Next(1, 16); ok || h >= 1 || h < 0.2 {
		t.Errorf("an error of 16: ok %v, next %g", ok, h)
	}
	if ok, h := c.Next(0.5, 1e-3); !ok || h != 0.5 {
		t.Errorf("after a refusal: ok %v, next %g, want no growth", ok, h)
	}
	if ok, h := c.Next(0.5, 1e-3); !ok || h <= 0.5 || h > 2.5 {
		t.Errorf("a small error: ok %v, next %g", ok, h)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		if ok, h := c.Next(1, bad); ok || !(h > 0 && h < 1) {
			t.Errorf("error %g: ok %v, next %g", bad, ok, h)
		}
	}
}

func TestTridiagonal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		num := rapid.Float64Range(-1, 1)
		lower, diag, upper := make([]float64, n), make([]float64, n), make([]float64, n)
		rhs := make([]float64, n)
		for i := range n {
			lower[i], upper[i], rhs[i] = num.Draw(t, "l"), num.Draw(t, "u"), num.Draw(t, "r")
			diag[i] = 2.5 + num.Draw(t, "d")
		}
		edge := num.Draw(t, "edge")
		x := append([]float64(nil), rhs...)
		Tridiagonal(lower, append([]float64(nil), diag...), upper, x)
		y, z := append([]float64(nil), rhs...), make([]float64, n)
		Bordered(lower, append([]float64(nil), diag...), upper, y, z, edge)
		times := func(x []float64, i int) float64 {
			s := diag[i] * x[i]
			if i > 0 {
				s += lower[i] * x[i-1]
			}
			if i < n-1 {
				s += upper[i] * x[i+1]
			}
			return s
		}
		for i := range n {
			e := 0.0
			if i == 0 {
				e = edge
			}
			if math.Abs(times(x, i)-rhs[i]) > 1e-12 || math.Abs(times(y, i)-rhs[i]) > 1e-12 || math.Abs(times(z, i)-e) > 1e-12 {
				t.Fatalf("row %d: %g %g %g, want %g %g %g", i, times(x, i), times(y, i), times(z, i), rhs[i], rhs[i], e)
			}
		}
	})
}
