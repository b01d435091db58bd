package shell

import "math"

// Shapes of the published checks and tests, mid-surface, in metres.

// tube returns a cylinder of radius r from height 0 to l.
func tube(r, l, t float64, n int, p Ply) (*Mesh, error) {
	R, Z := make([]float64, n+1), make([]float64, n+1)
	for i := range R {
		R[i], Z[i] = r, l*float64(i)/float64(n)
	}
	return alike(R, Z, t, p)
}

// capsule returns the upper half of a cylinder with hemispherical ends: from
// height 0 up half, then to the pole; elements of about h.
func capsule(r, half, t, h float64, p Ply) (*Mesh, error) {
	var R, Z []float64
	n := max(1, int(math.Round(half/h)))
	for i := range n {
		R, Z = append(R, r), append(Z, half*float64(i)/float64(n))
	}
	k := max(2, int(math.Round(r*math.Pi/2/h)))
	for i := range k + 1 {
		s, c := math.Sincos(math.Pi / 2 * float64(i) / float64(k))
		if i == k {
			c = 0
		}
		R, Z = append(R, r*c), append(Z, half+r*s)
	}
	return alike(R, Z, t, p)
}

// ball returns a full sphere from pole to pole.
func ball(r, t float64, n int, p Ply) (*Mesh, error) {
	R, Z := make([]float64, n+1), make([]float64, n+1)
	for i := range R {
		s, c := math.Sincos(math.Pi * float64(i) / float64(n))
		R[i], Z[i] = r*s, -r*c
	}
	R[0], R[n] = 0, 0
	return alike(R, Z, t, p)
}

func alike(R, Z []float64, t float64, p Ply) (*Mesh, error) {
	T, L := make([]float64, len(R)), make([]Layers, len(R))
	for i := range R {
		T[i], L[i] = t, Even(p)
	}
	return NewMesh(R, Z, T, L)
}

// reference bottle: hemispherical base 0.8 to 0.3 mm, cylinder R 32.5 mm of
// 0.3 mm, cosine shoulder to the neck R 12.5 mm of 2 mm; z 0 to 197.5 mm.
// Coordinates are those of the mid-surface.
const (
	refR    = 0.0325
	refWall = 0.3e-3
	refE    = 3e9
	refNu   = 0.38
)
