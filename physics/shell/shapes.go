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

// referenceBottle returns the reference bottle [m]: a hemisphere of
// radius 32.5 mm as base with wall falling from 0.8 to 0.3 mm along the arc, a
// cylinder of 0.3 mm to height 132.5 mm, a shoulder 32.5 - 20 (3x² - 2x³) mm
// over 50 mm with wall 0.3 + 1.7 x⁶ mm, a neck of 12.5 and 2 mm to 197.5 mm.
// base leaves the hemisphere out when false. Elements of about h.
func referenceBottle(h float64, base bool, p Ply) (m *Mesh, ring int, err error) {
	var R, Z, T []float64
	put := func(r, z, t float64) { R, Z, T = append(R, r), append(Z, z), append(T, t) }
	const r0 = 32.5e-3
	if base {
		k := int(math.Round(r0 * math.Pi / 2 / h))
		for i := range k {
			s, c := math.Sincos(math.Pi / 2 * float64(i) / float64(k))
			put(r0*s, r0*(1-c), 0.8e-3-0.5e-3*float64(i)/float64(k))
		}
	}
	ring = len(R)
	k := int(math.Round(0.1 / h))
	for i := range k {
		put(r0, r0+0.1*float64(i)/float64(k), 0.3e-3)
	}
	k = int(math.Round(0.058 / h))
	for i := range k {
		x := float64(i) / float64(k)
		put(r0-20e-3*x*x*(3-2*x), 132.5e-3+50e-3*x, 0.3e-3+1.7e-3*math.Pow(x, 6))
	}
	k = int(math.Round(0.015 / h))
	for i := range k + 1 {
		put(12.5e-3, 182.5e-3+15e-3*float64(i)/float64(k), 2e-3)
	}
	L := make([]Layers, len(R))
	for i := range L {
		L[i] = Even(p)
	}
	m, err = NewMesh(R, Z, T, L)
	return m, ring, err
}
