package blow

import (
	"math"
	"testing"
)

func TestHeatFromGate(t *testing.T) {
	p := nominal()
	if want := 75e-3 + 9.5e-3*math.Pi/2; math.Abs(p.Length()-want) > 1e-6 {
		t.Errorf("length %g, want %g", p.Length(), want)
	}
	h, err := HeatFromGate(p.Length(), []float64{0.01, 0.05}, []float64{0, 0.5, 1}, [][]float64{{370, 372}, {380, 384}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ s, x, want float64 }{
		{p.Length() - 0.01, 0.25, 370}, {p.Length() - 0.05, 0.75, 384}, {0, 0.75, 384}, {p.Length() - 0.03, 0.5, 376.5}, {1, 0, 370},
	} {
		if got := h.at(c.s, c.x); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("at %g, %g: %g K, want %g", c.s, c.x, got, c.want)
		}
	}
	if _, err := HeatFromGate(0.1, []float64{0.01}, []float64{0, 1}, nil); err == nil {
		t.Error("no rows accepted")
	}
	if _, err := HeatFromGate(0.1, []float64{0.01}, []float64{0, 1}, [][]float64{{math.NaN()}}); err == nil {
		t.Error("NaN accepted")
	}
}

// Faces and mid-line describe the same preform, and a wall from faces refuses
// lists that do not match.
func TestFromFaces(t *testing.T) {
	p := nominal()
	n := len(p.Z)
	iz, ir, oz, or := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		nr := slopeZ(p, i)
		nz := math.Sqrt(1 - min(nr*nr, 1))
		if i == n-1 {
			nr, nz = 0, 1
		}
		h := p.Wall[i] / 2
		iz[i], ir[i], oz[i], or[i] = p.Z[i]-h*nz, p.R[i]-h*nr, p.Z[i]+h*nz, p.R[i]+h*nr
	}
	q, err := FromFaces(iz, ir, oz, or)
	if err != nil {
		t.Fatal(err)
	}
	for i := range n {
		if math.Abs(q.Z[i]-p.Z[i])+math.Abs(q.R[i]-p.R[i])+math.Abs(q.Wall[i]-p.Wall[i]) > 1e-9 {
			t.Errorf("point %d differs", i)
		}
	}
	if _, err := FromFaces(iz, ir, oz, or[1:]); err == nil {
		t.Error("lists of different length accepted")
	}
}
