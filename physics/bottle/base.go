package bottle

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// BaseKind is a type of base, generic and parametric.
type BaseKind string

// The types of base. The empty kind is Flat.
const (
	Flat       BaseKind = "flat"       // a disc
	Punt       BaseKind = "punt"       // a domed push-up inside a standing ring
	Petaloid   BaseKind = "petaloid"   // feet with valleys between them
	Ribbed     BaseKind = "ribbed"     // a shallow push-up with radial ribs
	Hemisphere BaseKind = "hemisphere" // a spherical cap; stands in a base cup
)

// Base closes the profile between the axis and its first row, and says how the
// real surface differs from the averaged one. Zero fields take the defaults
// named here; the bottle's warnings list the ones that were taken.
type Base struct {
	Kind BaseKind
	// PushUp is the height [m] of the centre above the first row: the depth of
	// a punt, the height of the averaged outline at the gate of a petaloid or
	// ribbed base. 0 closes the base with a disc.
	PushUp float64
	// Height of the base zone above the standing plane [m], where feet have
	// run out. Default 1.1 times the standing radius.
	Height float64
	// StandingRadius is the radius of the circle on which the bottle stands
	// [m]. Default: the lowest point of the profile; of a petaloid 0.70 of the
	// largest radius.
	StandingRadius float64
	// Count of feet or ribs. Default 5 feet, 10 ribs.
	Count int
	// Depth [m] from valley to foot, or of a rib, along the normal at its
	// deepest. Default of a petaloid: the valleys follow a hemisphere of the
	// largest radius whose pole clears the plane by 4.5 mm; of a rib 2 mm.
	Depth float64
	// Width [m] at the standing radius of the valley between two feet, or of a
	// rib. Default 10 degrees of the circle; of a rib 5 mm.
	Width float64
}

// Defaults of bases: from memory, ranges 0.66-0.75 of the diameter for the
// standing ring, 3-6 mm gate clearance, valleys of 8-12 degrees; ribs and the
// height are chosen for this project. No published source.
const (
	petaloidStanding  = 0.70   // of the largest radius
	cupStanding       = 0.80   // of the largest radius, where the profile stands on a point
	petaloidClearance = 0.0045 // m
	petaloidFeet      = 5
	valleyAngle       = 10 * math.Pi / 180
	ribCount          = 10
	ribDepth          = 0.002 // m
	ribWidth          = 0.005 // m
	baseHeight        = 1.1   // of the standing radius
)

// DefaultCount returns the number of feet or ribs of a base that says none; 0
// for a base that has neither.
func DefaultCount(k BaseKind) int {
	switch k {
	case Petaloid:
		return petaloidFeet
	case Ribbed:
		return ribCount
	}
	return 0
}

// closing returns the rows with the base closed to the axis.
func (b Base) closing(rows []curve.Row) ([]curve.Row, error) {
	first := rows[0]
	fail := func(format string, args ...any) ([]curve.Row, error) {
		return nil, fmt.Errorf("bottle: base: %s: %s", b.Kind, fmt.Sprintf(format, args...))
	}
	for _, v := range []float64{b.PushUp, b.Height, b.StandingRadius, b.Depth, b.Width} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return fail("a dimension of %v m: enter 0 (default) or a positive length", v)
		}
	}
	if b.Count < 0 || b.Count == 1 || b.Count == 2 {
		return fail("%d feet or ribs: enter 3 or more, or 0 for the default", b.Count)
	}
	if first.R == 0 {
		if b.PushUp > 0 {
			return fail("the profile begins on the axis, so it draws the push-up itself: leave the push-up 0, or begin at the standing ring")
		}
		return rows, nil
	}
	pole := curve.Row{Z: first.Z, R: 0, Name: "base centre"}
	out := append([]curve.Row{pole}, rows...)
	out[1].Via, out[1].Radius = curve.Line, 0
	switch b.Kind {
	case Flat:
		if b.PushUp > 0 {
			return fail("push-up ‹%.4g mm›: a flat base has none; choose punt", b.PushUp*1e3)
		}
	case Punt, Petaloid, Ribbed:
		if b.PushUp > first.R {
			return fail("push-up ‹%.4g mm› is more than the radius ‹%.4g mm› of the first row: make it less", b.PushUp*1e3, first.R*1e3)
		}
		if b.PushUp > 0 {
			out[0].Z = first.Z + b.PushUp
			out[1].Via, out[1].Radius = curve.Arc, -(first.R*first.R+b.PushUp*b.PushUp)/(2*b.PushUp)
		}
	case Hemisphere:
		if first.Z <= 0 || first.Z > first.R*(1+1e-9) {
			return fail("the first row is at z ‹%.4g mm›, r ‹%.4g mm›: begin it at the top of the cap, 0 < z <= r (z = r for a hemisphere)", first.Z*1e3, first.R*1e3)
		}
		out[0].Z = 0
		out[1].Via, out[1].Radius = curve.Arc, (first.R*first.R+first.Z*first.Z)/(2*first.Z)
	}
	return out, nil
}

// field is the height of the real base over the averaged one, along the
// normal: w(s, θ) = depth g(s) (mean f - f(θ)), with g a bump along the
// meridian and f a raised cosine of angular width theta, count times round.
type field struct {
	count       int     // 0: the base is round
	depth       float64 // m
	theta       float64 // angle of one foot or rib [rad]
	sPeak, sEnd float64 // arc lengths of the largest height and of the end [m]
}

// bump returns g and dg/ds.
func (f field) bump(s float64) (g, slope float64) {
	rise := func(s, length float64) (float64, float64) { // sin² from 0 to 1
		k := math.Pi / (2 * length)
		return math.Pow(math.Sin(k*s), 2), k * math.Sin(2*k*s)
	}
	switch {
	case s <= 0 || s >= f.sEnd:
		return 0, 0
	case s < f.sPeak:
		return rise(s, f.sPeak)
	}
	g, slope = rise(f.sEnd-s, f.sEnd-f.sPeak)
	return g, -slope
}

// ratio returns the area of the real surface over that of the averaged one at
// arc length s and radius r.
//
//	ρ = mean over θ of √(1 + (∂w/∂s)² + (∂w/r∂θ)²)
//
// to first order in the curvature of the averaged surface; the mean of w is
// zero, so the volume does not change.
func (f field) ratio(s, r float64) float64 {
	g, slope := f.bump(s)
	if f.count == 0 || (g == 0 && slope == 0) || r <= 0 {
		return 1
	}
	sector := 2 * math.Pi / float64(f.count)
	mean := f.theta / sector / 2
	const n = 64
	sum := 0.0
	for k := range n {
		// half a sector, from the middle of a foot to the middle of a valley
		a := (float64(k) + 0.5) / n * sector / 2
		var h, dh float64
		if a < f.theta/2 {
			sin, cos := math.Sincos(2 * math.Pi * a / f.theta)
			h, dh = (1+cos)/2, -math.Pi/f.theta*sin
		}
		x, y := f.depth*slope*(mean-h), f.depth*g*dh/r
		sum += math.Sqrt(1 + x*x + y*y)
	}
	return sum / n
}
