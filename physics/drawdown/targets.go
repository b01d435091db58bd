package drawdown

import (
	"fmt"
	"math"

	"costrel/physics/bottle"
)

// The rule of thumb for the material of a surface, relative to the label
// panel: 20 % more in the shoulder, and in the base 50 % more than in the
// shoulder. Source: Brandau201307, who gives it as that of Detrois and
// Steinbauer.
const (
	shoulderShare = 1.2
	baseShare     = 1.2 * 1.5
)

// usualTolerance is how far section targets may be from the preform [kg].
// From memory: specifications hold the sum to 0.1-0.3 g.
const usualTolerance = 0.3e-3

// RuleShares returns the shares of the material below the ledge [1, sum 1]
// that the rule of thumb gives to sections: surface times 1.8 in the base, 1.2
// in the shoulder, 1 between.
// Source: Brandau201307.
func RuleShares(zones []bottle.Section) []float64 {
	out := make([]float64, len(zones))
	sum := 0.0
	for i, z := range zones {
		k := 1.0
		switch i {
		case 0:
			k = baseShare
		case len(zones) - 1:
			k = shoulderShare
		}
		out[i] = k * z.Area
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// zones returns the mass of wall of each section [kg], which adds up to the
// mass of the preform below the ledge, how it was found, and warnings.
func (in Input) zones(g *grid) (mass []float64, how string, warnings []string, err error) {
	below := in.Preform.MassBelowLedge()
	if g.planeWarning != "" {
		warnings = append(warnings, g.planeWarning)
	}
	if len(in.Targets) == 0 {
		mass = RuleShares(g.zones)
		for i := range mass {
			mass[i] *= below
		}
		warnings = append(warnings, "no section weights given: the material is shared out by a rule of thumb (shoulder 20 % more an area than the label panel, base 50 % more than the shoulder); real bottles differ by tens of per cent")
		return mass, "section weights by rule of thumb, mass conserved", warnings, nil
	}
	if len(in.Targets) != len(g.zones) {
		return nil, "", nil, fmt.Errorf("draw-down: %d section targets for %d sections: give one for each, from the base up", len(in.Targets), len(g.zones))
	}
	finish := in.Preform.Spec().FinishMass
	sum := 0.0
	for _, t := range in.Targets {
		sum += t
	}
	tol := in.Tolerance
	if tol == 0 {
		tol = usualTolerance
	}
	if d := sum - in.Preform.Mass(); math.Abs(d) > tol {
		return nil, "", nil, fmt.Errorf("draw-down: the section targets sum to %.2f g, the preform weighs %.2f g: they differ by %.2f g, more than %.2f g: correct the targets or the preform; the top section includes the finish of %.2f g",
			sum*1e3, in.Preform.Mass()*1e3, math.Abs(d)*1e3, tol*1e3, finish*1e3)
	}
	top := in.Targets[len(in.Targets)-1]
	if top <= finish {
		return nil, "", nil, fmt.Errorf("draw-down: the top section target of %.2f g is no more than the finish of %.2f g: weigh it with the finish, or correct the finish", top*1e3, finish*1e3)
	}
	k := below / (sum - finish)
	mass = append([]float64(nil), in.Targets...)
	mass[len(mass)-1] -= finish
	for i := range mass {
		mass[i] *= k
	}
	if math.Abs(k-1) > 1e-9 {
		warnings = append(warnings, fmt.Sprintf("section targets sum to %.3f g, the preform weighs %.3f g: the walls of the sections were scaled by %.4f", sum*1e3, in.Preform.Mass()*1e3, k))
	}
	return mass, "section weights as given, mass conserved", warnings, nil
}
