package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"costrel/project/design"
	"costrel/store"
)

// writer saves designs through a server and knows what may lie on the disk.
type writer struct {
	url   string
	big   string            // end of every text: a save takes several writes
	base  map[string]string // version that was answered last
	acked map[string]string // text of the save that was answered last
	sent  map[string]string // text of the save that was begun last
	half  map[string]bool   // files in the making that kills have left
	n     int
}

// save writes the next version of a design; an error is that of a server that
// is there no more.
func (w *writer) save(t *testing.T, name string) error {
	w.n++
	text := fmt.Sprintf("schema: 1\nname: Version %d of %s\nclass: still-500\n%s", w.n, name, w.big)
	body, err := json.Marshal(map[string]string{"text": text, "version": w.base[name]})
	if err != nil {
		t.Fatal(err)
	}
	req, err := http.NewRequest("PUT", w.url+"/api/designs/"+name, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	w.sent[name] = text
	r, err := http.DefaultClient.Do(req)
	if err != nil {
		return err
	}
	defer r.Body.Close()
	var saved struct{ Version, Message string }
	if err := json.NewDecoder(r.Body).Decode(&saved); err != nil {
		return err
	}
	if r.StatusCode != http.StatusOK {
		t.Errorf("save of %s: %s %s", name, r.Status, saved.Message)
	}
	w.base[name], w.acked[name] = saved.Version, text
	return nil
}

// check holds the folder against what was sent: every design is whole and is
// the version answered last, or the one that was under way.
func (w *writer) check(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".costrel") {
			if strings.HasSuffix(name, ".tmp") {
				w.half[name] = true
			}
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		text := string(b)
		if text != w.acked[name] && text != w.sent[name] {
			t.Fatalf("%s holds %d bytes that are neither the save answered last nor the one under way: %.60q", name, len(text), text)
		}
		if _, err := design.Load(name, text); err != nil {
			t.Errorf("%s does not parse: %v", name, err)
		}
		there[name] = true
		w.base[name], w.acked[name] = store.Version(text), text
	}
	for name := range w.acked {
		if !there[name] {
			t.Errorf("%s was saved and is gone", name)
		}
	}
}

// A server killed in the middle of a save, at any moment, leaves every design
// whole, as it was saved last or as it was about to be.
func TestKilledDuringSave(t *testing.T) {
	if testing.Short() {
		t.Skip("starts programs")
	}
	dir := t.TempDir()
	chance := rand.New(rand.NewPCG(1, 2))
	w := &writer{big: strings.Repeat("# padding, so that a save takes a while\n", 5000), base: map[string]string{}, acked: map[string]string{}, sent: map[string]string{}, half: map[string]bool{}}
	done := 0
	const rounds = 20
	for round := range rounds {
		s := start(t, command(t, dir))
		w.url = s.url
		var list struct {
			Designs []struct{ Name, Fault string }
		}
		_, body := get(t, http.DefaultClient, s.url+"/api/designs")
		if err := json.Unmarshal([]byte(body), &list); err != nil {
			t.Fatal(err)
		}
		if len(list.Designs) != len(w.acked) {
			t.Errorf("round %d: %d designs are listed, %d lie there", round, len(list.Designs), len(w.acked))
		}
		for _, d := range list.Designs {
			if _, ok := w.acked[d.Name]; !ok || d.Fault != "" {
				t.Errorf("round %d: %s is listed with fault %q", round, d.Name, d.Fault)
			}
		}
		time.AfterFunc(time.Duration(chance.IntN(120_000))*time.Microsecond, s.kill)
		for i := 0; ; i++ {
			name := "steady.yaml"
			if i%4 == 3 { // a design that is new goes another way
				name = fmt.Sprintf("new-%d-%d.yaml", round, i)
			}
			if err := w.save(t, name); err != nil {
				break
			}
			done++
		}
		s.kill()
		w.check(t, dir)
	}
	t.Logf("%d kills among %d saves that were answered; %d fell into the making of a file", rounds, done, len(w.half))
	if done == 0 {
		t.Error("no save came to its end: the test shows nothing")
	}
}

// runs are the runs of a design that a server lists.
func runs(t *testing.T, s *served, name string) (out []struct {
	ID             int64
	State, Message string
	Stage          string
	Fraction       float64
},
) {
	t.Helper()
	_, body := get(t, http.DefaultClient, s.url+"/api/runs?design="+name)
	list := struct{ Runs any }{&out}
	if err := json.Unmarshal([]byte(body), &list); err != nil {
		t.Fatalf("%v: %s", err, body)
	}
	return out
}

// fullRun starts a full run and returns its events.
func fullRun(t *testing.T, s *served, name string) (next func() (event, data string), end func()) {
	t.Helper()
	r, err := http.Post(s.url+"/api/runs", "application/json", strings.NewReader(`{"name":"`+name+`"}`))
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(r.Body)
	next = func() (event, data string) {
		for {
			line, err := lines.ReadString('\n')
			if err != nil {
				return "", ""
			}
			name, value, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ": ")
			switch name {
			case "event":
				event = value
			case "data":
				return event, value
			}
		}
	}
	return next, func() { _ = r.Body.Close() }
}

// A run whose server is killed is reported as crashed by the next one, and its
// design is as it was. A server that is asked to stop lets a run end and
// answers a save under way.
func TestKilledDuringRun(t *testing.T) {
	if testing.Short() {
		t.Skip("starts programs")
	}
	const name = "wrenhollow.yaml"
	dir, text := demo(t, name)
	s := start(t, command(t, dir))
	next, end := fullRun(t, s, name)
	defer end()
	for event := ""; event != "progress"; {
		if event, _ = next(); event == "" || event == "failed" {
			t.Fatalf("no progress: %q", event)
		}
	}
	s.kill()
	if b, err := os.ReadFile(filepath.Join(dir, name)); err != nil || string(b) != text {
		t.Errorf("the design changed: %v", err)
	}
	s = start(t, command(t, dir))
	list := runs(t, s, name)
	if len(list) != 1 || list[0].State != "crashed" || list[0].Message == "" {
		t.Fatalf("after the kill: %+v", list)
	}
	t.Logf("cut off at %s, %.0f %%", list[0].Stage, 100*list[0].Fraction)

	next, end = fullRun(t, s, name)
	defer end()
	if event, data := next(); event != "started" || strings.Contains(data, `"kept":true`) {
		t.Fatalf("run again: %s %s", event, data)
	}
	finish := saveByHalves(t, s)
	s.interrupt(t)
	for { // until it takes no more connections
		c, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
		if err != nil {
			break
		}
		_ = c.Close()
		time.Sleep(time.Millisecond)
	}
	status := finish()
	last := ""
	for event, _ := next(); event != ""; event, _ = next() {
		last = event
	}
	<-s.gone
	if code := s.cmd.ProcessState.ExitCode(); code != exitPass || !strings.Contains(status, " 200 ") {
		t.Errorf("stopped with %d, the save under way was answered %q: %s", code, status, s.said())
	}
	if _, err := os.Stat(filepath.Join(dir, "halves.yaml")); err != nil {
		t.Error(err)
	}
	// What the listener was told is what is kept: a result, unless this machine
	// is so slow that the time to end was over.
	want := map[string]string{"result": "finished", "failed": "crashed"}[last]
	s = start(t, command(t, dir))
	if list := runs(t, s, name); len(list) != 2 || list[0].State != want {
		t.Errorf("the stream ended with %q, kept is %+v", last, list)
	}
	t.Logf("asked to stop, the run under way ended with %s", last)
	if last == "result" {
		next, end := fullRun(t, s, name)
		defer end()
		if event, data := next(); event != "started" || !strings.Contains(data, `"kept":true`) {
			t.Errorf("the same input after that: %s %.100s", event, data)
		}
	}
}

// saveByHalves sends one half of a save; finish sends the other and returns
// the first line of the answer.
func saveByHalves(t *testing.T, s *served) (finish func() string) {
	t.Helper()
	body := `{"text":"schema: 1\nname: Halves\nclass: still-500\n","version":""}`
	c, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	head := fmt.Sprintf("PUT /api/designs/halves.yaml HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n", len(body))
	if _, err := io.WriteString(c, head+body[:20]); err != nil {
		t.Fatal(err)
	}
	// The server has the head once it has answered a later request.
	get(t, http.DefaultClient, s.url+"/api/designs")
	return func() string {
		defer c.Close()
		if _, err := io.WriteString(c, body[20:]); err != nil {
			return err.Error()
		}
		line, err := bufio.NewReader(c).ReadString('\n')
		if err != nil {
			return err.Error()
		}
		return line
	}
}
