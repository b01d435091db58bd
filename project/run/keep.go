package run

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"

	"costrel/figure"
)

// Shelf keeps what the slow solvers gave where it outlives the cache. Its keys
// hold for one build of the program. It may lose what it keeps; a body that it
// finds is one that was kept under that key. It is safe for concurrent use.
type Shelf interface {
	Keep(key string, body []byte)
	Find(key string) []byte // nil when there is none
}

// On puts a shelf behind a cache: results of slow solvers are kept there, too, and
// taken from there when the cache has them no more. It is set before the cache is
// used.
func (c *Cache) On(s Shelf) *Cache {
	c.shelf = s
	return c
}

// body is an entry as it stands on a shelf. Of the result of a stage it has what
// other stages read; life and hot fill are read by none.
type body struct {
	Blown    *Blown
	Hot      *Reheated
	Strength *Strength
	Trials   *blowTrials
	Figures  []figure.Figure
	Banded   []int // figures whose effects were looked for and not found
	Problems []Problem
	Plots    []Plot
	Maps     []Map
}

// write returns an entry as it stands on a shelf; nil for one that is not kept
// there: a stage that failed may tell its reason anew.
func (e *entry) write() []byte {
	if e.err != nil {
		return nil
	}
	b := body{Figures: e.figures, Problems: e.problems, Plots: e.plots, Maps: e.maps}
	switch out := e.out.(type) {
	case *Blown:
		b.Blown = out
	case *Reheated:
		b.Hot = out
	case *Strength:
		b.Strength = out
	case *blowTrials:
		b.Trials = out
	}
	for i, f := range e.figures {
		if f.Effects != nil && len(f.Effects) == 0 {
			b.Banded = append(b.Banded, i)
		}
	}
	var text bytes.Buffer
	if gob.NewEncoder(&text).Encode(b) != nil {
		return nil
	}
	return text.Bytes()
}

// read returns the entry of a slow stage from a shelf; nil where the body is none.
func read(key [sha256.Size]byte, text []byte) *entry {
	var b body
	if text == nil || gob.NewDecoder(bytes.NewReader(text)).Decode(&b) != nil {
		return nil
	}
	e := &entry{key: key, slow: true, figures: b.Figures, problems: b.Problems, plots: b.Plots, maps: b.Maps}
	switch {
	case b.Blown != nil:
		e.out = b.Blown
	case b.Hot != nil:
		e.out = b.Hot
	case b.Strength != nil:
		e.out = b.Strength
	case b.Trials != nil:
		e.out = b.Trials
	}
	for i := range e.plots {
		if e.plots[i].Marks == nil {
			e.plots[i].Marks = []Mark{} // of which nothing is written
		}
	}
	for _, i := range b.Banded {
		e.figures[i].Effects = []figure.Effect{}
	}
	return e
}

// kept looks for the entry of a slow stage in the cache, then on its shelf.
func (c *Cache) kept(key [sha256.Size]byte) (*entry, bool) {
	e, ok := c.get(key)
	if ok || c == nil || c.shelf == nil {
		return e, ok
	}
	if e = read(key, c.shelf.Find(hex.EncodeToString(key[:]))); e == nil {
		return nil, false
	}
	c.slow.put(key, e)
	return e, true
}

// keep puts the entry of a slow stage into the cache and on its shelf.
func (c *Cache) keep(key [sha256.Size]byte, e *entry) {
	c.put(key, e)
	if c == nil || c.shelf == nil {
		return
	}
	if text := e.write(); text != nil {
		c.shelf.Keep(hex.EncodeToString(key[:]), text)
	}
}
