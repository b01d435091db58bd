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
	x, y, g []float64
	K, G    *Band     // whose counts are kept
	seen    []counted // of K and G
}

// counted is how many critical loads lie between 0 and a load.
type counted struct {
	load float64
	many int
}

// NewPencil returns the workspace for matrices of n rows and half bandwidth b.
func NewPencil(n, b int) *Pencil { return newPencil(NewFactor(n, b)) }

// NewChainPencil returns the workspace for chains, as [NewChain] has them.
func NewChainPencil(nodes, per int) *Pencil { return newPencil(NewChain(nodes, per)) }

func newPencil(f *Factor) *Pencil {
	return &Pencil{f: f, x: make([]float64, f.n), y: make([]float64, f.n), g: make([]float64, f.n), seen: make([]counted, 0, 64)}
}

// Keep remembers every count of K and G from here on, so that the next critical
// load of the same pair is looked for between those. K and G must not change
// before the next Keep; nil for both forgets them.
func (p *Pencil) Keep(K, G *Band) { p.K, p.G, p.seen = K, G, p.seen[:0] }

// Count returns how many critical loads lie between 0 and lambda, for a
// positive definite K.
func (p *Pencil) Count(K, G *Band, lambda float64) (int, error) {
	if K == p.K && G == p.G {
		for _, s := range p.seen {
			if s.load == lambda {
				return s.many, nil
			}
		}
	}
	return p.factor(K, G, lambda)
}

// factor decomposes K + lambda G and counts.
func (p *Pencil) factor(K, G *Band, lambda float64) (int, error) {
	k, err := p.f.DecomposeSum(K, lambda, G)
	if err == nil && K == p.K && G == p.G {
		p.seen = append(p.seen, counted{lambda, k})
	}
	return k, err
}

// known returns the highest load seen with fewer than order critical ones below
// it, 0 for none, and the lowest with order and more: many.
func (p *Pencil) known(order int) (lo, hi float64, many int) {
	hi = math.Inf(1)
	for _, s := range p.seen {
		switch {
		case s.many < order:
			lo = max(lo, s.load)
		case s.load < hi:
			hi, many = s.load, s.many
		}
	}
	return min(lo, hi), hi, many
}

// Negative returns the number of negative eigenvalues of K.
func (p *Pencil) Negative(K *Band) (int, error) { return p.f.Decompose(K) }

// Critical is the request for one critical load.
type Critical struct {
	Order int     // 1 for the lowest
	Hint  float64 // where to look first; 0 for 1
	Below float64 // give up above this; 0 for 1e12 times the hint
	Tol   float64 // relative, of the load; 0 for 1e-8
	// Start says that mode holds a shape near the wanted one and Hint a load near
	// it: both are tried before the load is enclosed.
	Start bool
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
	if K != p.K || G != p.G {
		p.Keep(K, G)
		defer p.Keep(nil, nil)
	}
	neg, err := p.Count(K, G, 0)
	if err != nil {
		return 0, err
	}
	if neg > 0 {
		return 0, fmt.Errorf("sym: critical load: %d negative pivots at zero: %w", neg, ErrIndefinite)
	}
	lo, hi, _ := p.known(c.Order)
	start := 0.0
	if c.Start = c.Start && mode != nil && lo < c.Hint && c.Hint < hi && !math.IsInf(hi, 1); c.Start {
		start = c.Hint
		copy(p.x, mode)
	} else if start, err = p.enclose(K, G, c); err != nil {
		return 0, err
	}
	lambda, err := p.sharpen(K, G, c, start)
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

// enclose counts until the wanted load stands alone between two known counts or
// those are near, and returns the middle.
func (p *Pencil) enclose(K, G *Band, c Critical) (float64, error) {
	step, hint := 1.25, c.Hint
	for {
		lo, hi, many := p.known(c.Order)
		at := 0.5 * (lo + hi)
		switch {
		case math.IsInf(hi, 1) && lo >= c.Below:
			return 0, fmt.Errorf("sym: critical load: none below %.6g: %w", c.Below, ErrNoLoad)
		case lo < hint && hint < hi: // the first look
			at = hint
		case math.IsInf(hi, 1):
			at = min(lo*step, c.Below*1.0000001)
			step *= 1.6
		case lo == 0 && hi >= 1e-12*c.Hint:
			at = hi / step
			step *= 1.6
		case hi < 1e-14*c.Hint:
			return 0, fmt.Errorf("sym: critical load: below %g: %w", hi, ErrIndefinite)
		case lo == 0:
			at = 0.1 * hi
		case hi-lo <= 0.02*hi || (many == c.Order && hi-lo <= 0.5*hi):
			return at, nil
		}
		hint = 0
		if _, err := p.Count(K, G, at); err != nil {
			return 0, err
		}
	}
}

// sharpen narrows the enclosure of the wanted load from a shift on to the
// tolerance; p.x is the mode after. With a start p.x is the mode before.
func (p *Pencil) sharpen(K, G *Band, c Critical, shift float64) (float64, error) {
	if !c.Start {
		// A start vector without symmetry, the same every time.
		s := uint64(0x9E3779B97F4A7C15)
		for i := range p.x {
			s ^= s << 13
			s ^= s >> 7
			s ^= s << 17
			p.x[i] = 0.5 + float64(s>>11)/(1<<53)
		}
	}
	G.Mul(p.x, p.g)
	best := shift
	for range 200 {
		if _, err := p.factor(K, G, shift); err != nil {
			return 0, err
		}
		prev := math.Inf(1)
		var q float64
		for range 3 { // inverse iterations with this shift
			var err error
			if q, err = p.rayleigh(G, shift); err != nil {
				return 0, err
			}
			if math.Abs(q-prev) <= 0.1*c.Tol*math.Abs(q) {
				break
			}
			prev = q
		}
		lo, hi, _ := p.known(c.Order)
		if math.Abs(q-prev) <= 0.1*c.Tol*math.Abs(q) && q >= lo*(1-c.Tol) && q <= hi*(1+c.Tol) {
			// Confirmed by counts on both sides.
			for _, side := range [2]float64{q * (1 - 4*c.Tol), q * (1 + 4*c.Tol)} {
				if lo < side && side < hi {
					if _, err := p.Count(K, G, side); err != nil {
						return 0, err
					}
				}
			}
			if lo, hi, _ = p.known(c.Order); lo >= q*(1-5*c.Tol) && hi <= q*(1+5*c.Tol) {
				return q, nil
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

// rayleigh makes one inverse iteration of p.x with the decomposition at a shift
// and returns the Rayleigh quotient -xᵀKx/xᵀGx: with (K + s G) y = g it is
// s - xᵀg/(|y| xᵀGx), x = y/|y|.
func (p *Pencil) rayleigh(G *Band, shift float64) (float64, error) {
	copy(p.y, p.g)
	p.f.Solve(p.y)
	norm := 0.0
	for _, v := range p.y {
		norm = max(norm, math.Abs(v))
	}
	if !(norm > 0) || math.IsInf(norm, 0) {
		return 0, fmt.Errorf("sym: critical load near %g: %w", shift, ErrNotFinite)
	}
	top, below := 0.0, 0.0
	for i, v := range p.y {
		p.x[i] = v / norm
		top += p.x[i] * p.g[i]
	}
	G.Mul(p.x, p.g)
	for i, v := range p.x {
		below += v * p.g[i]
	}
	return shift - top/(norm*below), nil
}
