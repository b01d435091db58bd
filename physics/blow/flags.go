package blow

import (
	"fmt"

	"costrel/physics/resin"
)

// flags looks along the wall and names, for each kind, the worst place.
func (r *recorder) flags() {
	o := &r.out
	s := r.s
	type worst struct {
		at    int
		value float64
	}
	pick := func(over func(p *Place) float64) (w worst, n int) {
		w.at = -1
		for i := range o.Places {
			if v := over(&o.Places[i]); v > 0 {
				n++
				if w.at < 0 || v > w.value {
					w = worst{i, v}
				}
			}
		}
		return w, n
	}
	add := func(kind FlagKind, w worst, value, limit float64, text string) {
		p := o.Places[w.at]
		o.Flags = append(o.Flags, Flag{Kind: kind, Z: p.Z, R: p.R, Value: value, Limit: limit, Text: fmt.Sprintf("%s at depth ‹%.1f mm›, radius ‹%.1f mm›", text, p.Z*1e3, p.R*1e3)})
	}
	if s.prof != nil && !o.Filled {
		w, n := worst{at: 0}, 0
		for i := 1; i <= s.w.n; i++ {
			d := s.gap(i)
			if d > unfilledGap {
				n++
			}
			if d > w.value {
				w = worst{at: s.w.n - i, value: d}
			}
		}
		add(FlagNotFilled, w, w.value, unfilledGap, fmt.Sprintf("%d of %d places of the wall do not reach the mould; ‹%.2f mm› are left", n, s.w.n, w.value*1e3))
	}
	if i := s.fold(); i >= 0 {
		add(FlagFold, worst{at: s.w.n - 1 - i}, 0, 0, "the wall folds back on itself; the air of the high stage pushes the unblown end faster than it is drawn, and the shell has no stiffness against bending: a smaller orifice or a later high stage,")
	}
	if w, n := pick(func(p *Place) float64 { return slackLow - p.Slack }); n > 0 {
		add(FlagLocking, w, o.Places[w.at].Slack, slackLow, fmt.Sprintf("network close to its limit (slack %.3f below %.2f): pearlescence", o.Places[w.at].Slack, slackLow))
	}
	hot, cold := -1, -1
	for e := range s.w.n {
		T := s.startHeat(e)
		if T > hotWarn && (hot < 0 || T > s.startHeat(hot)) {
			hot = e
		}
		if T < coldWarn && (cold < 0 || T < s.startHeat(cold)) {
			cold = e
		}
	}
	if hot >= 0 {
		T := s.startHeat(hot)
		add(FlagHot, worst{at: s.w.n - 1 - hot}, T, hotWarn, fmt.Sprintf("preform at ‹%.1f °C› above ‹%.0f °C›, where the law is held: the true wall flows further than computed, which no band covers", T-273.15, hotWarn-273.15))
	}
	if cold >= 0 {
		T := s.startHeat(cold)
		add(FlagCold, worst{at: s.w.n - 1 - cold}, T, coldWarn, fmt.Sprintf("preform at ‹%.1f °C› below ‹%.0f °C›: cold drawing, the law is uncertain", T-273.15, coldWarn-273.15))
	}
	if w, n := pick(func(p *Place) float64 { return p.Haze - hazeRelative }); n > 0 {
		v := o.Places[w.at].Haze
		add(FlagHaze, w, v, hazeRelative, fmt.Sprintf("%.1f %% crystallised without stretch, above %.0f %%: haze", v*100, hazeRelative*100))
	}
	if w, n := pick(func(p *Place) float64 { return wallThin - p.Wall }); n > 0 {
		v := o.Places[w.at].Wall
		add(FlagThin, w, v, wallThin, fmt.Sprintf("wall ‹%.3f mm› below ‹%.2f mm›", v*1e3, wallThin*1e3))
	}
	if w, n := pick(func(p *Place) float64 { return p.Rate - rateHigh }); n > 0 {
		v, fast := o.Places[w.at].Rate, 0.0
		for _, p := range o.Places {
			if p.Rate > rateHigh {
				fast += p.Mass
			}
		}
		add(FlagRate, w, v, rateHigh, fmt.Sprintf("%.0f %% of the wall is stretched faster than %.0f 1/s, the mean from a tenth to nine tenths of its stretch; most with %.0f 1/s", 100*fast/o.Mass, rateHigh, v))
	}
	limit := float64(s.c.Recipe.EjectBelow)
	if s.prof != nil && !s.c.Numbers.Isothermal && limit > 0 {
		if w, n := pick(func(p *Place) float64 {
			if p.Z <= NeckDepth {
				return 0
			}
			return p.T - limit
		}); n > 0 {
			v := o.Places[w.at].T
			add(FlagEject, w, v, limit, fmt.Sprintf("leaves the mould at ‹%.1f °C›, above ‹%.0f °C›: it may sag or shrink", v-273.15, limit-273.15))
		}
	}
	if c := s.w.clamps &^ resin.ClampSlow; c != 0 {
		o.Flags = append(o.Flags, Flag{Kind: FlagWindow, Text: "outside the window of the hot law: " + c.String()})
	}
}

// fold returns the element at which the free wall turns back on itself, by
// more than a right angle, or -1.
func (s *solver) fold() int {
	w := s.w
	for i := 1; i < w.n; i++ {
		if w.touched[i] >= 0 && w.touched[i-1] >= 0 && w.touched[i+1] >= 0 {
			continue // a corner of the mould
		}
		if (w.z[i]-w.z[i-1])*(w.z[i+1]-w.z[i])+(w.r[i]-w.r[i-1])*(w.r[i+1]-w.r[i]) < 0 {
			return i
		}
	}
	return -1
}

// heldDepth is how far below the ledge the neck still holds the wall back, and
// NeckDepth how far it is hardly stretched and keeps the heat of the oven in any
// blow [m]. Chosen for this project.
const heldDepth, NeckDepth = 3e-3, 10e-3

// startHeat is the temperature of an element when the blow began [K], the
// middle of the wall.
func (s *solver) startHeat(e int) float64 {
	arc := 0.0
	for i := range e {
		arc += s.w.l0[i]
	}
	return s.c.Heat.at(arc+s.w.l0[e]/2, 0.5)
}
