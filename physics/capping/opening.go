package capping

import (
	"fmt"
	"math"

	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/unit"
)

// Opening is the order in which a closure opens.
type Opening struct {
	LiftPerTurn float64 // m
	BandAngle   float64 // rad, first broken bridge; 0 where there is no band
	SealAngle   float64 // rad, first gas
	Difference  float64 // rad, SealAngle - BandAngle; above 0 the band tells first
	HasBand     bool
	Engaged     float64 // turns of each start left at first gas
	Holding     float64 // N, that the engaged thread holds at first gas
	Lift        float64 // N, of the gas at first gas
	Margin      float64 // Holding/Lift; 0 where there is no lift
	Warnings    []string
}

// Open returns the order in which a closure opens on a finish while the pack
// stands at a gauge pressure:
//
//	theta = 2 pi travel/lead
//
// for the first broken bridge and for the first gas. The pressure also lifts
// the shell before it is turned, so real seals open somewhat earlier.
func Open(f finish.Finish, c closure.Closure, p unit.GaugePressure) (Opening, error) {
	if err := c.Fits(f.ThreadOD, f.Pitch, f.Starts); err != nil {
		return Opening{}, fmt.Errorf("capping: %s: %w", f.Name, err)
	}
	lift, err := Lift(p, c.SealOD)
	if err != nil {
		return Opening{}, err
	}
	o := Opening{LiftPerTurn: f.Lead(), HasBand: c.Bridges > 0, Lift: lift}
	o.SealAngle = 2 * math.Pi * c.SealTravel / f.Lead()
	if o.HasBand {
		o.BandAngle = 2 * math.Pi * c.BandTravel / f.Lead()
		o.Difference = o.SealAngle - o.BandAngle
	}
	if o.Engaged, err = f.Engaged(o.SealAngle); err != nil {
		return Opening{}, err
	}
	if o.Holding, err = HoldingForce(f, c.HoldingStress, o.Engaged); err != nil {
		return Opening{}, err
	}
	if lift > 0 {
		o.Margin = o.Holding / lift
	}
	o.warn(p)
	return o, nil
}

func (o *Opening) warn(p unit.GaugePressure) {
	add := func(format string, args ...any) { o.Warnings = append(o.Warnings, fmt.Sprintf(format, args...)) }
	if o.HasBand && o.Difference <= 0 {
		add("seal opens at %.0f°, before the bridges break at %.0f°: an opened pack can look unopened", deg(o.SealAngle), deg(o.BandAngle))
	}
	if !(p > 0) {
		return
	}
	const leastTurns, leastMargin = 0.5, 2.0 // chosen for this project
	switch {
	case o.Engaged == 0:
		add("seal opens at %.0f°, after the thread has ended: the closure leaves the neck at full pressure", deg(o.SealAngle))
	case o.Margin < 1:
		add("thread holds ‹%.0f N› at first gas, less than the lift of ‹%.0f N›: the closure may leave the neck", o.Holding, o.Lift)
	case o.Margin < leastMargin:
		add("thread holds %.1f times the lift at first gas, less than %.1f", o.Margin, leastMargin)
	}
	if o.Engaged > 0 && o.Engaged < leastTurns {
		add("%.2f turns engaged at first gas, less than half a turn", o.Engaged)
	}
}

func deg(rad float64) float64 { return rad * 180 / math.Pi }
