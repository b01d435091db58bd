package shell

import (
	"fmt"
	"math"
)

// positive refuses the first value that is not a finite number above 0.
func positive(op string, names string, v ...float64) error {
	for i, x := range v {
		if !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("shell: %s: value %d of (%s) is %g, must be above 0", op, i+1, names, x)
		}
	}
	return nil
}

// thin refuses a wall that is none: r, t, E above 0, ν in 0..0.5.
func thin(op string, r, t, E, nu float64) error {
	if err := positive(op, "r, t, E", r, t, E); err != nil {
		return err
	}
	if !(nu >= 0 && nu < 0.5) {
		return fmt.Errorf("shell: %s: Poisson's ratio %g outside 0..0.5", op, nu)
	}
	return nil
}

// under is positive with a pressure that must be a number.
func under(op string, p float64, names string, v ...float64) error {
	if bad(p) {
		return fmt.Errorf("shell: %s: pressure %g Pa", op, p)
	}
	return positive(op, names, v...)
}

// CylinderMembrane returns hoop and meridional stress of a closed cylinder of
// mid radius r and wall t under p on the inner face [Pa], and the growth of the
// radius over r.
//
//	σ_h = p (r - t/2)/t   σ_s = p (r - t/2)²/(2 r t)   Δr/r = (σ_h - ν σ_s)/E
//
// Source: Timoshenko1959 (from memory), with the pressure on the true face.
func CylinderMembrane(p, r, t, E, nu float64) (hoop, along, growth float64, err error) {
	if err := under("cylinder", p, "r, t, E", r, t, E); err != nil {
		return 0, 0, 0, err
	}
	a := r - t/2
	hoop, along = p*a/t, p*a*a/(2*r*t)
	return hoop, along, (hoop - nu*along) / E, nil
}

// SphereMembrane returns the stress p r/2t of a sphere [Pa] and the growth of
// its radius, (1-ν) σ/E.
func SphereMembrane(p, r, t, E, nu float64) (stress, growth float64, err error) {
	if err := under("sphere", p, "r, t, E", r, t, E); err != nil {
		return 0, 0, err
	}
	s := p * r / (2 * t)
	return s, (1 - nu) * s / E, nil
}

// EllipsoidMembrane returns the stresses [Pa] of an ellipsoidal dome with
// radial semi-axis a and axial b: crown, equator along, equator round. The
// equator is compressed round where a > √2 b.
func EllipsoidMembrane(p, a, b, t float64) (crown, along, round float64, err error) {
	if err := under("ellipsoid", p, "a, b, t", a, b, t); err != nil {
		return 0, 0, 0, err
	}
	return p * a * a / (2 * b * t), p * a / (2 * t), p * a / t * (1 - a*a/(2*b*b)), nil
}

// TorusMembrane returns the stresses [Pa] round the axis and along the tube of
// a torus of tube radius b and centre radius a at the angle phi from the axis.
func TorusMembrane(p, a, b, t, phi float64) (round, along float64, err error) {
	if err := under("torus", p, "a, b, t", a, b, t); err != nil {
		return 0, 0, err
	}
	if a <= b {
		return 0, 0, fmt.Errorf("shell: torus: centre radius %g must exceed tube radius %g", a, b)
	}
	s := math.Sin(phi)
	return p * b / (2 * t), p * b / (2 * t) * (2*a + b*s) / (a + b*s), nil
}

// ConeMembrane returns hoop and meridional stress [Pa] of a closed cone of
// half angle alpha at radius r.
func ConeMembrane(p, r, t, alpha float64) (hoop, along float64, err error) {
	if err := under("cone", p, "r, t", r, t); err != nil {
		return 0, 0, err
	}
	if !(alpha >= 0 && alpha < math.Pi/2) {
		return 0, 0, fmt.Errorf("shell: cone: radius %g, wall %g, half angle %g rad (0..π/2)", r, t, alpha)
	}
	hoop = p * r / (t * math.Cos(alpha))
	return hoop, hoop / 2, nil
}
