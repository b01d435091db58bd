package air

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Stored is the energy that the gas of a charged vessel gives when it expands
// to ambient pressure [J]. Water at the same pressure would store some
// thousand times less: the number belongs beside every burst test.
type Stored struct {
	Isentropic float64 // without heat from outside: a sudden burst
	Isothermal float64 // at constant temperature: the upper limit
}

// Energy returns the energy stored in the volume v [m³] of gas at gauge
// pressure p.
//
//	isentropic  E = p_a V / (k-1) [1 - (p_0/p_a)^((k-1)/k)],  k = 1.4
//	isothermal  E = p_a V ln(p_a/p_0)
//
// p_a = p + p_0. Both count the whole work of expansion, the push against the
// atmosphere included, hence on the safe side. Volume 0..1 m³, p 0..60 bar(g).
// Source: ASMEPCC2, appendix on pneumatic tests, for the isentropic form.
func Energy(v float64, p unit.GaugePressure, ambient unit.AbsPressure) (Stored, error) {
	switch {
	case !(v > 0) || v > 1:
		return Stored{}, fmt.Errorf("air: stored energy: volume ‹%g L› outside ‹0..1000 L›", v*1e3)
	case !(p >= 0) || p > 60*bar:
		return Stored{}, fmt.Errorf("air: stored energy: pressure ‹%g bar(g)› outside ‹0..60 bar(g)›", float64(p)/bar)
	case !(ambient >= 50e3) || ambient > 110e3:
		return Stored{}, fmt.Errorf("air: stored energy: ambient pressure ‹%g kPa(a)› outside ‹50..110 kPa(a)›", float64(ambient)/1e3)
	}
	const k = 1.4
	pa := float64(p.Abs(ambient))
	ln := math.Log(pa / float64(ambient))
	return Stored{
		Isentropic: -pa * v / (k - 1) * math.Expm1(-(k-1)/k*ln),
		Isothermal: pa * v * ln,
	}, nil
}
