package climate

import "costrel/unit"

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
// [J/mol], 1..300 kJ/mol; seasons stay. For bands and fits: a year takes a
// fiftieth of the steps. With 44 kJ/mol the loss of carbonation of a half-litre
// bottle over a year stays within 0.01 points for a swing of 3 K and 0.05 for 8
// K (checked against the whole cycle). Humidity keeps its mean; the pressure of
// the warm hours is lost.
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
		if s.Temperature, err = c.MeanKinetic(e); err != nil {
			return Lane{}, err
		}
		s.Daily = Cycle{}
	}
	l.Segments = segments
	return l, nil
}
