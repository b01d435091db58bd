package preform

import "math"

// Section is the preform at one place of its mid-line.
type Section struct {
	S          float64 // arc length from the gate [m]
	BelowLedge float64 // axial distance of the mid-line from the ledge [m]
	Wall       float64 // m; across the mid-line, in the transition along the radius
	Ri, Rm, Ro float64 // radii of inner face, mid-line and outer face [m]
	Rate       float64 // mass a length of mid-line, dm/dS [kg/m]
}

// capWall returns the wall of the cap at angle a from the axis.
func (p *Preform) capWall(a float64) float64 {
	if p.spec.Cap == CapTapered {
		return p.spec.GateWall + (p.spec.Wall-p.spec.GateWall)*a/(math.Pi/2)
	}
	return p.spec.GateWall
}

// capMass returns the mass of the cap inside angle a from the axis.
//
//	m = 2π ρ ∫ (R h + h³/12R) R sin a da
//
// exact for a wall laid evenly on both sides of the hemisphere.
func (p *Preform) capMass(a float64) float64 {
	r, rho := p.rMid, p.spec.Density
	if p.spec.Cap == CapUniform {
		h := p.spec.GateWall
		s := math.Sin(a / 2)
		return 2 * math.Pi * rho * (r*r*h + h*h*h/12) * 2 * s * s
	}
	// smooth integrand: five Gauss points on each of two halves reach rounding
	sum := 0.0
	for half := range 2 {
		for k, x := range gauss5X {
			b := a / 2 * (float64(half) + x)
			h := p.capWall(b)
			sum += a / 2 * gauss5W[k] * (r*r*h + h*h*h/12) * math.Sin(b)
		}
	}
	return 2 * math.Pi * rho * sum
}

// Nodes on [0, 1] and weights of the Gauss rule with 5 points; from memory,
// checked in preform_test.go.
var (
	gauss5X = [5]float64{
		0.5 - 0.9061798459386640/2, 0.5 - 0.5384693101056831/2, 0.5,
		0.5 + 0.5384693101056831/2, 0.5 + 0.9061798459386640/2,
	}
	gauss5W = [5]float64{
		0.2369268850561891 / 2, 0.4786286704993665 / 2, 0.5688888888888889 / 2,
		0.4786286704993665 / 2, 0.2369268850561891 / 2,
	}
)

// tube returns inner radius and wall at the fraction x of the transition, 0 at
// the body, 1 at the ledge.
func (p *Preform) tube(x float64) (ri, wall float64) {
	t := p.spec.Transition
	ri = (p.spec.InnerDiameter + x*(t.LedgeDiameter-p.spec.InnerDiameter)) / 2
	return ri, p.spec.Wall + x*(t.LedgeWall-p.spec.Wall)
}

// tubeRate returns the mass an axial length at fraction x [kg/m]: ρ π (Ro²-Ri²).
func (p *Preform) tubeRate(x float64) float64 {
	ri, w := p.tube(x)
	return p.spec.Density * math.Pi * w * (2*ri + w)
}

// transitionMass returns the mass of the transition up to fraction x. The rate
// is a parabola of x, so Simpson's rule is exact.
func (p *Preform) transitionMass(x float64) float64 {
	return p.spec.Transition.Length * x / 6 * (p.tubeRate(0) + 4*p.tubeRate(x/2) + p.tubeRate(x))
}

// At returns the section at arc length s [m] from the gate, held inside
// 0..ArcLength. Where the wall steps, at the end of a uniform cap, the body
// counts.
func (p *Preform) At(s float64) Section {
	s = math.Min(math.Max(s, 0), p.sAll)
	q := Section{S: s}
	rho := p.spec.Density
	switch {
	case s < p.sCap:
		sin, cos := math.Sincos(s / p.rMid)
		h := p.capWall(s / p.rMid)
		q.Wall = h
		q.Ri, q.Rm, q.Ro = (p.rMid-h/2)*sin, p.rMid*sin, (p.rMid+h/2)*sin
		q.BelowLedge = p.spec.Transition.Length + p.spec.BodyLength + p.rMid*cos
		q.Rate = 2 * math.Pi * rho * (p.rMid*h + h*h*h/(12*p.rMid)) * sin
	default:
		x := 0.0
		q.BelowLedge = p.spec.Transition.Length + p.sBody - s
		if s > p.sBody {
			x = (s - p.sBody) / (p.sAll - p.sBody)
			q.BelowLedge = p.spec.Transition.Length * (1 - x)
		}
		q.Ri, q.Wall = p.tube(x)
		q.Rm, q.Ro = q.Ri+q.Wall/2, q.Ri+q.Wall
		q.Rate = p.tubeRate(x)
		if s > p.sBody {
			q.Rate /= p.slope
		}
	}
	return q
}

// MassTo returns the mass between the gate and arc length s [kg].
func (p *Preform) MassTo(s float64) float64 {
	switch {
	case s <= 0:
		return 0
	case s < p.sCap:
		return p.capMass(s / p.rMid)
	case s <= p.sBody:
		return p.mCap + (s-p.sCap)*p.tubeRate(0)
	case s < p.sAll:
		return p.mBody + p.transitionMass((s-p.sBody)/(p.sAll-p.sBody))
	}
	return p.below
}

// ArcAt returns the arc length [m] that holds the mass m [kg] from the gate,
// the inverse of MassTo; m is held inside 0..MassBelowLedge. Relative accuracy
// is kept down to the gate, where m goes with the square of s.
func (p *Preform) ArcAt(m float64) float64 {
	switch {
	case !(m > 0):
		return 0
	case m < p.mCap && p.spec.Cap == CapUniform:
		// 1 - cos a = m/m(90°)
		return p.rMid * 2 * math.Asin(math.Min(1, math.Sqrt(m/p.mCap/2)))
	case m < p.mCap:
		return p.rMid * solve(m, 0, math.Pi/2, math.Pi/2*math.Sqrt(m/p.mCap), p.capMass,
			func(a float64) float64 { return p.At(a*p.rMid).Rate * p.rMid })
	case m <= p.mBody:
		return p.sCap + (m-p.mCap)/p.tubeRate(0)
	case m < p.below:
		x := solve(m-p.mBody, 0, 1, (m-p.mBody)/(p.below-p.mBody), p.transitionMass,
			func(x float64) float64 { return p.spec.Transition.Length * p.tubeRate(x) })
		return p.sBody + x*(p.sAll-p.sBody)
	}
	return p.sAll
}

// solve finds x in lo..hi with f(x) = want, f rising with slope d, by Newton
// steps held in the bracket.
func solve(want, lo, hi, x float64, f, d func(float64) float64) float64 {
	for range 60 {
		e := f(x) - want
		if math.Abs(e) <= 1e-15*want {
			break
		}
		if e > 0 {
			hi = x
		} else {
			lo = x
		}
		next := x - e/d(x)
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if next == x {
			break
		}
		x = next
	}
	return x
}
