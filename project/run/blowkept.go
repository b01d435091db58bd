package run

import (
	"context"

	"costrel/project/design"
)

// BlowKept reports whether the cache holds a blow of the design that a full
// check would take: then [Full] does not blow it again. It computes nothing.
func BlowKept(d *design.Design, cache *Cache) bool {
	w := work{ctx: context.Background(), full: true, drawn: true, until: blowStage.name}
	needed := w.needed(d)
	done := map[string]*entry{}
	for _, s := range stages {
		if !needed[s.name] {
			continue
		}
		find := cache.get
		if s.full {
			find = cache.kept
		}
		e, ok := find(s.hash(d, w, done))
		if !ok {
			return false
		}
		done[s.name] = e
	}
	return true
}
