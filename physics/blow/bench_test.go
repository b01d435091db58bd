package blow

import (
	"context"
	"testing"
	"time"
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

// TestCost prints the cost over elements and steps; it asserts nothing of time.
func TestCost(t *testing.T) {
	if testing.Short() {
		t.Skip("times the solver")
	}
	for _, n := range []int{30, 60, 120} {
		for _, dt := range []float64{1e-3, 5e-4, 2.5e-4} {
			c := freeBlow(100)
			c.Numbers.Elements, c.Numbers.StepMost = n, dt
			begin := time.Now()
			r := run(t, c)
			d := time.Since(begin)
			t.Logf("%3d elements, %.2f ms: %4d steps, %4d iterations, %6.1f ms, %.2f µs an element and iteration", n, dt*1e3, r.Steps, r.Iterations, d.Seconds()*1e3, d.Seconds()*1e6/float64(n*r.Iterations))
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
