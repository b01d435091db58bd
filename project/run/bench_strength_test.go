package run

import "testing"

// BenchmarkStrength is the strength stage alone, its plots included, behind a
// blow that stands.
func BenchmarkStrength(b *testing.B) {
	for _, file := range []string{"sorrel-lime.yaml", "wrenhollow.yaml", "ravensholt-new.yaml"} {
		b.Run(file[:len(file)-len(".yaml")], func(b *testing.B) {
			d := example(b, file).Design
			w := work{ctx: b.Context(), full: true, drawn: true}
			before := w
			before.until = "pressure"
			done := evaluate(d, before, NewCache(64))
			for b.Loop() {
				if e := runStage(strengthStage, d, w, done); e.err != nil {
					b.Fatal(e.err)
				}
			}
		})
	}
}
