package api

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"runtime/debug"
	"strings"
	"time"
)

// policy lets the page load its own files and nothing else, from nowhere else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; " +
	"frame-ancestors 'none'; base-uri 'none'; form-action 'none'"

// guard sets the headers of every answer and keeps out whoever has no business
// here. Without a token the server is for this machine: a Host header with
// another name comes from a page of another site that had its name point here.
// With a token it is the token that counts, under whatever name.
func guard(token string, send time.Duration, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if strings.HasPrefix(r.URL.Path, "/api/") {
			h.Set("Cache-Control", "no-store")
		}
		switch {
		case token == "" && !localHost(r.Host):
			http.Error(w, "costrel answers on localhost only", http.StatusForbidden)
		case token != "" && !knows(r, token):
			h.Set("WWW-Authenticate", `Basic realm="costrel: any user name, the token as password", charset="UTF-8"`)
			http.Error(w, "costrel needs the token of this server: as a password with any user name, or as \"Authorization: Bearer TOKEN\"", http.StatusUnauthorized)
		default:
			next.ServeHTTP(&once{ResponseWriter: w, send: send}, r.WithContext(context.WithValue(r.Context(), controlKey{}, http.NewResponseController(w))))
		}
	})
}

// once keeps the first status of an answer: when a reader goes in the middle
// of one, the library sets another, which would be a line in the log. It has
// its own time for a part of a stream to go out: the library's is too short for
// a result on a slow line.
type once struct {
	http.ResponseWriter
	set  bool
	send time.Duration
}

// SetWriteDeadline gives the reader the time of once, whatever is asked for.
func (w *once) SetWriteDeadline(time.Time) error {
	return http.NewResponseController(w.ResponseWriter).SetWriteDeadline(time.Now().Add(w.send))
}

// WriteHeader sends the status.
func (w *once) WriteHeader(status int) {
	if !w.set {
		w.set = status >= http.StatusOK
		w.ResponseWriter.WriteHeader(status)
	}
}

// Write sends a part of the body, with a status before the first.
func (w *once) Write(b []byte) (int, error) {
	w.set = true
	return w.ResponseWriter.Write(b)
}

// Unwrap gives those who flush and set deadlines what is below.
func (w *once) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// knows reports whether a request brings the token. The time it takes tells
// nothing about the token: hashes of one length are compared in constant time.
func knows(r *http.Request, token string) bool {
	given, ok := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer ")
	if !ok {
		_, given, ok = r.BasicAuth()
	}
	a, b := sha256.Sum256([]byte(given)), sha256.Sum256([]byte(token))
	return ok && subtle.ConstantTimeCompare(a[:], b[:]) == 1
}

// localHost reports whether a Host header names this machine.
func localHost(host string) bool {
	h, _, err := net.SplitHostPort(host)
	if err != nil {
		h = host
	}
	h = strings.Trim(h, "[]")
	if h == "localhost" {
		return true
	}
	ip := net.ParseIP(h)
	return ip != nil && ip.IsLoopback()
}

type controlKey struct{}

// longLived lets an answer begin, or go on, when the time is over that the
// server gives to answers.
func longLived(ctx context.Context) {
	if c, ok := ctx.Value(controlKey{}).(*http.ResponseController); ok {
		_ = c.SetWriteDeadline(time.Time{}) // a recorder in a test has none
	}
}

// answering gives the reader of a finished answer a time to take it.
func answering(ctx context.Context) {
	if c, ok := ctx.Value(controlKey{}).(*http.ResponseController); ok {
		_ = c.SetWriteDeadline(time.Now().Add(time.Minute))
	}
}

// recovered answers a request whose handler panicked: the server goes on.
func recovered(log *slog.Logger, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			fault := recover()
			if fault == nil {
				return
			}
			if err, ok := fault.(error); ok && errors.Is(err, http.ErrAbortHandler) {
				panic(fault)
			}
			log.Error("a request failed", "method", r.Method, "path", r.URL.Path, "fault", fault, "stack", string(debug.Stack()))
			http.Error(w, `{"title":"Internal Server Error","status":500,"detail":"the program failed in this request; the designs on the disk are as they were"}`, http.StatusInternalServerError)
		}()
		next.ServeHTTP(w, r)
	})
}
