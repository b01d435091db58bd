package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"

	"costrel/store"
	"costrel/web/api"
	"costrel/web/ui"
)

type serveCmd struct {
	Dir  string `default:"." type:"existingdir" help:"Folder of the designs."`
	Port int    `default:"8717" help:"Port on the loopback address; 0 picks a free one."`
}

// Run serves the workbench until it is interrupted; requests under way are
// answered first.
func (c *serveCmd) Run(e *env) error {
	if c.Port < 0 || c.Port > 65535 {
		return inputError{fmt.Errorf("port %d is outside 0 to 65535", c.Port)}
	}
	folder, err := store.Open(c.Dir, time.Now())
	if err != nil {
		return inputError{err}
	}
	handler, err := api.New(api.Options{
		Folder: folder, Page: ui.Files(), Now: time.Now,
		Log: slog.New(slog.NewTextHandler(e.err, &slog.HandlerOptions{Level: slog.LevelWarn})),
	})
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", c.Port))
	if err != nil {
		return inputError{fmt.Errorf("cannot listen: %w; choose another --port", err)}
	}
	server := &http.Server{
		Handler: handler, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second,
		WriteTimeout: 60 * time.Second, IdleTimeout: 120 * time.Second, MaxHeaderBytes: 64 << 10,
	}
	if !ui.Built() {
		fmt.Fprintln(e.err, "The page is not built into this program; only the interface under /api answers. Run: make demo")
	}
	fmt.Fprintf(e.out, "costrel is at http://%s/  (designs in %s; Ctrl+C stops it)\n", listener.Addr(), c.Dir)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	if err := server.Shutdown(wait); err != nil {
		return fmt.Errorf("stopping: %w", err)
	}
	if err := <-failed; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
