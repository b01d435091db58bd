package shell

import (
	"fmt"
	"math"
)

// AxialClassical returns stress [Pa] and load [N] at which a cylinder buckles
// under axial load by the classical theory.
//
//	σ = E t/(r √(3(1-ν²)))   P = 2π r t σ
//
// Source: Timoshenko1959 (from memory).
func AxialClassical(r, t, E, nu float64) (stress, load float64, err error) {
	if err := thin("axial buckling", r, t, E, nu); err != nil {
		return 0, 0, err
	}
	stress = E * t / (r * math.Sqrt(3*(1-nu*nu)))
	return stress, 2 * math.Pi * r * t * stress, nil
}

// ConeAxial returns the classical axial load of a cone of half angle alpha [N],
// P = 2π E t² cos²α/√(3(1-ν²)). Source: NASASP8019 (from memory).
func ConeAxial(t, E, nu, alpha float64) (float64, error) {
	if err := thin("cone buckling", 1, t, E, nu); err != nil {
		return 0, err
	}
	if !(alpha >= 0 && alpha < math.Pi/2) {
		return 0, fmt.Errorf("shell: cone buckling: half angle %g rad outside 0..π/2", alpha)
	}
	c := math.Cos(alpha)
	return 2 * math.Pi * E * t * t * c * c / math.Sqrt(3*(1-nu*nu)), nil
}

// AxialHalfWave returns half the axial wave length [m] and the largest number
// of waves round of the classical buckle.
func AxialHalfWave(r, t, nu float64) (half, waves float64, err error) {
	if err := thin("axial wave", r, t, 1, nu); err != nil {
		return 0, 0, err
	}
	q := math.Pow(12*(1-nu*nu), 0.25)
	return math.Pi * math.Sqrt(r*t) / q, 0.5 * q * math.Sqrt(r/t), nil
}

// PressurisedAxial returns the axial load [N] of a cylinder under inner
// pressure p, for knock-down gamma and gain delta of the unpressurised wall.
//
//	P = 2π E t² [γ/√(3(1-ν²)) + Δγ] + p π r²
//
// Source: NASASP8007 (from memory).
func PressurisedAxial(p, r, t, E, nu, gamma, delta float64) (float64, error) {
	if err := thin("axial under pressure", r, t, E, nu); err != nil {
		return 0, err
	}
	if bad(p) || bad(gamma) || bad(delta) {
		return 0, fmt.Errorf("shell: axial under pressure: %g Pa, γ %g, Δγ %g", p, gamma, delta)
	}
	return 2*math.Pi*E*t*t*(gamma/math.Sqrt(3*(1-nu*nu))+delta) + p*math.Pi*r*r, nil
}

// VonMises returns the external pressure [Pa], hydrostatic with the ends
// loaded, at which a simply supported cylinder of length l buckles in n waves.
//
//	p = (Et/r)/(n²-1+k²/2) {1/(n²/k²+1)² + t²/(12 r²(1-ν²)) (n²-1+k²)²},  k = πr/l
//
// Source: VonMises1929 (from memory).
func VonMises(r, t, l, E, nu float64, n int) (float64, error) {
	if err := positive("von Mises", "r, t, l, E", r, t, l, E); err != nil {
		return 0, err
	}
	if n < 2 {
		return 0, fmt.Errorf("shell: von Mises: %d waves, at least 2", n)
	}
	k := math.Pi * r / l
	N := float64(n * n)
	a := 1 / ((N/(k*k) + 1) * (N/(k*k) + 1))
	b := t * t / (12 * r * r * (1 - nu*nu)) * (N - 1 + k*k) * (N - 1 + k*k)
	return E * t / r / (N - 1 + k*k/2) * (a + b), nil
}

// VonMisesLowest returns the lowest of [VonMises] over n = 2..60, and its n.
func VonMisesLowest(r, t, l, E, nu float64) (float64, int, error) {
	best, at := math.Inf(1), 0
	for n := 2; n <= 60; n++ {
		p, err := VonMises(r, t, l, E, nu, n)
		if err != nil {
			return 0, 0, err
		}
		if p < best {
			best, at = p, n
		}
	}
	return best, at, nil
}

// WindenburgTrilling returns the collapse pressure [Pa] of a cylinder of
// medium length under external pressure.
//
//	p = 2.42 E (t/D)^2.5/{(1-ν²)^0.75 [L/D - 0.45 √(t/D)]}
//
// Source: WindenburgTrilling1934 (from memory).
func WindenburgTrilling(r, t, l, E, nu float64) (float64, error) {
	if err := positive("Windenburg-Trilling", "r, t, l, E", r, t, l, E); err != nil {
		return 0, err
	}
	d := 2 * r
	den := l/d - 0.45*math.Sqrt(t/d)
	if !(den > 0) {
		return 0, fmt.Errorf("shell: Windenburg-Trilling: length %g m too short for diameter %g m", l, d)
	}
	return 2.42 * E * math.Pow(t/d, 2.5) / (math.Pow(1-nu*nu, 0.75) * den), nil
}

// LateralSP8007 returns 0.855 E √γ/[(1-ν²)^0.75 (r/t)^2.5 (l/r)] [Pa].
// Source: NASASP8007 (from memory).
func LateralSP8007(r, t, l, E, nu, rootGamma float64) (float64, error) {
	if err := thin("lateral pressure", r, t, E, nu); err != nil {
		return 0, err
	}
	if err := positive("lateral pressure", "l, √γ", l, rootGamma); err != nil {
		return 0, err
	}
	return 0.855 * E * rootGamma / (math.Pow(1-nu*nu, 0.75) * math.Pow(r/t, 2.5) * l / r), nil
}

// LongTube returns the external pressure [Pa] that flattens a long tube,
// E t³/[4(1-ν²) r³], and the length above which it holds, 4.90 r √(r/t).
// Source: Roark2002, case 19a.
func LongTube(r, t, E, nu float64) (p, length float64, err error) {
	if err := thin("long tube", r, t, E, nu); err != nil {
		return 0, 0, err
	}
	q := t / r
	return E * q * q * q / (4 * (1 - nu*nu)), 4.90 * r * math.Sqrt(r/t), nil
}

// Ring returns the external pressure [Pa] at which a ring (plane strain) of n
// waves buckles: live pressure follows the wall, (n²-1) D/r³; dead pressure
// keeps its direction, n² D/r³.
func Ring(r, t, E, nu float64, n int, dead bool) (float64, error) {
	if err := thin("ring", r, t, E, nu); err != nil {
		return 0, err
	}
	if n < 2 {
		return 0, fmt.Errorf("shell: ring: %d waves, at least 2", n)
	}
	D := E * t * t * t / (12 * (1 - nu*nu))
	k := float64(n*n) - 1
	if dead {
		k++
	}
	return k * D / (r * r * r), nil
}

// Zoelly returns the external pressure [Pa] at which a sphere buckles,
// 2E (t/r)²/√(3(1-ν²)). Source: Zoelly1915 (from memory).
func Zoelly(r, t, E, nu float64) (float64, error) {
	if err := thin("sphere", r, t, E, nu); err != nil {
		return 0, err
	}
	return 2 * E * (t / r) * (t / r) / math.Sqrt(3*(1-nu*nu)), nil
}

// SnapCap returns the pressure [Pa] at which a push-up of radius of curvature
// rho and half opening angle phi snaps through: Zoelly's with the knock-down
// of [CapKnockdown].
func SnapCap(rho, t, E, nu, phi float64) (float64, error) {
	k, err := CapKnockdown(rho/t, phi, nu)
	if err != nil {
		return 0, err
	}
	p, err := Zoelly(rho, t, E, nu)
	return k.Gamma * p, err
}

// RibSecond returns the second moment [m⁴] of a rib of area A [m²] and own
// second moment I [m⁴] whose centroid lies e [m] off the mid-surface, with
// 1.56 √(r t) of wall on each side. From memory, form of pressure vessel codes.
func RibSecond(A, I, e, r, t float64) (float64, error) {
	if err := positive("rib", "A, r, t", A, r, t); err != nil {
		return 0, err
	}
	if !(I >= 0) || bad(e) || bad(I) {
		return 0, fmt.Errorf("shell: rib: area %g m², second moment %g m⁴, eccentricity %g m", A, I, e)
	}
	b := 2 * 1.56 * math.Sqrt(r*t)
	w := b * t
	c := A * e / (A + w) // neutral axis off the mid-surface
	return I + A*(e-c)*(e-c) + b*t*t*t/12 + w*c*c, nil
}

// Bryant returns the external pressure [Pa] at which a cylinder of length l
// with rings of second moment I [m⁴] spaced f [m] buckles as a whole.
//
//	p = (Et/r) λ⁴/[(n²-1+λ²/2)(n²+λ²)²] + (n²-1) E I/(r³ f),  λ = πr/l
//
// Source: Bryant1954 (from memory).
func Bryant(r, t, l, E, I, f float64, n int) (float64, error) {
	if err := positive("Bryant", "r, t, l, E, f", r, t, l, E, f); err != nil {
		return 0, err
	}
	if n < 2 || I < 0 {
		return 0, fmt.Errorf("shell: Bryant: %d waves, at least 2; second moment %g", n, I)
	}
	L2 := (math.Pi * r / l) * (math.Pi * r / l)
	N := float64(n * n)
	return E*t/r*L2*L2/((N-1+L2/2)*(N+L2)*(N+L2)) + (N-1)*E*I/(r*r*r*f), nil
}
