package sym

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// chain returns a matrix of nodes that know their neighbours alone.
func chain(nodes, per int, entry func(diagonal bool) float64) *Band {
	m := NewBand(nodes*per, 2*per-1)
	for i := range nodes * per {
		for j := max(0, i/per-1) * per; j <= i; j++ {
			m.Add(i, j, entry(i == j))
		}
	}
	return m
}

// A chain factors as the band that holds it, definite or not: the same count, the
// same solution, the same pivots.
func TestChainIsItsBand(t *testing.T) {
	for _, per := range []int{3, 5} {
		t.Run(fmt.Sprint(per), rapid.MakeCheck(func(t *rapid.T) {
			nodes := rapid.IntRange(1, 6).Draw(t, "nodes")
			shift := rapid.SampledFrom([]float64{0, 3, 20}).Draw(t, "shift")
			entry := func(diagonal bool) float64 {
				x := rapid.Float64Range(-1, 1).Draw(t, "entry")
				if diagonal {
					x += shift
				}
				return x
			}
			K, G := chain(nodes, per, entry), chain(nodes, per, entry)
			s := rapid.Float64Range(-1, 1).Draw(t, "s")
			n := nodes * per
			band, f := NewFactor(n, 2*per-1), NewChain(nodes, per)
			want, err := band.DecomposeSum(K, s, G)
			if err != nil {
				t.Fatal(err)
			}
			for i := range n {
				if p := math.Abs(band.Pivot(i)); p < 1e-3 || p > 1e3 {
					t.Skip("nearly singular")
				}
			}
			check := func(got int, err error) {
				if err != nil || got != want || f.Negative() != want {
					t.Fatalf("%d negative pivots, want %d: %v", got, want, err)
				}
				x, y := make([]float64, n), make([]float64, n)
				for i := range n {
					if p, q := f.Pivot(i), band.Pivot(i); math.Abs(p-q) > 1e-6*math.Abs(q) {
						t.Fatalf("pivot %d: %g, want %g", i, p, q)
					}
					x[i] = math.Sin(float64(i + 1))
				}
				copy(y, x)
				f.Solve(x)
				band.Solve(y)
				for i := range n {
					if math.Abs(x[i]-y[i]) > 1e-6*(1+math.Abs(y[i])) {
						t.Fatalf("x[%d] = %g, want %g", i, x[i], y[i])
					}
				}
			}
			check(f.DecomposeSum(K, s, G))
			sum := NewBand(n, 2*per-1)
			sum.Combine(K, s, G)
			check(f.Decompose(sum))
		}))
	}
}

func TestChainNotFinite(t *testing.T) {
	for _, per := range []int{3, 5} {
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			m := chain(4, per, func(diagonal bool) float64 {
				if diagonal {
					return 9
				}
				return 0.5
			})
			f := NewChain(4, per)
			m.Add(2*per+1, 2*per+1, bad)
			if _, err := f.Decompose(m); !errors.Is(err, ErrNotFinite) {
				t.Errorf("%d unknowns a node, %g: %v", per, bad, err)
			}
		}
		m := NewBand(4*per, 2*per-1) // nothing at all
		if neg, err := NewChain(4, per).Decompose(m); err != nil || neg != 0 {
			t.Errorf("%d unknowns a node: a zero matrix has %d negative pivots: %v", per, neg, err)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("four unknowns a node are accepted")
		}
	}()
	NewChain(3, 4)
}

// Counts that are kept are not made again, and a start near the answer finds it.
func TestKeptCounts(t *testing.T) {
	const n = 120
	K, G := beam(n)
	load := func(k int) float64 { return 2 - 2*math.Cos(float64(k)*math.Pi/(n+1)) }
	p := NewPencil(n, 1)
	mode := make([]float64, n)
	p.Keep(K, G)
	for k := 1; k <= 5; k++ {
		got, err := p.Find(K, G, Critical{Order: k, Hint: load(max(1, k-1)), Tol: 1e-7}, mode)
		if err != nil || math.Abs(got/load(k)-1) > 1e-6 {
			t.Fatalf("order %d: %g, want %g: %v", k, got, load(k), err)
		}
	}
	before := len(p.seen)
	if c, err := p.Count(K, G, p.seen[before-1].load); err != nil || c != p.seen[before-1].many || len(p.seen) != before {
		t.Errorf("a count known is %d, want %d: %v, %d counts kept, %d before", c, p.seen[before-1].many, err, len(p.seen), before)
	}
	// From a start, at another pair.
	p.Keep(nil, nil)
	p.Keep(K, G)
	if _, err := p.Count(K, G, load(4)); err != nil {
		t.Fatal(err)
	}
	for i := range mode {
		mode[i] = math.Sin(math.Pi*float64(i+1)/(n+1)) + 0.1*math.Cos(float64(i))
	}
	made := len(p.seen)
	got, err := p.Find(K, G, Critical{Hint: 1.05 * load(1), Tol: 1e-6, Start: true}, mode)
	if err != nil || math.Abs(got/load(1)-1) > 1e-5 {
		t.Errorf("from a start: %g, want %g: %v", got, load(1), err)
	}
	if made = len(p.seen) - made; made > 6 {
		t.Errorf("from a start within 5 %%: %d counts", made)
	}
	// A start near another load does not mislead.
	for i := range mode {
		mode[i] = math.Sin(3 * math.Pi * float64(i+1) / (n + 1))
	}
	got, err = p.Find(K, G, Critical{Hint: 0.999 * load(3), Tol: 1e-6, Start: true}, mode)
	if err != nil || math.Abs(got/load(1)-1) > 1e-5 {
		t.Errorf("from a start at the third: %g, want %g: %v", got, load(1), err)
	}
}
