package blow

import (
	"math"
	"testing"

	"costrel/physics/resin"
)

// Forces are the derivative of the energy, the tangent that of the forces,
// grad that of the volume.
func TestForcesAndTangent(t *testing.T) {
	c := DefaultCase()
	c.Preform = nominal()
	law := resin.DefaultYeoh()
	c.Law = law
	c.Numbers.Elements = 12
	w := newWall(&c)
	for i := range w.T {
		w.T[i] = 370
	}
	w.prepare(1, 0)
	for i := range w.z {
		x := float64(i)
		if i > 0 {
			w.z[i] *= 1.2 + 0.02*math.Sin(x)
		}
		if i < w.n {
			w.r[i] *= 1.5 + 0.3*math.Cos(2*x)
		}
	}
	const p = 3e5
	energy := func() float64 {
		if !w.update(1, 1) {
			t.Fatal("collapsed")
		}
		var u float64
		for i := range w.next {
			u += w.vol[i] * law.Stored(&w.next[i], 370)
		}
		return u - p*w.volume()
	}
	force := func() []float64 {
		if !w.assemble(p) {
			t.Fatal("collapsed")
		}
		f := append([]float64(nil), w.res...)
		for i := range f {
			f[i] -= p * w.grad[i]
		}
		return f
	}
	f := force()
	x := make([]float64, 2*w.n+2)
	col := make([]float64, 2*w.n+2)
	for i := range f {
		v := &w.z[i/2]
		if i%2 == 1 {
			v = &w.r[i/2]
		}
		const h = 1e-7
		old := *v
		*v = old + h
		up := energy()
		fu := force()
		*v = old - h
		down := energy()
		fd := force()
		*v = old
		if d := (up - down) / (2 * h); math.Abs(d-f[i]) > 1e-4*math.Abs(f[i])+2e-3 {
			t.Errorf("unknown %d: force %g, energy slope %g", i, f[i], d)
		}
		force()
		clear(x)
		x[i] = 1
		w.mat.Mul(col, x)
		for j := range col {
			if d := (fu[j] - fd[j]) / (2 * h); math.Abs(d-col[j]) > 1e-5*math.Abs(col[j])+1 {
				t.Errorf("tangent (%d, %d): %g, difference %g", j, i, col[j], d)
			}
		}
	}
}
