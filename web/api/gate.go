package api

import (
	"context"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"github.com/danielgtaylor/huma/v2"
)

// gate lets some computations in at a time and some more wait for their turn;
// whoever comes when all places to wait are taken is sent away.
type gate struct {
	what    string
	retry   time.Duration // after which it is worth coming again
	inside  chan struct{} // one token a computation that is let in
	present chan struct{} // one token a computation that is let in or waits
}

func newGate(what string, work, wait int, retry time.Duration) *gate {
	return &gate{what: what, retry: retry, inside: make(chan struct{}, work), present: make(chan struct{}, work+wait)}
}

// join takes a place to wait, or answers with 429. leave gives it back; it
// must be called once.
func (g *gate) join() (leave func(), err error) {
	select {
	case g.present <- struct{}{}:
		return func() { <-g.present }, nil
	default:
		return nil, g.full()
	}
}

// enter waits for its turn, or for the end of ctx. done must be called once.
func (g *gate) enter(ctx context.Context) (done func(), err error) {
	select {
	case g.inside <- struct{}{}:
		return func() { <-g.inside }, nil
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	}
}

func (g *gate) full() error {
	return again(http.StatusTooManyRequests, g.retry, fmt.Sprintf("%d %s are under way or waiting, more are not taken; try again in %.0f s", cap(g.present), g.what, g.retry.Seconds()))
}

// again is an answer that says after what time to ask once more.
func again(status int, after time.Duration, message string) error {
	return huma.ErrorWithHeaders(huma.NewError(status, message), http.Header{"Retry-After": {strconv.Itoa(int(after.Seconds()))}})
}

// compute runs f in its turn, or gives up when the request ends or the turn
// does not come.
func (s *Server) compute(ctx context.Context, f func()) error {
	return s.checks.run(ctx, s.limits.turn, f)
}

// run runs f in its turn, which must come within a time.
func (g *gate) run(ctx context.Context, within time.Duration, f func()) error {
	defer answering(ctx)
	leave, err := g.join()
	if err != nil {
		return err
	}
	defer leave()
	wait, cancel := context.WithTimeout(ctx, within)
	defer cancel()
	done, err := g.enter(wait)
	if err != nil {
		return again(http.StatusServiceUnavailable, g.retry, fmt.Sprintf("none of the %s under way ended within %.0f s; try again", g.what, within.Seconds()))
	}
	defer done()
	f()
	return nil
}
