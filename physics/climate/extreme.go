package climate

import (
	"math"

	"costrel/num/root"
	"costrel/unit"
)

// Extreme is a temperature and the first time it is met.
type Extreme struct {
	Temperature unit.Temperature
	Time        float64 // from the start of the lane [s]
}

// Warmest returns the highest temperature of the lane, calmed days included.
func (c Course) Warmest() Extreme { return c.extreme(1) }

// Coldest returns the lowest temperature of the lane, calmed days included.
func (c Course) Coldest() Extreme { return c.extreme(-1) }

// extreme finds the largest sign*T. A segment without a cycle is read off; in
// one with a cycle samples find the place, which keep step with the day, and
// a golden-section search around the best one finds the value to 1e-9 K.
func (c Course) extreme(sign float64) Extreme {
	best := Extreme{Temperature: unit.Temperature(math.Inf(-int(sign)))}
	take := func(i int, t float64) {
		s := &c.lane.Segments[i]
		st := c.in(i, t)
		T := st.Warm
		if sign < 0 {
			T = st.Cool
		}
		if sign*float64(T) > sign*float64(best.Temperature) {
			best = Extreme{Temperature: T, Time: s.Start + t}
		}
	}
	for i := range c.lane.Segments {
		s := &c.lane.Segments[i]
		if len(s.Steps) > 0 {
			for _, p := range s.Steps {
				take(i, p.Start)
			}
			continue
		}
		if s.Daily.Temperature == 0 && s.Season.Temperature == 0 {
			take(i, 0)
			take(i, min(s.Calmed.Peak, s.Duration))
			continue
		}
		h := sampling(s)
		n := int(math.Ceil(s.Duration / h))
		value := func(t float64) float64 { return sign * float64(c.in(i, t).Temperature) }
		at, top := 0.0, math.Inf(-1)
		for k := 0; k <= n; k++ {
			t := min(float64(k)*h, s.Duration)
			if v := value(t); v > top {
				at, top = t, v
			}
		}
		take(i, at)
		at, _ = root.Peak(value, max(0, at-h), min(s.Duration, at+h), 1e-3)
		take(i, at)
	}
	if len(c.lane.Segments) == 0 {
		return Extreme{}
	}
	return best
}

// sampling returns the step that resolves the cycles of a segment [s].
func sampling(s *Segment) float64 {
	h := Year / 200
	if s.Daily.Temperature != 0 {
		h = Day / 48
	}
	return min(h, s.Duration/8)
}
