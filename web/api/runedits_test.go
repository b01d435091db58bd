package api

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// A run takes the edits of its request as a check does: it computes, keeps and
// is found again by the edited text.
func TestRunTakesEdits(t *testing.T) {
	t.Parallel()
	w := newSlow()
	close(w.let)
	s := serverWith(t, demoFolder(t), nil, w.in)
	const edits = `"edits":[{"path":"preform.wall","text":"3.95 mm"},{"path":"preform.body_length","text":"101 mm"}]`
	edited := `{"name":"wrenhollow.yaml",` + edits + `}`
	var check Checked
	call(t, "POST", s.URL+"/api/check", json.RawMessage(edited), &check)
	plain := follow(t, s, "POST", "/api/runs", demoRun, 0)
	e := follow(t, s, "POST", "/api/runs", edited, 0)
	var got Checked
	if err := json.Unmarshal([]byte(e.last().data), &got); err != nil || got.Board == nil {
		t.Fatalf("the result has no board: %v %s", err, e.last().data)
	}
	if !strings.Contains(got.Text, "3.95 mm") || got.Text != check.Text {
		t.Errorf("the run computed another text than the check of the same edits:\n%s", got.Text)
	}
	if e.started(t).Kept || e.last().data == plain.last().data {
		t.Error("the edited design takes the result of the plain one")
	}
	var kept RunInfo
	call(t, "GET", fmt.Sprintf("%s/api/runs/%d", s.URL, e.started(t).ID), nil, &kept)
	if kept.Text != check.Text {
		t.Error("the kept text is not the edited one")
	}
	whole, err := json.Marshal(map[string]string{"name": "wrenhollow.yaml", "text": check.Text})
	if err != nil {
		t.Fatal(err)
	}
	if same := follow(t, s, "POST", "/api/runs", string(whole), 0); same.started(t).ID != e.started(t).ID {
		t.Error("the edited text itself is run again")
	}
}

// An edit that cannot be made is told, all of them at once, and nothing runs.
func TestRunRefusesWrongEdits(t *testing.T) {
	w := newSlow()
	close(w.let)
	s := serverWith(t, demoFolder(t), nil, w.in)
	body := `{"name":"wrenhollow.yaml","edits":[{"path":"preform.wal","text":"3 mm"},{"path":"preform.wall","text":"3.9 mm"},{"path":"nonsense","text":"1"}]}`
	f := follow(t, s, "POST", "/api/runs", body, 0).last().failed(t)
	if len(f.Problems) != 2 || f.Problems[0].Path != "preform.wal" || f.Problems[1].Path != "nonsense" {
		t.Errorf("told: %+v", f)
	}
	if list := states(t, s, "wrenhollow.yaml"); len(list) != 0 {
		t.Errorf("a run began all the same: %+v", list)
	}
}
