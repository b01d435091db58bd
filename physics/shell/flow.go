package shell

import (
	"errors"
	"math"
)

// spot is what a point of the wall remembers.
type spot struct {
	in      [2]float64           // inelastic strain along and round
	plastic float64              // equivalent plastic strain
	creep   float64              // equivalent creep strain
	kelvin  [maxChain][2]float64 // strains of the chain
	guess   float64              // m of the last update: where to begin
}

// flow holds what the update of a point needs besides the point.
type flow struct {
	hard  Hardening
	creep Creep
	dt    float64 // 0: no time passes
	rate  float64 // factor of temperature on creep
	soft  float64 // factor of temperature on moduli and strengths

	elastic bool // nothing yields
	chained bool // creep has retarded springs
}

var errFlow = errors.New("stress of a point does not settle")

// update returns the Kirchhoff stress tau [Pa] of a point at logarithmic
// strain e, the consistent tangent dτ/de and the new memory. old is not
// changed.
//
// Plasticity and creep share the direction P σ/σ̄, so both are found from one
// unknown m = (Δε̄_p + Δε̄_c)/σ̄ in
//
//	σ = (S + m P)⁻¹ (e - e_in)
//
// by Newton's method inside a bracket. Time is taken implicitly in stress and
// exactly in strain hardening.
func (f *flow) update(p *pointLaw, e [2]float64, old, now *spot) (tau [2]float64, tan sym2, err error) {
	guess := now.guess
	*now = *old
	x := [2]float64{e[0] - old.in[0], e[1] - old.in[1]}
	P, Y := p.P, p.Y*f.soft
	limit := math.Inf(1)
	if !f.elastic && !math.IsInf(Y, 1) {
		r := 1.0
		if old.plastic > 0 {
			r, _ = f.hard.Ratio(old.plastic)
		}
		limit = Y * r
	}
	if !f.chained && f.dt == 0 {
		// Elastic, or on the way back.
		C := sym2{p.C.s * f.soft, p.C.c * f.soft, p.C.h * f.soft}
		sig := C.mul(x)
		if q := limit * (1 + 1e-13); P.s*sig[0]*sig[0]+2*P.c*sig[0]*sig[1]+P.h*sig[1]*sig[1] <= q*q {
			return sig, C, nil
		}
	}
	chain := f.creep.Chain()
	S := sym2{p.S.s / f.soft, p.S.c / f.soft, p.S.h / f.soft}
	T := S // compliance of the step, the chain included
	for k, c := range chain {
		share := 0.0
		if f.dt > 0 {
			share = f.dt / c.Time / (1 + f.dt/c.Time)
		}
		g := share * c.Compliance * f.rate
		T.s, T.c, T.h = T.s+g*S.s, T.c+g*S.c, T.h+g*S.h
		x[0] -= old.kelvin[k][0] * (1 - share)
		x[1] -= old.kelvin[k][1] * (1 - share)
	}
	C := T.inverse()
	sig := C.mul(x)
	q := equivalent(P, sig)
	flows := f.dt > 0 && chain == nil && q > 0
	m, dc, dcq, dp := 0.0, 0.0, 0.0, 0.0
	Hinv := 0.0 // d(Δε̄)/dσ̄
	plastic := q > limit*(1+1e-13)
	if flows || plastic {
		// residual(m), rising: m σ̄ - Δc(σ̄) without yield, and
		// h(p + m σ̄ - Δc) - σ̄ with it.
		solve := func(yield bool) error {
			lo, hi := 0.0, math.Inf(1)
			m = guess
			for range 100 {
				X := sym2{T.s + m*P.s, T.c + m*P.c, T.h + m*P.h}.inverse()
				sig = X.mul(x)
				q = equivalent(P, sig)
				n := P.mul(sig)
				xn := X.mul(n)
				dq := -(n[0]*xn[0] + n[1]*xn[1]) / q
				dc, dcq = 0, 0
				if flows {
					a, d := f.creep.Advance(q, old.creep, f.dt, f.rate)
					dc, dcq = a-old.creep, d
				}
				var res, slope float64
				total, dtotal := m*q, q+m*dq
				scale := q
				if yield {
					dp = total - dc
					r, h := f.hard.Ratio(old.plastic + math.Max(dp, 0))
					res = Y*r - q
					slope = Y*h*(dtotal-dcq*dq) - dq
				} else {
					res = total - dc
					slope = dtotal - dcq*dq
					scale = dc + 1e-12
				}
				if math.Abs(res) <= 1e-10*scale {
					return nil
				}
				if res > 0 {
					hi = m
				} else {
					lo = m
				}
				next := m - res/slope
				if !(next > lo && next < hi) || math.IsNaN(next) {
					if math.IsInf(hi, 1) {
						next = 2*m + 1/f.modulus(p)*1e-3
					} else {
						next = 0.5 * (lo + hi)
					}
				}
				if (!math.IsInf(hi, 1) && hi-lo <= 1e-14*hi) || next == m {
					return nil
				}
				m = next
			}
			return errFlow
		}
		yields := plastic
		if flows {
			if err = solve(false); err != nil {
				return tau, tan, err
			}
			dp = 0
			yields = q > limit*(1+1e-13)
			Hinv = dcq
		}
		if yields {
			if err = solve(true); err != nil {
				return tau, tan, err
			}
			_, h := f.hard.Ratio(old.plastic + math.Max(dp, 0))
			Hinv = dcq
			if h > 0 {
				Hinv += 1 / (Y * h)
			} else {
				Hinv = math.Inf(1)
			}
		}
	}
	if math.IsNaN(sig[0] + sig[1]) {
		return tau, tan, errFlow
	}
	tan = C
	if m > 0 {
		n := P.mul(sig)
		n[0], n[1] = n[0]/q, n[1]/q
		d := m * q
		N := sym2{(P.s - n[0]*n[0]) / q, (P.c - n[0]*n[1]) / q, (P.h - n[1]*n[1]) / q}
		A := sym2{T.s + d*N.s, T.c + d*N.c, T.h + d*N.h}.inverse()
		an := A.mul(n)
		den := n[0]*an[0] + n[1]*an[1]
		if Hinv > 0 && !math.IsInf(Hinv, 1) {
			den += 1 / Hinv
		}
		if Hinv > 0 {
			tan = sym2{A.s - an[0]*an[0]/den, A.c - an[0]*an[1]/den, A.h - an[1]*an[1]/den}
		} else {
			tan = A
		}
		now.in[0] += d * n[0]
		now.in[1] += d * n[1]
		now.guess = m
		now.creep += dc
		now.plastic += math.Max(dp, 0)
	}
	if f.dt > 0 {
		s := S.mul(sig)
		for k, c := range chain {
			share := f.dt / c.Time / (1 + f.dt/c.Time)
			g := share * c.Compliance * f.rate
			for i := range 2 {
				now.kelvin[k][i] = old.kelvin[k][i]*(1-share) + g*s[i]
			}
		}
	}
	return sig, tan, nil
}

func (f *flow) modulus(p *pointLaw) float64 { return f.soft / math.Sqrt(p.S.s*p.S.h) }

func equivalent(P sym2, s [2]float64) float64 {
	return math.Sqrt(math.Max(0, P.s*s[0]*s[0]+2*P.c*s[0]*s[1]+P.h*s[1]*s[1]))
}
