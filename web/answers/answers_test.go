// Package answers_test holds what the answers of the HTTP interface say: words,
// units, published checks, figures after a restart. Its tests read full runs one
// request after the other; where requests and runs meet is tested in web/api,
// under the race detector.
package answers_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"

	"costrel/project/design"
	"costrel/store"
	"costrel/web/api"
	"costrel/web/api/apitest"
)

// serve serves the designs of a folder.
func serve(t *testing.T, dir string, o api.Options) *httptest.Server {
	t.Helper()
	var err error
	if o.Folder, err = store.Open(dir, time.Unix(1e9, 0)); err != nil {
		t.Fatal(err)
	}
	h, err := api.New(o)
	if err != nil {
		t.Fatal(err)
	}
	s := httptest.NewServer(h)
	t.Cleanup(s.Close)
	return s
}

// ask returns the answer to a request as it was sent.
func ask(t *testing.T, s *httptest.Server, path string, body map[string]any) (raw json.RawMessage) {
	t.Helper()
	if r := apitest.Call(t, "POST", s.URL+path, body, &raw); r.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s %.300s", path, r.Status, raw)
	}
	return raw
}

// full runs the text of a design with every solver and returns the result as it
// was sent.
func full(t *testing.T, s *httptest.Server, name, text, units string) (raw json.RawMessage) {
	t.Helper()
	body := map[string]any{"name": name, "text": text, "units": units}
	if r := apitest.Call(t, "POST", s.URL+"/api/runs", body, nil); r.StatusCode != http.StatusOK { // lasts until the run ends
		t.Fatalf("run: %s", r.Status)
	}
	var list struct{ Runs []api.RunInfo }
	apitest.Call(t, "GET", s.URL+"/api/runs?design="+url.QueryEscape(name), nil, &list)
	if len(list.Runs) == 0 || list.Runs[0].State != store.Finished {
		t.Fatalf("the run has not finished: %+v", list.Runs)
	}
	r := apitest.Call(t, "GET", fmt.Sprintf("%s/api/runs/%d/result", s.URL, list.Runs[0].ID), nil, &raw)
	if r.StatusCode != http.StatusOK {
		t.Fatalf("result: %s", r.Status)
	}
	return raw
}

// examples returns the texts of the demo designs, by the names of their files.
func examples(t *testing.T) map[string]string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(apitest.Examples, "*.yaml"))
	if err != nil || len(files) < 4 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	out := map[string]string{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(f)] = string(b)
	}
	return out
}

// load reads the text of a design.
func load(t *testing.T, name, text string) *design.Document {
	t.Helper()
	doc, err := design.Load(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
