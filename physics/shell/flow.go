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

	begins  bool // the first look of a step: what a point found last stands in its old memory
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
// by Newton's method inside a bracket, in the axes in which S and P are diagonal.
// Time is taken implicitly in stress and exactly in strain hardening.
func (f *flow) update(p *pointLaw, e [2]float64, old, now *spot) (tau [2]float64, tan sym2, err error) {
	guess := now.guess
	if f.begins {
		guess = old.guess
	}
	now.in, now.plastic, now.creep, now.guess = old.in, old.plastic, old.creep, old.guess
	if f.chained {
		now.kelvin = old.kelvin
	}
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
	tau1 := 1 / f.soft // compliance of the step over that at factor 1, the chain included
	for k, c := range chain {
		share := 0.0
		if f.dt > 0 {
			share = f.dt / c.Time / (1 + f.dt/c.Time)
		}
		tau1 += share * c.Compliance * f.rate / f.soft
		x[0] -= old.kelvin[k][0] * (1 - share)
		x[1] -= old.kelvin[k][1] * (1 - share)
	}
	T := sym2{p.S.s * tau1, p.S.c * tau1, p.S.h * tau1}
	C := sym2{p.C.s / tau1, p.C.c / tau1, p.C.h / tau1}
	sig := C.mul(x)
	q := equivalent(P, sig)
	flows := f.dt > 0 && chain == nil && q > 0
	var w slip
	Hinv := 0.0 // d(Δε̄)/dσ̄
	plastic := q > limit*(1+1e-13)
	if flows || plastic {
		w = slip{law: p, z: p.along(x), tau: tau1, Y: Y, old: old}
		yields := plastic
		if flows {
			if err = f.slide(&w, guess, false); err != nil {
				return tau, tan, err
			}
			yields = w.q > limit*(1+1e-13)
			Hinv = w.dcq
		}
		if yields {
			if err = f.slide(&w, guess, true); err != nil {
				return tau, tan, err
			}
			_, h := f.hard.Ratio(old.plastic + max(w.dp, 0))
			Hinv = w.dcq
			if h > 0 {
				Hinv += 1 / (Y * h)
			} else {
				Hinv = math.Inf(1)
			}
		}
		sig, q = p.back(w.y), w.q
	}
	if math.IsNaN(sig[0] + sig[1]) {
		return tau, tan, errFlow
	}
	tan = C
	if m := w.m; m > 0 {
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
		now.creep += w.dc
		now.plastic += max(w.dp, 0)
	}
	if f.dt > 0 {
		s := p.S.mul(sig)
		for k, c := range chain {
			share := f.dt / c.Time / (1 + f.dt/c.Time)
			g := share * c.Compliance * f.rate / f.soft
			for i := range 2 {
				now.kelvin[k][i] = old.kelvin[k][i]*(1-share) + g*s[i]
			}
		}
	}
	return sig, tan, nil
}

// slip is a search for the flow of a point: what is known of it, and the state
// at the last m.
type slip struct {
	law *pointLaw
	z   [2]float64 // strain that stress and flow share, in the axes of the law
	tau float64    // compliance over that of the law
	Y   float64    // first yield
	old *spot

	m, q, dq    float64    // σ̄ and its slope by m
	y           [2]float64 // stress in the axes of the law
	dc, dcq, dp float64    // Δε̄_c, its slope by σ̄; Δε̄_p
}

// at sets the stress at m.
func (w *slip) at(m float64) {
	l := &w.law.lambda
	a, b := 1/(w.tau+m*l[0]), 1/(w.tau+m*l[1])
	w.m, w.y = m, [2]float64{w.z[0] * a, w.z[1] * b}
	s, h := l[0]*w.y[0]*w.y[0], l[1]*w.y[1]*w.y[1]
	w.q = math.Sqrt(s + h)
	w.dq = -(s*l[0]*a + h*l[1]*b) / w.q
}

// slide finds the m at which the point rests: where m σ̄ - Δc(σ̄) vanishes
// without yield, and h(p + m σ̄ - Δc) - σ̄ with it. Both rise with m.
func (f *flow) slide(w *slip, guess float64, yield bool) error {
	flows := f.dt > 0 && !f.chained
	lo, hi := 0.0, math.Inf(1)
	m := guess
	for range 100 {
		w.at(m)
		w.dc, w.dcq, w.dp = 0, 0, 0
		if flows {
			a, d := f.creep.Advance(w.q, w.old.creep, f.dt, f.rate)
			w.dc, w.dcq = a-w.old.creep, d
		}
		var res, slope float64
		scale := w.q
		dtotal := w.q + m*w.dq
		if yield {
			w.dp = m*w.q - w.dc
			r, h := f.hard.Ratio(w.old.plastic + max(w.dp, 0))
			res = w.Y*r - w.q
			slope = w.Y*h*(dtotal-w.dcq*w.dq) - w.dq
		} else {
			res = m*w.q - w.dc
			slope = dtotal - w.dcq*w.dq
			scale = w.dc + 1e-12
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
		switch {
		case next > lo && next < hi:
			if d := next - m; math.Abs(d) < 1e-6*m {
				// The step is good to its square.
				dq := w.dq
				w.at(next)
				w.dc += w.dcq * dq * d
				if yield {
					w.dp = next*w.q - w.dc
				}
				return nil
			}
		case math.IsInf(hi, 1):
			next = 2*m + 1/f.modulus(w.law)*1e-3
		default:
			next = 0.5 * (lo + hi)
		}
		if (!math.IsInf(hi, 1) && hi-lo <= 1e-14*hi) || next == m {
			return nil
		}
		m = next
	}
	return errFlow
}

func (f *flow) modulus(p *pointLaw) float64 { return f.soft / math.Sqrt(p.S.s*p.S.h) }

func equivalent(P sym2, s [2]float64) float64 {
	return math.Sqrt(math.Max(0, P.s*s[0]*s[0]+2*P.c*s[0]*s[1]+P.h*s[1]*s[1]))
}
