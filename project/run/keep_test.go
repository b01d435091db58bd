package run

import (
	"sync"
	"testing"
)

// cupboard is a shelf in memory.
type cupboard struct {
	mu   sync.Mutex
	of   map[string][]byte
	size int
}

func (c *cupboard) Keep(key string, body []byte) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.of[key] = body
	c.size += len(body)
}

func (c *cupboard) Find(key string) []byte {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.of[key]
}

// TestShelf: what the slow solvers gave outlives the cache. A new cache on the
// same shelf runs none of them, also after a change that moves nothing of them,
// and gives the same to the last digit.
func TestShelf(t *testing.T) {
	if testing.Short() {
		t.Skip("two full runs")
	}
	for _, name := range []string{"sorrel-lime.yaml", "wrenhollow.yaml"} {
		doc, shelf := example(t, name), &cupboard{of: map[string][]byte{}}
		first := NewCache(1024).On(shelf)
		if _, err := Full(t.Context(), doc, first, nil); err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %d results, %d kB", name, len(shelf.of), shelf.size/1000)
		later := NewCache(1024).On(shelf)
		moved := replaned(doc, 4e-3)
		Check(moved, later)
		if !BlowKept(moved.Design, later) {
			t.Errorf("%s: the blow is lost with the cache", name)
		}
		r := &recorder{ran: map[string]int{}}
		got := check(moved, work{ctx: t.Context(), full: true, drawn: true, ran: r.note}, later)
		for _, slow := range []string{"reheat", "blow", "strength", "hotfill", "shelf", bandsOfBlow} {
			if r.ran[slow] > 0 && !(slow == "hotfill" && !hotFilled(doc.Design)) {
				t.Errorf("%s: %s runs again: %v", name, slow, r.ran)
			}
		}
		want, err := Full(t.Context(), moved, first, nil)
		if err != nil {
			t.Fatal(err)
		}
		same(t, name, got, want)
	}
	// A body that is none is as good as none.
	bad := &cupboard{of: map[string][]byte{}}
	d := example(t, "sorrel-lime.yaml").Design
	if e, ok := NewCache(16).On(bad).kept(bottleStage.hash(d, silent, nil)); ok {
		t.Errorf("an empty shelf gave %v", e)
	}
	for _, text := range [][]byte{{}, []byte("nothing of ours")} {
		if e := read([32]byte{}, text); e != nil {
			t.Errorf("%q was read as %v", text, e)
		}
	}
}
