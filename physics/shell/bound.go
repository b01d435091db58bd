package shell

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/sym"
)

// waveBound is what a knock-down leaves of a buckle in waves.
type waveBound struct {
	c                Critical
	k                Knockdown
	borne, classical float64 // [N]
}

// load returns the load left [N]: of the buckle itself and, where a corner
// brings that on early, of the plain wall at its place.
func (w *waveBound) load() (own, plain float64) {
	g := w.k.Gamma
	return w.borne + g*(w.c.Load-w.borne), w.borne + g*math.Max(w.c.Load-w.borne, w.classical)
}

// bound returns what the knock-down leaves of a buckle. What the pressure inside
// carries is not knocked down (SP-8007): a dent does not weaken the gas. A pack that stands on the middle of a
// base that hangs down has the pressure over that patch behind the load, no more.
func (in *TopLoadInput) bound(m *Model, c Critical) (waveBound, error) {
	k, err := in.knockdown(m.mesh, c.Node)
	r := m.mesh.R[c.Node] - 0.5*m.mesh.T[c.Node]
	if in.patch > 0 { // the load comes in from the plane through the middle of the base
		r = math.Min(r, in.patch)
	}
	borne := math.Min(c.Load, math.Max(0, in.Gauge)*math.Pi*r*r)
	return waveBound{c: c, k: k, borne: borne, classical: m.mesh.classical(c.Node) * m.cs.Soft}, err
}

// knockdown returns that of the input, else the axial one of a node.
func (in *TopLoadInput) knockdown(mesh *Mesh, node int) (Knockdown, error) {
	if in.Knockdown.Name != "" {
		return in.Knockdown, nil
	}
	return AxialKnockdown(math.Max(1.01, mesh.slenderness(node)))
}

// reach returns the load below which a buckle must lie to be left with less
// than own or, on the plain wall, with less than plain, wherever it sits.
//
// A buckle at load F in a place that knocks down by γ, where the pressure carries
// P and the plain wall C, is left with
//
//	min(F, P) + γ (F - min(F, P))    and    min(F, P) + γ max(F - min(F, P), C)
//
// Both rise with F, from 0 and γ C. So each place has one load at which the
// one reaches own and one at which the other reaches plain, none where γ C is no
// less than plain; the largest over all nodes is the answer.
func (in *TopLoadInput) reach(walls []waveBound, own, plain float64) float64 {
	most := 0.0
	for _, w := range walls {
		g, P := w.k.Gamma, w.borne
		f := own
		if own > P {
			f = P + (own-P)/g
		}
		switch least := g * w.classical; {
		case plain > P+least:
			f = math.Max(f, P+(plain-P)/g)
		case plain > least:
			f = math.Max(f, plain-least)
		}
		most = math.Max(most, f)
	}
	return most
}

// reserve puts the knock-down on the buckles in waves: dents bring each of them
// forward, also those beyond the path or behind the first buckle of a corner.
// The lowest load that is left counts, whichever buckle it belongs to: it goes
// without a jump where two buckles change places. Buckles off the path lie on the
// straight line from its first state through last.
//
// Of what counts nothing is missed. The load to expect takes the lowest that the
// plain wall leaves below out.Perfect, the lower bound the lowest left. All
// buckles of every harmonic are looked at up to the reach of the lowest yet, and
// counts of negative pivots say that these are all; by reach, one that lies higher
// leaves more wherever it sits. What the plain wall leaves above out.Perfect sets
// the band alone: there the first buckle of each harmonic is enough.
func (in *TopLoadInput) reserve(m *Model, first, last snapshot, waves []int, found bool, out *TopLoadResult) error {
	walls := make([]waveBound, len(m.mesh.T)) // of a buckle without end
	for i := range walls {
		var err error
		if walls[i], err = in.bound(m, Critical{Node: i, Load: math.Inf(1)}); err != nil {
			return err
		}
	}
	least, own, plain := 0.0, out.Largest, out.Largest // the lowest yet
	var bounds []waveBound
	visit := func(c Critical) error {
		c.Load = math.Max(c.Load, least)
		b, err := in.bound(m, c)
		o, p := b.load()
		bounds, own, plain = append(bounds, b), math.Min(own, o), math.Min(plain, p)
		return err
	}
	if found {
		least, plain = out.Buckle.Load, math.Inf(1)
		if err := visit(out.Buckle); err != nil {
			return err
		}
	}
	err := m.buckles(first, last, waves, visit, func(order int) float64 {
		if order == 1 {
			return in.reach(walls, own, plain)
		}
		return in.reach(walls, own, math.Min(plain, out.Perfect))
	})
	if err != nil || len(bounds) == 0 {
		return err
	}
	out.Design = own
	lowest := math.Inf(1)
	for _, b := range bounds {
		if !found && (out.Buckle.Load == 0 || b.c.Load < out.Buckle.Load) {
			out.Buckle = b.c
		}
		if _, p := b.load(); p < lowest {
			lowest = p
			out.Wave, out.Waves, out.Borne, out.Classical, out.Knockdown = b.c.Load, b.c.Harmonic, b.borne, b.classical, b.k
		}
	}
	return nil
}

// buckles visits the buckles of all harmonics on the straight line from one
// state of a path through another, in each harmonic from the lowest up; those of
// an order (1 for the lowest) that lie below most, which a visit may lower. The
// lowest of all harmonics come first, so that few of the others are left.
func (m *Model) buckles(a, b snapshot, waves []int, visit func(c Critical) error, most func(order int) float64) error {
	h := m.harmonics()
	lowest := make([]float64, len(waves))
	near := 0.0 // the lowest of the harmonic before, whose mode is in the workspace
	for pass := 1; pass <= 2; pass++ {
		for i, n := range waves {
			x := lowest[i]
			if pass == 2 && x == 0 {
				continue // none, or beyond
			}
			m.line(a.pre, b.pre, n)
			below, counted := 0, 0.0
			for k := pass; k == 1 || pass == 2; k++ {
				end := (most(k) - a.load) / (b.load - a.load)
				if !(end > x) {
					break
				}
				if end != counted {
					var err error
					if below, err = h.pen.Count(h.K, h.G, end); err != nil {
						return fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
					}
					counted = end
				}
				if below < k {
					break
				}
				q := sym.Critical{Order: k, Hint: math.Min(2, 0.5*end), Below: end, Tol: 1e-5}
				switch {
				case k == 1 && near > 0 && near < end:
					q.Hint, q.Start = near, true
				case k == 2:
					q.Hint = 1.001 * x
				case k > 2:
					q.Hint = x // known as that of one less
				}
				var err error
				x, err = h.pen.Find(h.K, h.G, q, h.mode)
				if errors.Is(err, sym.ErrNoLoad) {
					break
				}
				if err != nil {
					return fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
				}
				if err = visit(m.critical(n, a.load+x*(b.load-a.load))); err != nil {
					return err
				}
				if k == 1 {
					lowest[i], near = x, x
				}
			}
		}
	}
	return nil
}
