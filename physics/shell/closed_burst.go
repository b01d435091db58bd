package shell

import (
	"fmt"
	"math"
)

// PlasticBurst returns the pressure [Pa] at which a cylinder of bore a and
// outer radius b is plastic throughout, (2/√3) σ_u ln(b/a).
// Source: Nadai1950 (from memory).
func PlasticBurst(ultimate, a, b float64) (float64, error) {
	if !(a > 0 && b > a) || !(ultimate > 0) {
		return 0, fmt.Errorf("shell: plastic burst: strength %g Pa, radii %g and %g m", ultimate, a, b)
	}
	return 2 / math.Sqrt(3) * ultimate * math.Log(b/a), nil
}

// InstabilityBurst returns the largest pressure [Pa] a closed thin cylinder of
// wall t and radius r holds when σ̄ = K ε̄^n in true stress and strain, and the
// hoop strain there.
//
//	p = (2/√3) K (n/√3)^n e^(-n) t/r   at ε_h = n/2
//
// Source: Svensson1958 (from memory); derived again for this project.
func InstabilityBurst(K, n, r, t float64) (p, strain float64, err error) {
	if err := positive("instability burst", "K, r, t", K, r, t); err != nil {
		return 0, 0, err
	}
	if !(n > 0 && n < 2) {
		return 0, 0, fmt.Errorf("shell: instability burst: exponent %g outside 0..2", n)
	}
	return 2 / math.Sqrt(3) * K * math.Pow(n/math.Sqrt(3), n) * math.Exp(-n) * t / r, n / 2, nil
}

// StrengthBurst returns the pressure [Pa] at which the hoop stress of a thin
// cylinder reaches the ultimate strength, σ_u t/r.
func StrengthBurst(ultimate, r, t float64) (float64, error) {
	if err := positive("strength burst", "σ_u, r, t", ultimate, r, t); err != nil {
		return 0, err
	}
	return ultimate * t / r, nil
}
