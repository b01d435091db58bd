package design

import (
	"os"
	"strings"
	"testing"
)

// Each YAML block of the guide is a design, or a piece of one.
func TestGuide(t *testing.T) {
	b, err := os.ReadFile("../../docs/design-document.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := strings.Split(string(b), "```yaml\n")[1:]
	if len(blocks) < 5 {
		t.Fatalf("%d blocks", len(blocks))
	}
	for _, block := range blocks {
		text, _, _ := strings.Cut(block, "```")
		if !strings.HasPrefix(text, "schema:") {
			text = minimal("csd-1500") + text
		}
		doc, err := Load("guide", text)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		for _, w := range doc.Warnings {
			t.Errorf("%v", w)
		}
	}
}
