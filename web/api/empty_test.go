package api

import (
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"
)

// An empty text is the text of the page: the file of the same name must not
// be computed in its place.
func TestEmptyTextIsAText(t *testing.T) {
	t.Parallel()
	s, _ := server(t)
	const empty = "the document is empty"
	for what, text := range map[string]string{"empty": "", "blank": " \n"} {
		body := map[string]any{"name": "wrenhollow.yaml", "text": text}
		var c Checked
		if r := call(t, "POST", s.URL+"/api/check", body, &c); r.StatusCode != http.StatusOK {
			t.Fatalf("%s, check: %s", what, r.Status)
		}
		if c.Board != nil || len(c.Problems) != 1 || c.Problems[0].Message != empty {
			t.Errorf("%s, check: board %v, problems %+v; want no board and %q", what, c.Board != nil, c.Problems, empty)
		}
		for path, more := range map[string]map[string]any{
			"compare": {"baseline": body, "variant": map[string]any{"name": "sorrel-lime.yaml"}},
			"why":     {"name": "wrenhollow.yaml", "text": text, "key": "preform.mass"},
			"profile": {"name": "wrenhollow.yaml", "text": text, "file": "a.csv", "content": "cixyCjEsMQ=="},
		} {
			var refused struct{ Detail string }
			if r := call(t, "POST", s.URL+"/api/"+path, more, &refused); r.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(refused.Detail, empty) {
				t.Errorf("%s, %s: %s %q, want 422 with %q", what, path, r.Status, refused.Detail, empty)
			}
		}
		sent, _ := json.Marshal(body)
		r, err := http.Post(s.URL+"/api/runs", "application/json", strings.NewReader(string(sent)))
		if err != nil {
			t.Fatal(err)
		}
		events, _ := io.ReadAll(r.Body)
		_ = r.Body.Close()
		if !strings.Contains(string(events), "event: failed") || !strings.Contains(string(events), empty) {
			t.Errorf("%s, run: %.200s, want that it failed with %q", what, events, empty)
		}
		edit := map[string]any{"name": "wrenhollow.yaml", "text": text, "path": "bottle.height", "value": "200 mm"}
		var out Reshaped
		if r := call(t, "POST", s.URL+"/api/reshape", edit, &out); r.StatusCode == http.StatusOK && (out.Text != "" || len(out.Problems) == 0) {
			t.Errorf("%s, reshape: %+v, want a problem", what, out)
		}
	}
	// No text at all still takes the file.
	var c Checked
	call(t, "POST", s.URL+"/api/check", map[string]any{"name": "wrenhollow.yaml"}, &c)
	if c.Board == nil {
		t.Error("a check by name alone gives no board")
	}
}
