package hotfill

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Cool returns the cooled pack from the balance of volumes and gas in closed
// form; nothing dissolves (see [Settle]).
//
//	n   = (1-steam)(p0 - pw(Tg)) (V0 - Vf)/(R Tg) + n_N2        dry gas at closing
//	Vb  = V0 (1 - s) - D(pa - P)                                bottle
//	VL  = Vf rho(Tf)/rho(T)                                     liquid
//	(P - pw(T)) (Vb - VL) = n R T
//
// V0 brimful, Vf liquid at closing, Tf and Tg temperatures of liquid and gas
// there, T and pa in the store, s shrinkage, D what the wall gives. On each
// straight part of D this is a quadratic in P - pw with one root that leaves a
// gas space. A carbonated drink, a fill above brimful, no headspace at
// closing, temperatures outside 0..100 °C and other values out of range are
// refused with a [Refusal]. The gas is ideal; the steam saturates it at Tg and
// T. Source: Dalton's and the ideal-gas law (MoranShapiro2006).
func Cool(p Pack, st Store) (State, error) {
	c, err := p.close(st)
	if err != nil {
		return State{}, err
	}
	x, err := c.dry()
	if err != nil {
		return State{}, err
	}
	// The gas law gives the headspace; where there is no gas at all it is what
	// the volumes leave.
	headspace := c.amount() * c.rt() / x
	if x == 0 {
		headspace = c.shrunk - c.Panel.Volume(float64(c.store.Ambient)-c.vapour) - c.cold
	}
	s := c.state(c.vapour+x, headspace, c.amount()*c.rt()/(float64(c.store.Ambient)-c.vapour))
	if x > 0 {
		s.Budget.Nitrogen = c.nitrogen * c.rt() / x
	}
	c.judge(&s)
	return s, nil
}

// dry returns the pressure of the dry gas in the store [Pa].
func (c *closed) dry() (float64, error) {
	nrt := c.amount() * c.rt()
	pieces := c.Panel.pieces()
	top := float64(c.store.Ambient) - c.vapour // dry pressure at no vacuum
	// On the balance the dry pressure times the gas space falls as the vacuum
	// grows, so the root lies on the last part whose beginning still exceeds
	// n R T; the first part is that of every pressure above ambient.
	part := 0
	for i := 1; i < len(pieces); i++ {
		x, space := top-pieces[i].from, c.shrunk-c.cold-pieces[i].volume
		if x > 0 && space > 0 && x*space >= nrt {
			part = i
		}
	}
	q := pieces[part]
	// Gas space = b + slope x, with b the space that vanishing dry gas leaves.
	b := c.shrunk - c.cold - q.volume - q.slope*(top-q.from)
	if q.slope == 0 {
		if !(b > 0) {
			return 0, refuse("panel", "gas space", b*1e6, "mL", "‹0 mL›", "the wall has given all the curve allows: check shrinkage and curve")
		}
		return nrt / b, nil
	}
	root := math.Sqrt(b*b + 4*q.slope*nrt)
	if b >= 0 {
		if nrt == 0 {
			return 0, nil
		}
		return 2 * nrt / (b + root), nil
	}
	return (root - b) / (2 * q.slope), nil
}

// judge adds the warnings that depend on the result.
func (c *closed) judge(s *State) {
	if s.Vacuum > c.Panel.limit() {
		s.Warnings = append(s.Warnings, fmt.Sprintf("hotfill: vacuum %s is beyond the last point of the panel curve, %s: its last slope was used", drop(s.Vacuum), drop(c.Panel.limit())))
	}
	if s.Vacuum < 0 {
		s.Warnings = append(s.Warnings, fmt.Sprintf("hotfill: overpressure of %s in the store: the wall gives outward by %s", drop(-s.Vacuum), unit.Quote(unit.Compliance, c.Panel.Outward, 4)))
	}
	if s.Dry < 0.05*float64(c.store.Ambient) {
		s.Warnings = append(s.Warnings, fmt.Sprintf("hotfill: dry gas of %s only: the liquid is near boiling under its own vacuum", drop(s.Dry)))
	}
}

// WallNeed returns the volume that the wall must give in all, shrinkage
// included, for the given vacuum to remain [m³].
//
//	Vf (1 - rho(Tf)/rho(T)) + (V0 - Vf) - n R T/(pa - vacuum - pw)
//
// vacuum [Pa] from a pressure above ambient (negative) to just below the dry
// pressure.
func WallNeed(p Pack, st Store, vacuum float64) (float64, error) {
	p.Shrinkage, p.Panel = 0, Panel{}
	c, err := p.close(st)
	if err != nil {
		return 0, err
	}
	x := float64(c.store.Ambient) - vacuum - c.vapour
	if !(x > 0) || x > 2e6 {
		return 0, refuse("store", "vacuum", vacuum/1e3, "kPa", fmt.Sprintf("less than ‹%.6g kPa›", (float64(c.store.Ambient)-c.vapour)/1e3), "the vapour of the liquid alone stands against a deeper vacuum")
	}
	return c.hot - c.cold + c.hotGas - c.amount()*c.rt()/x, nil
}
