package api

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"costrel/store"
)

func TestRunTakesTooLong(t *testing.T) {
	s := serverWith(t, demoFolder(t), func(_ *Options, l *limits) { l.run = 20 * time.Millisecond }, newSlow().in)
	if f := follow(t, s, "POST", "/api/runs", demoRun, 0).last().failed(t); f.State != store.Failed || f.Message != errTooLong.Error() {
		t.Errorf("%+v", f)
	}
}

// A run and a comparison of runs may last longer than the server gives to answers.
func TestLongAnswers(t *testing.T) {
	t.Parallel()
	side := `{"name":"wrenhollow.yaml"}`
	for path, body := range map[string]string{"/api/runs": demoRun, "/api/compare": `{"baseline":` + side + `,"variant":` + side + `,"full":true}`} {
		w := newSlow()
		plain := serverWith(t, demoFolder(t), nil, w.in)
		s := httptest.NewUnstartedServer(plain.Config.Handler)
		s.Config.WriteTimeout = 100 * time.Millisecond
		s.Start()
		defer s.Close()
		time.AfterFunc(300*time.Millisecond, func() { close(w.let) })
		r, err := http.Post(s.URL+path, "application/json", strings.NewReader(body))
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		defer r.Body.Close()
		b, err := io.ReadAll(r.Body)
		if err != nil || r.StatusCode != http.StatusOK || path == "/api/runs" && !strings.Contains(string(b), "event: result") {
			t.Errorf("%s: %s %v %.200s", path, r.Status, err, b)
		}
	}
}

// A pause between two reports does not end the stream: over HTTP/2 the time to
// send ends a stream that has nothing to send, too.
func TestPauseOfAStream(t *testing.T) {
	t.Parallel()
	w := newSlow()
	plain := serverWith(t, demoFolder(t), func(_ *Options, l *limits) { l.send = 2 * time.Second }, w.in)
	s := httptest.NewUnstartedServer(plain.Config.Handler)
	s.EnableHTTP2 = true
	s.StartTLS()
	defer s.Close()
	go func() {
		<-w.begun
		time.Sleep(3 * time.Second)
		close(w.let)
	}()
	r, err := s.Client().Post(s.URL+"/api/runs", "application/json", strings.NewReader(demoRun))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	end := ""
	for e := range eventsOf(r.Body) {
		end = e.event
	}
	if end != "result" || r.ProtoMajor != 2 {
		t.Errorf("%s: the stream ended with %q", r.Proto, end)
	}
}

func TestTooManyRuns(t *testing.T) {
	t.Parallel()
	w := newSlow()
	s := serverWith(t, demoFolder(t), func(_ *Options, l *limits) { l.runs, l.waitingRun = 1, 1 }, w.in)
	ends := make(chan string, 2)
	for i := range 2 {
		go func() {
			e := follow(t, s, "POST", "/api/runs", fmt.Sprintf(`{"name":"wrenhollow.yaml","units":%q}`, []string{"eu", "us"}[i]), 0)
			ends <- e.last().event
		}()
	}
	until(t, "one runs, one waits", func() bool {
		n := map[store.State]int{}
		for _, r := range states(t, s, "wrenhollow.yaml") {
			n[r.State]++
		}
		return n[store.Running] == 1 && n[store.Waiting] == 1
	})
	var told struct{ Detail string }
	r := call(t, "POST", s.URL+"/api/runs", map[string]string{"name": "sorrel-lime.yaml"}, &told)
	if r.StatusCode != http.StatusTooManyRequests || r.Header.Get("Retry-After") != "10" || !strings.Contains(told.Detail, "2 full runs") {
		t.Errorf("the third run: %s, Retry-After %q, %q", r.Status, r.Header.Get("Retry-After"), told.Detail)
	}
	if len(w.begun) != 1 {
		t.Errorf("%d runs work at a time", len(w.begun))
	}
	close(w.let)
	for range 2 {
		if e := <-ends; e != "result" {
			t.Errorf("a run that was taken ended with %s", e)
		}
	}
	// The places are free again, also those of requests that became no run.
	for range 5 {
		follow(t, s, "POST", "/api/runs", `{"text":"schema: 1\nname: x\nclass: bathtub\n"}`, 0)
	}
	if e := follow(t, s, "POST", "/api/runs", `{"name":"sorrel-lime.yaml"}`, 0); e.last().event != "result" {
		t.Errorf("after that: %s", e.last().event)
	}
}

func TestTooManyChecks(t *testing.T) {
	g := newGate("computations", 1, 1, time.Second)
	in, let := make(chan struct{}), make(chan struct{})
	ends := make(chan error, 2)
	for range 2 {
		go func() {
			ends <- g.run(context.Background(), time.Minute, func() { in <- struct{}{}; <-let })
		}()
	}
	<-in
	until(t, "the second waits", func() bool { return len(g.present) == 2 })
	status := func(err error) int {
		var s interface{ GetStatus() int }
		if !errors.As(err, &s) {
			t.Fatalf("%v has no status", err)
		}
		return s.GetStatus()
	}
	if err := g.run(context.Background(), time.Minute, func() { t.Error("the third got in") }); status(err) != http.StatusTooManyRequests {
		t.Errorf("the third: %v", err)
	}
	close(let)
	<-in
	for range 2 {
		if err := <-ends; err != nil {
			t.Error(err)
		}
	}
	g = newGate("computations", 1, 1, time.Second)
	done, err := g.enter(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if err := g.run(context.Background(), time.Millisecond, func() { t.Error("it got in") }); status(err) != http.StatusServiceUnavailable {
		t.Errorf("its turn did not come: %v", err)
	}
	done()
	if len(g.present)+len(g.inside) != 0 {
		t.Error("a place was not given back")
	}
}
