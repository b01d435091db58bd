package shell

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// In the axes of the law compliance is one and Hill's matrix diagonal.
func TestLawAxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Ply{
			Es: rapid.Float64Range(1e9, 6e9).Draw(t, "Es"), Eh: rapid.Float64Range(1e9, 6e9).Draw(t, "Eh"), Nu: rapid.Float64Range(0, 0.499).Draw(t, "nu"),
			Ys: rapid.Float64Range(20e6, 150e6).Draw(t, "Ys"), Yh: rapid.Float64Range(20e6, 150e6).Draw(t, "Yh"),
		}
		if rapid.Bool().Draw(t, "isotropic") {
			p.Eh, p.Yh = p.Es, p.Ys
		}
		l := p.law()
		form := func(m sym2, a, b [2]float64) float64 { x := m.mul(b); return a[0]*x[0] + a[1]*x[1] }
		big := math.Max(l.lambda[0], l.lambda[1])
		for _, c := range []struct{ got, want, size float64 }{
			{form(l.S, l.v, l.v), 1, 1},
			{form(l.S, l.w, l.w), 1, 1},
			{form(l.S, l.v, l.w), 0, 1},
			{form(l.P, l.v, l.v), l.lambda[0], big},
			{form(l.P, l.w, l.w), l.lambda[1], big},
			{form(l.P, l.v, l.w), 0, big},
		} {
			if math.Abs(c.got-c.want) > 1e-10*c.size {
				t.Fatalf("%g, want %g: %+v", c.got, c.want, l)
			}
		}
	})
}
