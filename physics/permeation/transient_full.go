package permeation

import (
	"errors"
	"math"

	"costrel/num/root"
)

// most is the highest pressure that a balance looks for [Pa].
const most = 5e6

var errFull = errors.New("the liquid fills the bottle, and its wall does not give room below ‹50 bar›: fill less, warm it less, or take a bottle that gives")

// full is the balance without a gas space. The wall sets the pressure, and the
// gas is all dissolved; its partial pressures are those that a bubble would
// have, together below P, so that none forms:
//
//	V(P) = m/rho + v (n_CO2 - counted),  n_i = p_i m_w s_i(P)
//
// It goes over into that of [inside.at] where Vg is 0: there both have the same
// P. The liquid itself does not yield (water by 0.005 % a bar, a bottle of PET
// by some 0.4 %). low is the sum of the partial pressures, where the bottle is
// too small.
func (e *inside) full(p [gases]float64, low float64, b *balance) {
	dissolved := func(total float64) (n, slope float64) {
		n = e.water * e.s0 * math.Exp(-e.a*total) * p[CO2]
		return n, -e.a * n
	}
	total := e.hydraulic(low, dissolved)
	nl, fall := dissolved(total)
	v, slope := e.bottle(total)
	*b = balance{p: p, total: total, dissolved: nl, bottle: v}
	b.density = p[CO2] / (e.rt + e.virial*total)
	phi := math.Exp(e.virial * total / e.rt)
	b.fugacity = phi * p[CO2]
	s := e.water * e.s0 * math.Exp(-e.a*total)
	// dP/dp of carbon dioxide, which swells the liquid.
	lift := 0.0
	if give := slope - e.swell*fall; give > 0 {
		lift = e.swell * s / give
	}
	b.n[CO2] = nl
	b.jac[CO2][CO2] = s + fall*lift
	b.fjac[CO2] = phi * (1 + p[CO2]*e.virial/e.rt*lift)
	for g := Oxygen; g < gases; g++ {
		b.jac[g][g] = e.air[g] * e.water
		b.n[g] = p[g] * b.jac[g][g]
	}
	b.o2liquid = b.n[Oxygen]
}

// hydraulic returns the pressure at which the bottle holds the liquid alone
// [Pa], from one at which it is too small: by Newton's iteration, and by
// enclosure where the bends of the panel curve lead that astray; +Inf where the
// wall does not give so much. dissolved returns the carbon dioxide that swells
// the liquid [mol] at a pressure, and its slope.
func (e *inside) hydraulic(low float64, dissolved func(total float64) (n, slope float64)) float64 {
	lack := func(total float64) (lack, slope float64) {
		v, slope := e.bottle(total)
		n, rise := dissolved(total)
		return v - e.liquid - e.swell*n, slope - e.swell*rise
	}
	total := low
	for range 20 {
		x, slope := lack(total)
		step := x / slope
		if total -= step; !(total >= low && total < most) {
			break
		}
		if math.Abs(step) < 1e-12*total {
			return total
		}
	}
	if x, _ := lack(most); !(x > 0) {
		return math.Inf(1)
	}
	total, err := root.Brent(func(total float64) float64 { x, _ := lack(total); return x }, low, most, 0)
	if err != nil {
		return math.Inf(1)
	}
	return total
}
