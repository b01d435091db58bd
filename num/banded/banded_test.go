package banded

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestBlocks2(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "n")
		num := rapid.Float64Range(-1, 1)
		m := NewBlocks2(n)
		x := make([]float64, 2*n)
		for i := range n {
			for k := range 4 {
				m.Lower[i][k], m.Diag[i][k], m.Upper[i][k] = num.Draw(t, "l"), num.Draw(t, "d"), num.Draw(t, "u")
			}
			m.Diag[i][0] += 6
			m.Diag[i][3] -= 6 // indefinite on purpose
			x[2*i], x[2*i+1] = num.Draw(t, "x"), num.Draw(t, "y")
		}
		b := make([]float64, 2*n)
		m.Mul(b, x)
		if err := m.Factor(); err != nil {
			t.Fatal(err)
		}
		m.Solve(b)
		for i := range x {
			if math.Abs(b[i]-x[i]) > 1e-12 {
				t.Fatalf("unknown %d: %g, want %g", i, b[i], x[i])
			}
		}
	})
}

func TestBlocks2Singular(t *testing.T) {
	m := NewBlocks2(2)
	m.Diag[0] = Mat2{1, 2, 2, 4}
	m.Diag[1] = Mat2{1, 0, 0, 1}
	if m.Factor() == nil {
		t.Error("a singular pivot passed")
	}
	m.Diag[0] = Mat2{math.NaN(), 0, 0, 1}
	if m.Factor() == nil {
		t.Error("NaN passed")
	}
}

func TestLine(t *testing.T) {
	// -x'' = 2 on 4 inner points of a unit step: x = i (5 - i)
	lower, upper := []float64{0, -1, -1, -1}, []float64{-1, -1, -1, 0}
	diag, rhs := []float64{2, 2, 2, 2}, []float64{2, 2, 2, 2}
	Line(lower, diag, upper, rhs)
	for i, v := range rhs {
		if want := float64((i + 1) * (4 - i)); math.Abs(v-want) > 1e-12 {
			t.Errorf("x[%d] = %g, want %g", i, v, want)
		}
	}
}

func TestNoAllocation(t *testing.T) {
	m := NewBlocks2(60)
	b := make([]float64, 120)
	if n := testing.AllocsPerRun(20, func() {
		m.Clear()
		for i := range m.Diag {
			m.Diag[i] = Mat2{2, 0, 0, 2}
			b[2*i] = 1
		}
		if err := m.Factor(); err != nil {
			t.Fatal(err)
		}
		m.Solve(b)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
