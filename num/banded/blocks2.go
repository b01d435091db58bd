package banded

import (
	"fmt"
	"math"
)

// Mat2 is a 2 by 2 block by rows: a b / c d.
type Mat2 [4]float64

// Blocks2 is a block-tridiagonal matrix: row i is Lower[i], Diag[i], Upper[i]
// on the unknowns i-1, i, i+1. Lower[0] and Upper[n-1] are not read.
type Blocks2 struct {
	Lower, Diag, Upper []Mat2

	inv []Mat2 // inverses of the pivots
	mul []Mat2 // inv[i] Upper[i]
}

// NewBlocks2 returns a zero matrix of n block rows, n >= 1.
func NewBlocks2(n int) *Blocks2 {
	if n < 1 {
		panic(fmt.Sprintf("banded: %d rows", n))
	}
	all := make([]Mat2, 5*n)
	return &Blocks2{all[:n:n], all[n : 2*n : 2*n], all[2*n : 3*n : 3*n], all[3*n : 4*n : 4*n], all[4*n:]}
}

// Clear sets every block to zero.
func (m *Blocks2) Clear() {
	clear(m.Lower)
	clear(m.Diag)
	clear(m.Upper)
}

// Factor eliminates downwards. It reports the row whose pivot is singular or
// not finite.
func (m *Blocks2) Factor() error {
	var p Mat2
	for i := range m.Diag {
		p = m.Diag[i]
		if i > 0 {
			l, u := &m.Lower[i], &m.mul[i-1]
			p[0] -= l[0]*u[0] + l[1]*u[2]
			p[1] -= l[0]*u[1] + l[1]*u[3]
			p[2] -= l[2]*u[0] + l[3]*u[2]
			p[3] -= l[2]*u[1] + l[3]*u[3]
		}
		det := p[0]*p[3] - p[1]*p[2]
		size := math.Abs(p[0]*p[3]) + math.Abs(p[1]*p[2])
		if !(math.Abs(det) > 1e-14*size) || math.IsInf(size, 0) {
			return fmt.Errorf("banded: pivot of row %d is singular", i)
		}
		d := 1 / det
		v := Mat2{p[3] * d, -p[1] * d, -p[2] * d, p[0] * d}
		m.inv[i] = v
		if i+1 < len(m.Diag) {
			u := &m.Upper[i]
			m.mul[i] = Mat2{v[0]*u[0] + v[1]*u[2], v[0]*u[1] + v[1]*u[3], v[2]*u[0] + v[3]*u[2], v[2]*u[1] + v[3]*u[3]}
		}
	}
	return nil
}

// Solve replaces b by the solution; Factor must have succeeded.
// len(b) == 2n.
func (m *Blocks2) Solve(b []float64) {
	n := len(m.Diag)
	for i := range n {
		x, y := b[2*i], b[2*i+1]
		if i > 0 {
			l := &m.Lower[i]
			x -= l[0]*b[2*i-2] + l[1]*b[2*i-1]
			y -= l[2]*b[2*i-2] + l[3]*b[2*i-1]
		}
		v := &m.inv[i]
		b[2*i], b[2*i+1] = v[0]*x+v[1]*y, v[2]*x+v[3]*y
	}
	for i := n - 2; i >= 0; i-- {
		u := &m.mul[i]
		b[2*i] -= u[0]*b[2*i+2] + u[1]*b[2*i+3]
		b[2*i+1] -= u[2]*b[2*i+2] + u[3]*b[2*i+3]
	}
}

// Mul puts the product of the matrix and x into y; len(x) == len(y) == 2n.
func (m *Blocks2) Mul(y, x []float64) {
	n := len(m.Diag)
	for i := range n {
		d := &m.Diag[i]
		p, q := d[0]*x[2*i]+d[1]*x[2*i+1], d[2]*x[2*i]+d[3]*x[2*i+1]
		if i > 0 {
			l := &m.Lower[i]
			p += l[0]*x[2*i-2] + l[1]*x[2*i-1]
			q += l[2]*x[2*i-2] + l[3]*x[2*i-1]
		}
		if i+1 < n {
			u := &m.Upper[i]
			p += u[0]*x[2*i+2] + u[1]*x[2*i+3]
			q += u[2]*x[2*i+2] + u[3]*x[2*i+3]
		}
		y[2*i], y[2*i+1] = p, q
	}
}
