package climate

import (
	"errors"
	"fmt"
	"math"

	"costrel/unit"
)

// Day and Year are the periods of the two cycles [s]; a year is 365.25 d.
const (
	Day  = 86400.0
	Year = 365.25 * Day
)

// The limits of a lane. A pack outside them is not a drink in a bottle.
const (
	LowT        unit.Temperature = 233.15 // -40 °C
	HighT       unit.Temperature = 353.15 // 80 °C
	LowH                         = -500.0 // altitude [m]
	HighH                        = 11000.0
	MaxDuration                  = 50 * Year // of a lane [s]
	MaxSegments                  = 10000     // segments and steps, each
)

// Cycle is a swing about the mean of a segment, a cosine.
type Cycle struct {
	Temperature unit.TemperatureDiff // half the range [K], not negative; 0 = no cycle
	// Humidity is half the range of the relative humidity. It runs against the
	// temperature: warm hours are dry.
	Humidity float64
	Peak     float64 // time of the first maximum of the temperature, from the start of the segment [s]
}

// Step is a state that holds from Start, counted from the start of its
// segment, to the next step or the end of the segment.
type Step struct {
	Start       float64          // [s]
	Temperature unit.Temperature // [K]
	Humidity    float64          // relative, 0..1
}

// Segment is one stretch of a lane. With Steps it follows them and
// Temperature, Humidity and cycles stay zero; otherwise
//
//	T(t)  = Temperature + Daily cos(2 pi (t - peak)/day) + Season cos(2 pi (t - peak)/year)
//	RH(t) = Humidity - the same with the humidity's half ranges
//
// t counts from the start of the segment.
type Segment struct {
	Name        string
	Start       float64 // from the start of the lane [s]
	Duration    float64 // [s], more than 0
	Temperature unit.Temperature
	Humidity    float64 // relative, 0..1
	Daily       Cycle
	Season      Cycle
	Steps       []Step
	Altitude    float64 // [m]
	// Calmed is a daily cycle that [Lane.Calm] has taken out, Raised by how much
	// it moved Temperature for it. The state follows Temperature; the warmest and
	// the coldest hour of the day are still told.
	Calmed Cycle
	Raised unit.TemperatureDiff
}

// Lane is the way of a pack from the filler to its last day.
type Lane struct {
	Name     string
	Segments []Segment
}

// Constant returns a lane of one constant segment: temperature, relative
// humidity 0..1, duration [s].
func Constant(name string, t unit.Temperature, humidity, duration float64) Lane {
	return Lane{Name: name, Segments: []Segment{{Name: name, Temperature: t, Humidity: humidity, Duration: duration}}}
}

// slack is the gap between two segments that still counts as none [s].
const slack = 1e-3

// Validate returns every fault of the lane: no segments, zero or negative
// durations, gaps and overlaps (longer than a millisecond), temperatures,
// humidities and altitudes out of range, also at the ends of a cycle, and
// steps that do not rise.
func (l Lane) Validate() error {
	var faults []error
	fault := func(format string, args ...any) {
		if len(faults) < 50 {
			faults = append(faults, fmt.Errorf("climate: "+format, args...))
		}
	}
	if len(l.Segments) == 0 {
		fault("lane %q has no segments", l.Name)
	}
	if len(l.Segments) > MaxSegments {
		fault("lane %q has %d segments, more than %d", l.Name, len(l.Segments), MaxSegments)
		return errors.Join(faults...)
	}
	end := 0.0
	for i, s := range l.Segments {
		where := fmt.Sprintf("segment %d (%s)", i+1, s.Name)
		switch {
		case !(s.Start >= 0) || s.Start > MaxDuration:
			fault("%s: start %g d outside 0..%g d", where, s.Start/Day, MaxDuration/Day)
		case s.Start > end+slack:
			fault("%s: a gap of %g h: starts at %g h, the one before ends at %g h", where, (s.Start-end)/3600, s.Start/3600, end/3600)
		case s.Start < end-slack:
			fault("%s: an overlap of %g h: starts at %g h, the one before ends at %g h", where, (end-s.Start)/3600, s.Start/3600, end/3600)
		}
		if !(s.Duration > 0) || s.Duration > MaxDuration {
			fault("%s: duration %g d outside 0..%g d", where, s.Duration/Day, MaxDuration/Day)
		} else {
			end = s.Start + s.Duration
		}
		if !(s.Altitude >= LowH) || s.Altitude > HighH {
			fault("%s: altitude ‹%g m› outside ‹%g..%g m›", where, s.Altitude, LowH, HighH)
		}
		if len(s.Steps) > 0 {
			s.validateSteps(where, fault)
		} else {
			s.validateCycles(where, fault)
		}
	}
	if end > MaxDuration {
		fault("lane %q lasts %g d, more than %g d", l.Name, end/Day, MaxDuration/Day)
	}
	return errors.Join(faults...)
}

func (s Segment) validateCycles(where string, fault func(string, ...any)) {
	swing, dry := 0.0, 0.0
	for _, c := range []struct {
		name string
		Cycle
	}{{"daily", s.Daily}, {"seasonal", s.Season}} {
		if !(c.Temperature >= 0) || c.Temperature > 60 {
			fault("%s: %s swing %g K outside 0..60 K", where, c.name, float64(c.Temperature))
		}
		if !(c.Humidity >= 0) || c.Humidity > 0.5 {
			fault("%s: %s swing of humidity %.6g %% outside 0..50 %%", where, c.name, 100*c.Humidity)
		}
		if !(math.Abs(c.Peak) <= MaxDuration) {
			fault("%s: %s peak at %g h is not a time", where, c.name, c.Peak/3600)
		}
		swing += float64(c.Temperature)
		dry += c.Humidity
	}
	low, high := s.Temperature-unit.Temperature(swing), s.Temperature+unit.Temperature(swing)
	if !(low >= LowT) || !(high <= HighT) {
		fault("%s: temperature ‹%.6g..%.6g °C› outside ‹%.6g..%.6g °C›", where, low.Celsius(), high.Celsius(), LowT.Celsius(), HighT.Celsius())
	}
	if !(s.Humidity-dry >= -1e-12) || !(s.Humidity+dry <= 1+1e-12) {
		fault("%s: relative humidity %.6g..%.6g %% outside 0..100 %%", where, 100*(s.Humidity-dry), 100*(s.Humidity+dry))
	}
}

func (s Segment) validateSteps(where string, fault func(string, ...any)) {
	if s.Temperature != 0 || s.Humidity != 0 || s.Daily != (Cycle{}) || s.Season != (Cycle{}) {
		fault("%s: has steps and a temperature, humidity or cycle of its own; give one of them", where)
	}
	if len(s.Steps) > MaxSegments {
		fault("%s: %d steps, more than %d", where, len(s.Steps), MaxSegments)
		return
	}
	if s.Steps[0].Start != 0 {
		fault("%s: the first step starts at %g h, want 0", where, s.Steps[0].Start/3600)
	}
	for i, p := range s.Steps {
		if i > 0 && !(p.Start > s.Steps[i-1].Start) {
			fault("%s: step %d at %g h does not follow the one before at %g h", where, i+1, p.Start/3600, s.Steps[i-1].Start/3600)
		}
		if !(p.Start < s.Duration) {
			fault("%s: step %d at %g h is not inside the %g h of the segment", where, i+1, p.Start/3600, s.Duration/3600)
		}
		if !(p.Temperature >= LowT) || !(p.Temperature <= HighT) {
			fault("%s: step %d: temperature ‹%.6g °C› outside ‹%.6g..%.6g °C›", where, i+1, p.Temperature.Celsius(), LowT.Celsius(), HighT.Celsius())
		}
		if !(p.Humidity >= 0) || !(p.Humidity <= 1) {
			fault("%s: step %d: relative humidity %.6g %% outside 0..100 %%", where, i+1, 100*p.Humidity)
		}
	}
}
