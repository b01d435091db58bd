package impact

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Support is how a tube is held along its axis while the wave passes.
type Support string

// The ways a tube is held. The empty one is Free.
const (
	Free     Support = "free"     // free to move along the axis: psi = 1
	Anchored Support = "anchored" // held along its whole length: psi = 1 - nu²
	Closed   Support = "closed"   // thin tube with closed ends, held at one end: psi = 1 - nu/2
)

// Psi returns the factor by which the support changes the give of the wall
// [1]; nu is Poisson's ratio, 0..0.5. Source: WylieStreeter1993 for the three
// supports of thin tubes, from memory.
func (s Support) Psi(nu float64) (float64, error) {
	if !(nu >= 0 && nu <= 0.5) {
		return 0, fmt.Errorf("impact: support: Poisson's ratio %g outside 0..0.5", nu)
	}
	switch s {
	case Free, "":
		return 1, nil
	case Anchored:
		return 1 - nu*nu, nil
	case Closed:
		return 1 - nu/2, nil
	}
	return 0, fmt.Errorf("impact: support %q: choose %q, %q or %q", string(s), Free, Anchored, Closed)
}

// Liquid is what the pack holds.
type Liquid struct {
	Density     float64 // kg/m³, 600..1600
	BulkModulus float64 // Pa, 1e8..1e10; water 2.19e9
}

func (l Liquid) check() error {
	switch {
	case !(l.Density >= 600 && l.Density <= 1600):
		return fmt.Errorf("impact: liquid: density %g kg/m³ outside 600..1600 kg/m³", l.Density)
	case !(l.BulkModulus >= 1e8 && l.BulkModulus <= 1e10):
		return fmt.Errorf("impact: liquid: bulk modulus ‹%g Pa› outside ‹1e8..1e10 Pa›", l.BulkModulus)
	}
	return nil
}

// SoundSpeed returns the speed of sound in the liquid alone [m/s]:
//
//	c0 = sqrt(K/rho)
func (l Liquid) SoundSpeed() (float64, error) {
	if err := l.check(); err != nil {
		return 0, err
	}
	return math.Sqrt(l.BulkModulus / l.Density), nil
}

// Tube is a length of wall round the liquid.
type Tube struct {
	Radius  float64 // m, 1e-3..0.5
	Wall    float64 // m, 10e-6..20e-3, below the radius
	Modulus float64 // Pa along the hoop, for fast loading, 1e6..3e11
	Poisson float64 // 0..0.5; only its support needs it
	Support Support
}

func (t Tube) check() error {
	switch {
	case !(t.Radius >= 1e-3 && t.Radius <= 0.5):
		return fmt.Errorf("impact: tube: radius ‹%g m› outside ‹1e-3..0.5 m›", t.Radius)
	case !(t.Wall >= 10e-6 && t.Wall <= 20e-3):
		return fmt.Errorf("impact: tube: wall ‹%g m› outside ‹10e-6..20e-3 m›", t.Wall)
	case t.Wall >= t.Radius:
		return fmt.Errorf("impact: tube: wall ‹%g m› is not below the radius ‹%g m›", t.Wall, t.Radius)
	case !(t.Modulus >= 1e6 && t.Modulus <= 3e11):
		return fmt.Errorf("impact: tube: modulus ‹%g Pa› outside ‹1e6..3e11 Pa›", t.Modulus)
	}
	return nil
}

// thin is the least radius over wall for which the tube counts as thin.
const thin = 10

// WaveSpeed returns the speed of a pressure wave in a liquid in an elastic
// tube [m/s]:
//
//	c = sqrt( (K/rho) / (1 + (K/E)(2R/h) psi) )
//
// For a plastic wall the second term rules and c goes to sqrt(E h/(2 rho R psi)).
// Holds for R/h >= 10 and a wave long against the diameter; bubbles, which
// slow it further, aren't counted. Source: Korteweg1878.
func WaveSpeed(l Liquid, t Tube) (float64, error) {
	c0, err := l.SoundSpeed()
	if err != nil {
		return 0, err
	}
	if err := t.check(); err != nil {
		return 0, err
	}
	psi, err := t.Support.Psi(t.Poisson)
	if err != nil {
		return 0, err
	}
	return c0 / math.Sqrt(1+l.BulkModulus/t.Modulus*2*t.Radius/t.Wall*psi), nil
}

// Joukowsky returns the pressure rise where a liquid that carries a wave at c
// [m/s] is stopped from v [m/s] at once [Pa]:
//
//	dp = rho c v
//
// Density in 600..1600 kg/m³, c in 0..2000 m/s, v in 0..20 m/s. Source:
// Joukowsky1900.
func Joukowsky(density, c, v float64) (float64, error) {
	switch {
	case !(density >= 600 && density <= 1600):
		return 0, fmt.Errorf("impact: hammer: density %g kg/m³ outside 600..1600 kg/m³", density)
	case !(c > 0 && c <= 2000):
		return 0, fmt.Errorf("impact: hammer: wave speed ‹%g m/s› outside ‹0..2000 m/s›", c)
	case !(v >= 0 && v <= 20):
		return 0, fmt.Errorf("impact: hammer: speed ‹%g m/s› outside ‹0..20 m/s›", v)
	}
	return density * c * v, nil
}

// Limits of the drop height [m].
const (
	heightLow  = 0.01
	heightHigh = 10.0
)

// Speed returns the speed of a pack that has fallen from a height [m/s]:
//
//	v = sqrt(2 g H)
//
// H in 0.01..10 m; drag is left out (it takes less than 1 % of the speed of a bottle from 2 m).
func Speed(height float64) (float64, error) {
	if !(height >= heightLow && height <= heightHigh) {
		return 0, fmt.Errorf("impact: drop: height ‹%g m› outside ‹%g..%g m›", height, heightLow, heightHigh)
	}
	return math.Sqrt(2 * unit.Gravity * height), nil
}

// Duration returns how long the pressure pulse lasts at the base [s]:
//
//	T = 4 L/c
//
// L is the height of the liquid [m], in 1e-3..2 m. It does not depend on the
// height of the drop, as was measured (KaracIvankovic2009 citing Reed).
func Duration(liquidHeight, c float64) (float64, error) {
	switch {
	case !(liquidHeight >= 1e-3 && liquidHeight <= 2):
		return 0, fmt.Errorf("impact: pulse: liquid height ‹%g m› outside ‹1e-3..2 m›", liquidHeight)
	case !(c > 0 && c <= 2000):
		return 0, fmt.Errorf("impact: pulse: wave speed ‹%g m/s› outside ‹0..2000 m/s›", c)
	}
	return 4 * liquidHeight / c, nil
}

// Peak is the first peak before the wall has given way.
type Peak struct {
	Pressure float64 // Pa, rho c0 v
	Time     float64 // s, D/(2 c0): half the diameter at the speed of sound in the liquid
}

// UnconfinedPeak returns the pressure of the first instant, when the wave has
// not yet reached the wall and runs as in open liquid. It is real but lasts
// some 20 to 70 µs, too short to stretch a plastic wall: for information, no
// index uses it. v is in 0..20 m/s, the radius in 1e-3..0.5 m. Source:
// KaracIvankovic2009.
func UnconfinedPeak(l Liquid, radius, v float64) (Peak, error) {
	c0, err := l.SoundSpeed()
	if err != nil {
		return Peak{}, err
	}
	if !(radius >= 1e-3 && radius <= 0.5) {
		return Peak{}, fmt.Errorf("impact: unconfined peak: radius ‹%g m› outside ‹1e-3..0.5 m›", radius)
	}
	if !(v >= 0 && v <= 20) {
		return Peak{}, fmt.Errorf("impact: unconfined peak: speed ‹%g m/s› outside ‹0..20 m/s›", v)
	}
	return Peak{Pressure: l.Density * c0 * v, Time: radius / c0}, nil
}
