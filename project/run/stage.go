// Package run wires the physics: it turns a resolved design into stages,
// figures and problems. It is the only place where the result of one solver
// becomes the input of the next.
//
// Stages run one way. Each is a pure function of the part of the design that
// it reads and of the stages it needs, so its result is kept under the hash
// of both. A stage that fails hides no other: what depends on it says so.
package run

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"

	"costrel/figure"
	"costrel/project/design"
)

// Problem says why a figure or a stage is missing, or what to beware of.
type Problem struct {
	Key    string `json:"key"`   // figure key, or stage name
	Stage  string `json:"stage"` // stage that reports it
	Reason string `json:"reason"`
	Path   string `json:"path,omitempty"` // place in the design
}

// errSkip marks a stage that does not apply to the pack.
var errSkip = errors.New("does not apply")

// stage is one step of the way from the design to the board.
type stage struct {
	name    string
	of      string                                  // the stage that a reader sees it as; empty: itself
	needs   []string                                // stages whose results it reads
	reads   func(d *design.Design) any              // what it reads of the design; hashed
	keys    []string                                // figures it may compute
	full    bool                                    // runs in a full check only
	sampled bool                                    // a full check samples its bands, which takes seconds
	extra   []string                                // stages it also needs in a full check
	soft    []string                                // stages it reads when they gave a result
	also    func(d *design.Design, w work) []string // further ones for this design
	run     func(c *pass) (any, error)              // pure; figures and problems go to the pass
}

// work says how far a run goes, and who watches it.
type work struct {
	ctx      context.Context
	full     bool
	drawn    bool   // stages also make their plots; runs for bands do not
	even     bool   // without plots on the same stations as with them
	until    string // last stage; empty: all
	progress func(stage string, fraction float64)
	ran      func(stage string) // told of each that was not in the cache; may be nil
}

// report tells the watcher how much of a stage is done, 0 to 1.
func (c *pass) report(fraction float64) {
	if c.work.progress != nil {
		c.work.progress(c.name, fraction)
	}
}

// preview is the work of a check that answers at once, silent the same without
// plots.
var (
	preview = work{ctx: context.Background(), drawn: true}
	silent  = work{ctx: context.Background()}
)

// entry is the kept result of a stage.
type entry struct {
	key      [sha256.Size]byte
	out      any
	err      error
	skipped  bool
	slow     bool // took seconds in a full run
	figures  []figure.Figure
	problems []Problem
	plots    []Plot
	maps     []Map
}

// pass is one stage at work.
type pass struct {
	d        *design.Design
	name     string
	work     work
	done     map[string]*entry
	figures  []figure.Figure
	problems []Problem
	plots    []Plot
	maps     []Map
}

// problem reports why a figure is left out, or a warning about a stage.
func (c *pass) problem(key, format string, args ...any) {
	c.problems = append(c.problems, Problem{Key: key, Stage: c.name, Reason: fmt.Sprintf(format, args...)})
}

// figure adds a computed figure. Label and kind come from the catalogue.
func (c *pass) figure(key string, value float64, o figure.Origin) {
	e, ok := figure.Find(key)
	if !ok {
		c.problem(key, "the figure is not in the catalogue")
		return
	}
	if isBad(value) {
		c.problem(key, "the method gave no finite number")
		return
	}
	if o.Kind == "" {
		o.Kind = figure.Computed
	}
	c.figures = append(c.figures, figure.Figure{Key: key, Label: e.Label, Kind: e.Kind, Unit: e.Unit, Value: value, Lo: value, Hi: value, Origin: o})
}

func isBad(x float64) bool { return x != x || x > 1e300 || x < -1e300 }

// value returns a figure that an earlier stage computed.
func (c *pass) value(key string) (figure.Figure, bool) {
	for _, e := range c.done {
		for _, f := range e.figures {
			if f.Key == key {
				return f, true
			}
		}
	}
	return figure.Figure{}, false
}

// from returns the result of a stage that this one needs.
func from[T any](c *pass, name string) T { return c.done[name].out.(T) }

// shown returns the name under which a reader sees the stage.
func (s stage) shown() string {
	if s.of != "" {
		return s.of
	}
	return s.name
}

// wants returns the stages that s needs in this work.
func (s stage) wants(d *design.Design, w work) []string {
	out := append(append([]string{}, s.needs...), s.soft...)
	if s.also != nil {
		out = append(out, s.also(d, w)...)
	}
	if w.full {
		out = append(out, s.extra...)
	}
	return out
}

// hash returns the key of a stage: its name, what it reads, and the keys of
// the stages it needs.
func (s stage) hash(d *design.Design, w work, done map[string]*entry) [sha256.Size]byte {
	h := sha256.New()
	h.Write([]byte(s.name))
	if w.drawn {
		h.Write([]byte{1})
	} else if w.even {
		h.Write([]byte{2})
	}
	if s.reads != nil {
		b, err := json.Marshal(s.reads(d))
		if err != nil {
			b = []byte(err.Error())
		}
		h.Write(b)
	}
	for _, n := range s.wants(d, w) {
		k := done[n].key
		h.Write(k[:])
	}
	var out [sha256.Size]byte
	h.Sum(out[:0])
	return out
}

// evaluate runs the stages of a work in order. When the work is withdrawn the
// stages that are left carry its error and nothing of them is kept.
func evaluate(d *design.Design, w work, cache *Cache) map[string]*entry {
	done := make(map[string]*entry, len(stages))
	needed := w.needed(d)
	for _, s := range stages {
		if s.full && !w.full || needed != nil && !needed[s.name] {
			continue
		}
		key := s.hash(d, w, done)
		find, put := cache.get, cache.put
		slow := (s.full || s.sampled && w.full) && w.drawn
		if slow {
			find, put = cache.kept, cache.keep
		}
		if e, ok := find(key); ok {
			done[s.name] = e
			if s.name == w.until {
				break
			}
			w.passed(s.shown())
			continue
		}
		var e *entry
		if err := w.ctx.Err(); err != nil {
			e = &entry{err: err}
		} else {
			if w.ran != nil {
				w.ran(s.name)
			}
			e = runStage(s, d, w, done)
		}
		e.key, e.slow = key, slow
		if w.ctx.Err() == nil {
			put(key, e)
		}
		done[s.name] = e
		w.passed(s.shown())
		if s.name == w.until {
			break
		}
	}
	return done
}

// passed tells the watcher that a stage is done.
func (w work) passed(stage string) {
	if w.progress != nil && w.ctx.Err() == nil {
		w.progress(stage, 1)
	}
}

// needed returns the stages that the last one of a work asks for, itself
// included; nil for a work of all stages.
func (w work) needed(d *design.Design) map[string]bool {
	if w.until == "" {
		return nil
	}
	out := map[string]bool{w.until: true}
	for i := len(stages) - 1; i >= 0; i-- {
		if s := stages[i]; out[s.name] {
			for _, n := range s.wants(d, w) {
				out[n] = true
			}
		}
	}
	return out
}

func runStage(s stage, d *design.Design, w work, done map[string]*entry) (e *entry) {
	e = &entry{}
	c := &pass{d: d, name: s.shown(), work: w, done: done}
	defer func() {
		if r := recover(); r != nil {
			e.err = fmt.Errorf("%s: internal fault: %v", s.name, r)
			e.problems = append(e.problems, Problem{Key: s.name, Stage: s.shown(), Reason: e.err.Error() + "; please report this design"})
		}
	}()
	for _, n := range s.needs {
		if up := done[n]; up.err != nil {
			e.err = fmt.Errorf("not computed because %s failed: %w", n, up.err)
			if up.skipped {
				e.err, e.skipped = fmt.Errorf("%w: %s does not apply to this pack", errSkip, n), true
			}
			for _, k := range s.keys {
				e.problems = append(e.problems, Problem{Key: k, Stage: s.shown(), Reason: e.err.Error()})
			}
			return e
		}
	}
	e.out, e.err = s.run(c)
	e.figures, e.problems, e.plots, e.maps = c.figures, c.problems, c.plots, c.maps
	if e.err == nil {
		return e
	}
	e.skipped = errors.Is(e.err, errSkip)
	reported := map[string]bool{}
	for _, p := range e.problems {
		reported[p.Key] = true
	}
	for _, f := range e.figures {
		reported[f.Key] = true
	}
	for _, k := range s.keys {
		if !reported[k] {
			e.problems = append(e.problems, Problem{Key: k, Stage: s.shown(), Reason: e.err.Error()})
		}
	}
	return e
}

// skip returns the error of a stage that does not apply, with the reason.
func skip(format string, args ...any) error {
	return fmt.Errorf("%w: %s", errSkip, fmt.Sprintf(format, args...))
}
