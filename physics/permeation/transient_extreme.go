package permeation

import (
	"fmt"
	"math"

	"costrel/physics/climate"
	"costrel/unit"
)

// hour returns the gauge pressure of the pack in the warmest or coldest hour of
// a calmed day [Pa]: drink, gas and bottle come into balance in it, the wall
// does not.
func (l *Life) hour(t float64, at unit.Temperature, y []float64, b *balance) float64 {
	m := l.m
	if at == m.t || l.fault != nil {
		return b.total - m.in.ambient
	}
	_, w, err := l.settle(y, at, m.in.ambient, b.p)
	if err != nil {
		l.fault = fault(t, fmt.Errorf("in an hour of ‹%.4g °C›: %w", at.Celsius(), err))
		return b.total - m.in.ambient
	}
	l.fills(t, &w)
	return w.total - m.in.ambient
}

// turn looks at the warmest and the coldest time of a cycle that is followed,
// where the last step passes it: its ends stand beside them.
func (l *Life) turn() {
	m, s := l.m, &l.steps[len(l.steps)-1]
	st, err := m.course.At(s.t)
	if err != nil {
		return
	}
	seg := course(m).Segments[st.Segment]
	c, period := seg.Daily, climate.Day
	if c.Temperature == 0 {
		c, period = seg.Season, climate.Year
	}
	if c.Temperature == 0 || seg.Calmed.Temperature > 0 || l.fault != nil {
		return // of a calmed day the hours at the end of the step stand
	}
	for i, first := range [2]float64{seg.Start + c.Peak, seg.Start + c.Peak + period/2} {
		at := first + period*math.Ceil((s.t-first)/period)
		if at >= s.t+s.h {
			continue
		}
		now, err := m.course.At(at)
		if err != nil {
			continue
		}
		near := s.p1
		if at-s.t < s.h/2 {
			near = s.p0
		}
		var b balance
		_, y, err := l.state(at)
		if err == nil {
			_, b, err = l.settle(y, now.Temperature, float64(now.Ambient), near)
		}
		if err != nil {
			l.fault = fault(at, err)
			return
		}
		l.fills(at, &b)
		if g := b.total - float64(now.Ambient); i == 0 {
			s.warm, s.warmAt = g, at
		} else {
			s.cool, s.coolAt = g, at
		}
	}
}

// Highest returns the highest gauge pressure met up to the time [s], warm hours
// included, and when.
func (l *Life) Highest(until float64) (unit.GaugePressure, float64) { return l.extreme(until, 1) }

// Lowest returns the lowest gauge pressure met up to the time [s], cold hours
// included, and when: the deepest vacuum of a pack that takes one.
func (l *Life) Lowest(until float64) (unit.GaugePressure, float64) { return l.extreme(until, -1) }

// Panels returns the volume that the panels give inward at a gauge pressure of
// the pack [m³]; 0 above ambient.
func (l *Life) Panels(g unit.GaugePressure) float64 {
	given, _ := give(l.m.pack.Growth.Panel, -float64(g))
	return given
}

func (l *Life) extreme(until, sign float64) (unit.GaugePressure, float64) {
	best, when := math.Inf(-1), 0.0
	take := func(g, t float64) {
		if sign*g > best {
			best, when = sign*g, t
		}
	}
	for i := range l.steps {
		s := &l.steps[i]
		if s.t > until {
			break
		}
		take(s.g0, s.t)
		if s.t+s.h <= until {
			take(s.g1, s.t+s.h)
			take(s.warm, s.warmAt)
			take(s.cool, s.coolAt)
		} else if p, err := l.At(until); err == nil { // the step that the end cuts
			g := float64(p.Gauge)
			take(g, until)
			for _, x := range [2]struct{ p, at float64 }{{s.warm, s.warmAt}, {s.cool, s.coolAt}} {
				switch {
				case x.at <= until:
					take(x.p, x.at)
				case x.at == s.t+s.h: // of a calmed day
					take(g+x.p-s.g1, until)
				}
			}
		}
	}
	return unit.GaugePressure(sign * best), when
}
