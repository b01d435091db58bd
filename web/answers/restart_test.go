package answers_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"costrel/store"
	"costrel/web/api"
	"costrel/web/api/apitest"
)

// TestRestartKeepsTheBlow: a server that is started again on the same folder works
// out a change that moves nothing of the blow in full at once, with the figures
// that it gave before; another build of the program takes nothing of it.
func TestRestartKeepsTheBlow(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run")
	}
	const demo = "sorrel-lime.yaml"
	dir := apitest.DemoFolder(t)
	serving := func(program string, then func(check func(edit string) api.Checked, blown func(text string) api.Checked)) {
		runs, err := store.OpenRuns(dir, time.Unix(2e9, 0))
		if err != nil {
			t.Fatal(err)
		}
		s := serve(t, dir, api.Options{Runs: runs, Program: program})
		then(func(edit string) (c api.Checked) {
			body := map[string]any{"name": demo}
			if edit != "" {
				body["edits"] = []api.Edit{{Path: "bottle.planes[0]", Text: edit}}
			}
			apitest.Call(t, "POST", s.URL+"/api/check", body, &c)
			return c
		}, func(text string) (c api.Checked) {
			if err := json.Unmarshal(full(t, s, demo, text, "eu"), &c); err != nil {
				t.Fatal(err)
			}
			return c
		})
		s.Close()
		if err := runs.Close(); err != nil {
			t.Fatal(err)
		}
	}
	var before api.Checked
	serving("one", func(check, blown func(string) api.Checked) {
		c := check("")
		if c.BlowKept {
			t.Error("a blow is kept that was never run")
		}
		before = blown(c.Text)
	})
	serving("one", func(check, blown func(string) api.Checked) {
		c := check("64 mm")
		if !c.BlowKept {
			t.Fatal("the restart has lost the blow")
		}
		after := blown(c.Text)
		if !after.Full || after.Playback == nil {
			t.Error("the run after the restart is not full")
		}
		for _, f := range before.Board.Figures {
			if got := apitest.Figure(after.Board, f.Key); got != f.Value && !strings.HasPrefix(f.Key, "section.") {
				t.Errorf("%s is %g after the restart, %g before", f.Key, got, f.Value)
			}
		}
		if a, b := apitest.Figure(before.Board, "section.base.mass"), apitest.Figure(after.Board, "section.base.mass"); !(b > a) {
			t.Errorf("the base weighs %g kg with its plane 4 mm higher, %g kg before", b, a)
		}
	})
	serving("another", func(check, _ func(string) api.Checked) {
		if check("64 mm").BlowKept {
			t.Error("another build takes the blow of this one")
		}
	})
}
