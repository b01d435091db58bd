package run

import (
	"crypto/sha256"
	"math"
	"slices"
	"strings"

	"costrel/figure"
	"costrel/physics/permeation"
	"costrel/project/design"
)

// endsOf is what every figure becomes at both ends of the range of one uncertain
// number; nil where the number is not in the design.
type endsOf struct {
	path, label, basis string
	ends               [2][]float64
	clipped            string // not empty: an end that is not accepted, and why
}

// lifeMoves moves what no number of the design says: activation energy, oxygen
// permeability and the thickness of every zone, as the sample of a full check
// does, each alone to both ends of its 95 % range. done is a silent run.
func lifeMoves(d *design.Design, done map[string]*entry, figures []figure.Figure, at map[string]int, cache *Cache) []endsOf {
	e := done["shelf"]
	if e == nil || e.err != nil {
		return nil
	}
	key := sha256.Sum256(append([]byte("life moves"), e.key[:]...))
	kept, ok := cache.get(key)
	if !ok {
		kept = &entry{key: key, out: lifeEnds(d, done)}
		cache.put(key, kept)
	}
	var out []endsOf
	for _, m := range kept.out.([]lifeMove) {
		x := endsOf{path: m.path, label: m.label, basis: m.basis}
		for k := range x.ends {
			x.ends[k] = make([]float64, len(figures))
			for i, f := range figures {
				x.ends[k][i] = f.Value
				if slices.Contains(shelfStage.keys, f.Key) {
					x.ends[k][i] = math.NaN()
				}
			}
			for _, v := range m.ends[k] {
				if i, ok := at[v.key]; ok && v.why == "" {
					x.ends[k][i] = v.value
				}
			}
		}
		out = append(out, x)
	}
	return out
}

// lifeMove is what the life gives at both ends of one input.
type lifeMove struct {
	path, label, basis string
	ends               [2][]shelfValue
}

func lifeEnds(d *design.Design, done map[string]*entry) []lifeMove {
	var out []lifeMove
	s := &shelfLife{pass: &pass{d: d, name: "shelf", work: silent, done: done}, end: d.Brief.ShelfLife}
	var err error
	if s.pc, _, err = shelfCase(s.pass); err != nil {
		return nil
	}
	for _, u := range s.pc.Uncertainties() {
		if u.Key != "energy" && u.Key != "oxygen" && !strings.HasPrefix(u.Key, "thickness.") {
			continue // a spread of the design
		}
		m := lifeMove{path: s.path(u.Key), label: u.Label, basis: u.Basis}
		for k, z := range [2]float64{-two95, two95} {
			c := s.pc
			u.Move(&c, z)
			m.ends[k] = s.silently(c)
		}
		out = append(out, m)
	}
	return out
}

// silently reads the figures off a coarse life; none where it has none.
func (s *shelfLife) silently(c permeation.Case) []shelfValue {
	life, err := c.Run(math.Max(s.end, 1.0001*day), silentLife)
	if err != nil {
		return nil
	}
	return s.values(life)
}
