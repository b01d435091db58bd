package climate

import (
	"fmt"
	"math"
	"sort"

	"costrel/unit"
)

// State is the surroundings of a pack at one time.
type State struct {
	Temperature unit.Temperature
	// Warm and Cool are the extremes of the day where [Lane.Calm] has taken out
	// its cycle; otherwise both are Temperature.
	Warm, Cool unit.Temperature
	Humidity   float64 // relative, 0..1
	Ambient    unit.AbsPressure
	Segment    int // index of the segment
}

// Course is a checked lane. Make it with [Lane.Course]; it is read-only and
// safe to share.
type Course struct {
	lane    Lane
	ambient []unit.AbsPressure // by segment
}

// Course checks the lane and returns it ready for evaluation.
func (l Lane) Course() (Course, error) {
	if err := l.Validate(); err != nil {
		return Course{}, err
	}
	c := Course{lane: Lane{Name: l.Name, Segments: append([]Segment(nil), l.Segments...)}}
	for i := range c.lane.Segments {
		s := &c.lane.Segments[i]
		s.Steps = append([]Step(nil), s.Steps...)
		p, err := Pressure(s.Altitude)
		if err != nil {
			return Course{}, err
		}
		c.ambient = append(c.ambient, p)
	}
	return c, nil
}

// Lane returns the lane of the course. Its segments are not to be changed.
func (c Course) Lane() Lane { return c.lane }

// Duration returns the length of the lane [s].
func (c Course) Duration() float64 {
	n := len(c.lane.Segments)
	if n == 0 {
		return 0
	}
	s := c.lane.Segments[n-1]
	return s.Start + s.Duration
}

// At returns the surroundings at t seconds from the start, 0..Duration. At the
// edge of two segments or steps the later one holds. Outside is an error.
func (c Course) At(t float64) (State, error) {
	if !(t >= 0 && t <= c.Duration()) || len(c.lane.Segments) == 0 {
		return State{}, fmt.Errorf("climate: lane %q: time %g d outside 0..%g d", c.lane.Name, t/Day, c.Duration()/Day)
	}
	segs := c.lane.Segments
	// The first segment that starts after t, less one.
	i := sort.Search(len(segs), func(i int) bool { return segs[i].Start > t }) - 1
	i = max(i, 0)
	return c.in(i, t-segs[i].Start), nil
}

// in returns the state of segment i at the time from its start.
func (c Course) in(i int, t float64) State {
	s := &c.lane.Segments[i]
	out := State{Temperature: s.Temperature, Humidity: s.Humidity, Ambient: c.ambient[i], Segment: i}
	if len(s.Steps) > 0 {
		j := sort.Search(len(s.Steps), func(j int) bool { return s.Steps[j].Start > t }) - 1
		p := s.Steps[max(j, 0)]
		out.Temperature, out.Humidity = p.Temperature, p.Humidity
		out.Warm, out.Cool = p.Temperature, p.Temperature
		return out
	}
	for _, c := range [...]struct {
		Cycle
		period float64
	}{{s.Daily, Day}, {s.Season, Year}} {
		if c.Temperature != 0 || c.Humidity != 0 {
			w := math.Cos(2 * math.Pi * (t - c.Peak) / c.period)
			out.Temperature += unit.Temperature(float64(c.Temperature) * w)
			out.Humidity -= c.Humidity * w
		}
	}
	out.Humidity = min(max(out.Humidity, 0), 1) // rounding only: Validate refuses more
	mean := out.Temperature - unit.Temperature(s.Raised)
	out.Warm, out.Cool = out.Temperature, out.Temperature
	if a := unit.Temperature(s.Calmed.Temperature); a > 0 {
		// The first warm hour is not met before it comes.
		w := unit.Temperature(math.Cos(2 * math.Pi * (min(t, s.Calmed.Peak) - s.Calmed.Peak) / Day))
		out.Warm, out.Cool = max(mean+a*w, out.Temperature), mean-a
	}
	return out
}

// Breaks returns the times at which the surroundings may jump, start and end
// of the lane included, rising [s]. A solver restarts its step there.
func (c Course) Breaks() []float64 {
	var out []float64
	for _, s := range c.lane.Segments {
		out = append(out, s.Start)
		for _, p := range s.Steps {
			if p.Start > 0 {
				out = append(out, s.Start+p.Start)
			}
		}
	}
	if len(out) > 0 {
		out = append(out, c.Duration())
	}
	return out
}
