package api

import (
	"bufio"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"costrel/store"
)

// serverWith serves the folder of copies of the demo designs with other limits.
func serverWith(t *testing.T, dir string, change func(*Options, *limits), then ...func(*Server)) *httptest.Server {
	t.Helper()
	folder, err := store.Open(dir, time.Unix(1e9, 0))
	if err != nil {
		t.Fatal(err)
	}
	o, l := Options{Folder: folder, Page: fstest.MapFS{"index.html": {Data: []byte("<!doctype html>")}}}, defaultLimits()
	if change != nil {
		change(&o, &l)
	}
	s, err := newServer(o, l)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range then {
		f(s)
	}
	h := httptest.NewServer(s)
	t.Cleanup(h.Close)
	return h
}

// endpoint is one that the server describes, with a path to try.
type endpoint struct {
	method, path string
	body         bool
}

func endpoints(t *testing.T, url string) (out []endpoint) {
	t.Helper()
	var doc struct {
		Paths map[string]map[string]struct {
			RequestBody *struct{} `json:"requestBody"`
		}
	}
	call(t, "GET", url+"/api/openapi.json", nil, &doc)
	for path, methods := range doc.Paths {
		path = strings.NewReplacer("{name}", "wrenhollow.yaml", "{id}", "1", "{key}", "x").Replace(path)
		for method, e := range methods {
			out = append(out, endpoint{strings.ToUpper(method), path, e.RequestBody != nil})
		}
	}
	if len(out) < 15 {
		t.Fatalf("%d endpoints are described", len(out))
	}
	return out
}

// Without the check of the Host header a page whose name is made to point to
// this machine reads and writes the designs.
func TestHostHeader(t *testing.T) {
	s := serverWith(t, demoFolder(t), nil)
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8717": 200, "127.0.0.1": 200, "127.9.9.9:1": 200, "[::1]:8717": 200, "[::1]": 200,
		"evil.example": 403, "evil.example:8717": 403, "localhost.evil.example": 403, "127.0.0.1.evil.example": 403, "192.168.1.7:8717": 403, "0.0.0.0:8717": 403,
	} {
		for _, path := range []string{"/", "/api/designs", "/api/openapi.json"} {
			if r := call(t, "GET", s.URL+path, nil, nil, "Host", host); r.StatusCode != want {
				t.Errorf("%s as %s: %s, want %d", path, host, r.Status, want)
			}
		}
	}
}

// Without the protection another site's page, open in the same browser, sends
// what changes things.
func TestCrossOrigin(t *testing.T) {
	t.Parallel()
	dir := demoFolder(t)
	s := serverWith(t, dir, nil)
	tried := 0
	for _, e := range endpoints(t, s.URL) {
		if e.method == "GET" {
			continue
		}
		tried++
		for _, from := range [][]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "http://evil.example"}, {"Origin", "null"}} {
			if r := call(t, e.method, s.URL+e.path, map[string]string{"text": "x", "version": ""}, nil, from...); r.StatusCode != http.StatusForbidden {
				t.Errorf("%s %s with %v: %s, want 403", e.method, e.path, from, r.Status)
			}
		}
	}
	if tried < 6 {
		t.Errorf("%d endpoints change something", tried)
	}
	for _, from := range [][]string{{"Sec-Fetch-Site", "same-origin"}, {"Origin", s.URL}, nil} {
		if r := call(t, "POST", s.URL+"/api/check", map[string]string{"name": "wrenhollow.yaml"}, nil, from...); r.StatusCode != http.StatusOK {
			t.Errorf("the page's own request with %v: %s", from, r.Status)
		}
	}
}

func TestPolicy(t *testing.T) {
	s := serverWith(t, demoFolder(t), nil)
	for _, path := range []string{"/", "/nothing", "/api/designs", "/api/designs/none.yaml"} {
		h := call(t, "GET", s.URL+path, nil, nil).Header
		rules := map[string]string{}
		for rule := range strings.SplitSeq(h.Get("Content-Security-Policy"), ";") {
			name, from, _ := strings.Cut(strings.TrimSpace(rule), " ")
			rules[name] = from
		}
		for _, none := range []string{"default-src", "frame-ancestors", "base-uri", "form-action"} {
			if rules[none] != "'none'" {
				t.Errorf("%s: %s %q, want 'none'", path, none, rules[none])
			}
		}
		for name, from := range rules {
			if from != "'none'" && from != "'self'" {
				t.Errorf("%s: %s allows %q", path, name, from)
			}
		}
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
			"Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin",
		} {
			if h.Get(name) != want {
				t.Errorf("%s: %s %q, want %q", path, name, h.Get(name), want)
			}
		}
		if strings.HasPrefix(path, "/api/") && h.Get("Cache-Control") != "no-store" {
			t.Errorf("%s may be kept by a cache", path)
		}
	}
}

// A body that is too large, or does not come in, is refused everywhere.
func TestBodies(t *testing.T) {
	t.Parallel()
	dir := demoFolder(t)
	s := serverWith(t, dir, nil)
	hasty := serverWith(t, dir, func(_ *Options, l *limits) { l.body = 100 * time.Millisecond })
	for _, e := range endpoints(t, s.URL) {
		if !e.body {
			continue
		}
		most := maxBody
		if e.path == "/api/profile" {
			most = maxImport
		}
		large := `{"text":"` + strings.Repeat("x", most) + `"}`
		req, err := http.NewRequest(e.method, s.URL+e.path, strings.NewReader(large))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Content-Type", "application/json")
		r, err := http.DefaultClient.Do(req)
		if err != nil { // the server may close before it has read all
			t.Logf("%s %s: %v", e.method, e.path, err)
			continue
		}
		if r.StatusCode != http.StatusRequestEntityTooLarge {
			t.Errorf("%s %s with %d bytes: %s, want 413", e.method, e.path, len(large), r.Status)
		}
		if err := r.Body.Close(); err != nil {
			t.Error(err)
		}
		if got := raw(t, hasty, fmt.Sprintf("%s %s HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{", e.method, e.path)); !strings.HasPrefix(got, "HTTP/1.1 408") {
			t.Errorf("%s %s with a body that does not come: %q, want 408", e.method, e.path, got)
		}
	}
}

// raw sends text to a server and returns the first line of its answer.
func raw(t *testing.T, s *httptest.Server, text string) string {
	t.Helper()
	c, err := net.Dial("tcp", s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := io.WriteString(c, text); err != nil {
		t.Fatal(err)
	}
	if err := c.SetReadDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(c).ReadString('\n')
	if err != nil {
		return err.Error()
	}
	return strings.TrimSpace(line)
}

func TestNothingOutsideTheFolder(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "designs")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	secret := filepath.Join(parent, "secret.yaml")
	if err := os.WriteFile(secret, []byte("schema: 1\nname: secret\nclass: csd-500\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(dir, "link.yaml")); err != nil {
		t.Skip(err)
	}
	s := serverWith(t, dir, nil)
	names := []string{"link.yaml", "../secret.yaml", "..%2fsecret.yaml", "%2e%2e%2fsecret.yaml", "%2e%2e/secret.yaml", "..%5csecret.yaml", "....//secret.yaml", "%2f" + strings.TrimPrefix(secret, "/"), "x/../../secret.yaml", ".costrel.db", "designs%2f..%2f..%2fsecret.yaml"}
	for _, name := range names {
		for _, path := range []string{"/api/designs/" + name, "/" + name, "/assets/" + name} {
			line := raw(t, s, "GET "+path+" HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
			if strings.Contains(line, " 200 ") {
				t.Errorf("GET %s: %s", path, line)
			}
		}
		body := `{"text":"taken","version":""}`
		raw(t, s, fmt.Sprintf("PUT /api/designs/%s HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\nConnection: close\r\n\r\n%s", name, len(body), body))
	}
	for _, name := range []string{"../secret.yaml", "link.yaml", secret} {
		for _, path := range []string{"/api/check", "/api/why"} {
			if r := call(t, "POST", s.URL+path, map[string]string{"name": name, "key": "x"}, nil); r.StatusCode == http.StatusOK {
				t.Errorf("%s of %s: %s", path, name, r.Status)
			}
		}
		if e := follow(t, s, "POST", "/api/runs", `{"name":"`+name+`"}`, 0); e.last().event != "failed" {
			t.Errorf("a run of %s: %+v", name, e.last())
		}
	}
	if b, err := os.ReadFile(secret); err != nil || !strings.Contains(string(b), "secret") {
		t.Errorf("the file outside holds %q, %v", b, err)
	}
	if left, err := os.ReadDir(parent); err != nil || len(left) != 2 {
		t.Errorf("outside the folder there is %v, %v", left, err)
	}
}

func TestToken(t *testing.T) {
	const token = "0123456789abcdef01234567"
	s := serverWith(t, demoFolder(t), func(o *Options, _ *limits) { o.Token = token })
	basic := func(user, password string) string {
		r := httptest.NewRequest("GET", "/", nil)
		r.SetBasicAuth(user, password)
		return r.Header.Get("Authorization")
	}
	for auth, want := range map[string]int{
		"": 401, "Bearer": 401, "Bearer ": 401, "Bearer " + token[1:]: 401, "Bearer " + token + "x": 401, token: 401, basic("", ""): 401, basic(token, ""): 401, basic("x", token[:23]): 401,
		"Bearer " + token: 200, basic("", token): 200, basic("anybody", token): 200,
	} {
		for _, path := range []string{"/", "/api/designs", "/api/openapi.json"} {
			r := call(t, "GET", s.URL+path, nil, nil, "Authorization", auth, "Host", "costrel.example")
			if r.StatusCode != want {
				t.Errorf("%s with %q: %s, want %d", path, auth, r.Status, want)
			}
			if asks := strings.HasPrefix(r.Header.Get("WWW-Authenticate"), "Basic "); asks != (want == 401) {
				t.Errorf("%s with %q asks for a password: %v", path, auth, asks)
			}
		}
	}
	// The browser sends a password by itself, also for another site's page.
	if r := call(t, "POST", s.URL+"/api/check", map[string]string{"name": "wrenhollow.yaml"}, nil, "Authorization", basic("", token), "Sec-Fetch-Site", "cross-site"); r.StatusCode != http.StatusForbidden {
		t.Errorf("another site's request with a token: %s", r.Status)
	}
}

func TestPanicIsAnAnswer(t *testing.T) {
	var log strings.Builder
	h := recovered(slog.New(slog.NewTextHandler(&log, nil)), http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("broken matrix") }))
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/api/check", nil))
	if w.Code != 500 || strings.Contains(w.Body.String(), "matrix") || !strings.Contains(log.String(), "broken matrix") {
		t.Errorf("%d %s; log %s", w.Code, w.Body, log.String())
	}
}
