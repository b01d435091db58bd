package blow

import (
	"errors"
	"fmt"
)

// Limits of a recipe. Beyond them the run is refused.
const (
	coldest, hottest  = 351.15, 403.15 // mean temperature of a preform that can be blown: 78 °C, the glass transition, to 130 °C
	coldWarn, hotWarn = 358.15, 391.15 // 85..118 °C
	wallThin          = 0.10e-3        // [m], flag
	rateHigh          = 100.0          // [1/s], flag
	slackLow          = 0.05           // flag of locking
	hazeRelative      = 0.01           // relative quiescent crystallinity, flag
	pressureMost      = 60e5           // [Pa] gauge
	unfilledGap       = 0.5e-3         // [m], outer face to mould
	elementsMost      = 400
	layersMost        = 15
	framesMost        = 2000
	areaRatioWarn     = 1.02
	rodGapLeast       = 0.2e-3
)

// check refuses what cannot be run, every fault with place, value, limit and
// what to do.
func (c *Case) check(prof *profile) error {
	var faults []error
	fault := func(format string, a ...any) { faults = append(faults, fmt.Errorf("blow: "+format, a...)) }
	r, n := &c.Recipe, &c.Numbers
	in := func(what string, v, lo, hi, scale float64, u, remedy string) {
		if !(v >= lo && v <= hi) {
			fault("%s ‹%.4g %s› outside ‹%.4g..%.4g %s›: %s", what, v*scale, u, lo*scale, hi*scale, u, remedy)
		}
	}
	if c.Law == nil {
		fault("no hot law: take one of the catalogue")
	}
	in("elements", float64(n.Elements), 4, elementsMost, 1, "", "60 are usual")
	in("layers", float64(n.Layers), 1, layersMost, 1, "", "5 are usual")
	in("first step", n.StepFirst, 1e-7, 0.01, 1e3, "ms", "0.5 ms is usual")
	in("largest step", n.StepMost, 1e-6, 0.01, 1e3, "ms", "0.5 ms is usual")
	in("theta", n.Theta, 0.5, 1, 1, "", "0.55 is usual, 1 is backward Euler")
	in("least step", n.StepLeast, 1e-10, 1e-3, 1e3, "ms", "1e-4 ms is usual")
	in("limit of steps", float64(n.StepsMost), 10, 1e6, 1, "", "20000 is usual")
	in("density", n.Density, 900, 1600, 1, "kg/m³", "1340 is usual")
	in("conductivity", n.Conductivity, 0.05, 1, 1, "W/(m K)", "0.24 is usual")
	in("heat of fusion", n.FusionHeat, 0, 3e5, 1, "J/kg", "140e3 is usual")
	in("rod stiffness", n.RodStiffness, 1e4, 1e9, 1, "N/m", "5e6 is usual")
	in("interval of frames", n.FrameEvery, 0, 10, 1, "s", "5 ms is usual")
	if n.Rate != RateNominal && n.Rate != RateNetwork {
		fault("rate %q is not %s or %s", string(n.Rate), RateNominal, RateNetwork)
	}
	stage := func(name string, s Stage, must bool) {
		if s.Area == 0 && !must {
			return
		}
		if s.Pressure <= 0 {
			fault("%s pressure ‹%.3g bar(g)› not above ambient: set the supply above ‹0 bar(g)›", name, float64(s.Pressure)/1e5)
			return
		}
		in(name+" pressure", float64(s.Pressure), 0, pressureMost, 1e-5, "bar(g)", "lower it; moulds and lines are made for 40")
		in(name+" orifice", s.Area, 1e-8, 1e-3, 1e6, "mm²", "‹3 to 20 mm²› are usual")
		in(name+" discharge coefficient", s.Discharge, 0.05, 1, 1, "", "0.6 to 1")
		if s.Start.ByRod {
			in(name+" start by rod travel", s.Start.Travel, 0, 1, 1e3, "mm", "give the travel at which the valve opens")
			if r.Rod.Speed <= 0 {
				fault("%s starts by rod travel, and there is no rod: start it by time", name)
			}
		} else {
			in(name+" start", s.Start.Time, 0, 30, 1, "s", "give the time after the rod touches")
		}
	}
	stage("pre-blow", r.Pre, true)
	stage("high blow", r.High, false)
	if r.High.Area > 0 && r.Pre.Area > 0 && len(faults) == 0 && c.startOf(r.High.Start) < c.startOf(r.Pre.Start) {
		fault("high blow starts at %.1f ms, before the pre-blow at %.1f ms: start it later", c.startOf(r.High.Start)*1e3, c.startOf(r.Pre.Start)*1e3)
	}
	in("rod speed", r.Rod.Speed, 0, 10, 1, "m/s", "0.8 to 2 is usual")
	if r.Rod.Speed > 0 {
		in("rod radius", r.Rod.Radius, 1e-3, 0.02, 1e3, "mm", "‹5 to 7 mm› are usual")
	}
	in("dead volume", r.DeadVolume, 0, 5e-3, 1e6, "mL", "‹20 to 300 mL› are usual")
	in("ambient pressure", float64(r.Ambient), 5e4, 1.2e5, 1e-5, "bar(a)", "‹1.013 bar(a)› at sea level")
	in("air supply temperature", float64(r.AirSupply), 250, 400, 1, "K", "293 to 310 K are usual")
	in("hold", r.Hold, 0, 60, 1, "s", "0.5 to 1.5 s are usual")
	in("exhaust", r.Exhaust, 0, 30, 1, "s", "0.2 to 0.3 s are usual")
	in("exhaust area", r.VentArea, 0, 1e-2, 1e6, "mm²", "‹20 to 50 mm²› are usual")
	if c.Mould == nil {
		in("duration", r.Duration, 1e-3, 30, 1, "s", "0.2 s is usual")
	}
	for _, h := range []struct {
		name string
		v    float64
	}{
		{"contact", r.Contact},
		{"contact without pressure", r.ContactLow},
		{"inside", r.InsideHeat},
		{"outside", r.OutsideHeat},
		{"rod", r.RodContact},
		{"gas", r.GasHeat},
	} {
		in("film coefficient "+h.name, h.v, 0, 1e5, 1, "W/(m² K)", "see the defaults")
	}
	in("rod temperature", float64(r.RodHeat), 250, 420, 1, "K", "293 to 330 K are usual")
	in("air temperature outside", float64(r.Outside), 250, 420, 1, "K", "293 to 330 K are usual")
	in("friction", r.Friction, 0, 2, 1, "", "0 is sticking, 0.2 to 0.4 sliding")
	if err := c.Preform.check(); err != nil {
		faults = append(faults, err)
	}
	if err := c.Heat.check(); err != nil {
		faults = append(faults, err)
	} else if T := c.Heat.mean(); !(T >= coldest && T <= hottest) {
		state, remedy := "too cold to stretch", "more lamp power or longer heating"
		if T > hottest {
			state, remedy = "a melt that sags and crystallises", "less lamp power or shorter heating"
		}
		fault("preform at ‹%.1f °C› in the mean is %s (limits ‹%.0f..%.0f °C›): %s", T-273.15, state, coldest-273.15, hottest-273.15, remedy)
	}
	if len(faults) > 0 {
		return errors.Join(faults...)
	}
	if prof == nil {
		return nil
	}
	gate := c.Preform.Z[len(c.Preform.Z)-1]
	if r.Rod.Speed > 0 && r.Rod.Stop > prof.base-rodGapLeast {
		fault("rod stops at depth ‹%.2f mm›, the base of the mould stands at ‹%.2f mm›: stop it at least ‹%.1f mm› before", r.Rod.Stop*1e3, prof.base*1e3, rodGapLeast*1e3)
	}
	if gate > prof.base {
		fault("preform reaches to depth ‹%.2f mm›, the mould to ‹%.2f mm›: a shorter preform", gate*1e3, prof.base*1e3)
	}
	return errors.Join(faults...)
}

func (c *Case) startOf(s Start) float64 {
	if s.ByRod {
		return s.Travel / c.Recipe.Rod.Speed
	}
	return s.Time
}

func (h Heat) check() error {
	if len(h.T) == 0 {
		if !(h.Uniform >= 253 && h.Uniform <= 573) {
			return fmt.Errorf("blow: preform temperature ‹%.1f °C› outside ‹-20..300 °C›", h.Uniform.Celsius())
		}
		return nil
	}
	if len(h.T) != len(h.S) {
		return fmt.Errorf("blow: preform temperature: %d rows for %d places along the wall", len(h.T), len(h.S))
	}
	rising := func(v []float64) bool {
		for i, x := range v {
			if !finite(x) || i > 0 && x <= v[i-1] {
				return false
			}
		}
		return len(v) > 0
	}
	if !rising(h.S) || !rising(h.X) {
		return fmt.Errorf("blow: preform temperature: places along and through the wall must rise")
	}
	for i, row := range h.T {
		if len(row) != len(h.X) {
			return fmt.Errorf("blow: preform temperature: row %d has %d values for %d places through the wall", i+1, len(row), len(h.X))
		}
		for j, T := range row {
			if !(T >= 253 && T <= 573) {
				return fmt.Errorf("blow: preform temperature ‹%.1f °C› at ‹%.1f mm› from the ledge, place %.2f through the wall, outside ‹-20..300 °C›", T-273.15, h.S[i]*1e3, h.X[j])
			}
		}
	}
	return nil
}

// mean is the mean temperature of the table, or the uniform one [K].
func (h Heat) mean() float64 {
	if len(h.T) == 0 {
		return float64(h.Uniform)
	}
	var sum, n float64
	for _, row := range h.T {
		for _, T := range row {
			sum += T
			n++
		}
	}
	return sum / n
}

// at returns the temperature [K] at s [m] from the ledge and place x in 0..1.
func (h Heat) at(s, x float64) float64 {
	if len(h.T) == 0 {
		return float64(h.Uniform)
	}
	i, u := bracket(h.S, s)
	j, v := bracket(h.X, x)
	i1, j1 := min(i+1, len(h.S)-1), min(j+1, len(h.X)-1)
	a := h.T[i][j]*(1-v) + h.T[i][j1]*v
	b := h.T[i1][j]*(1-v) + h.T[i1][j1]*v
	return a*(1-u) + b*u
}

// bracket finds i and the share so that x lies between v[i] and v[i+1].
func bracket(v []float64, x float64) (int, float64) {
	n := len(v)
	if n == 1 || x <= v[0] {
		return 0, 0
	}
	if x >= v[n-1] {
		return n - 1, 0
	}
	i := 0
	for v[i+1] < x {
		i++
	}
	return i, (x - v[i]) / (v[i+1] - v[i])
}

// neckRoom returns the mould with room for the preform: where its outside
// stands up to holdOver through the wall within holdTop below the ledge, the
// mould is taken as wide as the preform there. How far that is comes back in
// words. Elsewhere, and beyond, the preform is refused.
func (c *Case) neckRoom(prof *profile) (*profile, []string, error) {
	worst, deep, err := c.Preform.through(prof)
	if err != nil || worst == 0 {
		return prof, nil, err
	}
	wide := *c.Mould
	wide.Z, wide.R = nil, nil
	l := c.Preform.line()
	old := line{Preform{Z: prof.z, R: prof.r, Wall: prof.r}, prof.arc}
	at := 0.0 // along the old profile
	for at < prof.arc[len(prof.arc)-1] {
		z, r, _ := old.at(at)
		if z > deep+1e-3 {
			break
		}
		if o := l.outerAt(z); o > r {
			r = o
		}
		wide.Z, wide.R = append(wide.Z, z), append(wide.R, r)
		at += 0.2e-3
	}
	for i := range prof.z {
		if prof.arc[i] > at {
			wide.Z, wide.R = append(wide.Z, prof.z[i]), append(wide.R, prof.r[i])
		}
	}
	prof, err = wide.profile()
	return prof, []string{fmt.Sprintf("the preform is up to ‹%.2f mm› wider than the mould within ‹%.1f mm› below the ledge; the mould is taken as wide as the preform there", worst*1e3, deep*1e3)}, err
}

// through returns how far the outside of the preform stands through the wall
// of the mould, and down to which depth. It refuses what no neck allows.
func (p Preform) through(prof *profile) (worst, deep float64, err error) {
	const pieces = 2000
	l := p.line()
	total := l.arc[len(l.arc)-1]
	for i := range pieces + 1 {
		z, r := l.outer(total * float64(i) / pieces)
		d, _, _, _ := prof.distance(z, max(r, 0))
		if d >= -1e-6 {
			continue
		}
		if z > holdTop || -d > holdOver {
			if wide, ok := prof.radiusAt(z); ok && r > wide {
				return 0, 0, fmt.Errorf("blow: preform is larger than the mould: ‹%.2f mm› below the ledge its outside has a radius of ‹%.3f mm›, the mould ‹%.3f mm›, ‹%.3f mm› less; at most ‹%.0f mm› are allowed, in the first ‹%.0f mm›: a slimmer preform, by its inner diameter or its wall, or a wider bottle there",
					z*1e3, r*1e3, wide*1e3, (r-wide)*1e3, holdOver*1e3, holdTop*1e3)
			}
			return 0, 0, fmt.Errorf("blow: preform is larger than the mould: ‹%.2f mm› below the ledge its outside stands ‹%.2f mm› through the base, which is at ‹%.2f mm›: a shorter preform", z*1e3, -d*1e3, prof.base*1e3)
		}
		worst, deep = max(worst, -d), max(deep, z)
	}
	return worst, deep, nil
}
