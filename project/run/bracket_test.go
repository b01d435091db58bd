package run

import "testing"

func TestBracket(t *testing.T) {
	x, y := []float64{1, 2, 4}, []float64{10, 20, 0}
	for _, c := range []struct {
		at    float64
		i, j  int
		share float64
		y     float64
	}{
		{0, 0, 0, 0, 10},
		{1, 0, 0, 0, 10},
		{1.25, 0, 1, 0.25, 12.5},
		{2, 0, 1, 1, 20},
		{3, 1, 2, 0.5, 10},
		{4, 1, 2, 1, 0},
		{5, 2, 2, 0, 0},
	} {
		if i, j, share := bracket(x, c.at); i != c.i || j != c.j || share != c.share {
			t.Errorf("%g: %d, %d, %g; want %d, %d, %g", c.at, i, j, share, c.i, c.j, c.share)
		}
		if v := between(x, y, c.at); v != c.y {
			t.Errorf("%g: %g, want %g", c.at, v, c.y)
		}
	}
}
