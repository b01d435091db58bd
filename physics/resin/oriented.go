package resin

import (
	"fmt"
	"math"
)

// Range of the stretch ratios that a law of the stretched wall answers for.
// The published finding behind the form of both laws covers 1.5 to 3
// (ESAFORM2007); beyond, up to 5.5, the fits are checked only against the
// trade's remembered values.
const (
	stretchMin      = 0.8
	stretchMax      = 8.0
	stretchSeenLow  = 1.5
	stretchSeenHigh = 3.0
	stretchFitHigh  = 5.5
)

// Orientation gives the stiffness of a stretched wall.
//
// Both laws in [Orientations] are engineering fits, not published. What is
// published is that the modulus after biaxial stretching at 85 to 110 °C and
// 1 to 32 1/s follows the stretch ratio and the mode, and hardly temperature
// or rate (ESAFORM2007). Set the coefficients from your own bottles.
type Orientation interface {
	// Name identifies the law.
	Name() string
	// Modulus returns the tensile modulus [Pa] at room temperature along the
	// direction stretched by own, when the other in-plane direction was
	// stretched by other. Warnings name a ratio outside the range.
	Modulus(own, other float64) (E float64, warnings []string, err error)
}

// Orientations returns the catalogue of stiffness laws, the default first.
func Orientations() []Orientation { return []Orientation{DefaultLinear(), DefaultPower()} }

// FindOrientation returns the law with the given name.
func FindOrientation(name string) (Orientation, error) {
	for _, o := range Orientations() {
		if o.Name() == name {
			return o, nil
		}
	}
	return nil, fmt.Errorf("resin: no orientation law %q; there are linear, power", name)
}

// Linear is the default law of the stiffness of a stretched wall:
//
//	E_i = E_a + a (lambda_i - 1) - b (lambda_j - 1), at most Cap
//
// An engineering fit, not published.
type Linear struct {
	Amorphous float64 // E_a [Pa]
	Own       float64 // a [Pa]
	Other     float64 // b [Pa]
	Cap       float64 // [Pa]
}

// DefaultLinear returns the law with E_a 2.2, a 0.68, b 0.10 and cap 6 GPa,
// chosen so that a side wall stretched 4.3 round and 2.4 along has 4.3 and
// 2.8 GPa.
func DefaultLinear() Linear {
	return Linear{Amorphous: 2.2e9, Own: 0.68e9, Other: 0.10e9, Cap: 6e9}
}

// Name returns "linear".
func (Linear) Name() string { return "linear" }

// Modulus implements [Orientation].
func (l Linear) Modulus(own, other float64) (float64, []string, error) {
	warn, err := checkStretch("modulus", own, other)
	if err != nil {
		return 0, nil, err
	}
	E := l.Amorphous + l.Own*(own-1) - l.Other*(other-1)
	return capped(E, l.Amorphous, l.Cap, warn)
}

// Power is the alternative law of the stiffness of a stretched wall:
//
//	E_i = E_a + a (lambda_i - 1) lambda_j^m, at most Cap
//
// An engineering fit, not published. It credits the cross stretch instead of
// charging for it, so it gives 25 to 35 % more than [Linear] in a side wall;
// the difference is a fair picture of what is not known.
type Power struct {
	Amorphous float64 // E_a [Pa]
	Own       float64 // a [Pa]
	Cross     float64 // m
	Cap       float64 // [Pa]
}

// DefaultPower returns the law with E_a 2.2, a 0.75, m 0.3 and cap 6.5 GPa.
func DefaultPower() Power {
	return Power{Amorphous: 2.2e9, Own: 0.75e9, Cross: 0.3, Cap: 6.5e9}
}

// Name returns "power".
func (Power) Name() string { return "power" }

// Modulus implements [Orientation].
func (l Power) Modulus(own, other float64) (float64, []string, error) {
	warn, err := checkStretch("modulus", own, other)
	if err != nil {
		return 0, nil, err
	}
	E := l.Amorphous + l.Own*(own-1)*math.Pow(other, l.Cross)
	return capped(E, l.Amorphous, l.Cap, warn)
}

func capped(E, amorphous, top float64, warn []string) (float64, []string, error) {
	if !(E > 0) || math.IsInf(E, 0) || !(top > 0) {
		return 0, nil, fmt.Errorf("resin: modulus: ‹%g Pa› from the given coefficients (cap ‹%g Pa›) is no modulus", E, top)
	}
	switch {
	case E > top:
		warn = append(warn, fmt.Sprintf("modulus ‹%.2f GPa› held at the cap of ‹%.2f GPa›", E/1e9, top/1e9))
		E = top
	case E < 0.8*amorphous:
		warn = append(warn, fmt.Sprintf("modulus ‹%.2f GPa› lies below the unstretched ‹%.2f GPa›: the law is not made for so uneven a stretch", E/1e9, amorphous/1e9))
	}
	return E, warn, nil
}

// Strength is the law of the strength of a stretched wall:
//
//	sigma_y = Yield lambda^Exponent        sigma_u = Ultimate sigma_y
//
// along the direction stretched by lambda. An engineering fit, not published:
// calibrate it with burst tests.
type Strength struct {
	Yield    float64 // [Pa], unstretched
	Exponent float64
	Ultimate float64 // ultimate over yield
	Cap      float64 // largest ultimate strength [Pa]
}

// DefaultStrength returns the law with 55 MPa, exponent 0.6, ultimate 1.35
// times yield and at most 250 MPa: 132 and 178 MPa at 4.3, against 130 to 180
// and 170 to 250 MPa that the trade reckons with for the hoop of a side wall.
func DefaultStrength() Strength {
	return Strength{Yield: 55e6, Exponent: 0.6, Ultimate: 1.35, Cap: 250e6}
}

// At returns the yield and the ultimate strength [Pa] at room temperature and
// slow loading along the direction stretched by lambda.
func (s Strength) At(lambda float64) (yield, ultimate float64, warnings []string, err error) {
	warn, err := checkStretch("strength", lambda, lambda)
	if err != nil {
		return 0, 0, nil, err
	}
	yield = s.Yield * math.Pow(lambda, s.Exponent)
	ultimate = s.Ultimate * yield
	if !(yield > 0) || !(ultimate >= yield) || math.IsInf(ultimate, 0) || !(s.Cap > 0) {
		return 0, 0, nil, fmt.Errorf("resin: strength: yield ‹%g Pa› and ultimate ‹%g Pa› (cap ‹%g Pa›) from the given coefficients are no strengths", yield, ultimate, s.Cap)
	}
	if ultimate > s.Cap {
		warn = append(warn, fmt.Sprintf("ultimate strength ‹%.0f MPa› held at the cap of ‹%.0f MPa›", ultimate/1e6, s.Cap/1e6))
		ultimate = s.Cap
		yield = min(yield, ultimate)
	}
	return yield, ultimate, warn, nil
}

func checkStretch(op string, own, other float64) ([]string, error) {
	var warn []string
	ratios := []float64{own, other}
	if own == other {
		ratios = ratios[:1]
	}
	for _, l := range ratios {
		switch {
		case !(l >= stretchMin && l <= stretchMax):
			return nil, fmt.Errorf("resin: %s: stretch ratio %g outside %g..%g", op, l, stretchMin, stretchMax)
		case l < 1:
			warn = append(warn, fmt.Sprintf("stretch ratio %.2f below 1: the wall was compressed, the law is made for stretching", l))
		case l > stretchFitHigh:
			warn = append(warn, fmt.Sprintf("stretch ratio %.2f above %.1f: beyond what the law was fitted to", l, stretchFitHigh))
		case l > stretchSeenHigh:
			warn = append(warn, fmt.Sprintf("stretch ratio %.2f above %.1f: beyond the published range %.1f..%.1f", l, stretchSeenHigh, stretchSeenLow, stretchSeenHigh))
		}
	}
	return warn, nil
}
