package conduct

import (
	"fmt"
	"math"
)

// Wall is the mesh across a wall of thickness H. The coordinate runs from the
// inner face 0 to the outer face H; areas are per area of the mid-surface.
type Wall struct {
	Thickness float64   // m
	Face      []float64 // coordinates of the n+1 faces [m]
	Mid       []float64 // coordinates of the n cell centres by volume [m]
	Area      []float64 // area of the faces over the area of the mid-surface
	Volume    []float64 // volume of the cells over the area of the mid-surface [m]
}

// NewWall returns the mesh of n cells across a wall of thickness h [m] with
// the principal curvatures k1 and k2 [1/m] of its mid-surface, positive where
// it bulges to the outer face: a tube of mid radius R has 1/R and 0, a sphere
// twice 1/R, a plate none.
//
//	A(y)/A_mid = (1 + k1 y)(1 + k2 y),  y = x - h/2
//
// exact for these three. grade sets how cells thin towards the outer face: the
// innermost is exp(grade) times as thick as the outermost, the sizes of a
// smooth map, so that the second order is kept; 0 is uniform, -4..4.
//
// It fails where the wall folds: an inner radius below zero.
func NewWall(h, k1, k2 float64, n int, grade float64) (*Wall, error) {
	switch {
	case !(h > 0) || math.IsInf(h, 0):
		return nil, fmt.Errorf("conduct: wall: thickness %g m not above 0", h)
	case n < 2 || n > 2000:
		return nil, fmt.Errorf("conduct: wall: %d cells outside 2..2000", n)
	case !(grade >= -4 && grade <= 4):
		return nil, fmt.Errorf("conduct: wall: grading %g outside -4..4", grade)
	case !(math.Abs(k1) < 2/h*(1+1e-12) && math.Abs(k2) < 2/h*(1+1e-12)):
		return nil, fmt.Errorf("conduct: wall: thickness %g m folds at curvatures %g and %g 1/m: inner radius below 0", h, k1, k2)
	}
	w := &Wall{
		Thickness: h,
		Face:      make([]float64, n+1), Area: make([]float64, n+1),
		Mid: make([]float64, n), Volume: make([]float64, n),
	}
	for i := range w.Face {
		xi := float64(n-i) / float64(n) // 0 at the outer face
		depth := xi
		if grade != 0 {
			depth = math.Expm1(grade*xi) / math.Expm1(grade)
		}
		w.Face[i] = h * (1 - depth)
	}
	w.Face[0], w.Face[n] = 0, h
	area := func(x float64) float64 { y := x - h/2; return (1 + k1*y) * (1 + k2*y) }
	for i, x := range w.Face {
		w.Area[i] = math.Max(area(x), 0)
	}
	for i := range w.Mid {
		a, b := w.Face[i], w.Face[i+1]
		m := (a + b) / 2
		// Simpson is exact: the area is a parabola, its moment a cubic
		w.Volume[i] = (b - a) / 6 * (area(a) + 4*area(m) + area(b))
		w.Mid[i] = (b - a) / 6 * (a*area(a) + 4*m*area(m) + b*area(b)) / w.Volume[i]
	}
	return w, nil
}

// Total returns the volume of the wall over the area of its mid-surface [m].
func (w *Wall) Total() float64 {
	sum := 0.0
	for _, v := range w.Volume {
		sum += v
	}
	return sum
}

// Mean returns the mean of v over the volume, one value a cell.
func (w *Wall) Mean(v []float64) float64 {
	sum, vol := 0.0, 0.0
	for i, x := range v {
		sum += x * w.Volume[i]
		vol += w.Volume[i]
	}
	return sum / vol
}
