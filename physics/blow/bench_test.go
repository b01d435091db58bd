package blow

import (
	"context"
	"testing"
)

// BenchmarkBlow is the whole blow with cooling at the default resolution.
func BenchmarkBlow(b *testing.B) {
	c := sorrel(b)
	c.Numbers.FrameEvery = 5e-3
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Run(context.Background(), c, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFreeBlow is a free stretch-blow of 200 ms at steps of 0.5 ms.
func BenchmarkFreeBlow(b *testing.B) {
	c := freeBlow(100)
	for b.Loop() {
		if _, err := Run(context.Background(), c, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// The inner loop allocates nothing.
func TestStepsDoNotAllocate(t *testing.T) {
	c := sorrel(t)
	s, _, err := start(&c)
	if err != nil {
		t.Fatal(err)
	}
	tm := s.times()
	step := func() {
		s.valves(tm)
		if !s.trial(5e-4) || !s.commit(5e-4) {
			t.Fatal("no step")
		}
	}
	step()
	if n := testing.AllocsPerRun(200, step); n != 0 {
		t.Errorf("%g allocations a step", n)
	}
}
