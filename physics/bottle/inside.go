package bottle

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// Inside is the inner space of a bottle with a given wall.
type Inside struct {
	face                *curve.Meridian
	wall                curve.Wall
	ledge, brim, bore   float64 // heights and bore radius [m]
	body, full, lowestZ float64 // volume to the ledge, brimful volume [m³]; height of the inner floor [m]
}

// Inside returns the inner space with wall w along the arc length from the
// gate: the profile set off inward along its normal, the base included, and
// the bore above the ledge. It fails where the wall does not fit the profile;
// the message names the row.
func (b *Bottle) Inside(w curve.Wall) (*Inside, error) {
	face, err := b.outline.Inner(w)
	if err != nil {
		return nil, fmt.Errorf("bottle: inner face: %w", err)
	}
	in := &Inside{face: face, wall: w, ledge: b.ledge, brim: b.Height(), bore: b.spec.BoreDiameter / 2}
	in.body = face.Moments().Volume()
	in.full = in.body + math.Pi*in.bore*in.bore*(in.brim-in.ledge)
	in.lowestZ, _ = face.MinZ()
	return in, nil
}

// Nominal returns the inner space with the nominal wall.
func (b *Bottle) Nominal() (*Inside, error) { return b.Inside(curve.Uniform(b.spec.Wall)) }

// Face returns the inner face, from the gate to the ledge.
func (in *Inside) Face() *curve.Meridian { return in.face }

// Brimful returns the volume to the top of the finish [m³].
func (in *Inside) Brimful() float64 { return in.full }

// Body returns the volume up to the ledge [m³].
func (in *Inside) Body() float64 { return in.body }

// Area returns the inner surface up to the ledge [m²].
func (in *Inside) Area() float64 { return in.face.Moments().Area() }

// To returns the volume below the plane z [m³] and the free surface there [m²].
func (in *Inside) To(z float64) (volume, area float64) {
	switch {
	case z < in.ledge:
		return in.face.Below(z)
	case z >= in.brim:
		return in.full, math.Pi * in.bore * in.bore
	}
	a := math.Pi * in.bore * in.bore
	return in.body + a*(z-in.ledge), a
}

// CentroidTo returns the height of the centroid of the space below the plane z
// [m].
func (in *Inside) CentroidTo(z float64) float64 {
	if z <= in.ledge {
		return in.face.CentroidBelow(z)
	}
	z = math.Min(z, in.brim)
	v, _ := in.To(z)
	neck := math.Pi * in.bore * in.bore * (z - in.ledge)
	return (in.body*in.face.CentroidBelow(in.ledge) + neck*(z+in.ledge)/2) / v
}

// Level is a height of filling.
type Level struct {
	Z         float64 // of the liquid [m]
	Volume    float64 // below it [m³]
	Headspace float64 // above it, to the brim [m³]
	FreeArea  float64 // of the surface [m²]
	BelowBrim float64 // brim - Z [m]
}

// LevelAt returns the filling to height z [m], between the inner floor and the
// brim.
func (in *Inside) LevelAt(z float64) (Level, error) {
	if !(z >= in.lowestZ && z <= in.brim) {
		return Level{}, fmt.Errorf("bottle: fill level ‹%.4g mm›: outside the inside of the bottle, ‹%.4g..%.4g mm›", z*1e3, in.lowestZ*1e3, in.brim*1e3)
	}
	v, a := in.To(z)
	return Level{Z: z, Volume: v, Headspace: in.full - v, FreeArea: a, BelowBrim: in.brim - z}, nil
}

// LevelBelowBrim returns the filling at depth h [m] below the brim.
func (in *Inside) LevelBelowBrim(h float64) (Level, error) {
	return in.LevelAt(in.brim - h)
}

// LevelOfHeadspace returns the filling that leaves v [m³] free below the brim.
func (in *Inside) LevelOfHeadspace(v float64) (Level, error) {
	if !(v >= 0 && v <= in.full) {
		return Level{}, fmt.Errorf("bottle: headspace ‹%.4g mL›: outside ‹0..%.4g mL› (brimful)", v*1e6, in.full*1e6)
	}
	return in.LevelOf(in.full - v)
}

// LevelOf returns the filling with v [m³], 0 to brimful. The height is found
// by Newton steps inside a bracket, dV/dz being the free surface, to 1e-13 of
// the brimful volume.
func (in *Inside) LevelOf(v float64) (Level, error) {
	if !(v >= 0 && v <= in.full*(1+1e-12)) {
		return Level{}, fmt.Errorf("bottle: fill volume ‹%.5g mL›: outside ‹0..%.5g mL› (brimful)", v*1e6, in.full*1e6)
	}
	lo, hi := in.lowestZ, in.brim
	z := lo + (hi-lo)*v/in.full
	for range 200 {
		have, area := in.To(z)
		if math.Abs(have-v) <= 1e-13*in.full {
			break
		}
		if have > v {
			hi = z
		} else {
			lo = z
		}
		next := z - (have-v)/area
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if next == z {
			break
		}
		z = next
	}
	return in.LevelAt(math.Min(in.brim, math.Max(in.lowestZ, z)))
}
