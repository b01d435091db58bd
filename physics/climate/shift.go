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
