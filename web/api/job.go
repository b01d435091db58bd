package api

import (
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"sync"
	"time"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/sse"

	"costrel/project/design"
	"costrel/store"
)

// Started is the first event of a run, also for one who comes back to it.
type Started struct {
	ID   int64 `json:"id" doc:"Number of the run"`
	Kept bool  `json:"kept" doc:"The result is that of an earlier run of the same input"`
}

// Progress tells how far a full run is.
type Progress struct {
	Stage    string  `json:"stage"`
	Fraction float64 `json:"fraction"`
}

// Failed ends a run that gave no board.
type Failed struct {
	Message  string         `json:"message"`
	Problems []design.Fault `json:"problems"`
	State    store.State    `json:"state,omitempty" enum:"failed,withdrawn,crashed"`
}

// Result ends a run that gave a board: a [Checked] as it is kept.
type Result struct{ json.RawMessage }

// Schema is that of [Checked].
func (Result) Schema(r huma.Registry) *huma.Schema {
	return r.Schema(reflect.TypeFor[Checked](), true, "")
}

// events are the kinds of events of a run.
var events = map[string]any{"started": Started{}, "progress": Progress{}, "result": Result{}, "failed": Failed{}}

// Causes for which a run is ended from outside.
var (
	errWithdrawn = errors.New("the run was withdrawn")
	errAbandoned = errors.New("the run was withdrawn, for nobody listened any more")
	errTooLong   = errors.New("the run took longer than a run may")
	errStopped   = errors.New("the program was stopped while the run was under way")
)

// job is a run as those see it who listen. It is a state, not a log: who comes
// back after a break is told how things stand.
type job struct {
	id        int64
	kept      bool
	abandoned time.Duration // after the last listener has gone
	end       context.CancelCauseFunc

	mu        sync.Mutex
	n         int // number of the last report
	report    any // Progress while it is under way, then Result or Failed
	ended     bool
	turn      bool // its turn has come
	changed   chan struct{}
	listeners int
	idle      *time.Timer
}

func newJob(id int64, abandoned time.Duration, end context.CancelCauseFunc) *job {
	return &job{id: id, abandoned: abandoned, end: end, changed: make(chan struct{})}
}

// settled returns the job of a run that has ended.
func settled(id int64, kept bool, report any) *job {
	j := newJob(id, 0, nil)
	j.kept = kept
	j.tell(report)
	return j
}

// tell makes a report the state of the job; nothing comes after its end.
func (j *job) tell(report any) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.ended {
		return
	}
	_, under := report.(Progress)
	j.n, j.report, j.ended = j.n+1, report, !under
	close(j.changed)
	j.changed = make(chan struct{})
	if j.ended && j.idle != nil {
		j.idle.Stop()
	}
}

// follow sends the state of the job as it changes, until its end or that of
// ctx. Reports up to the one numbered after are known to the listener.
func (j *job) follow(ctx context.Context, after int, send sse.Sender) {
	j.arrive()
	defer j.leave()
	tell := func(m sse.Message) error {
		defer longLived(ctx) // sending has set a time that would end the stream in a pause
		return send(m)
	}
	if tell(sse.Message{Data: Started{ID: j.id, Kept: j.kept}, Retry: 1000}) != nil {
		return
	}
	for {
		j.mu.Lock()
		n, report, ended, changed := j.n, j.report, j.ended, j.changed
		j.mu.Unlock()
		if ended || n > after {
			if tell(sse.Message{ID: n, Data: report}) != nil || ended {
				return
			}
			after = n
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return
		}
	}
}

func (j *job) arrive() {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.listeners++
	if j.idle != nil {
		j.idle.Stop()
	}
}

// leave ends the run a while after the last listener has gone: a broken
// connection has time to come back.
func (j *job) leave() {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.listeners--
	if j.listeners == 0 && !j.ended {
		j.idle = time.AfterFunc(j.abandoned, func() {
			j.mu.Lock()
			alone := j.listeners == 0
			j.mu.Unlock()
			if alone {
				j.end(errAbandoned)
			}
		})
	}
}
