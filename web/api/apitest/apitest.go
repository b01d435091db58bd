// Package apitest is what the tests of the HTTP interface share. Only test
// files import it.
package apitest

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"costrel/project/report"
)

// Examples is the folder of the demo designs, seen from a package two folders
// below the root.
var Examples = filepath.Join("..", "..", "examples")

// DemoFolder returns a folder with copies of two of the demo designs.
func DemoFolder(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"sorrel-lime.yaml", "wrenhollow.yaml"} {
		b, err := os.ReadFile(filepath.Join(Examples, name))
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, name), b, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// Call sends one request with a body as JSON and reads the whole answer, into
// out unless it is nil. Headers are names, each followed by its value. An answer
// that does not fit out ends the test; the status is for the caller to judge.
func Call(t testing.TB, method, url string, body, out any, headers ...string) *http.Response {
	t.Helper()
	var r io.Reader
	if body != nil {
		b, err := json.Marshal(body)
		if err != nil {
			t.Fatal(err)
		}
		r = bytes.NewReader(b)
	}
	req, err := http.NewRequest(method, url, r)
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/json")
	for i := 0; i+1 < len(headers); i += 2 {
		if headers[i] == "Host" {
			req.Host = headers[i+1]
		} else {
			req.Header.Set(headers[i], headers[i+1])
		}
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	if out != nil {
		if err := json.Unmarshal(b, out); err != nil {
			t.Fatalf("%s %s: %d %s", method, url, resp.StatusCode, b)
		}
	}
	return resp
}

// Figure returns the value of a figure on a board [SI]; -1 without it.
func Figure(b *report.Board, key string) float64 {
	for _, f := range b.Figures {
		if f.Key == key {
			return f.Value
		}
	}
	return -1
}
