package sym

import (
	"fmt"
	"math"
)

// NewChain returns the workspace for a chain of nodes with per unknowns each,
// 3 or 5, where a node is coupled to its two neighbours alone. The matrices have
// per x nodes rows and half bandwidth 2 per - 1; entries beyond the neighbour are
// not read. It does by blocks what the factor of a band does by rows, in a third
// of the time.
func NewChain(nodes, per int) *Factor {
	if per != 3 && per != 5 {
		panic("sym: a chain has 3 or 5 unknowns a node")
	}
	f := NewFactor(nodes*per, 2*per-1)
	f.per = per
	return f
}

// DecomposeSum factors K + s G as Decompose does, without forming the sum.
func (f *Factor) DecomposeSum(K *Band, s float64, G *Band) (negative int, err error) {
	if K.n != f.n || K.b != f.b || G.n != f.n || G.b != f.b {
		panic("sym: factor of a different shape")
	}
	switch f.per {
	case 5:
		return f.finish(f.five(K.a, s, G.a))
	case 3:
		return f.finish(f.three(K.a, s, G.a))
	}
	if f.sum == nil {
		f.sum = NewBand(f.n, f.b)
	}
	f.sum.Combine(K, s, G)
	return f.Decompose(f.sum)
}

// finish notes what a decomposition came to: its negative pivots, or a row that is
// not finite.
func (f *Factor) finish(neg, row int) (int, error) {
	if f.neg = neg; row >= 0 {
		f.neg = -1
		return 0, fmt.Errorf("sym: factor: row %d: %w", row, ErrNotFinite)
	}
	return neg, nil
}

// pivot returns 1/D of what is left of a diagonal entry of size a.
func pivot(d, a, least float64) float64 {
	if scale := 1e-16 * max(a, least); math.Abs(d) <= scale || d == 0 {
		d = scale + 1e-300
	}
	return 1 / d
}

// five decomposes K + s G for five unknowns a node. It returns the number of
// negative pivots and the first row that is not finite, else -1.
func (f *Factor) five(K []float64, s float64, G []float64) (neg, bad int) {
	const w = 10
	var below [5][5]float64 // unit lower triangle of the node before
	var inv [5]float64      // 1/D of the node before
	var x, c [5][5]float64
	var a [5]float64 // diagonal of the matrix
	least := 0.0
	G = G[:len(K)]
	L := f.l[:len(K)]
	for i := 0; i < f.n; i += 5 {
		// Rows of L towards the node before, x, and what is left of this one, c.
		for r := range 5 {
			at := (i+r)*w + 4 - r
			k, g, l := (*[w]float64)(K[at:]), (*[w]float64)(G[at:]), (*[w]float64)(L[at:])
			u0 := k[0] + s*g[0]
			u1 := k[1] + s*g[1] - below[1][0]*u0
			u2 := k[2] + s*g[2] - below[2][0]*u0 - below[2][1]*u1
			u3 := k[3] + s*g[3] - below[3][0]*u0 - below[3][1]*u1 - below[3][2]*u2
			u4 := k[4] + s*g[4] - below[4][0]*u0 - below[4][1]*u1 - below[4][2]*u2 - below[4][3]*u3
			x0, x1, x2, x3, x4 := u0*inv[0], u1*inv[1], u2*inv[2], u3*inv[3], u4*inv[4]
			x[r] = [5]float64{x0, x1, x2, x3, x4}
			l[0], l[1], l[2], l[3], l[4] = x0, x1, x2, x3, x4
			for q := range r + 1 {
				y := &x[q]
				c[r][q] = k[5+q] + s*g[5+q] - (u0*y[0] + u1*y[1] + u2*y[2] + u3*y[3] + u4*y[4])
			}
			a[r] = math.Abs(k[5+r] + s*g[5+r])
			least = max(least, 1e-4*a[r])
		}
		// The node itself: its triangle l, 1/D in p.
		p0 := pivot(c[0][0], a[0], least)
		l10, l20, l30, l40 := c[1][0]*p0, c[2][0]*p0, c[3][0]*p0, c[4][0]*p0
		p1 := pivot(c[1][1]-l10*c[1][0], a[1], least)
		t21, t31, t41 := c[2][1]-l20*c[1][0], c[3][1]-l30*c[1][0], c[4][1]-l40*c[1][0]
		l21, l31, l41 := t21*p1, t31*p1, t41*p1
		p2 := pivot(c[2][2]-l20*c[2][0]-l21*t21, a[2], least)
		t32, t42 := c[3][2]-l30*c[2][0]-l31*t21, c[4][2]-l40*c[2][0]-l41*t21
		l32, l42 := t32*p2, t42*p2
		p3 := pivot(c[3][3]-l30*c[3][0]-l31*t31-l32*t32, a[3], least)
		t43 := c[4][3] - l40*c[3][0] - l41*t31 - l42*t32
		l43 := t43 * p3
		p4 := pivot(c[4][4]-l40*c[4][0]-l41*t41-l42*t42-l43*t43, a[4], least)
		below[1] = [5]float64{l10}
		below[2] = [5]float64{l20, l21}
		below[3] = [5]float64{l30, l31, l32}
		below[4] = [5]float64{l40, l41, l42, l43}
		inv = [5]float64{p0, p1, p2, p3, p4}
		for r, p := range inv {
			if p-p != 0 || p == 0 {
				return 0, i + r
			}
			if p < 0 {
				neg++
			}
			l := (*[w]float64)(L[(i+r)*w+4-r:])
			copy(l[5:], below[r][:r])
			l[5+r] = p
		}
	}
	return neg, -1
}

// three is five for three unknowns a node.
func (f *Factor) three(K []float64, s float64, G []float64) (neg, bad int) {
	const w = 6
	var below [3][3]float64
	var inv [3]float64
	var x, c [3][3]float64
	var a [3]float64
	least := 0.0
	G = G[:len(K)]
	L := f.l[:len(K)]
	for i := 0; i < f.n; i += 3 {
		for r := range 3 {
			at := (i+r)*w + 2 - r
			k, g, l := (*[w]float64)(K[at:]), (*[w]float64)(G[at:]), (*[w]float64)(L[at:])
			u0 := k[0] + s*g[0]
			u1 := k[1] + s*g[1] - below[1][0]*u0
			u2 := k[2] + s*g[2] - below[2][0]*u0 - below[2][1]*u1
			x0, x1, x2 := u0*inv[0], u1*inv[1], u2*inv[2]
			x[r] = [3]float64{x0, x1, x2}
			l[0], l[1], l[2] = x0, x1, x2
			for q := range r + 1 {
				y := &x[q]
				c[r][q] = k[3+q] + s*g[3+q] - (u0*y[0] + u1*y[1] + u2*y[2])
			}
			a[r] = math.Abs(k[3+r] + s*g[3+r])
			least = max(least, 1e-4*a[r])
		}
		p0 := pivot(c[0][0], a[0], least)
		l10, l20 := c[1][0]*p0, c[2][0]*p0
		p1 := pivot(c[1][1]-l10*c[1][0], a[1], least)
		t21 := c[2][1] - l20*c[1][0]
		l21 := t21 * p1
		p2 := pivot(c[2][2]-l20*c[2][0]-l21*t21, a[2], least)
		below[1] = [3]float64{l10}
		below[2] = [3]float64{l20, l21}
		inv = [3]float64{p0, p1, p2}
		for r, p := range inv {
			if p-p != 0 || p == 0 {
				return 0, i + r
			}
			if p < 0 {
				neg++
			}
			l := (*[w]float64)(L[(i+r)*w+2-r:])
			copy(l[3:], below[r][:r])
			l[3+r] = p
		}
	}
	return neg, -1
}

// solveFive is Solve for five unknowns a node.
func (f *Factor) solveFive(x []float64) {
	const w = 10
	L := f.l
	var y0, y1, y2, y3, y4 float64 // of the node before
	for i := 0; i < f.n; i += 5 {
		v := (*[5]float64)(x[i:])
		l := (*[5 * w]float64)(L[i*w:])
		rest := func(r int) float64 {
			k := (w-1)*r + 4
			return v[r] - (l[k]*y0 + l[k+1]*y1 + l[k+2]*y2 + l[k+3]*y3 + l[k+4]*y4)
		}
		z0, z1, z2, z3, z4 := rest(0), rest(1), rest(2), rest(3), rest(4)
		z1 -= l[w+8] * z0
		z2 -= l[2*w+7]*z0 + l[2*w+8]*z1
		z3 -= l[3*w+6]*z0 + l[3*w+7]*z1 + l[3*w+8]*z2
		z4 -= l[4*w+5]*z0 + l[4*w+6]*z1 + l[4*w+7]*z2 + l[4*w+8]*z3
		y0, y1, y2, y3, y4 = z0, z1, z2, z3, z4
		v[0], v[1], v[2], v[3], v[4] = z0*l[9], z1*l[w+9], z2*l[2*w+9], z3*l[3*w+9], z4*l[4*w+9]
	}
	y0, y1, y2, y3, y4 = 0, 0, 0, 0, 0 // what the node after takes off
	for i := f.n - 5; i >= 0; i -= 5 {
		v := (*[5]float64)(x[i:])
		l := (*[5 * w]float64)(L[i*w:])
		z4 := v[4] - y4
		z3 := v[3] - y3 - l[4*w+8]*z4
		z2 := v[2] - y2 - l[4*w+7]*z4 - l[3*w+8]*z3
		z1 := v[1] - y1 - l[4*w+6]*z4 - l[3*w+7]*z3 - l[2*w+8]*z2
		z0 := v[0] - y0 - l[4*w+5]*z4 - l[3*w+6]*z3 - l[2*w+7]*z2 - l[w+8]*z1
		v[0], v[1], v[2], v[3], v[4] = z0, z1, z2, z3, z4
		back := func(k int) float64 {
			return l[4+k]*z0 + l[w+3+k]*z1 + l[2*w+2+k]*z2 + l[3*w+1+k]*z3 + l[4*w+k]*z4
		}
		y0, y1, y2, y3, y4 = back(0), back(1), back(2), back(3), back(4)
	}
}

// solveThree is Solve for three unknowns a node.
func (f *Factor) solveThree(x []float64) {
	const w = 6
	L := f.l
	var y0, y1, y2 float64
	for i := 0; i < f.n; i += 3 {
		v := (*[3]float64)(x[i:])
		l := (*[3 * w]float64)(L[i*w:])
		z0 := v[0] - (l[2]*y0 + l[3]*y1 + l[4]*y2)
		z1 := v[1] - (l[w+1]*y0 + l[w+2]*y1 + l[w+3]*y2) - l[w+4]*z0
		z2 := v[2] - (l[2*w]*y0 + l[2*w+1]*y1 + l[2*w+2]*y2) - l[2*w+3]*z0 - l[2*w+4]*z1
		y0, y1, y2 = z0, z1, z2
		v[0], v[1], v[2] = z0*l[5], z1*l[w+5], z2*l[2*w+5]
	}
	y0, y1, y2 = 0, 0, 0
	for i := f.n - 3; i >= 0; i -= 3 {
		v := (*[3]float64)(x[i:])
		l := (*[3 * w]float64)(L[i*w:])
		z2 := v[2] - y2
		z1 := v[1] - y1 - l[2*w+4]*z2
		z0 := v[0] - y0 - l[2*w+3]*z2 - l[w+4]*z1
		v[0], v[1], v[2] = z0, z1, z2
		y0 = l[2]*z0 + l[w+1]*z1 + l[2*w]*z2
		y1 = l[3]*z0 + l[w+2]*z1 + l[2*w+1]*z2
		y2 = l[4]*z0 + l[w+3]*z1 + l[2*w+2]*z2
	}
}
