package api

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"costrel/store"
)

// TestRestartKeepsTheBlow: a server that is started again on the same folder works
// out a change that moves nothing of the blow in full at once, with the figures
// that it gave before; another build of the program takes nothing of it.
func TestRestartKeepsTheBlow(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run")
	}
	dir := demoFolder(t)
	serve := func(program string, then func(check func(edit string) Checked, full func(text string) Checked)) {
		runs, err := store.OpenRuns(dir, time.Unix(2e9, 0))
		if err != nil {
			t.Fatal(err)
		}
		s := serverWith(t, dir, func(o *Options, _ *limits) { o.Runs, o.Program = runs, program })
		then(func(edit string) (c Checked) {
			body := map[string]any{"name": "sorrel-lime.yaml"}
			if edit != "" {
				body["edits"] = []Edit{{Path: "bottle.planes[0]", Text: edit}}
			}
			call(t, "POST", s.URL+"/api/check", body, &c)
			return c
		}, func(text string) (c Checked) {
			body, err := json.Marshal(map[string]string{"name": "sorrel-lime.yaml", "text": text})
			if err != nil {
				t.Fatal(err)
			}
			end := follow(t, s, "POST", "/api/runs", string(body), 0).last()
			if end.event != "result" {
				t.Fatalf("the run ends with %s", end.data)
			}
			if err := json.Unmarshal([]byte(end.data), &c); err != nil {
				t.Fatal(err)
			}
			return c
		})
		s.Close()
		if err := runs.Close(); err != nil {
			t.Fatal(err)
		}
	}
	var before Checked
	serve("one", func(check func(string) Checked, full func(string) Checked) {
		c := check("")
		if c.BlowKept {
			t.Error("a blow is kept that was never run")
		}
		before = full(c.Text)
	})
	serve("one", func(check func(string) Checked, full func(string) Checked) {
		c := check("64 mm")
		if !c.BlowKept {
			t.Fatal("the restart has lost the blow")
		}
		after := full(c.Text)
		if !after.Full || after.Playback == nil {
			t.Error("the run after the restart is not full")
		}
		for _, f := range before.Board.Figures {
			if got := figure(after, f.Key); got != f.Value && !strings.HasPrefix(f.Key, "section.") {
				t.Errorf("%s is %g after the restart, %g before", f.Key, got, f.Value)
			}
		}
		if a, b := figure(before, "section.base.mass"), figure(after, "section.base.mass"); !(b > a) {
			t.Errorf("the base weighs %g kg with its plane 4 mm higher, %g kg before", b, a)
		}
	})
	serve("another", func(check func(string) Checked, _ func(string) Checked) {
		if check("64 mm").BlowKept {
			t.Error("another build takes the blow of this one")
		}
	})
}
