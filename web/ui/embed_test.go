package ui

import (
	"bytes"
	"compress/gzip"
	"io/fs"
	"strings"
	"testing"
)

// The page is served under a strict content-security policy: the built
// document must carry no inline script and no inline style.
func TestBuiltPageHasNothingInline(t *testing.T) {
	if !Built() {
		if _, err := fs.Stat(Files(), ".keep"); err != nil {
			t.Fatalf("neither the page nor its marker file is embedded: %v", err)
		}
		return // nothing built yet: the marker is all there is to check
	}
	page, err := fs.ReadFile(Files(), "index.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range strings.Split(string(page), "<script")[1:] {
		if tag, _, _ := strings.Cut(part, ">"); !strings.Contains(tag, "src=") {
			t.Errorf("inline script in index.html: <script%s>", tag)
		}
	}
	for _, bad := range []string{"<style", " style=", "javascript:", "http://", "https://"} {
		if strings.Contains(string(page), bad) {
			t.Errorf("index.html contains %q", bad)
		}
	}
}

// The first script a browser loads stays below 150 kB gzipped; heavy parts are
// loaded when they are needed.
func TestFirstScriptIsSmall(t *testing.T) {
	if !Built() {
		return // the test above has looked at what is there
	}
	page, err := fs.ReadFile(Files(), "index.html")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(page), `src="./`)
	name, _, end := strings.Cut(rest, `"`)
	if !ok || !end {
		t.Fatalf("no script in index.html: %s", page)
	}
	script, err := fs.ReadFile(Files(), name)
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := w.Write(script); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if packed.Len() >= 150_000 {
		t.Errorf("%s is %d bytes gzipped, want below 150000", name, packed.Len())
	}
}
