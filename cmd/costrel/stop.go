package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"syscall"
)

// stoppable runs a long computation until it is done or the program is
// interrupted. An interruption is answered at once: nothing of the computation
// is kept, and what it still does ends with the program.
func stoppable[T any](e *env, what string, f func(ctx context.Context) (T, error)) (T, error) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	type answer struct {
		v   T
		err error
	}
	done := make(chan answer, 1)
	go func() {
		v, err := f(ctx)
		done <- answer{v, err}
	}()
	select {
	case a := <-done:
		if ctx.Err() == nil {
			return a.v, a.err
		}
	case <-ctx.Done():
	}
	fmt.Fprintf(e.err, "%s: interrupted; nothing was written\n", what)
	var none T
	return none, exit(exitFault)
}
