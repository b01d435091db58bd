// Package api serves the workbench: designs as files in a folder, checks as
// JSON, the built page. It is the only place with HTTP.
package api

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/adapters/humago"

	"costrel/cite"
	"costrel/project/design"
	"costrel/project/run"
	"costrel/store"
	"costrel/unit"
	"costrel/verify"
)

// Version is the version of the HTTP interface.
const Version = "1.0.0"

// Options are what the server needs.
type Options struct {
	Folder  *store.Folder // where the designs are
	Runs    *store.Runs   // where full runs are kept; in memory when nil
	Page    fs.FS         // the built page; index.html at its root
	Program string        // names this build; results of another one are not taken
	Token   string        // asked of every request; empty on a server for this machine only
	Log     *slog.Logger
	Now     func() time.Time
}

// Server answers the requests of the page.
type Server struct {
	folder *store.Folder
	cache  *run.Cache
	now    func() time.Time
	limits limits
	checks *gate
	runner *runner
	proof  func() []verify.Row // the published checks, run once
	serve  http.Handler
}

// New returns the workbench.
func New(o Options) (*Server, error) { return newServer(o, defaultLimits()) }

func newServer(o Options, l limits) (*Server, error) {
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Runs == nil {
		var err error
		if o.Runs, err = store.MemoryRuns(); err != nil {
			return nil, err
		}
	}
	cache := run.NewCache(1024)
	if o.Runs.InFolder() {
		cache.On(shelf{o.Runs, o.Program, o.Log})
	}
	s := &Server{
		folder: o.Folder, cache: cache, now: o.Now, limits: l,
		checks: newGate("computations", l.checks, l.waiting, time.Second),
		runner: newRunner(o, l, cache),
		proof:  sync.OnceValue(func() []verify.Row { return verify.Run("") }),
	}
	mux := http.NewServeMux()
	config := huma.DefaultConfig("costrel", Version)
	config.OpenAPI.Info.Description = "The workbench's own interface. Numbers are SI; display texts are in the reader's units."
	config.DocsPath = "" // the page is the documentation
	config.OpenAPIPath = "/api/openapi"
	config.SchemasPath = "/api/schemas"
	config.CreateHooks = nil // no $schema key in bodies
	config.Transformers = []huma.Transformer{refusal}
	s.routes(humago.New(mux, config))
	if o.Page != nil {
		mux.Handle("GET /", page(o.Page))
	}
	protect := http.NewCrossOriginProtection()
	s.serve = guard(o.Token, l.send, protect.Handler(recovered(o.Log, mux)))
	return s, nil
}

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.serve.ServeHTTP(w, r) }

// Stop takes no more runs and waits for those under way. Runs that wait for
// their turn, and those that are not done when ctx ends, are recorded as cut
// off.
func (s *Server) Stop(ctx context.Context) { s.runner.stop(ctx) }

// UnderWay returns how many full runs are under way or waiting.
func (s *Server) UnderWay() int { return s.runner.count() }

func (s *Server) routes(a huma.API) {
	op := s.operation
	huma.Register(a, op("GET", "/api/designs", "list-designs", "The designs in the folder"), s.list)
	huma.Register(a, op("GET", "/api/designs/{name}", "get-design", "One design with its resolved values"), s.get)
	huma.Register(a, op("PUT", "/api/designs/{name}", "put-design", "Save a design unless it changed on disk"), s.put)
	huma.Register(a, op("POST", "/api/check", "check", "Compute a design, with edits that are not saved"), s.check)
	huma.Register(a, op("POST", "/api/why", "why", "One figure of a check with how it came about"), s.why)
	huma.Register(a, op("GET", "/api/units", "units", "The table of units"), s.units)
	huma.Register(a, op("GET", "/api/sources/{key}", "source", "One published source"), s.source)
	huma.Register(a, op("GET", "/api/sources", "sources", "The titles of all published sources"), s.sources)
	huma.Register(a, op("GET", "/api/verify", "verify", "The table of published checks as run by this program"), s.verify)
	huma.Register(a, op("GET", "/api/cards", "cards", "The built-in data with sources"), s.cards)
	huma.Register(a, op("GET", "/api/classes", "classes", "The pack classes"), s.classes)
	huma.Register(a, op("POST", "/api/compare", "compare", "The difference sheet of two designs"), s.compare)
	s.runs(a)
	s.imports(a)
	huma.Register(a, op("POST", "/api/draft", "draft", "The text of a new design"), s.draft)
}

// operation describes an endpoint, with the limits that hold for all of them.
func (s *Server) operation(method, path, id, summary string) huma.Operation {
	return huma.Operation{Method: method, Path: path, OperationID: id, Summary: summary, MaxBodyBytes: maxBody, BodyReadTimeout: s.limits.body}
}

type sourceOut struct{ Body cite.Source }

func (s *Server) source(_ context.Context, in *struct {
	Key string `path:"key" maxLength:"100"`
},
) (*sourceOut, error) {
	src, ok := cite.Lookup(in.Key)
	if !ok {
		return nil, huma.Error404NotFound("no source has this key")
	}
	return &sourceOut{src}, nil
}

type verifyOut struct {
	Body struct {
		Rows []verify.Row `json:"rows"`
	}
}

func (s *Server) verify(ctx context.Context, _ *struct{}) (*verifyOut, error) {
	out := &verifyOut{}
	err := s.compute(ctx, func() { out.Body.Rows = s.proof() })
	return out, err
}

type classesOut struct {
	Body struct {
		Classes []string `json:"classes"`
	}
}

func (s *Server) classes(context.Context, *struct{}) (*classesOut, error) {
	out := &classesOut{}
	out.Body.Classes = design.Classes()
	return out, nil
}

type draftOut struct {
	Body struct {
		Text string `json:"text"`
	}
}

func (s *Server) draft(_ context.Context, in *struct {
	Body struct {
		Class   string            `json:"class"`
		Answers map[string]string `json:"answers"`
	}
},
) (*draftOut, error) {
	text, err := design.Draft(in.Body.Class, in.Body.Answers)
	if err != nil {
		return nil, huma.Error422UnprocessableEntity(err.Error())
	}
	out := &draftOut{}
	out.Body.Text = text
	return out, nil
}

// faults turns an error of the design reader into its list.
func faults(err error) design.Faults {
	var f design.Faults
	if errors.As(err, &f) {
		return f
	}
	return design.Faults{{Message: err.Error()}}
}

// spelled returns faults with their words in the units of a system.
func spelled(fs design.Faults, sys unit.System) design.Faults {
	out := design.Faults{}
	for _, f := range fs {
		out = append(out, f.In(sys))
	}
	return out
}

// refusal spells the quantities of an error that no reader's units are known of.
func refusal(_ huma.Context, _ string, body any) (any, error) {
	if m, ok := body.(*huma.ErrorModel); ok {
		m.Detail = unit.Spell(m.Detail, unit.EU)
		for _, e := range m.Errors {
			e.Message = unit.Spell(e.Message, unit.EU)
		}
	}
	return body, nil
}
