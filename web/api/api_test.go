package api

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"costrel/store"
	"costrel/web/api/apitest"
)

// What the tests of the interface share, by short names.
var (
	call       = apitest.Call
	demoFolder = apitest.DemoFolder
)

func server(t *testing.T) (*httptest.Server, string) {
	t.Helper()
	dir := demoFolder(t)
	folder, err := store.Open(dir, time.Unix(1e9, 0))
	if err != nil {
		t.Fatal(err)
	}
	h, _ := New(Options{Folder: folder, Page: fstest.MapFS{"index.html": {Data: []byte("<!doctype html><title>costrel</title>")}, "assets/a.js": {Data: []byte("1")}}})
	s := httptest.NewServer(h)
	t.Cleanup(s.Close)
	return s, dir
}

func TestOpenCheckEditSave(t *testing.T) {
	t.Parallel()
	s, dir := server(t)
	var list struct{ Designs []Listing }
	call(t, "GET", s.URL+"/api/designs", nil, &list)
	if len(list.Designs) != 2 || list.Designs[0].Title != "Sorrel Lime 1.75 L" {
		t.Fatalf("designs: %+v", list)
	}
	var opened Opened
	call(t, "GET", s.URL+"/api/designs/sorrel-lime.yaml", nil, &opened)
	if opened.Version == "" || len(opened.Resolved) < 80 || len(opened.Problems) != 0 {
		t.Fatalf("opened: version %q, %d values, %v", opened.Version, len(opened.Resolved), opened.Problems)
	}
	var before, after Checked
	call(t, "POST", s.URL+"/api/check", map[string]any{"text": opened.Text}, &before)
	edit := []Edit{{Path: "preform.wall", Text: "0.142 in"}}
	call(t, "POST", s.URL+"/api/check", map[string]any{"text": opened.Text, "edits": edit, "units": "us"}, &after)
	if before.Board == nil || after.Board == nil || before.Geometry == nil {
		t.Fatalf("no board: %v %v", before.Problems, after.Problems)
	}
	if apitest.Figure(after.Board, "preform.mass") <= apitest.Figure(before.Board, "preform.mass") {
		t.Error("a thicker preform is not heavier")
	}
	if !strings.Contains(after.Text, "wall: 0.142 in") || !strings.Contains(after.Text, "# 8.1 g/L in the sealed pack at equilibrium") {
		t.Error("the edit or a comment is missing in the text")
	}
	var saved Saved
	if resp := call(t, "PUT", s.URL+"/api/designs/sorrel-lime.yaml", map[string]string{"text": after.Text, "version": opened.Version}, &saved); resp.StatusCode != 200 {
		t.Fatalf("save: %d %+v", resp.StatusCode, saved)
	}
	onDisk, _ := os.ReadFile(filepath.Join(dir, "sorrel-lime.yaml"))
	if string(onDisk) != after.Text {
		t.Error("the file is not what was saved")
	}
	// A second writer with the old version is asked, and nothing is lost.
	var conflict Saved
	if resp := call(t, "PUT", s.URL+"/api/designs/sorrel-lime.yaml", map[string]string{"text": "other", "version": opened.Version}, &conflict); resp.StatusCode != http.StatusConflict {
		t.Errorf("a stale save answers %d", resp.StatusCode)
	}
	if conflict.Text != after.Text || conflict.Version != saved.Version || conflict.Message == "" {
		t.Errorf("conflict: %+v", conflict)
	}
}

func TestFaultsAreAnAnswer(t *testing.T) {
	s, _ := server(t)
	var c Checked
	resp := call(t, "POST", s.URL+"/api/check", map[string]any{"text": "schema: 1\nname: x\nclass: csd-500\npreform:\n  wall: 3.6\n  wal: 2 mm\n"}, &c)
	if resp.StatusCode != 200 || c.Board != nil || len(c.Problems) != 2 {
		t.Fatalf("%d %+v", resp.StatusCode, c.Problems)
	}
	if c.Problems[0].Line != 5 || c.Problems[0].Path != "preform.wall" || !strings.Contains(c.Problems[0].Message, "unit") {
		t.Errorf("%+v", c.Problems[0])
	}
	call(t, "POST", s.URL+"/api/check", map[string]any{"name": "wrenhollow.yaml", "edits": []Edit{{Path: "preform.wal", Text: "2 mm"}}}, &c)
	if len(c.Problems) == 0 || c.Problems[0].Path != "preform.wal" {
		t.Errorf("an edit of an unknown path: %+v", c.Problems)
	}
}

func TestRefusals(t *testing.T) {
	s, _ := server(t)
	for _, c := range []struct {
		method, path string
		body         any
		headers      []string
		want         int
	}{
		{"GET", "/api/designs/nothing.yaml", nil, nil, 404},
		{"GET", "/api/designs/..%2f..%2fetc%2fpasswd", nil, nil, 422},
		{"GET", "/api/designs/passwd", nil, nil, 422},
		{"GET", "/api/sources/Nobody1900", nil, nil, 404},
		{"POST", "/api/check", map[string]any{}, nil, 422},
		{"POST", "/api/check", map[string]any{"text": "x", "colour": 1}, nil, 422},
		{"POST", "/api/check", map[string]any{"text": strings.Repeat("x", maxBody+1)}, nil, 413},
		{"GET", "/api/designs", nil, []string{"Host", "evil.example"}, 403},
		{"POST", "/api/check", map[string]any{"name": "wrenhollow.yaml"}, []string{"Sec-Fetch-Site", "cross-site"}, 403},
		{"PUT", "/api/designs/new.yaml", map[string]string{"text": "x", "version": ""}, []string{"Origin", "http://evil.example"}, 403},
		{"GET", "/nothing.html", nil, nil, 404},
		{"POST", "/api/draft", map[string]any{"class": "bathtub", "answers": map[string]string{}}, nil, 422},
	} {
		if resp := call(t, c.method, s.URL+c.path, c.body, nil, c.headers...); resp.StatusCode != c.want {
			t.Errorf("%s %s %v: %d, want %d", c.method, c.path, c.headers, resp.StatusCode, c.want)
		}
	}
}

func TestPageAndHeaders(t *testing.T) {
	s, _ := server(t)
	resp := call(t, "GET", s.URL+"/", nil, nil)
	if resp.StatusCode != 200 || !strings.Contains(resp.Header.Get("Content-Security-Policy"), "default-src 'none'") || resp.Header.Get("X-Content-Type-Options") != "nosniff" {
		t.Errorf("page: %d %v", resp.StatusCode, resp.Header)
	}
	if c := call(t, "GET", s.URL+"/assets/a.js", nil, nil).Header.Get("Cache-Control"); !strings.Contains(c, "immutable") {
		t.Errorf("assets are served with %q", c)
	}
}

func TestOpenAPI(t *testing.T) {
	s, _ := server(t)
	var doc struct {
		OpenAPI string         `json:"openapi"`
		Paths   map[string]any `json:"paths"`
	}
	call(t, "GET", s.URL+"/api/openapi.json", nil, &doc)
	if !strings.HasPrefix(doc.OpenAPI, "3.1") {
		t.Errorf("OpenAPI %q", doc.OpenAPI)
	}
	for _, p := range []string{"/api/designs", "/api/designs/{name}", "/api/check", "/api/units", "/api/verify", "/api/sources/{key}"} {
		if doc.Paths[p] == nil {
			t.Errorf("%s is not described", p)
		}
	}
	var units struct{ Kinds []map[string]any }
	call(t, "GET", s.URL+"/api/units", nil, &units)
	if len(units.Kinds) < 40 {
		t.Errorf("%d kinds of quantity", len(units.Kinds))
	}
}

func BenchmarkCheckOverHTTP(b *testing.B) {
	dir := b.TempDir()
	text, err := os.ReadFile(filepath.Join("..", "..", "examples", "sorrel-lime.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	folder, err := store.Open(dir, time.Unix(1e9, 0))
	if err != nil {
		b.Fatal(err)
	}
	h, _ := New(Options{Folder: folder})
	i := 0
	for b.Loop() {
		i++
		body, _ := json.Marshal(map[string]any{"text": string(text), "edits": []Edit{{Path: "preform.wall", Text: "3." + string(rune('0'+i%10)) + " mm"}}})
		req := httptest.NewRequest("POST", "http://localhost/api/check", bytes.NewReader(body))
		req.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		if w.Code != 200 {
			b.Fatal(w.Code, w.Body.String())
		}
	}
}

// TestRunStreams reads the events of a full run: progress may come, one result
// ends it.
func TestRunStreams(t *testing.T) {
	t.Parallel()
	s, _ := server(t)
	resp, err := http.Post(s.URL+"/api/runs", "application/json", strings.NewReader(`{"name":"wrenhollow.yaml","units":"us"}`))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	if resp.Header.Get("Content-Type") != "text/event-stream" || !strings.Contains(string(b), "event: result") || !strings.Contains(string(b), `"preform.mass"`) {
		t.Errorf("%d %s %.300s", resp.StatusCode, resp.Header.Get("Content-Type"), b)
	}
	resp, err = http.Post(s.URL+"/api/runs", "application/json", strings.NewReader(`{"text":"schema: 1\nname: x\nclass: bathtub\n"}`))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if b, _ := io.ReadAll(resp.Body); !strings.Contains(string(b), "event: failed") || !strings.Contains(string(b), "bathtub") {
		t.Errorf("%s", b)
	}
}
