package design

import (
	"os"
	"path/filepath"
	"testing"
)

// BenchmarkLoad reads a design of the size of the demos: profile, oven zones,
// recipe, limits. It must stay under 2 ms.
func BenchmarkLoad(b *testing.B) {
	text := demo(b)
	if _, err := Load("sorrel-lime.yaml", text); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Load("sorrel-lime.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSet changes one value of the same design.
func BenchmarkSet(b *testing.B) {
	text := demo(b)
	for b.Loop() {
		if _, err := Set(text, "preform.wall", "3.55 mm"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkListing(b *testing.B) {
	doc, err := Load("sorrel-lime.yaml", demo(b))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if len(doc.Listing("eu")) == 0 {
			b.Fatal("nothing listed")
		}
	}
}

func demo(tb testing.TB) string {
	tb.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "examples", "sorrel-lime.yaml"))
	if err != nil {
		tb.Fatal(err)
	}
	return string(text)
}
