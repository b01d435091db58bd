package bottle

import "costrel/num/curve"

// Example returns a bottle of a hand calculation, made up: an averaged profile
// of a carbonated bottle of 1.75 L nominal in straight lines, wall 0.281 mm,
// cut at 60 and 190 mm. The preform that goes with it is the example of
// package preform. Checks and tests of several packages hold their numbers
// against it; change nothing here.
func Example() Spec {
	s := Spec{
		BoreDiameter: 0.0217, BoreHeight: 0.017, Wall: 0.281e-3, Planes: []float64{0.060, 0.190},
		Base: Base{Kind: Petaloid, Height: 0.060},
	}
	for _, p := range [][2]float64{ // z, r in mm
		{0, 25},
		{5, 33.8},
		{14, 41.4},
		{26, 46.8},
		{38, 49.8},
		{48, 50.5},
		{60, 50.5},
		{64, 49.5},
		{178, 49.5},
		{182, 50.5},
		{190, 50.5},
		{205, 49.5},
		{220, 46.4},
		{234, 41},
		{246, 34.4},
		{256, 27.8},
		{266, 21.4},
		{275, 16.6},
		{282, 13.8},
		{288, 13.1},
	} {
		s.Rows = append(s.Rows, curve.Row{Z: p[0] * 1e-3, R: p[1] * 1e-3})
	}
	return s
}
