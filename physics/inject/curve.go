package inject

import "math"

// Curve returns the mean and the middle of the wall [K] at n times [s] from 0 to
// end, by the series of a plate whose faces are held:
//
//	mean   = T_face + (T_melt - T_face) 8/pi² Σ exp(-(2k+1)² x)/(2k+1)²
//	middle = T_face + (T_melt - T_face) 4/pi Σ (-1)^k exp(-(2k+1)² x)/(2k+1),  x = pi² α t/h²
//
// Source: CarslawJaeger1959.
func (c Cooling) Curve(end float64, n int) (time, mean, middle []float64) {
	const terms = 200
	for i := range n {
		t := end * float64(i) / float64(max(n-1, 1))
		x := math.Pi * math.Pi * c.Diffusivity * t / (c.Wall * c.Wall)
		a, b := 0.0, 0.0
		for k := range terms {
			m := float64(2*k + 1)
			e := math.Exp(-m * m * x)
			a += e / (m * m)
			b += float64(1-2*(k%2)) * e / m
		}
		if t == 0 {
			a, b = math.Pi*math.Pi/8, math.Pi/4
		}
		drop := float64(c.Melt - c.Face)
		time = append(time, t)
		mean = append(mean, float64(c.Face)+drop*8/(math.Pi*math.Pi)*a)
		middle = append(middle, float64(c.Face)+drop*4/math.Pi*b)
	}
	return time, mean, middle
}
