package run

import (
	"crypto/sha256"
	"sync"
)

// Cache keeps results of stages under the hash of what they read. It is safe
// for concurrent use. The zero Cache keeps nothing; use [NewCache]. What the
// slow solvers gave has places of its own: a hundred previews do not drive out
// a blow.
type Cache struct {
	slow  *Cache // nil in the cache of the slow ones
	shelf Shelf  // nil without one
	mu    sync.Mutex
	size  int
	old   map[[sha256.Size]byte]*entry
	young map[[sha256.Size]byte]*entry
	hits  int
	miss  int
}

// NewCache returns a cache of about size results.
func NewCache(size int) *Cache {
	c := func(size int) *Cache { return &Cache{size: size, young: map[[sha256.Size]byte]*entry{}} }
	all := c(size)
	all.slow = c(min(size, slowKept))
	return all
}

// slowKept is about how many results of slow solvers a cache keeps.
const slowKept = 48

// get returns a kept result and marks it as used.
func (c *Cache) get(key [sha256.Size]byte) (*entry, bool) {
	if c == nil || c.size == 0 {
		return nil, false
	}
	e, ok := c.slow.get(key)
	c.mu.Lock()
	defer c.mu.Unlock()
	if ok {
		c.hits++
		return e, true
	}
	if e, ok := c.young[key]; ok {
		c.hits++
		return e, true
	}
	if e, ok := c.old[key]; ok {
		c.hits++
		c.store(key, e)
		return e, true
	}
	c.miss++
	return nil, false
}

func (c *Cache) put(key [sha256.Size]byte, e *entry) {
	if c == nil || c.size == 0 {
		return
	}
	if e.slow && c.slow != nil {
		c.slow.put(key, e)
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.store(key, e)
}

// store drops the older half of the cache when the younger half is full.
func (c *Cache) store(key [sha256.Size]byte, e *entry) {
	if len(c.young) >= c.size/2+1 {
		c.old, c.young = c.young, map[[sha256.Size]byte]*entry{}
	}
	c.young[key] = e
}

// Stats returns how many look-ups were answered and how many were not.
func (c *Cache) Stats() (hits, misses int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.hits, c.miss
}
