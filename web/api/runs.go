package api

import (
	"context"
	"sync"
	"time"

	"github.com/danielgtaylor/huma/v2"
	"github.com/danielgtaylor/huma/v2/sse"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

// Progress tells how far a full run is.
type Progress struct {
	Stage    string  `json:"stage"`
	Fraction float64 `json:"fraction"`
}

// Failed ends a run that gave no board.
type Failed struct {
	Message  string         `json:"message"`
	Problems []design.Fault `json:"problems"`
}

// every is the shortest time between two reports of one run.
const every = 50 * time.Millisecond

// runs registers the full run: progress as it goes, then the board. Closing
// the connection withdraws the run at once.
func (s *Server) runs(a huma.API) {
	sse.Register(a, huma.Operation{
		Method: "POST", Path: "/api/runs", OperationID: "run", Summary: "Compute a design with every solver; progress and result as events", MaxBodyBytes: maxBody,
	}, map[string]any{"progress": Progress{}, "result": Checked{}, "failed": Failed{}}, func(ctx context.Context, in *checkIn, send sse.Sender) {
		text, units := in.Body.Text, unit.System(in.Body.Units)
		if units == "" {
			units = unit.EU
		}
		if text == "" {
			f, err := s.folder.Read(in.Body.Name)
			if err != nil {
				_ = send.Data(Failed{Message: err.Error(), Problems: []design.Fault{}})
				return
			}
			text = f.Text
		}
		doc, err := design.Load(in.Body.Name, text)
		if err != nil {
			_ = send.Data(Failed{Message: "the design has faults", Problems: faults(err)})
			return
		}
		var mu sync.Mutex
		var last time.Time
		progress := func(stage string, fraction float64) {
			mu.Lock()
			defer mu.Unlock()
			if now := s.now(); now.Sub(last) >= every || fraction >= 1 {
				last = now
				_ = send.Data(Progress{Stage: stage, Fraction: fraction})
			}
		}
		err = s.compute(ctx, func() {
			r, err := run.Full(ctx, doc, s.cache, progress)
			if err != nil {
				return // withdrawn: nobody listens any more
			}
			mu.Lock()
			defer mu.Unlock()
			_ = send.Data(checked(text, r, units))
		})
		if err != nil {
			mu.Lock()
			defer mu.Unlock()
			_ = send.Data(Failed{Message: err.Error(), Problems: []design.Fault{}})
		}
	})
}
