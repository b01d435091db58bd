package ui

import (
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
