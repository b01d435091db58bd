package api

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sync"
	"time"

	"github.com/danielgtaylor/huma/v2"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/store"
	"costrel/unit"
)

// Shortest times between two reports of one run: to those who listen, and to
// the store.
const (
	every     = 50 * time.Millisecond
	everyKept = 500 * time.Millisecond
)

// request is what a run computes.
type request struct {
	name, text string
	units      unit.System
	doc        *design.Document
}

// runner has the full runs: those under way in memory, all of them in the store.
type runner struct {
	store   *store.Runs
	cache   *run.Cache
	gate    *gate
	limits  limits
	program string
	log     *slog.Logger
	now     func() time.Time
	full    func(context.Context, *design.Document, *run.Cache, func(string, float64)) (*run.Result, error)

	work    sync.WaitGroup
	mu      sync.Mutex
	live    map[int64]*job
	closing bool
}

func newRunner(o Options, l limits, cache *run.Cache) *runner {
	return &runner{
		store: o.Runs, cache: cache, gate: newGate("full runs", l.runs, l.waitingRun, l.retry), limits: l,
		program: o.Program, log: o.Log, now: o.Now, full: run.Full, live: map[int64]*job{},
	}
}

// input returns the hash of all that a result depends on.
func (r *runner) input(q request) string {
	h := sha256.New()
	for _, part := range []string{r.program, q.name, string(q.units), q.text} {
		fmt.Fprintf(h, "%d %s\n", len(part), part)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// start begins a run, or answers with the kept result of the same input. It
// has left the gate when it returns an error or a kept result; else leave is
// called when the run ends.
func (r *runner) start(ctx context.Context, q request, leave func()) (*job, error) {
	input := r.input(q)
	if id, err := r.store.Find(ctx, input); err != nil {
		leave()
		return nil, err
	} else if id != 0 {
		if body, err := r.store.Result(ctx, id); err == nil { // else it went just now
			leave()
			return settled(id, true, Result{body}), nil
		}
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.closing {
		leave()
		return nil, errStopped
	}
	id, err := r.store.Begin(ctx, store.Run{Design: q.name, Input: input, Text: q.text, Units: string(q.units), Started: r.now()})
	if err != nil {
		leave()
		return nil, err
	}
	work, end := context.WithCancelCause(context.Background())
	j := newJob(id, r.limits.abandoned, end)
	r.live[id] = j
	r.work.Go(func() {
		defer leave()
		defer end(nil)
		r.end(j, r.compute(work, j, q))
	})
	return j, nil
}

// compute does the work of a run and returns its end.
func (r *runner) compute(ctx context.Context, j *job, q request) (end any) {
	defer func() {
		if fault := recover(); fault != nil {
			r.log.Error("a run failed", "run", j.id, "fault", fault, "stack", string(debug.Stack()))
			end = Failed{Message: fmt.Sprintf("the program failed in this run: %v", fault), State: store.Failed}
		}
	}()
	done, err := r.gate.enter(ctx)
	if err != nil {
		return why(err)
	}
	defer done()
	j.mu.Lock()
	j.turn = true
	j.mu.Unlock()
	ctx, cancel := context.WithTimeoutCause(ctx, r.limits.run, errTooLong)
	defer cancel()
	r.keep(j, Progress{})
	result, err := r.full(ctx, q.doc, r.cache, r.progress(j))
	if err != nil {
		return why(context.Cause(ctx))
	}
	body, err := json.Marshal(checked(q.text, result, q.units))
	if err != nil {
		return why(err)
	}
	return Result{body}
}

// why returns the end of a run that was ended for a cause.
func why(cause error) Failed {
	state := store.Failed
	switch {
	case errors.Is(cause, errStopped):
		state = store.Crashed
	case errors.Is(cause, errWithdrawn), errors.Is(cause, errAbandoned):
		state = store.Withdrawn
	}
	return Failed{Message: unit.Spell(cause.Error(), unit.EU), State: state}
}

// progress returns what a run calls with its stage and the part that is done.
func (r *runner) progress(j *job) func(string, float64) {
	var mu sync.Mutex
	var told, kept time.Time
	return func(stage string, fraction float64) {
		mu.Lock()
		defer mu.Unlock()
		now, p := r.now(), Progress{stage, fraction}
		if now.Sub(told) >= every || fraction >= 1 {
			told = now
			j.tell(p)
		}
		if now.Sub(kept) >= everyKept {
			kept = now
			r.keep(j, p)
		}
	}
}

// keep records progress. A run goes on without: its end is what counts.
func (r *runner) keep(j *job, p Progress) {
	if err := r.store.Progress(context.Background(), j.id, p.Stage, p.Fraction); err != nil {
		r.log.Warn("progress is not kept", "run", j.id, "error", err)
	}
}

// end records the end of a run and tells it.
func (r *runner) end(j *job, end any) {
	var err error
	switch e := end.(type) {
	case Result:
		err = r.store.End(context.Background(), j.id, store.Finished, "", e.RawMessage, r.now())
	case Failed:
		e.Problems = []design.Fault{}
		end = e
		err = r.store.End(context.Background(), j.id, e.State, e.Message, nil, r.now())
	}
	if err != nil { // the listeners have their answer all the same
		r.log.Error("the end of a run is not kept", "run", j.id, "error", err)
	}
	j.tell(end)
	r.mu.Lock()
	defer r.mu.Unlock()
	delete(r.live, j.id)
}

// find returns a run under way or a kept one.
func (r *runner) find(ctx context.Context, id int64) (*job, error) {
	r.mu.Lock()
	j := r.live[id]
	r.mu.Unlock()
	if j != nil {
		return j, nil
	}
	kept, err := r.store.Get(ctx, id)
	if err != nil {
		return nil, runError(err)
	}
	if kept.Ended.IsZero() { // its end could not be recorded
		kept.State, kept.Message = store.Failed, "what became of this run is not known"
	}
	if kept.State != store.Finished {
		return settled(id, false, Failed{Message: kept.Message, State: kept.State, Problems: []design.Fault{}}), nil
	}
	body, err := r.store.Result(ctx, id)
	if err != nil {
		return nil, runError(err)
	}
	return settled(id, false, Result{body}), nil
}

// withdraw ends a run under way; one that has ended stays as it is.
func (r *runner) withdraw(id int64) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	j := r.live[id]
	if j != nil {
		j.end(errWithdrawn)
	}
	return j != nil
}

func (r *runner) count() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.live)
}

// stop ends the runs that wait for their turn, gives those under way until
// ctx ends, and returns when all have ended.
func (r *runner) stop(ctx context.Context) {
	cut := func(all bool) {
		r.mu.Lock()
		defer r.mu.Unlock()
		r.closing = true
		for _, j := range r.live {
			j.mu.Lock()
			if all || !j.turn {
				j.end(errStopped)
			}
			j.mu.Unlock()
		}
	}
	cut(false)
	ended := make(chan struct{})
	go func() {
		r.work.Wait()
		close(ended)
	}()
	select {
	case <-ended:
	case <-ctx.Done():
		cut(true)
		<-ended
	}
}

// runError turns an error of the run store into an answer.
func runError(err error) error {
	if errors.Is(err, store.ErrNoRun) {
		return huma.Error404NotFound(err.Error())
	}
	return huma.NewError(http.StatusInternalServerError, err.Error())
}
