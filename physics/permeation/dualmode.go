package permeation

import (
	"fmt"
	"math"

	"costrel/unit"
)

// DualMode is sorption and transport of a gas in a glassy polymer: dissolved by
// Henry's law and held in the microvoids of the glass, where only a share F is
// mobile.
//
//	C = kD p + C'H b p/(1 + b p)
//	J = -D d/dx [kD p + F C'H b p/(1 + b p)]
//
// Source: KorosPaul1978, PaulKoros1976 (from memory).
type DualMode struct {
	Henry       Arrhenius        // kD [mol/(m³·Pa)]; Energy is the heat of solution
	Capacity    float64          // C'H at Reference [mol/m³]
	Glass       unit.Temperature // where C'H has fallen to 0, linearly
	Reference   unit.Temperature // of Capacity
	Affinity    Arrhenius        // b [1/Pa]; Energy is the heat of sorption
	Mobile      float64          // F, 0..1
	Diffusivity Arrhenius        // D [m²/s]
}

// Sorption is a [DualMode] at one temperature, bare numbers for solvers.
type Sorption struct {
	Henry       float64 // kD [mol/(m³·Pa)]
	Capacity    float64 // C'H [mol/m³]
	Affinity    float64 // b [1/Pa]
	Mobile      float64 // F
	Diffusivity float64 // D [m²/s]
}

// At returns the parameters at T; above the glass transition no microvoids are
// left.
func (d DualMode) At(t unit.Temperature) Sorption {
	left := 1.0
	if d.Glass > d.Reference {
		left = math.Max(0, float64((d.Glass-t)/(d.Glass-d.Reference)))
	}
	return Sorption{
		Henry: d.Henry.At(t), Capacity: d.Capacity * left, Affinity: d.Affinity.At(t),
		Mobile: d.Mobile, Diffusivity: d.Diffusivity.At(t),
	}
}

// Concentration returns the gas held in equilibrium with p [Pa]: mol/m³.
func (s Sorption) Concentration(p float64) float64 {
	return s.Henry*p + s.Capacity*s.Affinity*p/(1+s.Affinity*p)
}

// trace returns the straight line that the sorption begins with: for a gas of
// which there is next to nothing, b p far below 1.
func (s Sorption) trace() Sorption {
	held, mobile := s.Henry+s.Capacity*s.Affinity, s.Henry+s.Mobile*s.Capacity*s.Affinity
	return Sorption{Henry: held, Diffusivity: s.Diffusivity * mobile / held}
}

// Permeability returns the secant permeability of a wall with p [Pa] on one
// side and nothing on the other [mol·m/(m²·s·Pa)].
//
//	P = D (kD + F C'H b/(1 + b p))
func (s Sorption) Permeability(p float64) float64 {
	return s.Diffusivity * (s.Henry + s.Mobile*s.Capacity*s.Affinity/(1+s.Affinity*p))
}

// Permeability returns the secant permeability at T under p against nothing
// [mol·m/(m²·s·Pa)]. p 0..2 MPa.
func (d DualMode) Permeability(t unit.Temperature, p float64) (float64, error) {
	if err := CheckTemperature(t); err != nil {
		return 0, err
	}
	if !(p >= 0) || p > 2e6 {
		return 0, fmt.Errorf("permeation: dual mode: pressure ‹%g bar(a)› outside ‹0..20 bar(a)›", p/1e5)
	}
	return d.At(t).Permeability(p), nil
}
