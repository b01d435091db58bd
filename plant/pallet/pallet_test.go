package pallet

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// One layer on one pallet: nothing stands above.
func TestStackLimit(t *testing.T) {
	s := sorrel
	s.Layers, s.Pallets = 1, 1
	l, err := s.Bottom()
	if err != nil || l != (Load{}) {
		t.Errorf("%+v, %v", l, err)
	}
}

// The same sum written as the source writes it, layer by layer.
func TestStackAsInSource(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Stack{
			Pack: rapid.Float64Range(0.3, 3).Draw(t, "m"), PerLayer: rapid.IntRange(1, 300).Draw(t, "N"),
			Layers: rapid.IntRange(1, 10).Draw(t, "L"), Pallets: rapid.IntRange(1, 4).Draw(t, "P"),
			Pallet: rapid.Float64Range(0, 40).Draw(t, "mp"), Safety: 2,
		}
		l, err := s.Bottom()
		if err != nil {
			t.Fatal(err)
		}
		n, p := float64(s.Layers), float64(s.Pallets)
		want := 9.80665 * (s.Pack*(n-1+n*(p-1)) + s.Pallet*(p-1)/float64(s.PerLayer))
		if math.Abs(l.Force-want) > 1e-9*(1+want) || math.Abs(l.Required-2*want) > 1e-9*(1+want) {
			t.Fatalf("%+v want %g", l, want)
		}
	})
}

func TestStackRefuses(t *testing.T) {
	for name, change := range map[string]func(*Stack){
		"mass": func(s *Stack) { s.Pack = math.NaN() }, "layer": func(s *Stack) { s.PerLayer = 0 },
		"layers": func(s *Stack) { s.Layers = 0 }, "pallets": func(s *Stack) { s.Pallets = -1 },
		"pallet": func(s *Stack) { s.Pallet = -1 }, "safety": func(s *Stack) { s.Safety = 0.5 },
	} {
		s := sorrel
		change(&s)
		if _, err := s.Bottom(); err == nil {
			t.Errorf("%s accepted", name)
		}
	}
}

func TestLayer(t *testing.T) {
	for _, r := range []struct {
		l, w, d           float64
		square, staggered int
	}{
		{1.2, 0.8, 0.100, 96, 104},   // 12 x 8; rows along the length: 1 + 8, five of 12 and four of 11
		{1.2, 0.8, 0.101, 77, 91},    // 11 x 7; rows along the width: 1 + 12 of 7
		{1.0, 1.0, 1.0, 1, 1},        // one fills the deck
		{1.2, 0.8, 0.4, 6, 5},        // square is better for large packs: 3 + 2 staggered
		{1.2, 1.0, 0.0645, 270, 315}, // 18 x 15; rows along the width: 1 + 20 of 15
	} {
		a, b, err := Layer(r.l, r.w, r.d)
		if err != nil {
			t.Fatal(err)
		}
		if a != r.square || b != r.staggered {
			t.Errorf("%g x %g, %g: %d and %d, want %d and %d", r.l, r.w, r.d, a, b, r.square, r.staggered)
		}
	}
	if _, _, err := Layer(1.2, 0.8, 0.9); err == nil {
		t.Error("a pack wider than the deck accepted")
	}
}

// No layout covers more than the densest packing of circles.
func TestLayerDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(0.3, 1.3).Draw(t, "l")
		w := rapid.Float64Range(0.3, 1.3).Draw(t, "w")
		d := rapid.Float64Range(0.05, 0.2).Draw(t, "d")
		a, b, err := Layer(l, w, d)
		if err != nil {
			t.Fatal(err)
		}
		if u := Use(a, l, w, d); u > math.Pi/4+1e-6 {
			t.Fatalf("square covers %g", u)
		}
		if u := Use(b, l, w, d); u > math.Pi/(2*math.Sqrt(3))+1e-6 {
			t.Fatalf("staggered covers %g", u)
		}
	})
}

func TestDropRefuses(t *testing.T) {
	if _, _, err := Drop(0, 1); err == nil {
		t.Error("no mass accepted")
	}
	if _, _, err := Drop(1, math.Inf(1)); err == nil {
		t.Error("an infinite height accepted")
	}
	if e, v, err := Drop(1, 0); err != nil || e != 0 || v != 0 {
		t.Errorf("%g %g %v", e, v, err)
	}
}

func TestPallets(t *testing.T) {
	for _, c := range Pallets() {
		if c.Value("length") < c.Value("width") || c.Value("mass") <= 0 {
			t.Errorf("card %s: %+v", c.Name, c.Data)
		}
	}
}
