package calibrate

import (
	"fmt"

	"costrel/quality/lab"
	"costrel/unit"
)

// possible is what a reading of a strength test can be, in SI, wide enough for
// every PET bottle (common practice); beyond it the unit or the figure is wrong.
var possible = map[string]struct {
	low, high float64
	kind      unit.Kind
	in        string // unit of the message
}{
	"burst.pressure":  {1e5, 30e5, unit.PressureGauge, "bar(g)"},
	"topload.empty":   {1, 5000, unit.Force, "N"},
	"growth.diameter": {0, 0.2, unit.Fraction, "%"},
	"growth.height":   {0, 0.1, unit.Length, "mm"},
	"fillpoint.drop":  {0, 0.1, unit.Length, "mm"},
	"burst.expansion": {0, 2, unit.Fraction, "%"},
}

// impossible returns the faults of the readings of a strength test.
func impossible(file string, s lab.Series) []error {
	p, bounded := possible[s.Key]
	var faults []error
	for _, r := range s.Readings {
		switch {
		case r.Censor != lab.Exact:
			faults = append(faults, fmt.Errorf("%s:%d:%d: %s: %q is censored; give the value itself or take the reading out", file, r.Line, r.Col, s.Name(), r.Text))
		case bounded && !(r.Value >= p.low && r.Value <= p.high):
			show := func(v float64) string { return unit.Format(p.kind, v, p.in, 5) }
			faults = append(faults, fmt.Errorf("%s:%d:%d: %s: %q is %s, outside %s to %s; check figure and unit, or take the reading out", file, r.Line, r.Col, s.Name(), r.Text, show(r.Value), show(p.low), show(p.high)))
		}
	}
	return faults
}
