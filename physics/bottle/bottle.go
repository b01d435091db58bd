package bottle

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/curve"
)

// Spec is what describes a bottle. Lengths in m.
type Spec struct {
	// Rows of the outer profile, from the standing plane z = 0 up to the
	// underside of the support ledge.
	Rows   []curve.Row
	Spline curve.Spline // of the rows marked curve; empty is natural
	Base   Base
	// The bore of the finish above the ledge, as a cylinder.
	BoreDiameter, BoreHeight float64
	// Wall is the nominal wall.
	Wall float64
	// Planes are the heights at which the bottle is cut for section weights,
	// rising. Empty: see [Bottle.CutPlanes].
	Planes []float64
}

// Bottle is a bottle of revolution. Build it with [New]; it is immutable.
type Bottle struct {
	spec     Spec
	outline  *curve.Meridian
	ledge    float64
	standing float64
	base     field
	sBase    float64 // arc length of the top of the base zone
	ratioOf  float64
	warnings []string
}

// New builds a bottle from its description. It fails on a faulty profile (see
// [curve.New]), on one whose lowest point is not the standing plane z = 0, that
// falls above the standing ring, ends level at the ledge or narrower than the
// bore, on a wall that does not fit the profile, and on cut planes outside it.
func New(spec Spec) (*Bottle, error) {
	var faults []error
	fault := func(format string, args ...any) { faults = append(faults, fmt.Errorf("bottle: "+format, args...)) }
	positive := func(name string, v float64) {
		if !(v > 0) || math.IsInf(v, 0) {
			fault("%s %v m: enter a positive length", name, v)
		}
	}
	positive("bore diameter", spec.BoreDiameter)
	positive("bore height", spec.BoreHeight)
	positive("nominal wall", spec.Wall)
	switch spec.Base.Kind {
	case "":
		spec.Base.Kind = Flat
	case Flat, Punt, Petaloid, Ribbed, Hemisphere:
	default:
		fault("base %q is not flat, punt, petaloid, ribbed or hemisphere", spec.Base.Kind)
	}
	if len(spec.Rows) < 2 {
		fault("profile: %d rows: give at least 2", len(spec.Rows))
	}
	if faults != nil {
		return nil, errors.Join(faults...)
	}
	spec.Planes = append([]float64(nil), spec.Planes...)
	spec.Rows = append([]curve.Row(nil), spec.Rows...)
	for i := range spec.Rows {
		if spec.Rows[i].Name == "" {
			spec.Rows[i].Name = fmt.Sprintf("row %d", i+1)
		}
	}
	rows, err := spec.Base.closing(spec.Rows)
	if err != nil {
		return nil, err
	}
	outline, err := curve.New(rows, spec.Spline)
	if err != nil {
		return nil, fmt.Errorf("bottle: profile: %w", err)
	}
	b := &Bottle{spec: spec, outline: outline, ledge: outline.Last().Z}
	if err := b.checkProfile(); err != nil {
		return nil, err
	}
	b.dress()
	for i, z := range spec.Planes {
		if !(z > 0 && z < b.ledge) || (i > 0 && z <= spec.Planes[i-1]) {
			fault("cut plane %d at ‹%.4g mm›: planes rise, between the standing plane and the ledge at ‹%.4g mm›", i+1, z*1e3, b.ledge*1e3)
		}
	}
	if faults != nil {
		return nil, errors.Join(faults...)
	}
	if _, err := b.Inside(curve.Uniform(spec.Wall)); err != nil {
		return nil, err
	}
	return b, nil
}

// checkProfile refuses profiles that are no bottle.
func (b *Bottle) checkProfile() error {
	low, s := b.outline.MinZ()
	if math.Abs(low) > 1e-6 {
		return fmt.Errorf("bottle: profile: its lowest point is at z = ‹%.4g mm›: shift it so that the standing plane is z = 0", low*1e3)
	}
	if err := b.outline.CheckRising(s); err != nil {
		return fmt.Errorf("bottle: profile: %w", err)
	}
	end := b.outline.At(b.outline.Length())
	last := b.spec.Rows[len(b.spec.Rows)-1]
	if end.R < b.spec.BoreDiameter/2 {
		return fmt.Errorf("bottle: profile: %s: the radius ‹%.4g mm› under the ledge is less than that of the bore, ‹%.4g mm›: widen it or correct the bore diameter",
			last.Name, end.R*1e3, b.spec.BoreDiameter/2*1e3)
	}
	if end.TZ < 0.25 {
		return fmt.Errorf("bottle: profile: %s: the profile arrives at the ledge nearly level: end it with the short straight neck under the ledge", last.Name)
	}
	return nil
}

// dress fills in the standing radius and the field of the base, and writes the
// warnings.
func (b *Bottle) dress() {
	warn := func(format string, args ...any) {
		b.warnings = append(b.warnings, "base: "+fmt.Sprintf(format, args...))
	}
	base := &b.spec.Base
	rmax, _ := b.outline.MaxR()
	low, sLow := b.outline.MinZ()
	b.standing = base.StandingRadius
	if b.standing == 0 {
		b.standing = b.outline.At(sLow).R
		if base.Kind == Petaloid {
			b.standing = petaloidStanding * rmax
			warn("standing radius assumed ‹%.3g mm›, %.2f of the largest radius", b.standing*1e3, petaloidStanding)
		}
		if b.standing <= 0 {
			b.standing = cupStanding * rmax
			warn("the profile stands on a point: standing radius of a base cup assumed ‹%.3g mm›, %.2f of the largest radius", b.standing*1e3, cupStanding)
		}
	}
	height := base.Height
	if height == 0 {
		height = math.Min(baseHeight*b.standing, 0.5*(low+b.ledge))
		if base.Kind == Petaloid {
			warn("height of the base zone assumed ‹%.3g mm›", height*1e3)
		}
	}
	height = math.Min(height, 0.9*b.ledge)
	b.sBase = b.CutS(height)
	b.ratioOf = 1
	switch base.Kind {
	case Hemisphere:
		warn("a hemisphere does not stand by itself: it needs a base cup, which is not part of this bottle")
		return
	case Petaloid, Ribbed:
	default:
		return
	}
	// arc length at which the outline first has the standing radius
	sStand, n := sLow, 400
	for k := range n {
		s := b.sBase * float64(k) / float64(n)
		if b.outline.At(s).R >= b.standing {
			sStand = s
			break
		}
	}
	f := field{count: base.Count, depth: base.Depth}
	width := base.Width
	if base.Kind == Petaloid {
		if f.count == 0 {
			f.count = petaloidFeet
		}
		if f.depth == 0 {
			r := math.Min(b.standing, rmax)
			f.depth = petaloidClearance + rmax - math.Sqrt(rmax*rmax-r*r)
			warn("foot depth assumed ‹%.3g mm›: valleys on a hemisphere, gate ‹%.3g mm› clear", f.depth*1e3, petaloidClearance*1e3)
		}
		if width == 0 {
			width = valleyAngle * b.standing
			warn("valley width assumed ‹%.3g mm›, 10 degrees", width*1e3)
		}
		sector := 2 * math.Pi / float64(f.count)
		f.theta = math.Max(0.2*sector, sector-width/b.standing)
		f.sPeak, f.sEnd = math.Min(sStand, 0.8*b.sBase), b.sBase
	} else {
		if f.count == 0 {
			f.count = ribCount
			warn("%d ribs assumed", f.count)
		}
		if f.depth == 0 {
			f.depth = ribDepth
			warn("rib depth assumed ‹%.3g mm›", f.depth*1e3)
		}
		if width == 0 {
			width = ribWidth
			warn("rib width assumed ‹%.3g mm›", width*1e3)
		}
		f.theta = math.Min(2*math.Pi/float64(f.count), width/b.standing)
		f.sPeak, f.sEnd = sStand/2, sStand
	}
	b.base = f
	// ratio of the whole base zone, over equal steps of arc length
	var real, flat float64
	for k := range n {
		s := f.sEnd * (float64(k) + 0.5) / float64(n)
		r := b.outline.At(s).R
		real += f.ratio(s, r) * r
		flat += r
	}
	b.ratioOf = real / flat
	what := "ribs"
	if base.Kind == Petaloid {
		what = "feet"
	}
	warn("the %s base is averaged round the axis: walls and stresses of single %s and of the valleys between them are not resolved; its real surface is about %.2f times the averaged one (%d %s, depth ‹%.3g mm›)",
		base.Kind, what, b.ratioOf, f.count, what, f.depth*1e3)
}

// Spec returns the description the bottle was built from.
func (b *Bottle) Spec() Spec {
	s := b.spec
	s.Rows = append([]curve.Row(nil), s.Rows...)
	s.Planes = append([]float64(nil), s.Planes...)
	return s
}

// Warnings returns what a reader of any figure of this bottle must know:
// averaged bases and dimensions that were assumed.
func (b *Bottle) Warnings() []string { return append([]string(nil), b.warnings...) }

// Outline returns the outer profile with the base closed to the axis, from the
// gate (s = 0) to the ledge.
func (b *Bottle) Outline() *curve.Meridian { return b.outline }

// LedgeZ returns the height of the underside of the ledge [m].
func (b *Bottle) LedgeZ() float64 { return b.ledge }

// Height returns the height with the finish [m].
func (b *Bottle) Height() float64 { return b.ledge + b.spec.BoreHeight }

// MaxDiameter returns the largest outer diameter [m].
func (b *Bottle) MaxDiameter() float64 { r, _ := b.outline.MaxR(); return 2 * r }

// StandingRadius returns the radius of the circle the bottle stands on [m].
func (b *Bottle) StandingRadius() float64 { return b.standing }

// BaseAreaRatio returns the surface of the real base over that of the averaged
// one, over the zone of the feet or ribs; 1 for a round base.
func (b *Bottle) BaseAreaRatio() float64 { return b.ratioOf }

// AreaRatio returns the local surface of the real base over the averaged one
// at arc length s [m]; 1 outside the base zone and for a round base. The mean
// wall of the real shape is the averaged wall divided by it.
func (b *Bottle) AreaRatio(s float64) float64 { return b.base.ratio(s, b.outline.At(s).R) }

// OuterVolume returns the volume inside the outer profile up to the ledge [m³].
func (b *Bottle) OuterVolume() float64 { return b.outline.Moments().Volume() }

// OuterArea returns the outer surface up to the ledge, base included [m²].
func (b *Bottle) OuterArea() float64 { return b.outline.Moments().Area() }

// ArcLength returns the length of the profile from the gate to the ledge [m].
func (b *Bottle) ArcLength() float64 { return b.outline.Length() }

// MeanRadius returns the mean radius along the profile [m], ∫r ds/∫ds.
func (b *Bottle) MeanRadius() float64 { return b.outline.Moments().MeanRadius() }

// CutS returns the arc length [m] at which the plane z cuts the body wall (the
// last crossing, above any push-up); 0 below the bottle, the whole length
// above it.
func (b *Bottle) CutS(z float64) float64 {
	if z >= b.ledge {
		return b.outline.Length()
	}
	if cuts := b.outline.CutZ(z); len(cuts) > 0 {
		return cuts[len(cuts)-1]
	}
	return 0
}

// DiameterAt returns the outer diameter of the body at height z [m].
func (b *Bottle) DiameterAt(z float64) (float64, error) {
	if !(z >= 0 && z <= b.ledge) {
		return 0, fmt.Errorf("bottle: diameter at z = ‹%.4g mm›: outside ‹0..%.4g mm›", z*1e3, b.ledge*1e3)
	}
	return 2 * b.outline.At(b.CutS(z)).R, nil
}
