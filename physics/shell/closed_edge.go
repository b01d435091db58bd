package shell

import (
	"fmt"
	"math"

	"costrel/num/root"
)

// EdgeDecay returns β [1/m], the inverse length over which bending dies away
// from an edge: β = [3 (1-ν²)]^¼/√(r t). Source: Timoshenko1959 (from memory).
func EdgeDecay(r, t, nu float64) (float64, error) {
	if err := thin("edge decay", r, t, 1, nu); err != nil {
		return 0, err
	}
	return decay(r, t, nu), nil
}

func decay(r, t, nu float64) float64 { return math.Pow(3*(1-nu*nu), 0.25) / math.Sqrt(r*t) }

// HemisphereJoint returns the largest meridional and hoop stress where a
// cylinder meets a hemisphere of the same wall, over the membrane stresses
// pr/2t and pr/t of the cylinder.
//
//	along: 1 + (3/2)/√(3(1-ν²)) e^(-π/4) sin(π/4)      at βx = π/4
//	round: max over x of 1 - ¼ e^(-x) cos x + ¾ ν/√(3(1-ν²)) e^(-x) sin x
//
// Source: Timoshenko1959 (from memory), 1.293 and 1.032 at ν = 0.3.
func HemisphereJoint(nu float64) (along, round float64, err error) {
	if err := thin("hemisphere joint", 1, 1, 1, nu); err != nil {
		return 0, 0, err
	}
	k := 1 / math.Sqrt(3*(1-nu*nu))
	along = 1 + 1.5*k*math.Exp(-math.Pi/4)*math.Sin(math.Pi/4)
	// σ_round/(p r/t): membrane part 1 - ¼ e^-x cos x; bending ν times that of
	// the meridian, (pr/2t) 1.5 k e^-x sin x.
	f := func(x float64) float64 {
		return 1 - 0.25*math.Exp(-x)*math.Cos(x) + 0.75*nu*k*math.Exp(-x)*math.Sin(x)
	}
	_, round = root.Peak(f, 0.5, 3, 1e-9)
	return along, round, nil
}

// EdgeBending returns the deflection [m] of a long cylinder at x [m] from an
// edge under shear Q [N/m] and moment M [N], inward shear counted positive.
//
//	w = e^(-βx) [Q cos βx + β M (cos βx - sin βx)]/(2 β³ D)
//
// Source: Timoshenko1959 (from memory).
func EdgeBending(Q, M, x, r, t, E, nu float64) (float64, error) {
	if err := thin("edge bending", r, t, E, nu); err != nil {
		return 0, err
	}
	if bad(Q) || bad(M) || !(x >= 0) {
		return 0, fmt.Errorf("shell: edge bending: shear %g N/m, moment %g N at %g m (0 or above)", Q, M, x)
	}
	b := decay(r, t, nu)
	D := E * t * t * t / (12 * (1 - nu*nu))
	e := math.Exp(-b * x)
	return e * (Q*math.Cos(b*x) + b*M*(math.Cos(b*x)-math.Sin(b*x))) / (2 * b * b * b * D), nil
}

// RingLoad returns the deflection P/(8 β³ D) [m] and moment P/(4β) [N] under a
// ring load P [N/m] on a long cylinder. Source: Timoshenko1959 (from memory).
func RingLoad(P, r, t, E, nu float64) (w, moment float64, err error) {
	if err := thin("ring load", r, t, E, nu); err != nil {
		return 0, 0, err
	}
	b := decay(r, t, nu)
	D := E * t * t * t / (12 * (1 - nu*nu))
	return P / (8 * b * b * b * D), P / (4 * b), nil
}
