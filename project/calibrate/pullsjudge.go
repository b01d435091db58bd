package calibrate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"costrel/physics/permeation"
	"costrel/unit"
)

// openFactor is how many times the ends of its interval the factor may lie
// apart before the pulls tell nothing. Chosen for this project.
const openFactor = 10

// worstMisfit is the chance of the misfit below which nothing is concluded.
const worstMisfit = 0.01

// startOff is how far the first pull may be from the carbonation of the design
// before the table can hardly be of it, filled how far a filler misses its
// set-point [kg/m³]: 0.1 vol, common practice. The share is chosen for this
// project: a mild loss and another reference explain less.
const (
	startOff = 0.3
	filled   = 0.1 * unit.VolumeCO2
)

// started warns where the pulls begin elsewhere than the design fills.
func (f *PullFit) started(c float64) {
	p, start := f.s.Pulls[0], f.Parameters[1]
	if m := mean(p.Values); math.Abs(m/c-1) > startOff {
		f.Warnings = append(f.Warnings, fmt.Sprintf("calibrate: pulls: the first pull, at %.3g d, holds %.3g vol (mean), the drink of the design %.3g vol: check the unit and the basis of the readings, and that the table belongs to this design", p.Time/day, m/unit.VolumeCO2, c/unit.VolumeCO2))
		return
	}
	if math.Abs(start.Value-c) > filled+(start.Hi-start.Lo)/2 {
		f.Warnings = append(f.Warnings, fmt.Sprintf("calibrate: pulls: the curve starts at %.3g vol (95 %%: %.3g to %.3g), the design fills %.3g vol, and a filler holds about 0.1 vol: check basis and reference temperature of the readings, and that the table belongs to this design", start.Value/unit.VolumeCO2, start.Lo/unit.VolumeCO2, start.Hi/unit.VolumeCO2, c/unit.VolumeCO2))
	}
}

// passes tells whether any zone of a wall lets gas through.
func passes(zones []permeation.WallZone) bool {
	return slices.ContainsFunc(zones, func(z permeation.WallZone) bool { return !z.Material.Tight && z.Area > 0 })
}

// refuse says why a fit concludes nothing, and takes the intervals back.
func (f *PullFit) refuse(low, high, c float64) {
	var why []string
	check := map[string]string{
		"factor":  "check wall, zones and closure of the design, and temperature and unit of the readings",
		"start":   "check unit and basis of the readings and the carbonation of the design",
		"closure": "check the conductance of the closure",
		"growth":  "check modulus and wall",
	}
	for _, p := range f.Parameters {
		if !p.AtBound {
			continue
		}
		at, bound := p.Value, "lower"
		span := 1.0
		if p.Key == "start" {
			span = c
		}
		if at/span > 1 {
			bound = "upper"
		}
		why = append(why, fmt.Sprintf("%s ends on its %s bound (%.3g times what the design says): %s", p.Label, bound, at/span, check[p.Key]))
	}
	if p := f.Parameters[0]; !p.AtBound && p.Hi > openFactor*p.Lo {
		why = append(why, fmt.Sprintf("the pulls leave the factor open from %.2g to %.3g: they span too little of the loss, pull later or more bottles", p.Lo, p.Hi))
	}
	if f.Misfit < worstMisfit {
		why = append(why, fmt.Sprintf("the curve does not follow the pulls (chance %.2g, less than %.2g): look for a pull of other bottles, another temperature or a slip of the laboratory", f.Misfit, worstMisfit))
	}
	if f.far {
		why = append(why, fmt.Sprintf("the curve does not follow the pulls: they lie %.2g vol off it (standard deviation), and bottles do not scatter by more than %.2g vol: look for a pull of other bottles, another temperature or a slip of the laboratory", f.Sigma/unit.VolumeCO2, filled/unit.VolumeCO2))
	}
	if len(why) == 0 {
		return
	}
	f.Refused = strings.Join(why, "; ")
	for i := range f.Parameters {
		p := &f.Parameters[i]
		p.Lo, p.Hi = low, high
		if p.Key == "start" {
			p.Lo, p.Hi = low*c, high*c
		}
	}
}
