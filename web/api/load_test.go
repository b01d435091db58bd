package api

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"costrel/project/design"
	"costrel/store"
)

// Load: clients that read, and clients that run blows.
const (
	readers = 50
	blowers = 5
	// The most that the heap may hold at any moment, clients included, and what
	// may be left of it when all have gone [bytes].
	mostHeap = 1 << 30
	mostLeft = 512 << 20
)

// TestLoad lets 50 clients read and 5 run blows for a while: no error, bounded
// memory. COSTREL_LOAD sets how long; "make load" gives it 60 s.
func TestLoad(t *testing.T) {
	long, given := os.LookupEnv("COSTREL_LOAD")
	lasts := 3 * time.Second
	if given {
		var err error
		if lasts, err = time.ParseDuration(long); err != nil {
			t.Fatal(err)
		}
		defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program has it
	} else if testing.Short() {
		t.Skip("loads the machine for some seconds")
	}
	dir := demoFolder(t)
	runs, err := store.OpenRuns(dir, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	defer runs.Close()
	var server *Server
	s := serverWith(t, dir, func(o *Options, _ *limits) { o.Runs = runs }, func(s *Server) { server = s })
	l := &load{t: t, url: s.URL, client: &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: readers + blowers}}}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	begin := time.Now()
	go func() {
		defer cancel()
		time.Sleep(lasts)
		for l.reports.Load() == 0 || given && l.blown.Load() == 0 { // on a slow machine: until it shows something
			if t.Failed() || time.Since(begin) > lasts+2*time.Minute {
				return
			}
			time.Sleep(10 * time.Millisecond)
		}
	}()
	var work sync.WaitGroup
	for i := range readers {
		work.Go(func() { l.read(ctx, i) })
	}
	for i := range blowers {
		work.Go(func() { l.blow(ctx, i, variants(t, dir)) })
	}
	heap := mostHeapUntil(ctx)
	lasts = time.Since(begin)
	work.Wait()
	server.Stop(ctx) // the time is over: what is under way is cut off
	l.client.CloseIdleConnections()
	runtime.GC()
	left := heapNow()
	slices.Sort(l.times)
	p95 := l.times[len(l.times)*95/100]
	t.Logf("%d clients reading, %d running blows, %s: %.0f requests/s, 95 %% within %s, slowest %s; %d blows to their end, %d reports; heap at most %d MB, %d MB left",
		readers, blowers, lasts.Round(time.Second), float64(len(l.times))/lasts.Seconds(), p95.Round(time.Millisecond), l.times[len(l.times)-1].Round(time.Millisecond),
		l.blown.Load(), l.reports.Load(), heap>>20, left>>20)
	if l.reports.Load() == 0 || given && l.blown.Load() == 0 {
		t.Error("no blow was under way: the test shows nothing")
	}
	if heap > mostHeap || left > mostLeft {
		t.Errorf("heap %d MB at most and %d MB left, want %d and %d", heap>>20, left>>20, mostHeap>>20, mostLeft>>20)
	}
	if n := server.UnderWay(); n != 0 {
		t.Errorf("%d runs are under way after the end", n)
	}
}

// load is what the clients share.
type load struct {
	t              *testing.T
	url            string
	client         *http.Client
	mu             sync.Mutex
	times          []time.Duration
	blown, reports atomic.Int64
}

// read asks for what the page asks for, over and over.
func (l *load) read(ctx context.Context, start int) {
	check := func(name string) []string {
		return []string{"POST", "/api/check", `{"brief":true,"name":"` + name + `"}`}
	}
	asked := [][]string{
		{"GET", "/", ""},
		{"GET", "/api/designs", ""},
		{"GET", "/api/units", ""},
		{"GET", "/api/designs/sorrel-lime.yaml", ""},
		check("sorrel-lime.yaml"),
		{"GET", "/api/runs?design=sorrel-lime.yaml", ""},
		{"GET", "/api/cards", ""},
		check("wrenhollow.yaml"),
	}
	for i := start; ctx.Err() == nil; i++ {
		a := asked[i%len(asked)]
		begin := time.Now()
		req, err := http.NewRequestWithContext(ctx, a[0], l.url+a[1], strings.NewReader(a[2]))
		if err != nil {
			l.t.Error(err)
			return
		}
		req.Header.Set("Content-Type", "application/json")
		r, err := l.client.Do(req)
		if err == nil {
			_, err = io.Copy(io.Discard, r.Body)
			_ = r.Body.Close()
		}
		if ctx.Err() != nil {
			return
		}
		if err != nil || r.StatusCode != http.StatusOK {
			l.t.Errorf("%s %s: %v %v", a[0], a[1], r, err)
			return
		}
		l.mu.Lock()
		l.times = append(l.times, time.Since(begin))
		l.mu.Unlock()
	}
}

// variants returns texts of a design that differ, one after the other.
func variants(t *testing.T, dir string) func(int) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dir, "wrenhollow.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return func(i int) string {
		text, err := design.Set(string(b), "preform.wall", fmt.Sprintf("%.3f mm", 2.8+0.001*float64(i)))
		if err != nil {
			t.Error(err)
		}
		return text
	}
}

// blow runs one variant after the other to its end.
func (l *load) blow(ctx context.Context, client int, text func(int) string) {
	for i := 0; ctx.Err() == nil; i++ {
		body, err := json.Marshal(map[string]string{"name": "wrenhollow.yaml", "text": text(100*client + i)})
		if err != nil {
			l.t.Error(err)
			return
		}
		req, err := http.NewRequestWithContext(ctx, "POST", l.url+"/api/runs", strings.NewReader(string(body)))
		if err != nil {
			l.t.Error(err)
			return
		}
		req.Header.Set("Content-Type", "application/json")
		r, err := l.client.Do(req)
		if ctx.Err() != nil {
			return
		}
		if err != nil || r.StatusCode != http.StatusOK {
			l.t.Errorf("run: %v %v", r, err)
			return
		}
		var end string
		for e := range eventsOf(r.Body) {
			end = e.event
			if end == "progress" {
				l.reports.Add(1)
			}
		}
		_ = r.Body.Close()
		if ctx.Err() != nil {
			return
		}
		if end != "result" {
			l.t.Errorf("a run ended with %q", end)
			return
		}
		l.blown.Add(1)
	}
}

func heapNow() uint64 {
	m := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(m)
	return m[0].Value.Uint64()
}

// mostHeapUntil returns the most that the heap holds until ctx ends [bytes].
func mostHeapUntil(ctx context.Context) (most uint64) {
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	for {
		most = max(most, heapNow())
		select {
		case <-tick.C:
		case <-ctx.Done():
			return most
		}
	}
}
