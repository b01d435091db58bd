package shell

import "math"

// CircularPanel returns the volume [m³] and the middle deflection [m] of a
// clamped circular plate of radius a under q by the theory of small
// deflections: V = π q a⁶/(192 D), w = q a⁴/(64 D).
// Source: Timoshenko1959 (from memory).
func CircularPanel(q, a, t, E, nu float64) (volume, middle float64, err error) {
	if err := thin("circular panel", a, t, E, nu); err != nil {
		return 0, 0, err
	}
	D := E * t * t * t / (12 * (1 - nu*nu))
	return math.Pi * q * a * a * a * a * a * a / (192 * D), q * a * a * a * a / (64 * D), nil
}
