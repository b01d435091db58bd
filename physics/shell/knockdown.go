package shell

import (
	"fmt"
	"math"
)

// Knockdown lowers the buckling load of the perfect shell to what imperfect
// ones carry.
type Knockdown struct {
	Name   string
	Source string // key
	Gamma  float64
	Note   string
}

// NoKnockdown leaves the load of the perfect shell.
func NoKnockdown() Knockdown { return Knockdown{Name: "none", Source: "CommonPractice", Gamma: 1} }

// UserKnockdown returns a factor set by the user's own tests, 0.05..1.
func UserKnockdown(gamma float64) (Knockdown, error) {
	if !(gamma >= 0.05 && gamma <= 1) {
		return Knockdown{}, fmt.Errorf("shell: knock-down: factor %g outside 0.05..1", gamma)
	}
	return Knockdown{Name: "own tests", Source: "CommonPractice", Gamma: gamma, Note: "set by the user"}, nil
}

func slender(what string, rt float64) (string, error) {
	if !(rt > 1) || math.IsInf(rt, 0) {
		return "", fmt.Errorf("shell: knock-down: %s: R/t %g must be above 1", what, rt)
	}
	if rt > 1500 {
		return fmt.Sprintf("R/t %.0f above 1500, the limit of the tests behind it", rt), nil
	}
	return "", nil
}

// AxialKnockdown returns the lower bound of cylinders under axial load,
//
//	γ = 1 - 0.901 (1 - exp(-√(R/t)/16))
//
// Source: NASASP8007 (from memory).
func AxialKnockdown(rt float64) (Knockdown, error) {
	return cylinder("axial, SP-8007", "axial.coefficient", rt)
}

// BendingKnockdown is the same for bending, with 0.731.
func BendingKnockdown(rt float64) (Knockdown, error) {
	return cylinder("bending, SP-8007", "bending.coefficient", rt)
}

func cylinder(name, key string, rt float64) (Knockdown, error) {
	note, err := slender(name, rt)
	if err != nil {
		return Knockdown{}, err
	}
	d := datum("knockdown", key)
	return Knockdown{Name: name, Source: d.Source, Gamma: 1 - d.Value*(1-math.Exp(-math.Sqrt(rt)/16)), Note: note}, nil
}

// ExternalKnockdown returns the factor of cylinders under external pressure.
// Source: NASASP8007 (from memory).
func ExternalKnockdown() Knockdown {
	d := datum("knockdown", "external.factor")
	return Knockdown{Name: "external pressure, SP-8007", Source: d.Source, Gamma: d.Value, Note: d.Note}
}

// CapKnockdown returns the lower bound of spherical caps under external
// pressure, of radius over thickness rt and half opening angle phi [rad].
//
//	γ = 0.14 + 3.2/λ²   λ = [12 (1-ν²)]^¼ √(R/t) 2 sin(φ/2), above 2
//
// Source: NASASP8032 (from memory).
func CapKnockdown(rt, phi, nu float64) (Knockdown, error) {
	note, err := slender("spherical cap", rt)
	if err != nil {
		return Knockdown{}, err
	}
	if !(phi > 0 && phi <= math.Pi) || !(nu >= 0 && nu < 0.5) {
		return Knockdown{}, fmt.Errorf("shell: knock-down: cap of half angle %g rad (0..π), Poisson's ratio %g (0..0.5)", phi, nu)
	}
	c, d := datum("knockdown", "sphere.constant"), datum("knockdown", "sphere.slope")
	l := math.Pow(12*(1-nu*nu), 0.25) * math.Sqrt(rt) * 2 * math.Sin(phi/2)
	k := Knockdown{Name: "spherical cap, SP-8032", Source: c.Source, Gamma: math.Min(1, c.Value+d.Value/(l*l)), Note: note}
	if l <= 2 {
		k.Note = fmt.Sprintf("λ %.2f not above 2: the cap is a plate, the bound does not apply", l)
		k.Gamma = 1
	}
	return k, nil
}

// ConeKnockdown returns the factor of cones under axial load for half opening
// angles between 10 and 75 degrees. Source: NASASP8019 (from memory).
func ConeKnockdown(alpha float64) (Knockdown, error) {
	const deg = math.Pi / 180
	if !(alpha >= 10*deg-1e-12 && alpha <= 75*deg+1e-12) {
		return Knockdown{}, fmt.Errorf("shell: knock-down: cone half angle %.1f degrees outside 10..75", alpha/deg)
	}
	d := datum("knockdown", "cone.factor")
	return Knockdown{Name: "cone axial, SP-8019", Source: d.Source, Gamma: d.Value, Note: d.Note}, nil
}

// Interaction returns the load at which yield and buckling meet,
//
//	1/P² = 1/P_el² + 1/P_pl²
//
// from memory, a habitual rule.
func Interaction(elastic, plastic float64) (float64, error) {
	if !(elastic > 0) || !(plastic > 0) {
		return 0, fmt.Errorf("shell: interaction: loads %g and %g must be above 0", elastic, plastic)
	}
	return 1 / math.Hypot(1/elastic, 1/plastic), nil
}
