package sym

import (
	"errors"
	"fmt"
	"math"
)

// What can go wrong in a search for critical loads.
var (
	ErrIndefinite = errors.New("unstable before any load")
	ErrNoLoad     = errors.New("no critical load in the range")
)

// Pencil finds the lowest positive λ for which K + λ G is singular.
type Pencil struct {
	f       *Factor
	a       *Band
	x, y, g []float64
}

// NewPencil returns the workspace for matrices of n rows and half bandwidth b.
func NewPencil(n, b int) *Pencil {
	return &Pencil{f: NewFactor(n, b), a: NewBand(n, b), x: make([]float64, n), y: make([]float64, n), g: make([]float64, n)}
}

// Count returns how many critical loads lie between 0 and lambda, for a
// positive definite K.
func (p *Pencil) Count(K, G *Band, lambda float64) (int, error) {
	p.a.Combine(K, lambda, G)
	return p.f.Decompose(p.a)
}

// Negative returns the number of negative eigenvalues of K.
func (p *Pencil) Negative(K *Band) (int, error) { return p.f.Decompose(K) }

// Critical is the request for one critical load.
type Critical struct {
	Order int     // 1 for the lowest
	Hint  float64 // where to look first; 0 for 1
	Below float64 // give up above this; 0 for 1e12 times the hint
	Tol   float64 // relative, of the load; 0 for 1e-8
}

// Find returns the critical load of the wanted order and writes its mode to
// mode (length n, largest entry 1) unless it is nil.
//
// The load is enclosed by counts of negative pivots; inverse iteration with
// the Rayleigh quotient sharpens it, and every new value is used only inside
// the bracket. Fails with ErrIndefinite when K itself has a negative pivot and
// with ErrNoLoad when no load below the limit is critical.
func (p *Pencil) Find(K, G *Band, c Critical, mode []float64) (float64, error) {
	if c.Order < 1 {
		c.Order = 1
	}
	if !(c.Hint > 0) {
		c.Hint = 1
	}
	if !(c.Below > 0) {
		c.Below = 1e12 * c.Hint
	}
	if !(c.Tol > 0) {
		c.Tol = 1e-8
	}
	neg, err := p.f.Decompose(K)
	if err != nil {
		return 0, err
	}
	if neg > 0 {
		return 0, fmt.Errorf("sym: critical load: %d negative pivots at zero: %w", neg, ErrIndefinite)
	}
	lo, hi, many, err := p.bracket(K, G, c)
	if err != nil {
		return 0, err
	}
	// Bisect until the bracket holds one load or is narrow, then sharpen.
	for hi-lo > 0.02*hi && (many != c.Order || lo == 0 || hi-lo > 0.5*hi) {
		mid := 0.5 * (lo + hi)
		if lo == 0 {
			mid = 0.1 * hi
		}
		k, err := p.Count(K, G, mid)
		if err != nil {
			return 0, err
		}
		if k >= c.Order {
			hi, many = mid, k
		} else {
			lo = mid
		}
		if hi < 1e-14*c.Hint {
			return 0, fmt.Errorf("sym: critical load: below %g: %w", hi, ErrIndefinite)
		}
	}
	lambda, err := p.sharpen(K, G, c, lo, hi)
	if err != nil {
		return 0, err
	}
	if mode != nil {
		top := 0.0
		for _, v := range p.x {
			if math.Abs(v) > math.Abs(top) {
				top = v
			}
		}
		for i, v := range p.x {
			mode[i] = v / top
		}
	}
	return lambda, nil
}

// bracket returns lo and hi with fewer than Order loads below lo and at least
// Order below hi: many.
func (p *Pencil) bracket(K, G *Band, c Critical) (lo, hi float64, many int, err error) {
	k, err := p.Count(K, G, c.Hint)
	if err != nil {
		return 0, 0, 0, err
	}
	if k >= c.Order {
		hi, many = c.Hint, k
		for step := 1.25; ; step *= 1.6 {
			lo = hi / step
			if lo < 1e-12*c.Hint {
				return 0, hi, many, nil
			}
			if k, err = p.Count(K, G, lo); err != nil {
				return 0, 0, 0, err
			}
			if k < c.Order {
				return lo, hi, many, nil
			}
			hi, many = lo, k
		}
	}
	lo = c.Hint
	for step := 1.25; lo < c.Below; step *= 1.6 {
		hi = math.Min(lo*step, c.Below*1.0000001)
		if k, err = p.Count(K, G, hi); err != nil {
			return 0, 0, 0, err
		}
		if k >= c.Order {
			return lo, hi, k, nil
		}
		lo = hi
	}
	return 0, 0, 0, fmt.Errorf("sym: critical load: none below %.6g: %w", c.Below, ErrNoLoad)
}

// sharpen narrows lo..hi to the wanted tolerance; p.x is the mode after.
func (p *Pencil) sharpen(K, G *Band, c Critical, lo, hi float64) (float64, error) {
	// A start vector without symmetry, the same every time.
	s := uint64(0x9E3779B97F4A7C15)
	for i := range p.x {
		s ^= s << 13
		s ^= s >> 7
		s ^= s << 17
		p.x[i] = 0.5 + float64(s>>11)/(1<<53)
	}
	G.Mul(p.x, p.g)
	shift := 0.5 * (lo + hi)
	best := shift
	for range 200 {
		k, err := p.Count(K, G, shift)
		if err != nil {
			return 0, err
		}
		if k >= c.Order {
			hi = math.Min(hi, shift)
		} else {
			lo = math.Max(lo, shift)
		}
		prev := math.Inf(1)
		var q float64
		for range 3 { // inverse iterations with this shift
			copy(p.y, p.g)
			p.f.Solve(p.y)
			norm := 0.0
			for _, v := range p.y {
				norm = math.Max(norm, math.Abs(v))
			}
			if !(norm > 0) || math.IsInf(norm, 0) {
				return 0, fmt.Errorf("sym: critical load near %g: %w", shift, ErrNotFinite)
			}
			// The Rayleigh quotient -xᵀKx/xᵀGx, with (K + s G) y = g:
			// s - xᵀg/(|y| xᵀGx), x = y/|y|.
			top, below := 0.0, 0.0
			for i, v := range p.y {
				p.x[i] = v / norm
				top += p.x[i] * p.g[i]
			}
			G.Mul(p.x, p.g)
			for i, v := range p.x {
				below += v * p.g[i]
			}
			q = shift - top/(norm*below)
			if math.Abs(q-prev) <= 0.1*c.Tol*math.Abs(q) {
				break
			}
			prev = q
		}
		if math.Abs(q-prev) <= 0.1*c.Tol*math.Abs(q) && q >= lo*(1-c.Tol) && q <= hi*(1+c.Tol) {
			// Confirm by counts on both sides.
			below, err := p.Count(K, G, q*(1-4*c.Tol))
			if err != nil {
				return 0, err
			}
			above, err := p.Count(K, G, q*(1+4*c.Tol))
			if err != nil {
				return 0, err
			}
			if below < c.Order && above >= c.Order {
				return q, nil
			}
			if below >= c.Order {
				hi = math.Min(hi, q*(1-4*c.Tol))
			} else {
				lo = math.Max(lo, q*(1+4*c.Tol))
			}
		}
		best = 0.5 * (lo + hi)
		if hi-lo <= c.Tol*hi {
			return best, nil
		}
		if q > lo && q < hi && math.Abs(q-shift) > 1e-3*(hi-lo) {
			shift = q
		} else {
			shift = best
		}
	}
	return best, nil
}
