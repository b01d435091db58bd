package api

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/store"
)

type event struct {
	id          int
	event, data string
}

type eventList []event

func (l eventList) last() event { return l[len(l)-1] }

func (l eventList) started(t *testing.T) (s Started) {
	t.Helper()
	if len(l) == 0 || l[0].event != "started" {
		t.Fatalf("the first event is not that of the start: %+v", l)
	}
	if err := json.Unmarshal([]byte(l[0].data), &s); err != nil {
		t.Fatal(err)
	}
	return s
}

func (e event) failed(t *testing.T) (f Failed) {
	t.Helper()
	if e.event != "failed" {
		t.Fatalf("event %s, want failed", e.event)
	}
	if err := json.Unmarshal([]byte(e.data), &f); err != nil {
		t.Fatal(err)
	}
	return f
}

// stream opens a stream of events and hands each one on until seen says no.
func stream(t *testing.T, s *httptest.Server, method, path, body string, last int, seen func(event) bool) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, method, s.URL+path, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	if last > 0 {
		req.Header.Set("Last-Event-ID", fmt.Sprint(last))
	}
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if r.StatusCode != http.StatusOK || r.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("%s %s: %s %s", method, path, r.Status, r.Header.Get("Content-Type"))
	}
	for e := range eventsOf(r.Body) {
		if !seen(e) {
			return
		}
	}
}

// eventsOf reads the events of a stream as they come.
func eventsOf(r io.Reader) iter.Seq[event] {
	return func(yield func(event) bool) {
		var e event
		lines := bufio.NewReader(r)
		for {
			line, err := lines.ReadString('\n')
			if err != nil {
				return
			}
			name, value, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ": ")
			switch name {
			case "id":
				_, _ = fmt.Sscan(value, &e.id)
			case "event":
				e.event = value
			case "data":
				e.data = value
			case "":
				if !yield(e) {
					return
				}
				e = event{}
			}
		}
	}
}

// follow returns all events of a stream.
func follow(t *testing.T, s *httptest.Server, method, path, body string, last int) (out eventList) {
	t.Helper()
	stream(t, s, method, path, body, last, func(e event) bool {
		out = append(out, e)
		return true
	})
	return out
}

const demoRun = `{"name":"wrenhollow.yaml"}`

// slow is a full run that reports, then waits until it is let go; it gives the
// result of the preview.
type slow struct{ begun, let chan struct{} }

func newSlow() *slow { return &slow{make(chan struct{}, 100), make(chan struct{})} }

func (w *slow) in(s *Server) {
	s.runner.full = func(ctx context.Context, doc *design.Document, cache *run.Cache, progress func(string, float64)) (*run.Result, error) {
		progress("blow", 0.5)
		w.begun <- struct{}{}
		select {
		case <-w.let:
		case <-ctx.Done():
		}
		return run.Check(doc, cache), ctx.Err()
	}
}

func states(t *testing.T, s *httptest.Server, name string) (out []RunInfo) {
	t.Helper()
	var list struct{ Runs []RunInfo }
	call(t, "GET", s.URL+"/api/runs?design="+name, nil, &list)
	return list.Runs
}

// until waits for what another goroutine does.
func until(t *testing.T, what string, f func() bool) {
	t.Helper()
	for range 1000 {
		if f() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("%s: it did not come", what)
}

func TestRunIsKept(t *testing.T) {
	t.Parallel()
	w := newSlow()
	close(w.let)
	s := serverWith(t, demoFolder(t), nil, w.in)
	first := follow(t, s, "POST", "/api/runs", demoRun, 0)
	if first.started(t).Kept || first.last().event != "result" {
		t.Fatalf("first run: %+v", first[0])
	}
	var got Checked
	if err := json.Unmarshal([]byte(first.last().data), &got); err != nil || got.Board == nil {
		t.Fatalf("the result has no board: %v", err)
	}
	again := follow(t, s, "POST", "/api/runs", demoRun, 0)
	if !again.started(t).Kept || again.started(t).ID != first.started(t).ID || again.last().data != first.last().data {
		t.Errorf("the same input again: %+v", again[0])
	}
	for _, other := range []string{`{"name":"wrenhollow.yaml","units":"us"}`, `{"name":"sorrel-lime.yaml"}`} {
		if e := follow(t, s, "POST", "/api/runs", other, 0); e.started(t).Kept || e.last().data == first.last().data {
			t.Errorf("%s takes the result of another input", other)
		}
	}
	path := fmt.Sprintf("/api/runs/%d", first.started(t).ID)
	var kept Checked
	if r := call(t, "GET", s.URL+path+"/result", nil, &kept); r.StatusCode != 200 || kept.Board == nil || len(kept.Board.Figures) != len(got.Board.Figures) {
		t.Errorf("the kept result: %s", r.Status)
	}
	if list := states(t, s, "wrenhollow.yaml"); len(list) != 2 || list[1].State != store.Finished || list[1].Ended == nil || list[1].Text != "" {
		t.Errorf("the list: %+v", list)
	}
	var one RunInfo
	call(t, "GET", s.URL+path, nil, &one)
	if one.Text != got.Text {
		t.Error("the text of the run is lost")
	}
	if r := call(t, "DELETE", s.URL+path, nil, nil); r.StatusCode != http.StatusNoContent {
		t.Errorf("forget: %s", r.Status)
	}
	for _, p := range []string{path, path + "/result"} {
		if r := call(t, "GET", s.URL+p, nil, nil); r.StatusCode != http.StatusNotFound {
			t.Errorf("%s after that: %s", p, r.Status)
		}
	}
	if e := follow(t, s, "GET", path+"/events", "", 0); e.last().failed(t).Message == "" {
		t.Error("the events of a forgotten run")
	}
}

// A listener whose connection breaks comes back to the same run.
func TestComeBackToARun(t *testing.T) {
	t.Parallel()
	w := newSlow()
	s := serverWith(t, demoFolder(t), nil, w.in)
	var id int64
	last := 0
	stream(t, s, "POST", "/api/runs", demoRun, 0, func(e event) bool {
		if e.event == "started" {
			id = eventList{e}.started(t).ID
		}
		last = e.id
		return e.event != "progress"
	})
	path := fmt.Sprintf("/api/runs/%d/events", id)
	// One who knows nothing is told the state; one who knows it is not.
	stream(t, s, "GET", path, "", 0, func(e event) bool {
		if e.event == "progress" && (e.id != last || !strings.Contains(e.data, `"blow"`)) {
			t.Errorf("the state after a break: %+v, want number %d", e, last)
		}
		return e.event != "progress"
	})
	close(w.let)
	e := follow(t, s, "GET", path, "", last)
	if len(e) != 2 || e.started(t).ID != id || e[1].event != "result" || e[1].id <= last {
		t.Errorf("%d events after event %d: %+v", len(e), last, e[0])
	}
	// After its end, too.
	if e := follow(t, s, "GET", path, "", 0); e.last().event != "result" {
		t.Errorf("after the end: %s", e.last().event)
	}
}

func TestRunsEndForAReason(t *testing.T) {
	t.Parallel()
	w := newSlow()
	s := serverWith(t, demoFolder(t), func(_ *Options, l *limits) { l.abandoned = 20 * time.Millisecond }, w.in)
	state := func() RunInfo { return states(t, s, "wrenhollow.yaml")[0] }
	// Nobody listens any more.
	stream(t, s, "POST", "/api/runs", demoRun, 0, func(e event) bool { return e.event != "progress" })
	until(t, "abandoned", func() bool { return state().State == store.Withdrawn })
	// The reader's word.
	var e eventList
	stream(t, s, "POST", "/api/runs", demoRun, 0, func(v event) bool {
		e = append(e, v)
		if v.event == "progress" && len(e) == 2 {
			path := fmt.Sprintf("%s/api/runs/%d", s.URL, e.started(t).ID)
			if r := call(t, "DELETE", path, nil, nil); r.StatusCode != http.StatusConflict {
				t.Errorf("a run under way is forgotten: %s", r.Status)
			}
			call(t, "POST", path+"/withdraw", nil, nil)
		}
		return true
	})
	if f := e.last().failed(t); f.State != store.Withdrawn {
		t.Errorf("withdrawn: %+v", f)
	}
	if r := call(t, "POST", s.URL+"/api/runs/999/withdraw", nil, nil); r.StatusCode != http.StatusNotFound {
		t.Errorf("withdraw a run that is not there: %s", r.Status)
	}
	// The program's fault.
	s = serverWith(t, demoFolder(t), nil, func(s *Server) {
		s.runner.full = func(context.Context, *design.Document, *run.Cache, func(string, float64)) (*run.Result, error) {
			panic("broken matrix")
		}
	})
	if f := follow(t, s, "POST", "/api/runs", demoRun, 0).last().failed(t); f.State != store.Failed || !strings.Contains(f.Message, "broken matrix") {
		t.Errorf("a panic: %+v", f)
	}
	if state().State != store.Failed {
		t.Errorf("recorded: %+v", state())
	}
}

// A run that its program did not survive is listed as crashed by the next one,
// and runs again.
func TestCrashedRunIsReported(t *testing.T) {
	t.Parallel()
	dir := demoFolder(t)
	now := time.Date(2026, 1, 2, 12, 0, 0, 0, time.UTC)
	runs, err := store.OpenRuns(dir, now)
	if err != nil {
		t.Fatal(err)
	}
	id, err := runs.Begin(context.Background(), store.Run{Design: "wrenhollow.yaml", Input: "x", Text: "name: kept\n", Units: "eu", Started: now})
	if err == nil {
		err = errors.Join(runs.Progress(context.Background(), id, "blow", 0.25), runs.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	if runs, err = store.OpenRuns(dir, now.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = runs.Close() })
	w := newSlow()
	close(w.let)
	s := serverWith(t, dir, func(o *Options, _ *limits) { o.Runs = runs }, w.in)
	list := states(t, s, "wrenhollow.yaml")
	if len(list) != 1 || list[0].ID != id || list[0].State != store.Crashed || list[0].Stage != "blow" || list[0].Fraction != 0.25 || list[0].Message == "" {
		t.Fatalf("%+v", list)
	}
	if f := follow(t, s, "GET", fmt.Sprintf("/api/runs/%d/events", id), "", 0).last().failed(t); f.State != store.Crashed {
		t.Errorf("its events: %+v", f)
	}
	if e := follow(t, s, "POST", "/api/runs", demoRun, 0); e.last().event != "result" || e.started(t).Kept {
		t.Errorf("run again: %s", e.last().event)
	}
}

func TestStop(t *testing.T) {
	t.Parallel()
	w := newSlow()
	var server *Server
	s := serverWith(t, demoFolder(t), func(_ *Options, l *limits) { l.runs = 1 }, w.in, func(s *Server) { server = s })
	ends := make(chan Failed, 2)
	for i := range 2 {
		go func() {
			ends <- follow(t, s, "POST", "/api/runs", fmt.Sprintf(`{"name":"wrenhollow.yaml","units":%q}`, []string{"eu", "us"}[i]), 0).last().failed(t)
		}()
	}
	<-w.begun
	until(t, "two runs", func() bool { return server.UnderWay() == 2 })
	ctx, cancel := context.WithCancel(context.Background())
	stopped := make(chan struct{})
	go func() {
		server.Stop(ctx)
		close(stopped)
	}()
	// The one that waits ends at once, the one under way when the time is over.
	if f := <-ends; f.State != store.Crashed || f.Message != errStopped.Error() {
		t.Errorf("the run that waited: %+v", f)
	}
	if f := follow(t, s, "POST", "/api/runs", `{"name":"sorrel-lime.yaml"}`, 0)[0].failed(t); f.Message != errStopped.Error() {
		t.Errorf("a new run: %+v", f)
	}
	if n := server.UnderWay(); n != 1 {
		t.Errorf("%d runs under way", n)
	}
	cancel()
	<-stopped
	if f := <-ends; f.State != store.Crashed {
		t.Errorf("the run under way: %+v", f)
	}
	for _, r := range states(t, s, "wrenhollow.yaml") {
		if r.State != store.Crashed {
			t.Errorf("recorded: %+v", r)
		}
	}
}

// A run that ends in time is not lost when the program is stopped.
func TestStopWaits(t *testing.T) {
	t.Parallel()
	w := newSlow()
	var server *Server
	s := serverWith(t, demoFolder(t), nil, w.in, func(s *Server) { server = s })
	end := make(chan string, 1)
	go func() { end <- follow(t, s, "POST", "/api/runs", demoRun, 0).last().event }()
	<-w.begun
	stopped := make(chan struct{})
	go func() {
		server.Stop(context.Background())
		close(stopped)
	}()
	close(w.let)
	<-stopped
	if e := <-end; e != "result" {
		t.Errorf("the stream ended with %s", e)
	}
	if list := states(t, s, "wrenhollow.yaml"); list[0].State != store.Finished {
		t.Errorf("recorded: %+v", list[0])
	}
}
