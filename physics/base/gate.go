package base

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Limits of the gauge pressure [Pa].
const (
	pressureLow  unit.GaugePressure = -1e5
	pressureHigh unit.GaugePressure = 5e6
)

func checkPressure(what string, p unit.GaugePressure) error {
	if !(p >= pressureLow && p <= pressureHigh) {
		return fmt.Errorf("base: %s: pressure %g Pa(g) outside %g..%g Pa(g)", what, float64(p), float64(pressureLow), float64(pressureHigh))
	}
	return nil
}

// Disc is the unoriented disc round the gate, taken as a plate clamped at its
// rim, where the wall becomes thin and stretched.
type Disc struct {
	Radius    float64 // m, 1e-3..0.1
	Thickness float64 // m, 50e-6..10e-3, below the radius
	Modulus   float64 // Pa, 1e6..3e11
	Poisson   float64 // 0..0.5
}

func (d Disc) check() error {
	switch {
	case !(d.Radius >= 1e-3 && d.Radius <= 0.1):
		return fmt.Errorf("base: gate: radius ‹%g m› outside ‹1e-3..0.1 m›", d.Radius)
	case !(d.Thickness >= 50e-6 && d.Thickness <= 10e-3):
		return fmt.Errorf("base: gate: thickness ‹%g m› outside ‹50e-6..10e-3 m›", d.Thickness)
	case d.Thickness >= d.Radius:
		return fmt.Errorf("base: gate: thickness ‹%g m› is not below the radius ‹%g m›", d.Thickness, d.Radius)
	case !(d.Modulus >= 1e6 && d.Modulus <= 3e11):
		return fmt.Errorf("base: gate: modulus ‹%g Pa› outside ‹1e6..3e11 Pa›", d.Modulus)
	case !(d.Poisson >= 0 && d.Poisson <= 0.5):
		return fmt.Errorf("base: gate: Poisson's ratio %g outside 0..0.5", d.Poisson)
	}
	return nil
}

// Gain returns the largest bending stress of the disc for each pascal on it
// [1], that of its rim:
//
//	sigma/p = 3/4 (a/h)²
//
// Source: Timoshenko1959, clamped circular plate.
func (d Disc) Gain() (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	return 0.75 * math.Pow(d.Radius/d.Thickness, 2), nil
}

// Plate is a disc under pressure.
type Plate struct {
	Edge   float64 // Pa, radial bending stress at the rim
	Centre float64 // Pa, bending stress in the middle
	// Small is the deflection of the middle by the linear theory [m], Large
	// with the stretching of a plate whose rim cannot come in [m].
	Small, Large float64
	Label        string // always [Estimate]
	Warnings     []string
}

// large is the stiffening of a clamped plate with the square of its deflection
// over its thickness, nu = 0.3. Source: Timoshenko1959, from memory.
const large = 0.488

// Under returns the stresses and deflections of the disc at a gauge pressure:
//
//	sigma_edge = 3/4 p (a/h)²        sigma_centre = 3/8 (1 + nu) p (a/h)²
//	w = p a⁴/(64 D),  D = E h³/(12 (1 - nu²))
//	w_l (1 + 0.488 (w_l/h)²) = w
//
// The stresses are those of the linear theory, which overstates them once the
// deflection passes half the thickness: warned. Also warned where the disc is
// thicker than a fifth of its radius, where shear counts. Source:
// Timoshenko1959.
func (d Disc) Under(p unit.GaugePressure) (Plate, error) {
	if err := d.check(); err != nil {
		return Plate{}, err
	}
	if err := checkPressure("gate", p); err != nil {
		return Plate{}, err
	}
	a, h, nu, q := d.Radius, d.Thickness, d.Poisson, float64(p)
	slender := q * math.Pow(a/h, 2)
	stiffness := d.Modulus * h * h * h / (12 * (1 - nu*nu))
	out := Plate{Edge: 0.75 * slender, Centre: 0.375 * (1 + nu) * slender, Small: q * math.Pow(a, 4) / (64 * stiffness), Label: Estimate}
	// x + c x³ = y has one real root, here in closed form.
	k := math.Sqrt(3 * large)
	out.Large = h * 2 / k * math.Sinh(math.Asinh(1.5*out.Small/h*k)/3)
	if math.Abs(out.Small) > h/2 {
		out.Warnings = append(out.Warnings, "gate: the linear deflection "+unit.Quote(unit.Length, out.Small, 3)+" passes half the thickness "+unit.Quote(unit.Length, h, 3)+": the stresses are upper bounds")
	}
	if h > a/5 {
		out.Warnings = append(out.Warnings, fmt.Sprintf("gate: thickness over radius %.2g passes 0.2: the plate theory holds for thinner discs", h/a))
	}
	return out, nil
}
