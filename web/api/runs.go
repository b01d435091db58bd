package api

import (
	"context"
	"encoding/json"
	"net/http"
	"strconv"
	"sync/atomic"
	"time"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/sse"

	"costrel/project/design"
	"costrel/store"
)

// runs registers the full runs: they are started, followed, listed, withdrawn
// and forgotten.
func (s *Server) runs(a huma.API) {
	start := s.operation("POST", "/api/runs", "run", "Compute a design with every solver; progress and result as events")
	start.Middlewares = huma.Middlewares{s.reserve(a)}
	sse.Register(a, start, events, s.start)
	sse.Register(a, s.operation("GET", "/api/runs/{id}/events", "run-events", "Follow a run, also after a break or its end"), events, s.follow)
	huma.Register(a, s.operation("GET", "/api/runs", "list-runs", "The kept runs of a design, newest first"), s.listRuns)
	huma.Register(a, s.operation("GET", "/api/runs/{id}", "get-run", "One run with the text it computes"), s.getRun)
	huma.Register(a, s.operation("GET", "/api/runs/{id}/result", "run-result", "The result of a finished run"), s.runResult)
	huma.Register(a, s.operation("POST", "/api/runs/{id}/withdraw", "withdraw-run", "End a run under way; one that has ended stays"), s.withdrawRun)
	huma.Register(a, s.operation("DELETE", "/api/runs/{id}", "forget-run", "Take a run that has ended off the list, with its result"), s.forgetRun)
}

type placeKey struct{}

// place is a place at the gate of the runs, given back once.
type place struct {
	leave func()
	taken atomic.Bool
}

// reserve takes a place before the body of a request is read, or answers that
// there is none: an answer in events could not say so any more.
func (s *Server) reserve(a huma.API) func(huma.Context, func(huma.Context)) {
	return func(ctx huma.Context, next func(huma.Context)) {
		leave, err := s.runner.gate.join()
		if err != nil {
			ctx.SetHeader("Retry-After", strconv.Itoa(int(s.limits.retry.Seconds())))
			_ = huma.WriteErr(a, ctx, http.StatusTooManyRequests, err.Error())
			return
		}
		p := &place{leave: leave}
		defer func() {
			if !p.taken.Load() {
				p.leave()
			}
		}()
		next(huma.WithValue(ctx, placeKey{}, p))
	}
}

// start computes a design with its edits in full. What fails before the run
// begins is an event, too, and an edit that cannot be made is such a fault.
func (s *Server) start(ctx context.Context, in *checkIn, send sse.Sender) {
	refuse := func(message string, problems []design.Fault) {
		_ = send.Data(Failed{Message: message, Problems: problems, State: store.Failed})
	}
	q := request{name: in.Body.Name}
	var err error
	if q.units, err = system("body.units", in.Body.Units); err != nil {
		refuse(errorText(err), []design.Fault{})
		return
	}
	if q.text, err = s.text(in.Body.Side); err != nil {
		refuse(err.Error(), []design.Fault{})
		return
	}
	edited, problems := edited(q.text, in.Body.Edits, q.units)
	if len(problems) > 0 {
		refuse("not every change can be made", problems)
		return
	}
	q.text = edited
	if q.doc, err = design.Load(q.name, q.text); err != nil {
		refuse("the design has faults", spelled(faults(err), q.units))
		return
	}
	p := ctx.Value(placeKey{}).(*place)
	p.taken.Store(true)
	j, err := s.runner.start(ctx, q, p.leave)
	if err != nil {
		refuse(err.Error(), []design.Fault{})
		return
	}
	j.follow(ctx, 0, send)
}

type followIn struct {
	ID   int64 `path:"id"`
	Last int   `header:"Last-Event-ID" doc:"Number of the last event that came"`
}

func (s *Server) follow(ctx context.Context, in *followIn, send sse.Sender) {
	j, err := s.runner.find(ctx, in.ID)
	if err != nil {
		_ = send.Data(Failed{Message: err.Error(), Problems: []design.Fault{}, State: store.Failed})
		return
	}
	j.follow(ctx, in.Last, send)
}

// RunInfo is a full run of a design.
type RunInfo struct {
	ID       int64       `json:"id"`
	Design   string      `json:"design" doc:"File name; empty for a text without a file"`
	Units    string      `json:"units" doc:"As the run was asked for, in the order of /api/units"`
	State    store.State `json:"state" enum:"waiting,running,finished,failed,withdrawn,crashed"`
	Stage    string      `json:"stage" doc:"The last one reported"`
	Fraction float64     `json:"fraction" doc:"Part of the work that was done, 0 to 1"`
	Message  string      `json:"message" doc:"Why there is no result"`
	Started  time.Time   `json:"started"`
	Ended    *time.Time  `json:"ended,omitempty"`
	Text     string      `json:"text,omitempty" doc:"The document; left out in lists"`
}

func info(r store.Run) RunInfo {
	out := RunInfo{
		ID: r.ID, Design: r.Design, Units: r.Units, State: r.State, Stage: r.Stage, Fraction: r.Fraction,
		Message: r.Message, Started: r.Started, Text: r.Text,
	}
	if !r.Ended.IsZero() {
		out.Ended = &r.Ended
	}
	return out
}

type runsOut struct {
	Body struct {
		Runs []RunInfo `json:"runs"`
	}
}

func (s *Server) listRuns(ctx context.Context, in *struct {
	Design string `query:"design" maxLength:"200" doc:"File name; empty for texts without a file"`
},
) (*runsOut, error) {
	list, err := s.runner.store.List(ctx, in.Design)
	if err != nil {
		return nil, runError(err)
	}
	out := &runsOut{}
	out.Body.Runs = []RunInfo{}
	for _, r := range list {
		out.Body.Runs = append(out.Body.Runs, info(r))
	}
	return out, nil
}

type runIn struct {
	ID int64 `path:"id"`
}

func (s *Server) getRun(ctx context.Context, in *runIn) (*struct{ Body RunInfo }, error) {
	r, err := s.runner.store.Get(ctx, in.ID)
	if err != nil {
		return nil, runError(err)
	}
	return &struct{ Body RunInfo }{info(r)}, nil
}

func (s *Server) runResult(ctx context.Context, in *runIn) (*struct{ Body Result }, error) {
	body, err := s.runner.store.Result(ctx, in.ID)
	if err != nil {
		return nil, runError(err)
	}
	return &struct{ Body Result }{Result{json.RawMessage(body)}}, nil
}

func (s *Server) withdrawRun(ctx context.Context, in *runIn) (*struct{}, error) {
	if s.runner.withdraw(in.ID) {
		return nil, nil
	}
	_, err := s.runner.store.Get(ctx, in.ID)
	if err != nil {
		return nil, runError(err)
	}
	return nil, nil
}

func (s *Server) forgetRun(ctx context.Context, in *runIn) (*struct{}, error) {
	r, err := s.runner.store.Get(ctx, in.ID)
	if err != nil {
		return nil, runError(err)
	}
	if r.State == store.Waiting || r.State == store.Running {
		return nil, huma.Error409Conflict("the run is under way: withdraw it first")
	}
	if err := s.runner.store.Forget(ctx, in.ID); err != nil {
		return nil, runError(err)
	}
	return nil, nil
}
