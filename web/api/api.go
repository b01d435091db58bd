// Package api serves the workbench: designs as files in a folder, checks as
// JSON, the built page. It is the only place with HTTP.
package api

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"net/http"
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
	Folder *store.Folder // where the designs are
	Page   fs.FS         // the built page; index.html at its root
	Log    *slog.Logger
	Now    func() time.Time
}

// Server answers the requests of the page.
type Server struct {
	folder *store.Folder
	cache  *run.Cache
	log    *slog.Logger
	now    func() time.Time
	busy   chan struct{} // one token a computation
}

// maxBody is the largest request body [bytes].
const maxBody = design.MaxBytes + 64<<10

// New returns the handler of the workbench and its OpenAPI description.
func New(o Options) (http.Handler, huma.API) {
	s := &Server{folder: o.Folder, cache: run.NewCache(1024), log: o.Log, now: o.Now, busy: make(chan struct{}, 4)}
	if s.log == nil {
		s.log = slog.New(slog.DiscardHandler)
	}
	if s.now == nil {
		s.now = time.Now
	}
	mux := http.NewServeMux()
	config := huma.DefaultConfig("costrel", Version)
	config.OpenAPI.Info.Description = "The workbench's own interface. Numbers are SI; display texts are in the reader's units."
	config.DocsPath = "" // the page is the documentation
	config.OpenAPIPath = "/api/openapi"
	config.SchemasPath = "/api/schemas"
	config.CreateHooks = nil // no $schema key in bodies
	config.Transformers = nil
	a := humago.New(mux, config)
	s.routes(a)
	if o.Page != nil {
		mux.Handle("GET /", page(o.Page))
	}
	protect := http.NewCrossOriginProtection()
	return guard(protect.Handler(limit(mux))), a
}

// guard sets the headers of every answer and keeps foreign hosts out: a page
// of another site must not reach the loopback server under a name of its own.
func guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !localHost(r.Host) {
			http.Error(w, "costrel answers on localhost only", http.StatusForbidden)
			return
		}
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// limit bounds the size of a request body.
func limit(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, maxBody)
		next.ServeHTTP(w, r)
	})
}

func (s *Server) routes(a huma.API) {
	op := func(method, path, id, summary string) huma.Operation {
		return huma.Operation{Method: method, Path: path, OperationID: id, Summary: summary, MaxBodyBytes: maxBody}
	}
	huma.Register(a, op("GET", "/api/designs", "list-designs", "The designs in the folder"), s.list)
	huma.Register(a, op("GET", "/api/designs/{name}", "get-design", "One design with its resolved values"), s.get)
	huma.Register(a, op("PUT", "/api/designs/{name}", "put-design", "Save a design unless it changed on disk"), s.put)
	huma.Register(a, op("POST", "/api/check", "check", "Compute a design, with edits that are not saved"), s.check)
	huma.Register(a, op("POST", "/api/why", "why", "One figure of a check with how it came about"), s.why)
	huma.Register(a, op("GET", "/api/units", "units", "The table of units"), s.units)
	huma.Register(a, op("GET", "/api/sources/{key}", "source", "One published source"), s.source)
	huma.Register(a, op("GET", "/api/verify", "verify", "The table of published checks as run by this program"), s.verify)
	huma.Register(a, op("GET", "/api/cards", "cards", "The built-in data with sources"), s.cards)
	huma.Register(a, op("GET", "/api/classes", "classes", "The pack classes"), s.classes)
	huma.Register(a, op("POST", "/api/compare", "compare", "The difference sheet of two designs"), s.compare)
	s.runs(a)
	huma.Register(a, op("POST", "/api/draft", "draft", "The text of a new design"), s.draft)
}

// compute runs f when a place is free, or gives up with the request.
func (s *Server) compute(ctx context.Context, f func()) error {
	select {
	case s.busy <- struct{}{}:
		defer func() { <-s.busy }()
		f()
		return nil
	case <-ctx.Done():
		return huma.Error503ServiceUnavailable("the request was withdrawn")
	}
}

type unitsOut struct {
	Body struct {
		Kinds []unit.KindInfo `json:"kinds"`
	}
}

func (s *Server) units(context.Context, *struct{}) (*unitsOut, error) {
	out := &unitsOut{}
	out.Body.Kinds = unit.Table()
	return out, nil
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
	err := s.compute(ctx, func() { out.Body.Rows = verify.Run("") })
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
