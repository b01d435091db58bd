package resin

import (
	"fmt"
	"math"
)

// Viscoplastic is a law of the type of G'Sell and Jonas, one curve of
// equivalent stress over equivalent strain, rate and temperature:
//
//	sigma = k exp(-b (T-T0)) (1 - exp(-w e)) exp(h e^n) (rate/rate0)^m,  h = h0 + h1 (T-T0)
//	D = 3/2 (rate/sigma) s
//
// It has no memory but the strain, so it never springs back.
type Viscoplastic struct {
	Strength      float64 // k [Pa]
	Softening     float64 // b [1/K]
	Onset         float64 // w
	Hardening     float64 // h0
	HardeningHeat float64 // h1 [1/K]
	Power         float64 // n
	Rate          float64 // m
	RateRef       float64 // rate0 [1/s]
	Reference     float64 // T0 [K]
	RateLeast     float64 // below this the stress falls in proportion to the rate [1/s]
}

// DefaultViscoplastic returns the fit to the curves of the default
// glass-rubber law for 90 to 105 °C, 1 to 32 1/s, equal-biaxial stretch 1.1 to
// 3.2: root mean square 16 %, at worst 55 %. Own fit.
func DefaultViscoplastic() *Viscoplastic {
	return &Viscoplastic{
		Strength: 3.174e6, Softening: 0.0516, Onset: 7.30, Hardening: 0.2568, HardeningHeat: 0.00153,
		Power: 2.398, Rate: 0.2534, RateRef: 10, Reference: 373.15, RateLeast: 0.01,
	}
}

// Name implements [HotLaw].
func (*Viscoplastic) Name() string { return "viscoplastic" }

// Title implements [HotLaw].
func (*Viscoplastic) Title() string { return "viscoplastic fit of G'Sell-Jonas type" }

// Source implements [HotLaw].
func (*Viscoplastic) Source() string { return "GSellJonas1979" }

// Prepare implements [HotLaw].
func (l *Viscoplastic) Prepare(step *HotStep, _ *HotState, T, dt, _, _ float64) {
	step.Dt, step.T, step.Clamp = dt, T, 0
	if T < 353.15 {
		step.T, step.Clamp = 353.15, ClampCold
	} else if T > hotHot {
		step.T, step.Clamp = hotHot, ClampHot
	}
	step.c[0] = l.Strength * math.Exp(-l.Softening*(step.T-l.Reference))
	step.c[1] = l.Hardening + l.HardeningHeat*(step.T-l.Reference)
}

// Update implements [HotLaw]. Rate and strain are those at the end of the
// step; with p = sqrt(d:d) the stress is s = f(p) d, and the tangent is exact.
func (l *Viscoplastic) Update(step *HotStep, from *HotState, d1, d2 float64, to *HotState, out *HotResponse) {
	to.Strain[0], to.Strain[1] = from.Strain[0]+d1, from.Strain[1]+d2
	to.Net, to.NetMax = to.Strain, max(from.NetMax, math.Exp(max(to.Strain[0], to.Strain[1])))
	to.Bond, to.LogTau = [2]float64{}, from.LogTau
	de := equivalent(d1, d2)
	e := from.Path + de
	to.Path = e
	dt, k, h := step.Dt, step.c[0], step.c[1]
	// sigma/rate with the rate softened near zero
	r2 := de*de/(dt*dt) + l.RateLeast*l.RateLeast
	onset := -math.Expm1(-l.Onset * e)
	pow := math.Exp(h * math.Pow(e, l.Power))
	base := k * onset * pow * math.Pow(math.Sqrt(r2)/l.RateRef, l.Rate) / math.Sqrt(r2)
	f := 2.0 / 3 * base / dt
	a, b := 2*d1+d2, d1+2*d2 // d_i - d_3
	out.Stress[0], out.Stress[1] = f*a, f*b
	// dlog f/d de
	var g float64
	if e > 0 {
		g = l.Onset*math.Exp(-l.Onset*e)/onset + h*l.Power*math.Pow(e, l.Power-1)
	}
	g += (l.Rate - 1) * de / (dt * dt) / r2
	var e1, e2 float64 // d de/d d_j = 2/3 (d_j - d_3)/de
	if de > 0 {
		e1, e2 = 2.0/3*a/de, 2.0/3*b/de
	}
	out.Tangent[0][0] = f * (2 + a*g*e1)
	out.Tangent[0][1] = f * (1 + a*g*e2)
	out.Tangent[1][0] = f * (1 + b*g*e1)
	out.Tangent[1][1] = f * (2 + b*g*e2)
	out.Locked = 1
}

// Stored implements [HotLaw]: nothing is given back.
func (*Viscoplastic) Stored(*HotState, float64) float64 { return 0 }

// NetInvariant implements [HotLaw]; the whole strain stands for the network.
func (*Viscoplastic) NetInvariant(s *HotState) float64 { return invariant(s.Strain[0], s.Strain[1]) }

// Range implements [HotLaw].
func (*Viscoplastic) Range(T, rate float64) []string {
	var w []string
	if T < 363.15 || T > 378.15 {
		w = append(w, fmt.Sprintf("hot law viscoplastic: temperature ‹%.1f °C› outside the fitted ‹90..105 °C›", T-273.15))
	}
	if rate < 1 || rate > 32 {
		w = append(w, fmt.Sprintf("hot law viscoplastic: rate %.3g 1/s outside the fitted 1..32 1/s", rate))
	}
	return w
}
