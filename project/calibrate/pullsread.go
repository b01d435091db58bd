package calibrate

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"costrel/project/design"
	"costrel/quality/lab"
	"costrel/unit"
)

// Pull is the bottles opened at one time.
type Pull struct {
	Time   float64   // since filling [s]
	Values []float64 // carbonation [kg/m³, on the basis of the drink]
}

// FirstReading is when the reading called week 0 is taken after filling [s].
const FirstReading = design.FirstReading

// PullsOf turns the readings of a laboratory table into pulls, by the time in
// the named setting ("week"). Week 0 is the reading at [FirstReading]. Errors,
// all at once: a reading without a time, a censored reading ("<3.5"), a
// carbonation or a time beyond what a design accepts, fewer than two times, a row that stands twice.
func PullsOf(s lab.Series, setting string) ([]Pull, error) {
	at, err := gathered(s, setting)
	if err != nil {
		return nil, err
	}
	return sorted(at)
}

// PullFaults returns what [PullsOf] would refuse of the rows of a table, to be
// told beside the faults of a table that is not read to its end.
func PullFaults(s lab.Series, setting string) error {
	_, err := gathered(s, setting)
	return err
}

// gathered returns the readings by their time [s].
func gathered(s lab.Series, setting string) (map[float64][]float64, error) {
	faults := copies(s, setting)
	at := map[float64][]float64{}
	told := map[int]bool{} // rows
	for _, r := range s.Readings {
		if r.Row < 0 || r.Row >= len(s.Rows) {
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d belongs to no row", r.Line))
			continue
		}
		t, ok := s.Rows[r.Row].Settings[setting]
		if bad := !ok || !(t >= 0) || math.IsInf(t, 0); bad && told[r.Row] {
			continue
		} else if bad {
			told[r.Row] = true
		}
		switch {
		case !ok:
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d (%s ...): no time is given; write a column week, day or time", r.Line, r.Text))
		case !(t >= 0) || math.IsInf(t, 0):
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d: %.4g weeks is no time after filling; write 0 for the reading after 24 hours", r.Line, t/week))
		case r.Censor != lab.Exact:
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d, column %d: %q bounds the carbonation and does not give it; measure again or take the bottle out", r.Line, r.Col, r.Text))
		case t > lastPull:
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d: %.4g weeks is beyond the %.4g weeks that are accepted; check the unit of the time", r.Line, t/week, lastPull/week))
		case !(r.Value >= leastPull && r.Value <= mostPull):
			faults = append(faults, fmt.Errorf("calibrate: pulls: line %d, column %d: %q %s is no carbonation of a filled pack, want %.4g to %.4g vol; take the reading out, or write the unit in the heading, as b1_vol or b1_g/L", r.Line, r.Col, r.Text, r.Unit, leastPull/unit.VolumeCO2, mostPull/unit.VolumeCO2))
		default:
			if t == 0 {
				t = FirstReading
			}
			at[t] = append(at[t], r.Value)
		}
	}
	return at, errors.Join(faults...)
}

// What a pull may hold: as the pulls of a design.
const (
	leastPull = 0.1 * unit.VolumeCO2
	mostPull  = 8 * unit.VolumeCO2
	lastPull  = 10 * 365.25 * day
)

// steadyWithin is how far the temperatures of a table may lie apart for the
// packs to have been kept at their mean [K]: chosen for this project.
const steadyWithin = 2.0

// KeptAt returns the temperature at which a table says that its packs were kept;
// ok is false where it has no such column. Temperatures further apart than 2 K
// are an error: one fit is of one temperature.
func KeptAt(s lab.Series) (t unit.Temperature, ok bool, err error) {
	low, high, sum, n := math.Inf(1), math.Inf(-1), 0.0, 0
	for _, r := range s.Rows {
		if v, has := r.Settings["temperature"]; has {
			low, high, sum, n = math.Min(low, v), math.Max(high, v), sum+v, n+1
		}
	}
	switch {
	case n == 0:
		return 0, false, nil
	case high-low > steadyWithin:
		return 0, false, fmt.Errorf("calibrate: pulls: the packs were kept at %s to %s; a fit takes one temperature: give each its own table, or leave the column out where it does not say how they were kept",
			unit.Quote(unit.TemperaturePoint, low, 4), unit.Quote(unit.TemperaturePoint, high, 4))
	}
	return unit.Temperature(sum / float64(n)), true, nil
}

// copied is how many readings of a row must stand in another row of the same
// time for it to be a copy: fewer may well agree by chance.
const copied = 3

// copies names the rows that stand twice: each bottle counts once.
func copies(s lab.Series, setting string) []error {
	values := make([][]float64, len(s.Rows))
	for _, r := range s.Readings {
		if r.Row >= 0 && r.Row < len(s.Rows) {
			values[r.Row] = append(values[r.Row], r.Value)
		}
	}
	var faults []error
	for i, v := range values {
		if len(v) < copied {
			continue
		}
		for j := range i {
			if s.Rows[i].Settings[setting] == s.Rows[j].Settings[setting] && slices.Equal(v, values[j]) {
				faults = append(faults, fmt.Errorf("calibrate: pulls: line %d repeats line %d: the same %s and the same %d readings; take one of them out, for each bottle counts once", s.Rows[i].Line, s.Rows[j].Line, setting, len(v)))
				break
			}
		}
	}
	return faults
}

// PullsOfRows turns the pulls of a design into pulls. Time 0 is the reading at
// [FirstReading]. Errors as of [PullsOf].
func PullsOfRows(rows []design.PullRow) ([]Pull, error) {
	at := map[float64][]float64{}
	for _, r := range rows {
		at[r.SinceFilling()] = append(at[r.SinceFilling()], r.Carbonation)
	}
	return sorted(at)
}

func sorted(at map[float64][]float64) ([]Pull, error) {
	var out []Pull
	for t, v := range at {
		out = append(out, Pull{Time: t, Values: v})
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Time < out[j].Time })
	return out, checkPulls(out)
}

func checkPulls(pulls []Pull) error {
	var faults []error
	if len(pulls) < 2 {
		faults = append(faults, fmt.Errorf("calibrate: pulls: bottles of %d time(s), want 2 times or more", len(pulls)))
	}
	n := 0
	for i, p := range pulls {
		if !(p.Time >= 0) || p.Time > lastPull {
			faults = append(faults, fmt.Errorf("calibrate: pull %d: time %.4g d outside 0..%.4g d", i+1, p.Time/day, lastPull/day))
		}
		if i > 0 && !(p.Time > pulls[i-1].Time) {
			faults = append(faults, fmt.Errorf("calibrate: pull %d at %g d does not follow the one before at %g d", i+1, p.Time/day, pulls[i-1].Time/day))
		}
		if len(p.Values) == 0 {
			faults = append(faults, fmt.Errorf("calibrate: pull %d at %g d has no values", i+1, p.Time/day))
		}
		for _, v := range p.Values {
			if !(v >= leastPull && v <= mostPull) {
				faults = append(faults, fmt.Errorf("calibrate: pull %d at %g d: carbonation %.4g vol outside %.4g..%.4g vol: check the unit of the readings", i+1, p.Time/day, v/unit.VolumeCO2, leastPull/unit.VolumeCO2, mostPull/unit.VolumeCO2))
			}
			n++
		}
	}
	if n > 10000 {
		faults = append(faults, fmt.Errorf("calibrate: pulls: %d readings, more than 10000", n))
	}
	return errors.Join(faults...)
}
