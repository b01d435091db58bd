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

// reserve puts the knock-down on the buckles in waves: dents bring each of them
// forward, also those beyond the path or behind the first buckle of a corner.
// The lowest load that is left counts, whichever buckle it belongs to: it goes
// without a jump where two buckles change places.
func (in *TopLoadInput) reserve(m *Model, path []snapshot, waves []int, found bool, out *TopLoadResult) error {
	most, least := out.Perfect, 0.0
	var bounds []waveBound
	if found {
		most = out.Largest
		b, err := in.bound(m, out.Buckle)
		if err != nil {
			return err
		}
		bounds, least = append(bounds, b), out.Buckle.Load
		for len(path) > 2 && path[len(path)-1].load > least {
			path = path[:len(path)-1]
		}
	}
	// No knock-down leaves less than the smallest of the wall.
	gamma := 1.0
	for i := range m.mesh.T {
		k, err := in.knockdown(m.mesh, i)
		if err != nil {
			return err
		}
		gamma = math.Min(gamma, k.Gamma)
	}
	first, last := path[0], path[len(path)-1]
	top := math.Max(out.Perfect, most)
	for _, b := range bounds {
		own, _ := b.load()
		top = math.Min(top, own)
	}
	err := m.buckles(first, last, waves, func(c Critical) (float64, error) {
		c.Load = math.Max(c.Load, least)
		b, err := in.bound(m, c)
		own, _ := b.load()
		bounds, top = append(bounds, b), math.Min(top, own)
		return top / gamma, err
	}, top/gamma)
	if err != nil || len(bounds) == 0 {
		return err
	}
	out.Design = most
	lowest := math.Inf(1)
	for _, b := range bounds {
		own, plain := b.load()
		out.Design = math.Min(out.Design, own)
		if !found && (out.Buckle.Load == 0 || b.c.Load < out.Buckle.Load) {
			out.Buckle = b.c
		}
		if plain < lowest {
			lowest = plain
			out.Wave, out.Waves, out.Borne, out.Classical, out.Knockdown = b.c.Load, b.c.Harmonic, b.borne, b.classical, b.k
		}
	}
	return nil
}

// buckles visits, for each harmonic, its first buckle on the straight line from
// one state of a path through another, up to the load most and ten times as far
// at the most; visit returns the new most.
func (m *Model) buckles(a, b snapshot, waves []int, visit func(c Critical) (most float64, err error), most float64) error {
	for _, n := range waves {
		end := math.Min(10, (most-a.load)/(b.load-a.load))
		if !(end > 0) {
			return nil
		}
		x, err := m.between(a.pre, b.pre, n, end, math.Min(2, 0.5*end))
		if errors.Is(err, errLater) || errors.Is(err, sym.ErrNoLoad) {
			continue
		}
		if err != nil {
			return fmt.Errorf("shell: buckling: harmonic %d: %w", n, err)
		}
		if most, err = visit(m.critical(n, a.load+x*(b.load-a.load))); err != nil {
			return err
		}
	}
	return nil
}
