package run

import (
	"maps"
	"reflect"
	"slices"
	"sync"
	"testing"

	"costrel/project/design"
)

// recorder notes the stages that are worked out and not taken from the cache.
type recorder struct {
	mu  sync.Mutex
	ran map[string]int
}

func (r *recorder) note(stage string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.ran[stage]++
}

// replaned returns a document whose lower cut plane stands by further up.
func replaned(doc *design.Document, by float64) *design.Document {
	out := *doc
	out.Design = doc.Design.Clone()
	p := out.Design.Bottle.Planes
	out.Design.Bottle.Planes = []float64{p[0] + by, p[1]}
	return &out
}

// same holds all that a reader sees of two results against each other, to the
// last digit.
func same(t *testing.T, name string, got, want *Result) {
	t.Helper()
	for i, f := range want.Figures {
		if i < len(got.Figures) && !reflect.DeepEqual(f, got.Figures[i]) {
			t.Errorf("%s: %s\n got %+v\nwant %+v", name, f.Key, got.Figures[i], f)
		}
	}
	for _, part := range []struct {
		name      string
		got, want any
	}{
		{"the number of figures", len(got.Figures), len(want.Figures)},
		{"verdicts", got.Verdicts, want.Verdicts},
		{"problems", got.Problems, want.Problems},
		{"plots", got.Plots, want.Plots},
		{"maps", got.Maps, want.Maps},
		{"the drawing", got.Geometry, want.Geometry},
		{"the playback", got.Playback, want.Playback},
		{"the process sheets", got.sheets, want.sheets},
	} {
		if !reflect.DeepEqual(part.got, part.want) {
			t.Errorf("%s: %s differ", name, part.name)
		}
	}
}

// TestMovedPlane: a cut plane that is moved runs the weighing of the sections
// again and nothing else, in a full run and in a preview, and what comes out is
// that of a run from cold.
func TestMovedPlane(t *testing.T) {
	for _, o := range []struct {
		name string
		full bool
	}{{"sorrel-lime.yaml", false}, {"wrenhollow.yaml", false}, {"sorrel-lime.yaml", true}} {
		if o.full && testing.Short() {
			continue
		}
		doc, cache := example(t, o.name), NewCache(1024)
		check := func(doc *design.Document, cache *Cache) (*Result, map[string]int) {
			r := &recorder{ran: map[string]int{}}
			return check(doc, work{ctx: t.Context(), full: o.full, drawn: true, ran: r.note}, cache), r.ran
		}
		cold, ran := check(doc, cache)
		if o.full && (ran["blow"] != 1 || ran["strength"] != 1 || ran["shelf"] != 1 || ran[bandsOfBlow] != 1) {
			t.Errorf("%s: a run from cold has worked out %v", o.name, ran)
		}
		moved := replaned(doc, 4e-3)
		warm, ran := check(moved, cache)
		if want := map[string]int{"section": 1}; !maps.Equal(ran, want) {
			t.Errorf("%s, full %v: a moved plane works out %v again, want %v", o.name, o.full, ran, want)
		}
		again, _ := check(moved, NewCache(1024))
		same(t, o.name, warm, again)
		a, b := value(t, cold, "section.base.mass"), value(t, warm, "section.base.mass")
		if !(b > a+1e-4) {
			t.Errorf("%s: the base weighs %g kg up to the plane and %g kg up to one 4 mm higher", o.name, a, b)
		}
		for _, f := range warm.Figures {
			if i := slices.IndexFunc(sectionStage.keys, func(k string) bool { return k == f.Key }); i >= 0 {
				continue
			}
			if was := value(t, cold, f.Key); was != f.Value {
				t.Errorf("%s: %s is %g, and %g with a plane moved", o.name, f.Key, was, f.Value)
			}
		}
	}
}

// TestMovedPlaneParts: every example and template keeps its wall when a plane is
// moved as the page does it, and weighs its sections alone; a plane that is written
// without that is computed as from cold.
func TestMovedPlaneParts(t *testing.T) {
	for name, doc := range everyDocument(t) {
		if len(doc.Design.Bottle.Planes) != 2 {
			continue
		}
		cache := NewCache(1024)
		Check(doc, cache)
		moved := replaned(doc, 3e-3)
		same(t, name, Check(moved, cache), Check(moved, nil))

		if len(moved.Design.Bottle.Parts) == 0 {
			moved.Design.Bottle.Parts = doc.Design.Bottle.Planes
		}
		r := &recorder{ran: map[string]int{}}
		w := preview
		w.ran = r.note
		got := check(moved, w, cache)
		if delete(r.ran, "section"); len(r.ran) > 0 {
			t.Errorf("%s: a moved plane works out %v again", name, r.ran)
		}
		same(t, name, got, Check(moved, nil))
	}
}

// TestFirstMoveKeepsParts: targets without planes of their own hold at the cut
// planes; the first move writes those down and changes no key.
func TestFirstMoveKeepsParts(t *testing.T) {
	d := example(t, "sorrel-lime.yaml").Design
	written := d.Clone()
	d.Preform.Targets.Planes = nil
	if a, b := partsRead(d), partsRead(written); !reflect.DeepEqual(a, b) {
		t.Errorf("the stages read %v of the design and %v once its planes are written down", a, b)
	}
}
