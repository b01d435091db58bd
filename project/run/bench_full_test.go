package run

import "testing"

func BenchmarkFull(b *testing.B) {
	doc := example(b, "sorrel-lime.yaml")
	for b.Loop() {
		if _, err := Full(b.Context(), doc, NewCache(256), nil); err != nil {
			b.Fatal(err)
		}
	}
}
