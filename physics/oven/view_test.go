package oven

import (
	"math"
	"testing"
)

func TestGauss(t *testing.T) {
	for n := range 16 {
		sum := 0.0
		for k := range 8 {
			x, w := gauss(k, 0, 1)
			sum += w * math.Pow(x, float64(n))
		}
		if math.Abs(sum*float64(n+1)-1) > 1e-12 {
			t.Errorf("x^%d: %g", n, sum)
		}
	}
}

// The view of a ring against plain sums with many points, for rings of the
// body and of the cap, with and without reflectors.
func TestView(t *testing.T) {
	l := Lamps{Length: 0.3, Distance: 0.05, Mirror: 0.025, Reflectance: 0.75, FloorShare: 0.3}
	const floor, n = 0.123, 1.54
	brute := func(f facet, z float64) (falls float64) {
		const nu, nphi = 700, 300
		for _, m := range []struct{ d, z, share float64 }{
			{0.05, z, 1},
			{0.1, z, 0.75},
			{0.05, 2*floor - z, 0.3},
			{0.1, 2*floor - z, 0.3 * 0.75},
		} {
			for i := range nu {
				u := (float64(i)+0.5)/nu*2*l.Length - l.Length
				weight := (l.Length - math.Abs(u)) / (l.Length * l.Length) * 2 * l.Length / nu * m.share
				for k := range nphi {
					s, c := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / nphi)
					x, y, dz := m.d-f.r*c, u-f.r*s, m.z-f.z
					r := math.Sqrt(x*x + y*y + dz*dz)
					cb := (f.nr*(x*c+y*s) + f.nz*dz) / r
					if cb > 0 {
						falls += weight / nphi * math.Hypot(x, dz) / r * cb / (math.Pi * math.Pi * r * r)
					}
				}
			}
		}
		return falls
	}
	for _, c := range []struct {
		name string
		f    facet
		z    float64
	}{
		{"body, level", facet{0.0134, 0.05, 1, 0}, 0.051},
		{"body, far", facet{0.0134, 0.005, 1, 0}, 0.111},
		{"cap", facet{0.0092, 0.1, math.Sqrt(0.5), math.Sqrt(0.5)}, 0.096},
		{"near the gate", facet{0.0008, 0.104, math.Sin(0.06), math.Cos(0.06)}, 0.111},
		{"near the gate, lamp above", facet{0.0008, 0.104, math.Sin(0.06), math.Cos(0.06)}, 0.036},
	} {
		v := l.view(c.f, c.z, floor, n)
		want := brute(c.f, c.z)
		if math.Abs(v.falls/want-1) > 2e-3 {
			t.Errorf("%s: %.6g, plain sum %.6g 1/m²", c.name, v.falls, want)
		}
		if !(v.enters > 0.6*v.falls && v.enters < 0.957*v.falls) {
			t.Errorf("%s: %.4f of the light enters", c.name, v.enters/v.falls)
		}
	}
	// nothing falls on a face that looks away
	l.FloorShare, l.Reflectance = 0, 0
	if v := l.view(facet{0.005, 0.1, 1e-9, 1}, 0.02, floor, n); v.falls != 0 {
		t.Errorf("the gate sees a lamp above: %g", v.falls)
	}
}

func TestFresnel(t *testing.T) {
	if r := fresnel(1, 1.54); math.Abs(r-math.Pow(0.54/2.54, 2)) > 1e-12 {
		t.Errorf("normal %g", r)
	}
	if r := fresnel(1e-9, 1.54); math.Abs(r-1) > 1e-6 {
		t.Errorf("grazing %g", r)
	}
	// at Brewster's angle only the s part is left
	c := 1 / math.Sqrt(1+1.54*1.54)
	s := (c - 1.54*math.Sqrt(1-(1-c*c)/(1.54*1.54))) / (c + 1.54*math.Sqrt(1-(1-c*c)/(1.54*1.54)))
	if r := fresnel(c, 1.54); math.Abs(r-s*s/2) > 1e-12 {
		t.Errorf("Brewster %g, want %g", r, s*s/2)
	}
}
