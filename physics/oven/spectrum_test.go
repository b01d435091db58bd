package oven

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"costrel/num/conduct"
)

// The series against Simpson's rule on Planck's law, and both branches where
// they meet.
func TestFraction(t *testing.T) {
	for _, x := range []float64{0.02, 0.049999, 0.050001, 0.3, 2, 8} {
		const T = 1000.0
		got := fraction(secondRadiation/(x*T), T)
		const n = 20000
		sum, h := 0.0, 60.0/n
		for i := range n + 1 {
			u := x + float64(i)*h
			w := 2.0
			if i%2 == 1 {
				w = 4
			}
			if i == 0 || i == n {
				w = 1
			}
			sum += w * u * u * u / math.Expm1(u)
		}
		if want := 15 / math.Pow(math.Pi, 4) * sum * h / 3; math.Abs(got-want) > 2e-9 {
			t.Errorf("x = %g: %.12g, integral %.12g", x, got, want)
		}
	}
	if v, err := Fraction(0, 2000); v != 0 || err != nil {
		t.Errorf("at 0: %g, %v", v, err)
	}
	if v, err := Fraction(math.Inf(1), 2000); v != 1 || err != nil {
		t.Errorf("at infinity: %g, %v", v, err)
	}
	for _, c := range [][2]float64{{-1, 2000}, {1e-6, 100}, {1e-6, 5000}, {math.NaN(), 2000}, {1e-6, math.NaN()}} {
		if _, err := Fraction(c[0], c[1]); err == nil {
			t.Errorf("%v passes", c)
		}
	}
}

func TestBands(t *testing.T) {
	b := Bands()
	for i, x := range b {
		if !(x.From < x.To && x.Absorption > 0) || i > 0 && x.From != b[i-1].To {
			t.Errorf("band %d: %+v", i+1, x)
		}
	}
	if len(b) != bandCount || math.Abs(b[0].From-0.4e-6) > 1e-15 || math.Abs(b[13].To-20e-6) > 1e-15 {
		t.Errorf("bands %v", b)
	}
}

func TestLampSpectrum(t *testing.T) {
	s := lampSpectrum(Bands(), 2400, 950, 3.5e-6)
	if math.Abs(s.Sum()-1) > 1e-9 {
		t.Errorf("sums to %g", s.Sum())
	}
	full := blackBody(Bands(), 2400, 0, math.Inf(1))
	for i := range s {
		if Bands()[i].To < 3.51e-6 && s[i] != full[i] {
			t.Errorf("band %d is %g behind quartz, %g without", i+1, s[i], full[i])
		}
	}
	// a hotter filament sends a smaller share into the opaque bands
	hot := lampSpectrum(Bands(), 2700, 950, 3.5e-6)
	a, _ := OnePass(s, 0.3e-3)
	b, _ := OnePass(hot, 0.3e-3)
	if b >= a {
		t.Errorf("skin takes %g of 2700 K, %g of 2400 K", b, a)
	}
}

// Light that enters is absorbed or escapes, whatever the wall, and the cells
// hold what was absorbed.
func TestAbsorbCloses(t *testing.T) {
	bands := Bands()
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0.2e-3, 8e-3).Draw(t, "h")
		w, err := conduct.NewWall(h, rapid.Float64Range(0, 1).Draw(t, "k")/h, 0, rapid.IntRange(4, 40).Draw(t, "n"), 2)
		if err != nil {
			t.Fatal(err)
		}
		var in Spectrum
		for i := range in {
			in[i] = rapid.Float64Range(0, 1e4).Draw(t, "in")
		}
		rho := rapid.Float64Range(0, 0.2).Draw(t, "rho")
		o := Optics{Focus: rapid.Bool().Draw(t, "focus"), Bore: rapid.Bool().Draw(t, "bore")}
		cells := make([]float64, len(w.Mid))
		l := absorb(bands, w, in, rho, o, cells)
		sum := 0.0
		for _, c := range cells {
			if c < 0 {
				t.Fatalf("cell %g", c)
			}
			sum += c
		}
		if d := math.Abs(l.absorbed + l.escaped - in.Sum()); d > 1e-9*in.Sum()+1e-9 {
			t.Fatalf("absorbed %g, escaped %g of %g", l.absorbed, l.escaped, in.Sum())
		}
		if math.Abs(sum-l.absorbed) > 1e-9*l.absorbed+1e-9 {
			t.Fatalf("cells hold %g of %g", sum, l.absorbed)
		}
	})
	if _, err := OnePass(Spectrum{}, 1e-3); err == nil {
		t.Error("an empty spectrum passes")
	}
	if _, err := OnePass(Spectrum{1}, -1); err == nil {
		t.Error("a wall below 0 passes")
	}
	if _, err := BlackBody(100, 0, 1); err == nil {
		t.Error("100 K passes")
	}
}
