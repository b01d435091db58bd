package shell

import (
	"fmt"
	"math"
)

// ThickCreep returns radial and hoop stress [Pa] at radius r of a closed thick
// cylinder a..b in steady power-law creep ε̇ = A σ̄^q under inner pressure p.
//
//	σ_r = -p [(b/r)^(2/q) - 1]/[(b/a)^(2/q) - 1]
//	σ_h =  p [1 + (2/q - 1)(b/r)^(2/q)]/[(b/a)^(2/q) - 1]
//
// q = 1 is Lamé's elastic solution. Source: FinnieHeller1959 (from memory).
func ThickCreep(p, a, b, r, q float64) (radial, hoop float64, err error) {
	if !(a > 0 && b > a && r >= a*(1-1e-12) && r <= b*(1+1e-12)) || !(q >= 1 && q < 100) {
		return 0, 0, fmt.Errorf("shell: thick creep: radii %g, %g, %g, exponent %g (1..100)", a, r, b, q)
	}
	k, x := math.Pow(b/a, 2/q)-1, math.Pow(b/r, 2/q)
	return -p * (x - 1) / k, p * (1 + (2/q-1)*x) / k, nil
}

// ThinCreep returns the rate of hoop strain [1/s] of a closed thin cylinder in
// steady power-law creep, A (√3/2)^(q+1) (p r/t)^q.
func ThinCreep(p, r, t, A, q float64) (float64, error) {
	if err := positive("thin creep", "p, r, t, A, q", p, r, t, A, q); err != nil {
		return 0, err
	}
	return A * math.Pow(math.Sqrt(3)/2, q+1) * math.Pow(p*r/t, q), nil
}
