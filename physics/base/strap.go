package base

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Strap is the stress in the valleys of a petaloid base.
type Strap struct {
	Hemisphere       float64 // Pa, pR/2h of the plain hemisphere
	Value, Low, High float64 // Pa, times the factor and its range
	Label            string  // always [Estimate]
}

// StrapStress returns the stress in the straps of a petaloid base [Pa]:
//
//	sigma = K_v p R/(2 h)
//
// R is the radius of the hemisphere the valleys follow [m], in 5e-3..0.25, h
// the wall in the valley [m], in 50e-6..10e-3 and below R, p the gauge
// pressure; K_v is [StrapFactor], 1.6..2.5. The weakest place is the valley
// near the base centre (PlasticsNewsAIPMA2018), so take the least wall there.
func StrapStress(p unit.GaugePressure, radius, wall float64) (Strap, error) {
	if err := checkPressure("strap", p); err != nil {
		return Strap{}, err
	}
	switch {
	case !(radius >= 5e-3 && radius <= 0.25):
		return Strap{}, fmt.Errorf("base: strap: radius ‹%g m› outside ‹5e-3..0.25 m›", radius)
	case !(wall >= 50e-6 && wall <= 10e-3):
		return Strap{}, fmt.Errorf("base: strap: wall ‹%g m› outside ‹50e-6..10e-3 m›", wall)
	case wall >= radius:
		return Strap{}, fmt.Errorf("base: strap: wall ‹%g m› is not below the radius ‹%g m›", wall, radius)
	}
	k := StrapFactor()
	s := float64(p) * radius / (2 * wall)
	out := Strap{Hemisphere: s, Value: k.Value * s, Low: k.Low * s, High: k.High * s, Label: Estimate}
	if s < 0 {
		out.Low, out.High = out.High, out.Low
	}
	return out, nil
}

// Cap is the push-up of a punt as a shallow spherical cap.
type Cap struct {
	Radius  float64 // m, of its curvature, 5e-3..1
	Ring    float64 // m, radius of the ring it springs from, below Radius
	Wall    float64 // m, 50e-6..10e-3, below Radius/10
	Modulus float64 // Pa, 1e6..3e11
	Poisson float64 // 0..0.499
}

// Snap is when a punt snaps out.
type Snap struct {
	Perfect   float64 // Pa, classical pressure of the perfect sphere
	Lambda    float64 // 1, geometry
	KnockDown float64 // 1, at most 1
	Pressure  float64 // Pa, knocked down
	Label     string  // always [Estimate]
	Warnings  []string
}

// Snap returns the pressure at which the cap snaps through [Pa]:
//
//	p = gamma 2 E (h/R)²/sqrt(3 (1 - nu²))
//	gamma = 0.14 + 3.2/lambda²,  lambda = [12 (1 - nu²)]^(1/4) sqrt(R/h) 2 sin(phi/2)
//
// with phi the half angle of the cap, sin phi = Ring/R; gamma is the lower
// bound of tests on clamped caps and holds for lambda above 2; it is cut at 1.
// A softer ring, plastic flow and creep let the base out earlier: an estimate
// for a short load, to find which base to compute. Sources: Zoelly1915,
// NASASP8032.
func (c Cap) Snap() (Snap, error) {
	switch {
	case !(c.Radius >= 5e-3 && c.Radius <= 1):
		return Snap{}, fmt.Errorf("base: punt: radius of curvature ‹%g m› outside ‹5e-3..1 m›", c.Radius)
	case !(c.Ring > 0 && c.Ring <= c.Radius):
		return Snap{}, fmt.Errorf("base: punt: ring radius ‹%g m› outside ‹0..%g m›, the radius of curvature", c.Ring, c.Radius)
	case !(c.Wall >= 50e-6 && c.Wall <= 10e-3 && c.Wall <= c.Radius/10):
		return Snap{}, fmt.Errorf("base: punt: wall ‹%g m› outside ‹50e-6..10e-3 m› and a tenth of the radius of curvature ‹%g m›", c.Wall, c.Radius)
	case !(c.Modulus >= 1e6 && c.Modulus <= 3e11):
		return Snap{}, fmt.Errorf("base: punt: modulus ‹%g Pa› outside ‹1e6..3e11 Pa›", c.Modulus)
	case !(c.Poisson >= 0 && c.Poisson < 0.5):
		return Snap{}, fmt.Errorf("base: punt: Poisson's ratio %g outside 0..0.5", c.Poisson)
	}
	free := 1 - c.Poisson*c.Poisson
	phi := math.Asin(c.Ring / c.Radius)
	out := Snap{
		Perfect: 2 * c.Modulus * math.Pow(c.Wall/c.Radius, 2) / math.Sqrt(3*free),
		Lambda:  math.Sqrt(math.Sqrt(12*free)) * math.Sqrt(c.Radius/c.Wall) * 2 * math.Sin(phi/2),
		Label:   Estimate,
	}
	out.KnockDown = math.Min(1, datum("snap", "constant").Value+datum("snap", "slope").Value/(out.Lambda*out.Lambda))
	out.Pressure = out.KnockDown * out.Perfect
	if out.Lambda < 2 {
		out.Warnings = append(out.Warnings, fmt.Sprintf("punt: lambda %.3g is below 2: so flat a cap bends out without a snap", out.Lambda))
	}
	return out, nil
}
