package sym

import (
	"errors"
	"fmt"
	"math"
)

// ErrNoConvergence is returned when an increment does not settle.
var ErrNoConvergence = errors.New("no convergence")

// System is an equilibrium r(u, λ) = 0 with a symmetric banded tangent.
type System interface {
	// Assemble forms at (u, lambda) the residual r (outer minus inner forces),
	// its derivative q by lambda and the tangent K = -∂r/∂u; held unknowns have
	// r = q = 0 and an identity row in K.
	Assemble(u []float64, lambda float64, r, q []float64, K *Band) error
}

// ArcLength follows a path of equilibria through limit points in load and in
// displacement (cylindrical arc of Crisfield: the length is measured in u,
// with a weight for each unknown).
type ArcLength struct {
	Radius   float64   // length of the next step, adapted
	Min, Max float64   // limits of Radius
	Weight   []float64 // of each unknown in the length; 1 by default
	Want     int       // iterations the radius aims at; 5 by default
	Most     int       // iterations allowed; 20 by default
	Tol      float64   // weighted length of the last correction over the radius; 1e-7 by default
	Backward bool      // first step towards smaller lambda

	f              *Factor
	K              *Band
	r, q           []float64
	uq, ur, du, at []float64
	last           []float64
	moved          bool
}

// NewArcLength returns the workspace for n unknowns and half bandwidth b.
func NewArcLength(n, b int) *ArcLength {
	v := make([]float64, 8*n)
	next := func() []float64 { x := v[:n:n]; v = v[n:]; return x }
	a := &ArcLength{
		Radius: 1, Min: 1e-9, Max: math.Inf(1), Want: 5, Most: 20, Tol: 1e-7,
		f: NewFactor(n, b), K: NewBand(n, b),
		r: next(), q: next(), uq: next(), ur: next(), du: next(), at: next(), last: next(), Weight: next(),
	}
	for i := range a.Weight {
		a.Weight[i] = 1
	}
	return a
}

// Reset forgets the direction of the last step.
func (a *ArcLength) Reset() { a.moved = false }

func (a *ArcLength) dot(x, y []float64) float64 {
	s := 0.0
	for i, w := range a.Weight {
		s += w * x[i] * y[i]
	}
	return s
}

// Step moves (u, lambda) along the path by about Radius and returns the new
// lambda and the number of negative pivots of the tangent there. u is changed
// only on success. A step that does not settle is tried again with half the
// radius, down to Min.
func (a *ArcLength) Step(sys System, u []float64, lambda float64) (float64, int, error) {
	var reason error
	for a.Radius >= a.Min {
		next, neg, it, err := a.try(sys, u, lambda)
		if err == nil {
			copy(u, a.at)
			copy(a.last, a.du)
			a.moved = true
			grow := math.Sqrt(float64(a.Want) / float64(max(1, it)))
			a.Radius = math.Min(a.Max, a.Radius*math.Min(2, math.Max(0.5, grow)))
			return next, neg, nil
		}
		reason = err
		a.Radius *= 0.5
	}
	a.Radius = a.Min
	return lambda, 0, fmt.Errorf("sym: arc: at load factor %.6g, step down to %.3g: %w", lambda, a.Min, errors.Join(ErrNoConvergence, reason))
}

func (a *ArcLength) try(sys System, u []float64, lambda float64) (float64, int, int, error) {
	copy(a.at, u)
	clear(a.du)
	load, neg := lambda, 0
	for it := 0; it <= a.Most; it++ {
		if err := sys.Assemble(a.at, load, a.r, a.q, a.K); err != nil {
			return 0, 0, it, err
		}
		var err error
		if neg, err = a.f.Decompose(a.K); err != nil {
			return 0, 0, it, err
		}
		copy(a.uq, a.q)
		a.f.Solve(a.uq)
		copy(a.ur, a.r)
		a.f.Solve(a.ur)
		if it == 0 {
			d := a.Radius / math.Sqrt(a.dot(a.uq, a.uq))
			if math.IsNaN(d) || math.IsInf(d, 0) {
				return 0, 0, it, ErrNotFinite
			}
			forward := !a.Backward
			if a.moved {
				forward = a.dot(a.uq, a.last) > 0
			}
			if !forward {
				d = -d
			}
			load += d
			for i, v := range a.uq {
				a.du[i] = d * v
				a.at[i] = u[i] + a.du[i]
			}
			continue
		}
		// |du + ur + d uq| = radius; of the two roots the one that turns less.
		c2 := a.dot(a.uq, a.uq)
		s, sr := a.dot(a.du, a.uq)+a.dot(a.ur, a.uq), a.dot(a.du, a.ur)
		c0 := a.dot(a.du, a.du) + 2*sr + a.dot(a.ur, a.ur) - a.Radius*a.Radius
		disc := s*s - c2*c0
		if !(disc >= 0) {
			return 0, 0, it, errors.New("the arc misses the path")
		}
		root := math.Sqrt(disc)
		d1, d2 := (-s+root)/c2, (-s-root)/c2
		d := d2
		along := a.dot(a.du, a.uq)
		if d1*along > d2*along {
			d = d1
		}
		load += d
		size := 0.0
		for i := range a.du {
			step := a.ur[i] + d*a.uq[i]
			size += a.Weight[i] * step * step
			a.du[i] += step
			a.at[i] = u[i] + a.du[i]
		}
		if math.IsNaN(size) || math.IsInf(size, 0) {
			return 0, 0, it, ErrNotFinite
		}
		if math.Sqrt(size) <= a.Tol*a.Radius {
			return load, neg, it, nil
		}
	}
	return 0, 0, a.Most, errors.New("too many iterations")
}
