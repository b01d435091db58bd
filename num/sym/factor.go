package sym

import (
	"errors"
	"fmt"
	"math"
)

// ErrNotFinite is returned when a matrix holds NaN or Inf.
var ErrNotFinite = errors.New("matrix is not finite")

// Factor is the decomposition L D Lᵀ of a banded symmetric matrix, without
// pivoting. For a definite matrix that is stable; for an indefinite one the
// growth of the factors is not bounded, which near a singular point costs
// digits of the solution but, in practice, not the count of negative pivots.
type Factor struct {
	n, b int
	l    []float64 // unit lower rows, as in Band; the diagonal place holds 1/D
	row  []float64
	neg  int
	per  int   // unknowns a node of a chain; 0 for a band
	sum  *Band // workspace of DecomposeSum
}

// NewFactor returns the workspace for matrices of n rows and half bandwidth b.
func NewFactor(n, b int) *Factor {
	return &Factor{n: n, b: b, l: make([]float64, n*(b+1)), row: make([]float64, b+1)}
}

// Decompose factors m and returns the number of negative pivots, which is the
// number of negative eigenvalues. A pivot that vanishes is replaced
// by a tiny positive one.
func (f *Factor) Decompose(m *Band) (negative int, err error) {
	if m.n != f.n || m.b != f.b {
		panic("sym: factor of a different shape")
	}
	if f.per > 0 {
		return f.DecomposeSum(m, 0, m)
	}
	b, w := f.b, f.b+1
	neg := 0
	u := f.row
	least := 1e-300
	for _, v := range m.a {
		if v > least {
			least = v
		} else if -v > least {
			least = -v
		}
	}
	least *= 1e-4
	for i := range f.n {
		lo := max(0, i-b)
		src := m.a[i*w : (i+1)*w]
		dst := f.l[i*w : (i+1)*w]
		off := b - i // column j stands at j+off
		d := src[b]
		scale := max(math.Abs(d), least)
		j := lo
		if i >= b {
			// Three columns at a time: their sums do not wait for one another.
			for ; j+3 <= i; j += 3 {
				m := j - lo
				at := j*w + b - m // place (j, lo); the next rows are w-1 further
				l0, l1, l2 := f.l[at:at+m], f.l[at+w-1:at+w+m], f.l[at+2*w-2:at+2*w+m]
				s0, s1, s2 := src[m], src[m+1], src[m+2]
				for k, x := range u[:len(l0)] {
					s0 -= l0[k] * x
					s1 -= l1[k] * x
					s2 -= l2[k] * x
				}
				s1 -= l1[m] * s0
				s2 -= l2[m]*s0 + l2[m+1]*s1
				u[m], u[m+1], u[m+2] = s0, s1, s2
				x0, x1, x2 := s0*f.l[j*w+b], s1*f.l[j*w+w+b], s2*f.l[j*w+2*w+b]
				dst[m], dst[m+1], dst[m+2] = x0, x1, x2
				d -= s0*x0 + s1*x1 + s2*x2
			}
		}
		for ; j < i; j++ {
			jo := max(lo, j-b)
			s := src[j+off]
			lj := f.l[j*w+b-j+jo : j*w+b]
			uj := u[jo-lo : jo-lo+len(lj)]
			for k, x := range lj {
				s -= x * uj[k]
			}
			u[j-lo] = s // L(i,j) D(j)
			x := s * f.l[j*w+b]
			dst[j+off] = x
			d -= s * x
		}
		if math.IsNaN(d) || math.IsInf(d, 0) {
			f.neg = -1
			return 0, fmt.Errorf("sym: factor: row %d: %w", i, ErrNotFinite)
		}
		if math.Abs(d) <= 1e-16*scale || d == 0 {
			d = 1e-16*scale + 1e-300
		}
		if d < 0 {
			neg++
		}
		dst[b] = 1 / d
	}
	f.neg = neg
	return neg, nil
}

// Negative returns the number of negative pivots of the last decomposition.
func (f *Factor) Negative() int { return f.neg }

// Solve replaces x by the solution of L D Lᵀ y = x.
func (f *Factor) Solve(x []float64) {
	switch f.per {
	case 5:
		f.solveFive(x)
		return
	case 3:
		f.solveThree(x)
		return
	}
	b, w := f.b, f.b+1
	for i := range f.n {
		lo := max(0, i-b)
		row := f.l[i*w+lo-i+b : i*w+b]
		xs := x[lo:i]
		s := x[i]
		for k, v := range row {
			s -= v * xs[k]
		}
		x[i] = s
	}
	for i := f.n - 1; i >= 0; i-- {
		s := x[i] * f.l[i*w+b]
		x[i] = s
	}
	for i := f.n - 1; i >= 0; i-- {
		lo := max(0, i-b)
		row := f.l[i*w+lo-i+b : i*w+b]
		xs := x[lo:i]
		xi := x[i]
		for k, v := range row {
			xs[k] -= v * xi
		}
	}
}

// Pivot returns the i-th pivot D(i).
func (f *Factor) Pivot(i int) float64 { return 1 / f.l[i*(f.b+1)+f.b] }
