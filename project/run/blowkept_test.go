package run

import (
	"crypto/sha256"
	"maps"
	"testing"

	"costrel/project/design"
)

// TestBlowKept holds what a change of the design leaves of a blow, and that
// previews do not drive it out. No blow is run: a stand-in lies under its key.
func TestBlowKept(t *testing.T) {
	cache := NewCache(64)
	d := example(t, "sorrel-lime.yaml").Design
	w := work{ctx: t.Context(), full: true, drawn: true, until: "reheat"}
	before := func(d *design.Design) map[string]*entry { // the stages that a blow reads
		done := evaluate(d, work{ctx: w.ctx, full: true, drawn: true, until: "bottle"}, cache)
		maps.Copy(done, evaluate(d, w, cache))
		return done
	}
	done := before(d)
	if BlowKept(d, cache) {
		t.Fatal("a blow is kept that was never run")
	}
	key := blowStage.hash(d, w, done)
	cache.put(key, &entry{key: key, slow: true})
	for i := range 1000 {
		k := sha256.Sum256([]byte{byte(i), byte(i >> 8)})
		cache.put(k, &entry{key: k})
	}
	for _, c := range []struct {
		name string
		path string
		by   float64
		kept bool
	}{
		{"nothing", "plant.resin_price", 0, true},
		{"a price", "plant.resin_price", 0.1, true},
		{"the store", "climate.store", 1, true},
		{"the wall of the preform", "preform.wall", 1e-4, false},
		{"the pre-blow", "blow.pre_blow", 1e5, false},
	} {
		o := d.Clone()
		v, _, ok := o.Number(c.path)
		if !ok {
			t.Fatalf("no number %s", c.path)
		}
		o.SetNumber(c.path, v+c.by)
		before(o) // a preview has run before it is asked
		if got := BlowKept(o, cache); got != c.kept {
			t.Errorf("after a change of %s the blow is kept: %v, want %v", c.name, got, c.kept)
		}
	}
	o := d.Clone()
	o.Bottle.Planes = []float64{o.Bottle.Planes[0] + 2e-3, o.Bottle.Planes[1]}
	before(o)
	if !BlowKept(o, cache) {
		t.Error("a moved cut plane costs the blow")
	}
}
