package permeation

import (
	"fmt"
	"math"

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
		l.fault = fault(t, fmt.Errorf("in an hour of %.4g °C: %w", at.Celsius(), err))
		return b.total - m.in.ambient
	}
	l.fills(t, &w)
	return w.total - m.in.ambient
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
			take(s.warm, s.t+s.h)
			take(s.cool, s.t+s.h)
		} else if p, err := l.At(until); err == nil { // the step that the end cuts
			g := float64(p.Gauge)
			take(g, until)
			take(g+s.warm-s.g1, until)
			take(g+s.cool-s.g1, until)
		}
	}
	return unit.GaugePressure(sign * best), when
}
