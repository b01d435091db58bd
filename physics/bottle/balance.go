package bottle

import (
	"fmt"
	"math"

	"costrel/num/curve"
)

// Load is what the standing bottle weighs.
type Load struct {
	Wall       curve.Wall // m along arc length
	Inside     *Inside    // the space inside this wall, where it is known; nil: it is worked out
	Density    float64    // solid density of the wall [kg/m³]
	FinishMass float64    // kg, with the ledge
	FinishZ    float64    // height of its centre [m]; 0: the middle of the bore height
	Closure    float64    // mass [kg]; only on the filled bottle
	ClosureZ   float64    // height of its centre [m]; 0: a third of the bore height below the brim
	Fill       float64    // volume [m³]
	Liquid     float64    // density of the drink [kg/m³]
}

// Balance is the standing of a bottle, empty without closure and filled with it.
type Balance struct {
	EmptyMass, FilledMass float64 // kg
	EmptyZ, FilledZ       float64 // height of the centre of gravity [m]
	EmptyTip, FilledTip   float64 // angle at which it tips over [rad]
	TipRadius             float64 // from the axis to the edge it tips over [m]
	FillZ                 float64 // height of the drink [m]
}

// Balance returns centre of gravity and tip angle.
//
//	tan α = ρ/z_G
//
// ρ is the standing radius, of a base on n feet ρ cos(π/n), the distance from
// the axis to the line between two feet. The drink is taken as frozen: its
// surface does not follow the tilt, so the filled angle is an upper value.
func (b *Bottle) Balance(l Load) (Balance, error) {
	for _, c := range []struct {
		name string
		v    float64
	}{
		{"density of the wall", l.Density},
		{"finish mass", l.FinishMass},
		{"finish height", l.FinishZ},
		{"closure mass", l.Closure},
		{"closure height", l.ClosureZ},
		{"fill volume", l.Fill},
		{"density of the drink", l.Liquid},
	} {
		if !(c.v >= 0) || math.IsInf(c.v, 0) {
			return Balance{}, fmt.Errorf("bottle: balance: %s %v: want 0 or more", c.name, c.v)
		}
	}
	if l.Density == 0 {
		return Balance{}, fmt.Errorf("bottle: balance: density of the wall 0 kg/m³: want a positive one")
	}
	in := l.Inside
	if in == nil {
		var err error
		if in, err = b.Inside(l.Wall); err != nil {
			return Balance{}, err
		}
	}
	sh, err := b.outline.Shell(l.Wall, 0, b.outline.Length())
	if err != nil {
		return Balance{}, fmt.Errorf("bottle: balance: %w", err)
	}
	if l.FinishZ == 0 {
		l.FinishZ = b.ledge + b.spec.BoreHeight/2
	}
	if l.ClosureZ == 0 {
		l.ClosureZ = b.Height() - b.spec.BoreHeight/3
	}
	lev, err := in.LevelOf(l.Fill)
	if err != nil {
		return Balance{}, err
	}
	var q Balance
	q.EmptyMass = l.Density*sh.Volume + l.FinishMass
	moment := l.Density*sh.VolumeZ + l.FinishMass*l.FinishZ
	q.EmptyZ = moment / q.EmptyMass
	drink := l.Liquid * l.Fill
	q.FilledMass = q.EmptyMass + drink + l.Closure
	moment += l.Closure * l.ClosureZ
	if drink > 0 {
		moment += drink * in.CentroidTo(lev.Z)
	}
	q.FilledZ = moment / q.FilledMass
	q.FillZ = lev.Z
	q.TipRadius = b.standing
	if b.spec.Base.Kind == Petaloid {
		q.TipRadius *= math.Cos(math.Pi / float64(b.base.count))
	}
	q.EmptyTip = math.Atan2(q.TipRadius, q.EmptyZ)
	q.FilledTip = math.Atan2(q.TipRadius, q.FilledZ)
	return q, nil
}
