//go:build unix

package blow

import (
	"syscall"
	"testing"
	"time"
)

// processor returns the processor time of this process so far.
func processor(t *testing.T) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Skip(err)
	}
	return time.Duration(u.Utime.Nano())
}

// TestCost prints the processor time over elements, layers and steps, which
// grows in proportion to each, and of whole blows; it asserts nothing of time.
func TestCost(t *testing.T) {
	if testing.Short() {
		t.Skip("times the solver")
	}
	for _, o := range []struct {
		n, l int
		dt   float64
	}{{30, 5, 5e-4}, {60, 5, 5e-4}, {120, 5, 5e-4}, {60, 3, 5e-4}, {60, 9, 5e-4}, {60, 5, 1e-3}, {60, 5, 2.5e-4}} {
		c := freeBlow(100)
		c.Numbers.Elements, c.Numbers.Layers, c.Numbers.StepMost = o.n, o.l, o.dt
		begin := processor(t)
		r := run(t, c)
		d := processor(t) - begin
		t.Logf("free blow %3d elements, %d layers, %.2f ms: %4d steps, %4d iterations, %6.1f ms; %.2f µs a layer of an element and iteration",
			o.n, o.l, o.dt*1e3, r.Steps, r.Iterations, d.Seconds()*1e3, d.Seconds()*1e6/float64(o.n*o.l*r.Iterations))
	}
	const k = 5
	begin := processor(t)
	for range k {
		run(t, sorrel(t))
	}
	t.Logf("whole blow of the demo bottle with cooling, 60 elements, 5 layers: %.0f ms", (processor(t)-begin).Seconds()*1e3/k)
}
