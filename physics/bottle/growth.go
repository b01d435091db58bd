package bottle

import "fmt"

// GrowthRate returns the relative growth in volume per pascal of gauge
// pressure [1/Pa] of a closed thin cylinder, times a share for shoulder and
// base, which grow less.
//
//	g = s (R/t) (2.5 - 2 ν) / E
//
// Mid-wall radius R and wall t [m], modulus E [Pa], Poisson's ratio ν 0..0.5;
// s = 1 is the ideal cylinder, about 0.7 habitual for bottles (chosen).
// Source: Timoshenko1959, thin closed cylinder (from memory).
func GrowthRate(radius, wall, modulus, nu, s float64) (float64, error) {
	for _, v := range []struct {
		name      string
		x, lo, hi float64
	}{
		{"radius", radius, 1e-3, 1}, {"wall", wall, 1e-6, 0.02}, {"modulus", modulus, 1e6, 1e12}, {"Poisson's ratio", nu, 0, 0.5}, {"shape", s, 0, 2},
	} {
		if !(v.x >= v.lo && v.x <= v.hi) {
			return 0, fmt.Errorf("bottle: growth: %s %g outside %g..%g", v.name, v.x, v.lo, v.hi)
		}
	}
	return s * radius / wall * (2.5 - 2*nu) / modulus, nil
}
