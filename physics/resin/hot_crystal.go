package resin

import "math"

// StrainCrystal is the crystallisation that stretching brings on:
//
//	dX/dt = (Xinf - X) k_s
//	k_s   = K0 g(T)/g(Tmax) (exp(C (I1 - 3 - Onset)) - 1) for I1 - 3 > Onset, else 0; at most Fastest
//
// I1 is the invariant of the network stretches and g the bell curve of the
// quiescent law. Xinf is Ceiling up to a mould of 100 °C and rises in a
// straight line to CeilingHot in one of 140 °C.
//
// An engineering law, not published: what is published is that crystals follow
// the arrest of the network and grow in the time after stretching, so the
// result hangs on the cooling (AdamsBuckleyJones2000, Salem1992). K0 and the
// ceilings are from the trade's anchors (20 % in a cold mould, 39 to 42 % after
// strong heat setting, from a trade discussion). C, Onset and Fastest are
// chosen for this project so that a wall stretched 3 along and 3.4 round leaves
// a cold mould with 20 %; without Fastest the heat of the crystals drives the
// law to its ceiling.
type StrainCrystal struct {
	K0                  float64 // [1/s]
	C, Onset            float64
	Fastest             float64 // [1/s]
	Ceiling, CeilingHot float64
	Shape               Quiescent // gives g
}

const (
	ceilingFrom, ceilingTo = 373.15, 413.15 // K
)

// DefaultStrainCrystal returns the law with K0 0.015 1/s and ceilings 0.30 and
// 0.40, with the shape over temperature of the given quiescent law.
func DefaultStrainCrystal(shape Quiescent) StrainCrystal {
	return StrainCrystal{K0: 0.015, C: 1.5, Onset: 4.0, Fastest: 1.5, Ceiling: 0.30, CeilingHot: 0.40, Shape: shape}
}

// Rate returns k_s [1/s], given g(T)/g(Tmax) and I1 - 3 of the network.
func (c *StrainCrystal) Rate(growth, invariant float64) float64 {
	x := invariant - c.Onset
	if !(x > 0) || !(growth > 0) {
		return 0
	}
	return min(c.K0*growth*math.Expm1(min(c.C*x, 60)), c.Fastest)
}

// Limit returns Xinf for the temperature of the mould [K]; 0 before contact.
func (c *StrainCrystal) Limit(mould float64) float64 {
	w := min(max((mould-ceilingFrom)/(ceilingTo-ceilingFrom), 0), 1)
	return c.Ceiling + w*(c.CeilingHot-c.Ceiling)
}

// Step returns the crystallinity by volume after dt [s] under the limit lim;
// it never falls.
func (c *StrainCrystal) Step(X, lim, growth, invariant, dt float64) float64 {
	if X >= lim {
		return X
	}
	return lim + (X-lim)*math.Exp(-c.Rate(growth, invariant)*dt)
}
