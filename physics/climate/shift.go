package climate

import (
	"math"

	"costrel/unit"
)

// Shifted returns the lane with every temperature moved by d [K]; humidity and
// cycles stay. The result is checked where it is used: a shift may lead out of
// the range.
func (l Lane) Shifted(d unit.TemperatureDiff) Lane {
	segments := append([]Segment(nil), l.Segments...)
	for i := range segments {
		s := &segments[i]
		if len(s.Steps) == 0 {
			s.Temperature += unit.Temperature(d)
			continue
		}
		s.Steps = append([]Step(nil), s.Steps...)
		for j := range s.Steps {
			s.Steps[j].Temperature += unit.Temperature(d)
		}
	}
	l.Segments = segments
	return l
}

// Calm returns the lane without its daily cycles, each segment moved to the
// mean kinetic temperature that its cycle gives for the activation energy e
// [J/mol], 1..300 kJ/mol; seasons stay. A year then takes a thirtieth of the
// steps. With 43 kJ/mol the loss of carbonation of a half-litre bottle over a
// year stays within 0.01 points of 33 for a swing of 3 K and within 0.1 points
// of 61 for 6 K (physics/permeation, TestCalmedDays). Humidity becomes its mean
// weighted with the vapour pressure of water of each hour, so that a pack dries
// as much. [State] still tells the warmest and coldest hour of the day.
func (l Lane) Calm(e float64) (Lane, error) {
	if err := checkEnergy(e); err != nil {
		return Lane{}, err
	}
	segments := append([]Segment(nil), l.Segments...)
	for i := range segments {
		s := &segments[i]
		if s.Daily == (Cycle{}) {
			continue
		}
		one := Segment{Name: s.Name, Duration: Day, Temperature: s.Temperature, Humidity: s.Humidity, Daily: s.Daily, Altitude: s.Altitude}
		c, err := Lane{Segments: []Segment{one}}.Course()
		if err != nil {
			return Lane{}, err
		}
		mean := s.Temperature
		if s.Temperature, err = c.MeanKinetic(e); err != nil {
			return Lane{}, err
		}
		s.Humidity = c.vapourHumidity()
		s.Calmed, s.Raised, s.Daily = s.Daily, unit.TemperatureDiff(s.Temperature-mean), Cycle{}
	}
	l.Segments = segments
	return l, nil
}

// vapourEnergy is the activation energy that the vapour pressure of water
// follows near room temperature, its heat of evaporation [J/mol]. From memory.
const vapourEnergy = 44e3

// vapourHumidity returns the humidity at which air that holds the mean vapour
// pressure stands against the mean saturation.
func (c Course) vapourHumidity() float64 {
	ref := float64(c.Mean())
	weight := func(s State) float64 {
		return math.Exp(-vapourEnergy / unit.GasConstant * (1/float64(s.Temperature) - 1/ref))
	}
	return c.mean(func(s State) float64 { return s.Humidity * weight(s) }) / c.mean(weight)
}
