package main

import (
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strconv"
	"syscall"
	"time"

	"costrel/store"
	"costrel/web/api"
	"costrel/web/ui"
)

type serveCmd struct {
	Dir       string `default:"." type:"existingdir" help:"Folder of the designs."`
	Address   string `default:"127.0.0.1" help:"Address to listen on. Another than loopback demands a token: see --token-file."`
	Port      int    `default:"8717" help:"Port; 0 picks a free one."`
	TokenFile string `placeholder:"FILE" help:"File whose first line is the token that every request must bring; the variable COSTREL_TOKEN may hold it instead."`
	TLSCert   string `name:"tls-cert" placeholder:"FILE" help:"Certificate chain (PEM): serve HTTPS. Needs --tls-key."`
	TLSKey    string `name:"tls-key" placeholder:"FILE" help:"Private key of the certificate (PEM)."`
}

// Times of the server.
const (
	drain   = 10 * time.Second // for full runs under way when the program is to stop
	closing = 5 * time.Second  // for the answers after that
)

// Run serves the workbench until it is interrupted. Then saves and requests
// under way are answered, and full runs have a while to end; what is cut off
// after that is recorded as such.
func (c *serveCmd) Run(e *env) (err error) {
	if c.Port < 0 || c.Port > 65535 {
		return inputError{fmt.Errorf("port %d is outside 0 to 65535", c.Port)}
	}
	token, err := c.access()
	if err != nil {
		return inputError{err}
	}
	crypt, err := c.encryption()
	if err != nil {
		return inputError{err}
	}
	folder, err := store.Open(c.Dir, time.Now())
	if err != nil {
		return inputError{err}
	}
	defer func() { err = errors.Join(err, folder.Close()) }()
	listener, err := net.Listen("tcp", net.JoinHostPort(c.Address, strconv.Itoa(c.Port)))
	if err != nil {
		return inputError{fmt.Errorf("cannot listen: %w; choose another --port or --address", err)}
	}
	runs, err := store.OpenRuns(c.Dir, time.Now())
	if err != nil {
		return inputError{errors.Join(err, listener.Close())}
	}
	defer func() { err = errors.Join(err, runs.Close()) }()
	handler, err := api.New(api.Options{
		Folder: folder, Runs: runs, Page: ui.Files(), Program: build(), Token: token, Now: time.Now,
		Log: slog.New(slog.NewTextHandler(e.err, &slog.HandlerOptions{Level: slog.LevelWarn})),
	})
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	c.greet(e, listener.Addr(), crypt != nil, runs.Remark())
	return serve(e, handler, listener, crypt)
}

// serve answers until the program is told to stop.
func serve(e *env, handler *api.Server, listener net.Listener, crypt *tls.Config) error {
	server := &http.Server{
		Handler: handler, TLSConfig: crypt, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second,
		WriteTimeout: 60 * time.Second, IdleTimeout: 120 * time.Second, MaxHeaderBytes: 64 << 10,
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	failed := make(chan error, 1)
	go func() {
		if crypt != nil {
			failed <- server.ServeTLS(listener, "", "")
			return
		}
		failed <- server.Serve(listener)
	}()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	stop() // a second Ctrl+C ends the program at once
	if n := handler.UnderWay(); n > 0 {
		fmt.Fprintf(e.out, "Stopping: full runs under way, %d, have %.0f s to end. Ctrl+C again cuts them off.\n", n, drain.Seconds())
	}
	wait, cancel := context.WithTimeout(context.Background(), drain+closing)
	defer cancel()
	ended := make(chan error, 1)
	go func() { ended <- server.Shutdown(wait) }() // takes no more connections from now on
	runs, cut := context.WithTimeout(wait, drain)
	defer cut()
	handler.Stop(runs)
	if err := <-ended; err != nil {
		return fmt.Errorf("stopping: %w", errors.Join(err, server.Close()))
	}
	if err := <-failed; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// greet says where the workbench is, and what to look after.
func (c *serveCmd) greet(e *env, at net.Addr, crypt bool, remark string) {
	if !ui.Built() {
		fmt.Fprintln(e.err, "The page is not built into this program; only the interface under /api answers. Run: make demo")
	}
	if remark != "" {
		fmt.Fprintf(e.err, "Full runs are kept until the program ends and no longer: %s.\n", remark)
	}
	if !loopback(c.Address) && !crypt {
		fmt.Fprintln(e.err, "Token and designs go over the network in the clear. Give --tls-cert and --tls-key, or listen on")
		fmt.Fprintln(e.err, "127.0.0.1 with the token and put a web server that speaks TLS in front; see \"Serving others\" in README.md.")
	}
	scheme := "http"
	if crypt {
		scheme = "https"
	}
	fmt.Fprintf(e.out, "costrel is at %s://%s/  (designs in %s; Ctrl+C stops it)\n", scheme, c.reached(at), c.Dir)
	if ip := net.ParseIP(c.Address); c.Address == "" || ip != nil && ip.IsUnspecified() {
		fmt.Fprintln(e.err, "It listens on every address of this machine; from another, put the name of this one in the place of the address.")
	}
}

// reached returns the address as it was asked for, with the port that it got.
func (c *serveCmd) reached(at net.Addr) string {
	tcp, ok := at.(*net.TCPAddr)
	if !ok || c.Address == "" {
		return at.String()
	}
	return net.JoinHostPort(c.Address, strconv.Itoa(tcp.Port))
}

// build names this program: results that another build has computed are not
// taken for its own. Without its file it takes none but those of this run.
func build() string {
	path, err := os.Executable()
	if err == nil {
		var file *os.File
		if file, err = os.Open(path); err == nil {
			h := sha256.New()
			_, err = io.Copy(h, file)
			if err = errors.Join(err, file.Close()); err == nil {
				return hex.EncodeToString(h.Sum(nil))
			}
		}
	}
	return fmt.Sprintf("unknown, started %s", time.Now().Format(time.RFC3339Nano))
}
